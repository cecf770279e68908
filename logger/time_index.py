"""Which reading lies at a time, in a long recording that stays in its file.

A few readings are looked at first, evenly through the run; between them the times are taken to go on evenly.
Once all have been looked at (`complete`) every 64th is held, and the answer is right to within so many
readings, however unevenly they came. Exact numbers are to be asked of the column itself.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from logger.errors import RecordingError
from logger.progress import Progress
from logger.recording import fault_of_times
from logger.stored_column import StoredTimes

__all__ = ["TimeIndex"]

PROBES = 64
FINEST = 64
MOST_HELD = 1 << 21
"""Times held at most: 16 MB."""

PIECE = 1 << 16

Vector = NDArray[np.float64]


class TimeIndex:
    """Numbers of readings by time. Made at once; completed on any thread while others ask.

    Attributes
    ----------
    first_s, last_s : times of the first and of the last reading.
    is_complete : tells that all times have been looked at.

    Raises
    ------
    RecordingError : the file is damaged, or no longer there.
    """

    def __init__(self, times_s: StoredTimes) -> None:
        self._times_s = times_s
        self.is_complete = False
        numbers = np.linspace(0, max(times_s.size - 1, 0), PROBES + 1).astype(np.int64)
        numbers = numbers[np.diff(numbers, prepend=-1) > 0][: times_s.size]  # each once
        known_s = times_s.spots(numbers)
        if (fault := fault_of_times(known_s)) is not None:
            raise RecordingError(f"{times_s.path} is not a whole recording: {fault}")
        self._probes: tuple[Vector, Vector] = known_s, numbers.astype(np.float64)
        self._apart = FINEST
        while times_s.size // self._apart > MOST_HELD:
            self._apart *= 2
        self._held_s = np.empty(0)
        self.first_s, self.last_s = float(known_s[0]), float(known_s[-1])

    def near(self, at_s: Vector) -> Vector:
        """Return about how many readings lie before each time, never decreasing for times that do not."""
        size = float(self._times_s.size)
        if not self.is_complete:
            return np.interp(at_s, *self._probes, left=0.0, right=size)
        held_s = self._held_s
        place = np.clip(np.searchsorted(held_s, at_s), 1, held_s.size - 1)
        before_s, width_s = held_s[place - 1], held_s[place] - held_s[place - 1]
        share = np.clip((at_s - before_s) / np.where(width_s > 0.0, width_s, 1.0), 0.0, 1.0)
        found = np.minimum((place - 1 + share) * self._apart, size - 1.0)
        return np.where(at_s > self.last_s, size, found)

    def complete(self, progress: Progress) -> None:
        """Look at all times, in pieces. Raises RecordingError as the column does, Cancelled as `progress`."""
        size, apart = self._times_s.size, self._apart
        held_s = np.full(-(-size // apart) + 1, self.last_s)
        for begin in range(0, size, PIECE):
            progress.reach(begin / size)
            part = self._times_s[begin : begin + PIECE][::apart]
            held_s[begin // apart : begin // apart + part.size] = part
        self._held_s = held_s
        self.is_complete = True
