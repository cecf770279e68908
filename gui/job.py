"""Work done off the window's thread, asked after once a frame. No Qt."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Generic, TypeVar

__all__ = ["Job"]

Result = TypeVar("Result")


class Job(Generic[Result]):
    """Runs `work` on a thread of its own; `outcome` is there once `is_done`.

    The thread touches only this object. `on_done` is called by `poll`, on the thread that polls. `cancel`
    asks `work` to end early; it is given only for work that leaves nothing behind then.
    """

    def __init__(
        self,
        work: Callable[[], Result],
        on_done: Callable[[Result | None, Exception | None], None],
        name: str,
        cancel: Callable[[], None] | None = None,
    ) -> None:
        self._work, self._on_done, self._cancel = work, on_done, cancel
        self._result: Result | None = None
        self._error: Exception | None = None
        self._told = False
        self._thread = threading.Thread(target=self._run, name=name, daemon=True)
        self._thread.start()

    def poll(self) -> bool:
        """Tell the outcome if it is there and has not been told; return whether the job is over."""
        if not self.is_over:
            return False
        if not self._told:
            self._told = True
            self._on_done(self._result, self._error)
        return True

    @property
    def is_told(self) -> bool:
        """Whether the outcome has been told."""
        return self._told

    @property
    def is_over(self) -> bool:
        """Whether the work has ended, well or not."""
        return not self._thread.is_alive()

    @property
    def error(self) -> Exception | None:
        """What the work raised; None where it went well, and while it goes on."""
        return self._error

    @property
    def is_cancellable(self) -> bool:
        """Whether somebody may want to wait for it, and it can be stopped."""
        return self._cancel is not None

    def cancel(self) -> None:
        """Ask the work to end early, if it can."""
        if self._cancel is not None:
            self._cancel()

    def wait(self, limit_s: float) -> None:
        """Wait for the work to end."""
        self._thread.join(limit_s)

    def _run(self) -> None:
        try:
            self._result = self._work()
        except Exception as error:  # noqa: BLE001 - delivered to whoever polls
            self._error = error
