"""Putting irregular samples on equal steps without inventing any.

Every cell of the grid holds the mean of the samples that fell into it; a cell without samples is left
out and counted. Nothing is interpolated: an invented reading would look like one more independent
measurement, and the uncertainty would come out too small.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from logger.analysis.refusal import Refused

__all__ = ["Grid", "GridSums", "grid_of_pieces", "grid_to_fill", "uniform_grid"]

MOST_CELLS = 8192
"""Fine enough for every scale of noise that matters to a mean, coarse enough to search many windows."""

LONGEST_GAP_SHARE = 0.10
INTERVAL_SAMPLES = 200_000
GAP_IN_USUAL_INTERVALS = 10.0

Vector = NDArray[np.float64]
Pieces = Sequence[tuple[Vector, Vector]]
"""Times and values of the samples, cut into pieces; each is looked at twice, never all at once."""


@dataclass(frozen=True, slots=True)
class Grid:
    """Samples on equal steps.

    `times_s` and `values`, shape (m,), are the means of the times and of the values in each occupied
    cell; `step_s` is the width of a cell, `missing` the number of empty cells between the first and the
    last, `longest_gap_s` the longest interval between two samples.
    """

    step_s: float
    times_s: NDArray[np.float64]
    values: NDArray[np.float64]
    missing: int
    longest_gap_s: float

    def __len__(self) -> int:
        return int(self.times_s.size)

    def last(self, length_s: float) -> Grid:
        """Return the cells of the last `length_s` seconds."""
        begin_s = self.times_s[-1] - length_s + 0.5 * self.step_s
        first = min(int(np.searchsorted(self.times_s, begin_s)), len(self) - 1)
        times = self.times_s[first:]
        steps = np.diff(times)
        gap = float(steps.max()) if steps.size else 0.0
        cells = round((times[-1] - times[0]) / self.step_s) + 1
        return Grid(self.step_s, times, self.values[first:], max(0, cells - times.size), gap)

    @property
    def length_s(self) -> float:
        """Length of time that the cells cover."""
        return float(self.times_s[-1] - self.times_s[0]) + self.step_s

    @property
    def gap_refusal(self) -> str:
        """Say why the gaps forbid a plateau or a drift; empty when they do not."""
        if self.longest_gap_s - self.step_s > LONGEST_GAP_SHARE * self.length_s:
            return (
                f"no reading for {self.longest_gap_s:.0f} s of {self.length_s:.0f} s; "
                f"at most a tenth of the window may be missing at a time"
            )
        return ""


def uniform_grid(
    times_s: NDArray[np.float64], values: NDArray[np.float64], most_cells: int = MOST_CELLS
) -> Grid:
    """Average samples into equal cells that end with the last sample.

    Parameters
    ----------
    times_s : ndarray, shape (n,)
        Seconds, never decreasing, n >= 2.
    values : ndarray, shape (n,)
        Any unit, finite.
    most_cells : int
        The cells are made wider where there would be more.

    Returns
    -------
    Grid

    Raises
    ------
    Refused
        Fewer than two samples, or all at one time.

    Notes
    -----
    A cell is as wide as the usual interval, so that regular samples stay as they are, one to a cell; it
    is a whole multiple of it where more than one interval in a hundred is longer, so that nearly every
    cell is occupied. Averaging over a cell keeps what decides the uncertainty of a mean: the slow noise.
    """
    return grid_of_pieces([(times_s, values)], most_cells)


def grid_of_pieces(pieces: Pieces, most_cells: int = MOST_CELLS) -> Grid:
    """Average samples that come in pieces, oldest first, into equal cells; see `uniform_grid`.

    Raises
    ------
    Refused
        Fewer than two samples, or all at one time.
    """
    sums = grid_to_fill(pieces, most_cells)
    for times, values in pieces:
        sums.add(times, values)
    return sums.grid()


def grid_to_fill(pieces: Pieces, most_cells: int = MOST_CELLS) -> GridSums:
    """Choose the cells for samples that come in pieces; only the first and the last ones are looked at.

    Raises
    ------
    Refused
        As `grid_of_pieces`.
    """
    first_s = next((float(times[0]) for times, _ in pieces if times.size), np.inf)
    tail = _last_times_s(pieces)
    if tail.size < 2 or not tail[-1] > first_s:
        raise Refused("times of the readings", tail.size, "they hold fewer than two times", "record longer")
    intervals = np.diff(tail)
    intervals = intervals[intervals > 0.0]
    if intervals.size == 0:
        raise Refused("times of the readings", tail.size, "the last ones are all alike", "check the clock")
    last_s = float(tail[-1])
    usual = _usual_interval(intervals)
    longer = float(np.quantile(intervals[intervals <= GAP_IN_USUAL_INTERVALS * usual], 0.99, method="lower"))
    multiple = max(1, round(longer / usual))
    multiple = max(multiple, -int(-(last_s - first_s) // (usual * most_cells)))
    step = usual * multiple
    # A sample within half an interval of the edge belongs to the next cell: jitter moves none astray.
    begin_s = last_s + 0.5 * usual - step * np.ceil((last_s - first_s + 0.5 * usual) / step)
    cells = round((last_s + 0.5 * usual - begin_s) / step)
    return GridSums(begin_s + step * np.arange(cells + 1), step)


class GridSums:
    """Cells of a grid while samples are added to them, oldest first."""

    def __init__(self, edges_s: Vector, step_s: float) -> None:
        self._edges_s, self._step_s = edges_s, step_s
        self._sums = np.zeros((3, edges_s.size - 1))  # of 1, of the times, of the values
        self._longest_s, self._last_s = 0.0, np.nan

    def add(self, times: Vector, values: Vector, longest_step_s: float = np.inf) -> None:
        """Take the next samples, shapes (m,); m may be 0. No step is longer than `longest_step_s`."""
        if not times.size:
            return
        edges_s, sums = self._edges_s, self._sums
        if longest_step_s > self._longest_s:
            self._longest_s = max(self._longest_s, _longest_step_s(times, self._last_s))
        self._last_s = float(times[-1])
        first, last = np.clip(np.searchsorted(edges_s, times[[0, -1]], side="right") - 1, 0, edges_s.size - 2)
        bounds = np.searchsorted(times, edges_s[first + 1 : last + 1])
        counts = np.diff(bounds, prepend=0, append=times.size)
        occupied = np.flatnonzero(counts)
        starts = np.concatenate([[0], bounds])[occupied]
        sums[0, first + occupied] += counts[occupied]
        sums[1, first + occupied] += np.add.reduceat(times, starts)
        sums[2, first + occupied] += np.add.reduceat(values, starts)

    def grid(self) -> Grid:
        """Return the means of the cells that hold samples."""
        number, times_sum, values_sum = self._sums[:, self._sums[0] > 0.0]
        return Grid(
            step_s=self._step_s,
            times_s=times_sum / number,
            values=values_sum / number,
            missing=int(self._edges_s.size - 1 - number.size),
            longest_gap_s=self._longest_s,
        )


def _last_times_s(pieces: Pieces) -> Vector:
    """Return the times of the last samples, as many as are looked at for the usual interval."""
    return np.concatenate([np.empty(0), *reversed(list(_backwards(pieces)))])[-INTERVAL_SAMPLES:]


def _backwards(pieces: Pieces) -> Iterator[Vector]:
    left = INTERVAL_SAMPLES
    for k in reversed(range(len(pieces))):
        if left <= 0:
            return
        times, _ = pieces[k]
        yield times[-left:]
        left -= times.size


def _usual_interval(intervals: NDArray[np.float64]) -> float:
    """Return the interval that the sampling keeps: exact for regular samples, the mean for jittered ones.

    The median ignores lost samples but is not the mean of an uneven distribution, and a grid with the
    wrong step would slip against the samples.
    """
    low, median, high = np.quantile(intervals, (0.1, 0.5, 0.9)).tolist()
    if high - low < 0.2 * median:
        return float(intervals[np.abs(intervals - median) < 0.5 * median].mean())
    return float(intervals[intervals <= 5.0 * median].mean())


def _longest_step_s(times_s: Vector, before_s: float) -> float:
    """Return the longest interval of a piece, that from the sample before it included."""
    longest_s = 0.0 if np.isnan(before_s) else float(times_s[0]) - before_s
    for begin in range(0, times_s.size - 1, INTERVAL_SAMPLES):
        longest_s = max(longest_s, float(np.diff(times_s[begin : begin + INTERVAL_SAMPLES + 1]).max()))
    return longest_s
