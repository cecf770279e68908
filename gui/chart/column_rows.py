"""Columns of a high band, filled row by row where that is quicker than one by one. No Qt.

Filling a column costs by its height, because each of its pixels lies elsewhere in memory. The rows that all
columns have in common are one rectangle; those above and below are told pixel by pixel, some rows at a time.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

__all__ = ["Strip", "are_dense", "in_common", "strips"]

ROWS = 64
"""Rows told at a time: so few stay in the quick memory of the processor."""

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


def are_dense(bounds: Bounds) -> bool:
    """Tell whether these columns, in order, are quicker filled row by row."""
    if not len(bounds):
        return False
    around = (bounds[-1, 2] + 1 - bounds[0, 0]) * (bounds[:, 3].max() - bounds[:, 1].min())
    return bool((bounds[:, 3] - bounds[:, 1]).sum() > DENSE * around)


def in_common(bounds: Bounds) -> Bounds:
    """Return the rectangle of the rows that all of these columns fill, shape (1, 4), or none, (0, 4)."""
    top, bottom = bounds[:, 1].max(), bounds[:, 3].min()
    if bottom <= top or (bounds[1:, 0] > bounds[:-1, 2] + 1).any():
        return np.empty((0, 4), dtype=np.int64)
    return np.array([[bounds[0, 0], top, bounds[-1, 2], bottom]])


def strips(bounds: Bounds) -> Iterator[Strip]:
    """Tell what these columns, at least one, fill beside what is `in_common`.

    Columns grow, and none is wider than two pixels. A strip may be overwritten once the next is asked for.
    """
    column = int(bounds[0, 0])
    width = int(bounds[-1, 2]) + 1 - column
    if width == len(bounds):  # each is one pixel wide, and none is missing
        top, bottom = bounds[:, 1].astype(np.uint16), bounds[:, 3].astype(np.uint16)
    else:
        top, bottom = np.full(width, FARTHEST, dtype=np.uint16), np.zeros(width, dtype=np.uint16)
        for side in (bounds[:, 2] - column, bounds[:, 0] - column):
            top[side], bottom[side] = bounds[:, 1], bounds[:, 3]
    height = np.where(bottom > top, bottom - top, np.uint16(0))
    first, beyond = int(bounds[:, 1].min()), int(bounds[:, 3].max())
    last_top, first_bottom = int(bounds[:, 1].max()), int(bounds[:, 3].min())
    common = in_common(bounds)
    begin, end = (int(common[0, 1]), int(common[0, 3])) if len(common) else (beyond, beyond)
    numbers = np.arange(beyond, dtype=np.uint16)[:, None]
    room, depth = np.empty((ROWS, width), dtype=bool), np.empty((ROWS, width), dtype=np.uint16)
    for row, rows_beyond in (*_parted(first, begin), *_parted(end, beyond)):
        rows, count = numbers[row:rows_beyond], rows_beyond - row
        is_filled = room[:count]
        if rows_beyond <= first_bottom:  # no column ends here
            np.greater_equal(rows, top, out=is_filled)
        elif row >= last_top:  # none begins
            np.less(rows, bottom, out=is_filled)
        else:  # above its top a row is, without a sign, far below it
            np.less(np.subtract(rows, top, out=depth[:count]), height, out=is_filled)
        yield Strip(column, row, is_filled)


def _parted(begin: int, end: int) -> list[tuple[int, int]]:
    """Return [begin, end) in parts of `ROWS`."""
    return [(row, min(row + ROWS, end)) for row in range(begin, end, ROWS)]
