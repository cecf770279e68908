"""The clock of a run: monotonic seconds since the run's start, and how to wait on it."""

from __future__ import annotations

import sys
import time
from typing import Protocol

__all__ = ["HostClock", "RunClock", "steady_s"]


def steady_s() -> float:
    """Return seconds on a clock that never goes back and goes on while the computer sleeps.

    A sleep is then a stretch of run time without samples, as it should be. Python's own monotonic clock
    stands still in a sleep on Linux (CLOCK_MONOTONIC) and macOS (mach_absolute_time).
    """
    if sys.platform == "linux":
        now_s = time.clock_gettime(time.CLOCK_BOOTTIME)
    elif sys.platform == "darwin":
        now_s = time.clock_gettime(time.CLOCK_MONOTONIC)
    else:
        now_s = time.monotonic()
    return now_s


class RunClock(Protocol):
    """Seconds since the run's start. Never goes back but for one `restart`. Faked in tests."""

    speed: float

    def restart(self) -> None:
        """Make this moment zero. Called once, before any source is opened."""

    def now_s(self) -> float:
        """Return the run time in seconds."""

    def sleep_s(self, duration_s: float) -> None:
        """Wait until the run time has advanced by `duration_s` seconds (0 or less returns at once)."""


class HostClock:
    """The computer's steady clock, counted from the moment this object was made or restarted.

    Parameters
    ----------
    speed : run seconds per second of the computer. 1 for every real instrument; more only for
        simulated and replayed sources.
    """

    def __init__(self, speed: float = 1.0) -> None:
        self.speed = speed
        self._start_s = steady_s()

    def restart(self) -> None:
        """Make this moment zero."""
        self._start_s = steady_s()

    def now_s(self) -> float:
        """Return run seconds since the clock was made."""
        return (steady_s() - self._start_s) * self.speed

    def sleep_s(self, duration_s: float) -> None:
        """Sleep for `duration_s` run seconds."""
        if duration_s > 0:
            time.sleep(duration_s / self.speed)
