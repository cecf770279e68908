"""Readings of a run in progress, averaged into cells of time so that memory stays bounded."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["LiveCells"]

FLOATS = NDArray[np.float64]

PIECE = 1024
"""Cells moved at a time."""


class LiveCells:
    """Means of readings in cells of equal width; cells without readings do not exist.

    Parameters
    ----------
    step_s : width of a cell in run seconds.
    capacity : greatest number of cells kept.
    forget : what to do when there are more: True drops the oldest, False joins cells two by two, so that
        the whole run stays, in steps that double.

    Not locked: the owner's lock guards it.
    """

    def __init__(self, step_s: float, capacity: int, *, forget: bool) -> None:
        self.step_s = step_s
        self._capacity = capacity
        self._forget = forget
        # Filled, so that the memory is there at once: a run then grows no more with the hours.
        self._numbers = np.full(2 * capacity, 0, dtype=np.int64)
        self._sums = np.full((3, 2 * capacity), 0.0)  # of 1, of the times, of the values
        self._size = 0

    def __len__(self) -> int:
        return self._size

    def add(self, times_s: FLOATS, values: FLOATS) -> None:
        """Take readings, shapes (n,), finite, times never decreasing from call to call."""
        # A part at a time: joining cells changes their width, and with it the numbers of what follows.
        for begin in range(0, times_s.size, self._capacity):
            part = slice(begin, begin + self._capacity)
            self._add_part(times_s[part], values[part])

    def between(self, begin_s: float, end_s: float) -> tuple[FLOATS, FLOATS]:
        """Return mean times and mean values of the cells from `begin_s` to before `end_s`, oldest first."""
        counts, times, values = self._sums[:, : self._size]
        times = times / counts
        part = slice(*np.searchsorted(times, (begin_s, end_s), side="left").tolist())
        return times[part], (values / counts)[part]

    def last(self, length_s: float, not_before_s: float) -> tuple[FLOATS, FLOATS]:
        """Return the cells of the last `length_s` seconds, but none before `not_before_s`."""
        if not self._size:
            return np.empty(0), np.empty(0)
        tail = min(self._size, int(length_s / self.step_s) + 2)
        counts, times, values = self._sums[:, self._size - tail : self._size]
        times = times / counts
        first = int(np.searchsorted(times, max(times[-1] - length_s, not_before_s), side="left"))
        return times[first:], (values / counts)[first:]

    def _add_part(self, times_s: FLOATS, values: FLOATS) -> None:
        numbers = np.floor(times_s / self.step_s).astype(np.int64)
        starts = np.flatnonzero(np.diff(numbers, prepend=numbers[0] - 1))
        counts = np.diff(starts, append=numbers.size).astype(np.float64)
        sums = np.stack([counts, np.add.reduceat(times_s, starts), np.add.reduceat(values, starts)])
        found = numbers[starts]
        if self._size and found[0] == self._numbers[self._size - 1]:
            self._sums[:, self._size - 1] += sums[:, 0]
            found, sums = found[1:], sums[:, 1:]
        self._append(found, sums)

    def _append(self, numbers: NDArray[np.int64], sums: FLOATS) -> None:
        if self._forget and self._size + numbers.size > self._numbers.size:
            self._drop_oldest()
        end = self._size + numbers.size
        self._numbers[self._size : end] = numbers
        self._sums[:, self._size : end] = sums
        self._size = end
        while not self._forget and self._size > self._capacity:
            self._join_pairs()

    def _drop_oldest(self) -> None:
        keep = min(self._size, self._capacity)  # with a block of `capacity` more, the buffer is full
        for begin in range(self._size - keep, self._size, PIECE):  # a copy of all would stay in memory
            kept = slice(begin, min(begin + PIECE, self._size))
            place = slice(kept.start - self._size + keep, kept.stop - self._size + keep)
            self._numbers[place] = self._numbers[kept]
            self._sums[:, place] = self._sums[:, kept]
        self._size = keep

    def _join_pairs(self) -> None:
        self.step_s *= 2.0
        numbers = self._numbers[: self._size] // 2
        starts = np.flatnonzero(np.diff(numbers, prepend=numbers[0] - 1))
        joined = np.add.reduceat(self._sums[:, : self._size], starts, axis=1)
        self._size = starts.size
        self._numbers[: self._size] = numbers[starts]
        self._sums[:, : self._size] = joined
