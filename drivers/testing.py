"""Faithful stand-ins for clocks and instruments, for tests of this floor and of the ones above."""

from __future__ import annotations

__all__ = ["FakeClock"]


class FakeClock:
    """A run clock that stands still until somebody sleeps on it or moves it on.

    Parameters
    ----------
    speed : run seconds per (pretended) host second, as of `HostClock`.
    """

    def __init__(self, speed: float = 1.0) -> None:
        self.speed = speed
        self.slept_s: list[float] = []
        self._now_s = 0.0

    def now_s(self) -> float:
        """Return the run time in seconds."""
        return self._now_s

    def sleep_s(self, duration_s: float) -> None:
        """Move on by `duration_s` run seconds at once, and note it in `slept_s`."""
        if duration_s > 0:
            self.slept_s.append(duration_s)
            self._now_s += duration_s

    def advance_s(self, duration_s: float) -> None:
        """Move on by `duration_s` run seconds, as when the reader was busy with something else."""
        if duration_s < 0:
            raise ValueError(f"a run clock never goes back (asked for {duration_s} s)")
        self._now_s += duration_s
