"""Columns side by side, put together where they all are filled. No Qt.

Painting a column costs by its height, row by row. What neighbours have in common is painted as one
rectangle, in the time of one column. Of low columns that saves less than it takes to find.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["in_blocks"]

HALVINGS = (2, 2)
"""Blocks are of 4 columns, and of four of those."""

WORTH = 8
"""Least height in pixels of what a block has in common."""

HIGH_ENOUGH = 120
"""Mean height in pixels of the columns from which on they are put together."""

Bounds = NDArray[np.int64]


def in_blocks(number: NDArray[np.int64], top: NDArray[np.int64], bottom: NDArray[np.int64]) -> Bounds:
    """Return rectangles that fill the same as the columns, no pixel twice.

    Parameters
    ----------
    number : int64, shape (n,), growing; which column each is.
    top, bottom : int64, shape (n,); first pixel of each, and the first one below it.

    Returns
    -------
    int64, shape (m, 4) : first column, top, last column (inclusive), bottom (exclusive).
    """
    if not number.size:
        return np.empty((0, 4), dtype=np.int64)
    if (bottom - top).mean() < HIGH_ENOUGH:
        return np.stack([number, top, number, bottom], axis=1)
    largest = 2 ** sum(HALVINGS)
    start = int(number[0])
    count = -(-(int(number[-1]) + 1 - start) // largest) * largest
    high, low = np.zeros(count, dtype=np.int64), np.zeros(count, dtype=np.int64)
    high[number - start], low[number - start] = top, bottom
    pieces: list[Bounds] = []
    width = 1
    for halvings in HALVINGS:
        high, low = _gather(high, low, halvings, start, width, pieces)
        width <<= halvings
    pieces.append(_bounds(np.arange(high.size), high, low, start, width))
    return np.concatenate(pieces)


def _gather(
    high: Bounds, low: Bounds, halvings: int, start: int, width: int, pieces: list[Bounds]
) -> tuple[Bounds, Bounds]:
    """Put what blocks do not have in common into `pieces`; return what they have (0, 0 where nothing)."""
    common_high, common_low = high, low
    for _ in range(halvings):
        common_high = np.maximum(common_high[0::2], common_high[1::2])
        common_low = np.minimum(common_low[0::2], common_low[1::2])
    is_block = common_low - common_high >= WORTH
    common_high, common_low = np.where(is_block, common_high, 0), np.where(is_block, common_low, 0)
    inner_high, inner_low = common_high.repeat(1 << halvings), common_low.repeat(1 << halvings)
    in_block = is_block.repeat(1 << halvings)
    at = np.arange(high.size)
    pieces.append(_bounds(at, high, np.where(in_block, inner_high, low), start, width))
    pieces.append(_bounds(at[in_block], inner_low[in_block], low[in_block], start, width))
    return common_high, common_low


def _bounds(at: Bounds, high: Bounds, low: Bounds, start: int, width: int) -> Bounds:
    """Return the rectangles of blocks `at`, without empty ones."""
    filled = low > high
    first = start + at[filled] * width
    return np.stack([first, high[filled], first + width - 1, low[filled]], axis=1)
