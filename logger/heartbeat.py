"""By which one thread knows that the whole program stood still: another one, that never waits long, did too.

A process is stopped, swapped out, or its computer hangs. From inside a single read that looks like an
instrument that says nothing; only that every other thread paused as well tells it apart.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable

__all__ = ["STOOD_STILL_S", "Heartbeat"]

STOOD_STILL_S = 10.0
"""A shorter pause is a busy computer."""


class Heartbeat:
    """Beaten by one thread several times a second, looked at by others.

    Parameters
    ----------
    clock_s : returns seconds of a steady clock. Faked in tests.
    """

    def __init__(self, clock_s: Callable[[], float] = time.monotonic) -> None:
        self._clock_s = clock_s
        self._last_s = clock_s()
        self._pause_s = -math.inf, -math.inf

    def beat(self) -> None:
        """Say that this thread goes on."""
        now_s = self._clock_s()
        if now_s - self._last_s >= STOOD_STILL_S:
            self._pause_s = self._last_s, now_s
        self._last_s = now_s

    def longest_pause_s(self, since_s: float) -> float:
        """Return the longest time without a beat that reaches into the time since `since_s`."""
        begin_s, end_s = self._pause_s
        present_s = self._clock_s() - self._last_s
        return max(present_s, end_s - begin_s) if end_s >= since_s else present_s
