"""Which reading lies at a time, in a long recording that stays in its file.

A few readings are looked at first, evenly through the run; between them the times are taken to go on evenly.
Once all have been looked at (`complete`) every 64th is held, and the answer is right to within so many
readings, however unevenly they came. Exact numbers are to be asked of the column itself.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from logger.errors import RecordingError
from logger.recording import fault_of_times
from logger.stored_column import StoredTimes

__all__ = ["TimeIndex"]

PROBES = 128
FINEST = 64
MOST_HELD = 1 << 21
"""Times held at most: 16 MB."""

PIECE = 1 << 16

Vector = NDArray[np.float64]


class TimeIndex:
    """Numbers of readings by time. Made at once; completed on any thread while others ask.

    Raises
    ------
    RecordingError : the file is damaged, or no longer there.
    """

    def __init__(self, times_s: StoredTimes) -> None:
        self._times_s = times_s
        self.is_complete = False
        numbers = np.unique(np.linspace(0, max(times_s.size - 1, 0), PROBES + 1).astype(np.int64))
        numbers = numbers[: times_s.size]
        known_s = times_s.spots(numbers)
        if (fault := fault_of_times(known_s)) is not None:
            raise RecordingError(f"{times_s.path} is not a whole recording: {fault}")
        self._known: tuple[Vector, Vector] = known_s, numbers.astype(np.float64)

    @property
    def first_s(self) -> float:
        """Time of the first reading."""
        return float(self._known[0][0])

    @property
    def last_s(self) -> float:
        """Time of the last reading."""
        return float(self._known[0][-1])

    def near(self, at_s: Vector) -> Vector:
        """Return about how many readings lie before each time, never decreasing for times that do not."""
        known_s, numbers = self._known
        return np.interp(at_s, known_s, numbers, left=0.0, right=float(self._times_s.size))

    def complete(self, is_wanted: Callable[[], bool] = lambda: True) -> None:
        """Look at all times, in pieces, while it `is_wanted`. Raises RecordingError as the column does."""
        size = self._times_s.size
        apart = FINEST
        while size // apart > MOST_HELD:
            apart *= 2
        held = []
        for begin in range(0, size, PIECE):
            if not is_wanted():
                return
            held.append(self._times_s[begin : begin + PIECE][::apart].copy())
        known_s, numbers = np.concatenate(held), np.arange(0, size, apart, dtype=np.float64)
        if numbers[-1] != size - 1:
            known_s, numbers = np.append(known_s, self.last_s), np.append(numbers, size - 1.0)
        self._known = known_s, numbers
        self.is_complete = True
