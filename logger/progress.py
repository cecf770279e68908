"""How far a long piece of work has come, and a way to stop it."""

from __future__ import annotations

import threading
from collections.abc import Callable

__all__ = ["Cancelled", "Progress"]


class Cancelled(Exception):
    """The work was stopped because somebody asked for it; nothing half-made is left.

    It is no error: whoever takes errors for an answer must not take this for one.
    """


class Progress:
    """Passed down to whoever works: it tells how far it is, and is told here when to stop.

    `on_share` is called with the done share, from 0 to 1, on the thread that works. `cancel` may be called on
    any thread; the work then ends at its next step with `Cancelled`.
    """

    def __init__(self, on_share: Callable[[float], None] | None = None) -> None:
        self._on_share = on_share
        self._is_cancelled = threading.Event()
        self._begin, self._end = 0.0, 1.0

    def cancel(self) -> None:
        """Ask the work to stop."""
        self._is_cancelled.set()

    def reach(self, share: float) -> None:
        """Note that `share` of the work (of this part of it) is done.

        Raises
        ------
        Cancelled : somebody asked to stop.
        """
        if self._is_cancelled.is_set():
            raise Cancelled("cancelled; nothing was written")
        if self._on_share is not None:
            self._on_share(self._begin + (self._end - self._begin) * min(max(share, 0.0), 1.0))

    def part(self, begin: float, end: float) -> Progress:
        """Return the progress of a part of this work, which goes from share `begin` to share `end`."""
        made = Progress(self._on_share)
        made._is_cancelled = self._is_cancelled
        width = self._end - self._begin
        made._begin, made._end = self._begin + width * begin, self._begin + width * end
        return made
