"""When a danger is heard: at once, again while it lasts, until somebody says that they know. No Qt."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable

__all__ = ["AGAIN_AFTER_S", "AlarmBell"]

AGAIN_AFTER_S = 6.0


class AlarmBell:
    """Rings for dangers, known by their keys.

    Parameters
    ----------
    ring : makes it heard.
    clock_s : a clock in seconds.
    """

    def __init__(self, ring: Callable[[], None], clock_s: Callable[[], float] = time.monotonic) -> None:
        self._ring, self._clock_s = ring, clock_s
        self._known: frozenset[str] = frozenset()
        self._silenced: frozenset[str] = frozenset()
        self._rang_s = -AGAIN_AFTER_S

    @property
    def is_ringing(self) -> bool:
        """Tell whether a danger is there that nobody has silenced."""
        return bool(self._known - self._silenced)

    def follow(self, dangers: Iterable[str]) -> None:
        """Take the dangers of the moment; rings for a new one at once, for one that lasts now and then."""
        present = frozenset(dangers)
        is_new = bool(present - self._known)
        self._known = present
        self._silenced &= present  # a danger that comes back rings again
        if is_new or (self.is_ringing and self._clock_s() - self._rang_s >= AGAIN_AFTER_S):
            self._rang_s = self._clock_s()
            self._ring()

    def silence(self) -> None:
        """Be quiet about the dangers that are there; a new one rings."""
        self._silenced = self._known
