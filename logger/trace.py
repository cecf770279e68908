"""The drawn form of a curve: joined columns where samples are dense, lines where they are few.

A column shows everything between its smallest and largest sample and touches its neighbour, unless a
gap lies between them. Nothing is drawn across a gap or an overload.
"""

from __future__ import annotations

import itertools
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from logger.overview import Columns, Overview, gap_between

__all__ = ["Trace", "changed_columns", "touching", "trace", "within"]

Vector = NDArray[np.float64]

SAMPLES_PER_COLUMN = 2
"""Below so many samples for each column (on average) the samples themselves are drawn."""


class Trace(NamedTuple):
    """A curve ready to be drawn, in seconds and volts.

    `number`: filled columns, counted from the left; empty where samples are few.
    `lines`: unbroken stretches of (times, voltages), to be drawn as thin lines; a stretch may be a
    single sample, to be drawn as a dot.
    `columns`: smallest and largest voltage of each column, as measured.
    """

    number: NDArray[np.int64]
    lines: tuple[tuple[Vector, Vector], ...]
    columns: Columns

    def touching_V(self) -> tuple[Vector, Vector]:
        """Return lower and upper end of the filled columns, stretched so that neighbours touch."""
        number, columns = self.number, self.columns
        return touching(columns.low[number], columns.high[number], np.diff(number) == 1)


def trace(overview: Overview, left_s: float, column_s: float, count: int) -> Trace:
    """Return what to draw in `count` columns of `column_s` seconds, the first beginning at `left_s`.

    Keep `left_s` a multiple of `column_s` while following, or the picture shimmers.
    """
    edges_s: Vector = left_s + np.arange(count + 1, dtype=np.float64) * column_s
    columns = overview.columns(edges_s)
    gaps_s = overview.gaps_s
    if overview.count_between(edges_s[0], edges_s[-1]) <= SAMPLES_PER_COLUMN * count:
        found = overview.samples_between(edges_s[0], edges_s[-1])
        if found is not None:
            return Trace(np.empty(0, np.int64), _unbroken(*found, gaps_s), columns)
    without_lines = Trace(np.flatnonzero(columns.has_data), (), columns)
    return without_lines._replace(lines=_bridges(without_lines, edges_s + column_s / 2, gaps_s))


def within(trace: Trace, first: int, beyond: int) -> Trace:
    """Return a trace of filled columns without those before column `first` and from column `beyond` on."""
    return trace._replace(number=trace.number[slice(*np.searchsorted(trace.number, (first, beyond)))])


def changed_columns(former: Columns, present: Columns) -> NDArray[np.int64]:
    """Return the numbers of the columns, as many in both, that show something else than before."""
    same = [(a == b) | (np.isnan(a) & np.isnan(b)) for a, b in zip(former[:2], present[:2], strict=True)]
    return np.flatnonzero(~(same[0] & same[1]))


def _unbroken(times_s: Vector, values: Vector, gaps_s: Vector) -> tuple[tuple[Vector, Vector], ...]:
    """Part samples into stretches without gap or overload."""
    over = ~np.isfinite(values)
    cut = gap_between(gaps_s, times_s) | over[1:] | over[:-1]
    bounds = [0, *(np.flatnonzero(cut) + 1), values.size]
    return tuple(
        (times_s[a:b], values[a:b].astype(float))
        for a, b in itertools.pairwise(bounds)
        if b > a and not over[a]
    )


def touching(low: Vector, high: Vector, joined: NDArray[np.bool_]) -> tuple[Vector, Vector]:
    """Return columns stretched so that neighbours meet half-way, as a line through them would.

    Parameters
    ----------
    low, high : shape (m,); ends of each column.
    joined : shape (m - 1,); which pairs of neighbours are to meet.
    """
    low, high = low.copy(), high.copy()
    middle_up = (high[:-1] + low[1:]) / 2
    middle_down = (low[:-1] + high[1:]) / 2
    rising = joined & (low[1:] > high[:-1])
    falling = joined & (high[1:] < low[:-1])
    high[:-1][rising] = middle_up[rising]
    low[1:][rising] = middle_up[rising]
    low[:-1][falling] = np.minimum(low[:-1], middle_down)[falling]
    high[1:][falling] = np.maximum(high[1:], middle_down)[falling]
    return low, high


def _bridges(trace: Trace, centres_s: Vector, gaps_s: Vector) -> tuple[tuple[Vector, Vector], ...]:
    """Lines from a column to the next filled one, over columns without a sample that are no gap."""
    number = trace.number
    if not number.size or number[-1] - number[0] == number.size - 1:  # they all lie side by side
        return ()
    apart = np.diff(number) > 1
    low_V, high_V = trace.touching_V()
    middle_V, middle_s = (low_V + high_V) / 2, centres_s[number]
    places = np.flatnonzero(apart & ~gap_between(gaps_s, middle_s))
    return tuple((middle_s[i : i + 2], middle_V[i : i + 2]) for i in places)
