"""Columns of a high band, filled row by row where that is quicker than one by one. No Qt.

Filling a column costs by its height, because each of its pixels lies elsewhere in memory. The rows that all
columns have in common are one rectangle, and what few of them reach is filled column by column; the rows in
between are told pixel by pixel, some at a time.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

__all__ = ["Band", "Strip"]

ROWS = 64
"""Rows told at a time: so few stay in the quick memory of the processor."""

FEW = 0.03
"""Share of the columns that may reach further up, or down, than is told row by row: there rows are all but
empty. In noise few columns reach far."""

DENSE = 0.125
"""Share of the pixels around the columns that they fill, from which on rows are quicker."""

FARTHEST = np.iinfo(np.uint16).max

Bounds = NDArray[np.int64]
"""Shape (n, 4): first column, top, last column (inclusive) and bottom (exclusive) of each, in pixels."""


class Strip(NamedTuple):
    """Rows side by side: the first column and row, and which pixels are filled, shape (rows, columns)."""

    column: int
    row: int
    is_filled: NDArray[np.bool_]


class Band:
    """Columns in order, none wider than two pixels, and how far they reach up and down.

    Parameters
    ----------
    bounds : of at least one column.
    """

    def __init__(self, bounds: Bounds) -> None:
        self._bounds = bounds
        self._first, self._top, self._last, self._bottom = bounds.T
        # Rows are counted without a sign; above the window lie those of a chart that was scrolled out of it.
        self._above = min(int(self._top.min()), 0)
        if self._above:
            self._top, self._bottom = self._top - self._above, self._bottom - self._above
        few = int(FEW * self._top.size)
        # Row by row from here to there; above and below stand columns far apart from one another.
        self._begin = int(np.partition(self._top, few)[few])
        self._beyond = -int(np.partition(-self._bottom, few)[few])

    @property
    def is_dense(self) -> bool:
        """Tell whether the columns are quicker filled row by row."""
        around = (self._last[-1] + 1 - self._first[0]) * (self._beyond - self._begin)
        return bool((self._bottom - self._top).sum() > DENSE * around)

    def rectangles(self) -> Bounds:
        """Return what is not told row by row: the rows in common, and what few of the columns reach."""
        above = self._bounds[self._top < self._begin]
        below = self._bounds[self._bottom > self._beyond]
        above[:, 3] = np.minimum(above[:, 3], self._begin + self._above)
        below[:, 1] = np.maximum(below[:, 1], self._beyond + self._above)
        in_common = self._in_common + np.array([0, self._above, 0, self._above])
        return np.concatenate([in_common, above, below])

    @cached_property
    def _in_common(self) -> Bounds:
        """The rectangle of the rows that all of the columns fill, shape (1, 4), or none, (0, 4)."""
        top, bottom = self._top.max(), self._bottom.min()
        if bottom <= top or (self._first[1:] > self._last[:-1] + 1).any():
            return np.empty((0, 4), dtype=np.int64)
        return np.array([[self._first[0], top, self._last[-1], bottom]])

    def strips(self) -> Iterator[Strip]:
        """Tell row by row what the columns fill beside the `rectangles`.

        A strip may be overwritten once the next is asked for.
        """
        top, bottom = self._ends()
        height = np.where(bottom > top, bottom - top, np.uint16(0))
        last_top, first_bottom = int(self._top.max()), int(self._bottom.min())
        width, beyond, common = top.size, self._beyond, self._in_common
        to, on_from = (int(common[0, 1]), int(common[0, 3])) if len(common) else (beyond, beyond)
        numbers = np.arange(beyond, dtype=np.uint16)[:, None]
        room, depth = np.empty((ROWS, width), dtype=bool), np.empty((ROWS, width), dtype=np.uint16)
        for row, rows_beyond in (*_parted(self._begin, to), *_parted(on_from, beyond)):
            rows, count = numbers[row:rows_beyond], rows_beyond - row
            is_filled = room[:count]
            if rows_beyond <= first_bottom:  # no column ends here
                np.greater_equal(rows, top, out=is_filled)
            elif row >= last_top:  # none begins
                np.less(rows, bottom, out=is_filled)
            else:  # above its top a row is, without a sign, far below it
                np.less(np.subtract(rows, top, out=depth[:count]), height, out=is_filled)
            yield Strip(int(self._first[0]), row + self._above, is_filled)

    def _ends(self) -> tuple[NDArray[np.uint16], NDArray[np.uint16]]:
        """Return top and bottom for each pixel from the first column to the last; nothing is filled at 0."""
        column = self._first[0]
        width = int(self._last[-1]) + 1 - int(column)
        if width == self._first.size:  # each is one pixel wide, and none is missing
            return self._top.astype(np.uint16), self._bottom.astype(np.uint16)
        top, bottom = np.full(width, FARTHEST, dtype=np.uint16), np.zeros(width, dtype=np.uint16)
        for side in (self._last - column, self._first - column):
            top[side], bottom[side] = self._top, self._bottom
        return top, bottom


def _parted(begin: int, end: int) -> list[tuple[int, int]]:
    """Return [begin, end) in parts of `ROWS`."""
    return [(row, min(row + ROWS, end)) for row in range(begin, end, ROWS)]
