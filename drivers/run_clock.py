"""The clock of a run: monotonic seconds since the run's start, and how to wait on it."""

from __future__ import annotations

import time
from typing import Protocol

__all__ = ["HostClock", "RunClock"]


class RunClock(Protocol):
    """Seconds since the run's start. Never goes back but for one `restart`. Faked in tests."""

    speed: float

    def restart(self) -> None:
        """Make this moment zero. Called once, when all sources are open and before any is read."""

    def now_s(self) -> float:
        """Return the run time in seconds."""

    def sleep_s(self, duration_s: float) -> None:
        """Wait until the run time has advanced by `duration_s` seconds (0 or less returns at once)."""


class HostClock:
    """The computer's monotonic clock, counted from the moment this object was made.

    Parameters
    ----------
    speed : run seconds per second of the computer. 1 for every real instrument; more only for
        simulated and replayed sources.
    """

    def __init__(self, speed: float = 1.0) -> None:
        self.speed = speed
        self._start_s = time.monotonic()

    def restart(self) -> None:
        """Make this moment zero."""
        self._start_s = time.monotonic()

    def now_s(self) -> float:
        """Return run seconds since the clock was made."""
        return (time.monotonic() - self._start_s) * self.speed

    def sleep_s(self, duration_s: float) -> None:
        """Sleep for `duration_s` run seconds."""
        if duration_s > 0:
            time.sleep(duration_s / self.speed)
