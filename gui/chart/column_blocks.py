"""Columns side by side, put together where they all are filled. No Qt.

Painting a column costs by its height, row by row. What neighbours have in common is painted as one
rectangle, in the time of one column.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["BLOCK", "in_blocks"]

BLOCK = 16
"""Columns in a block."""

WORTH = 12.0
"""Least height in pixels of what a block has in common."""

LAP = 1.0
"""Pixels by which the parts overlap, so that no seam is seen where a pixel is not a whole one."""

Rects = NDArray[np.float64]


def in_blocks(number: NDArray[np.int64], rects: Rects) -> Rects:
    """Return rectangles that fill the same as `rects`, fewer rows of them.

    Parameters
    ----------
    number : int64, shape (n,), growing; which column each rectangle is.
    rects : float64, shape (n, 4); left, top, width, height of each, all of one width, side by side where
        the numbers are.
    """
    begins = np.flatnonzero(np.diff(number // BLOCK, prepend=-1))
    whole = begins[np.diff(begins, append=number.size) == BLOCK]
    if not whole.size:
        return rects
    members = whole[:, None] + np.arange(BLOCK)
    top, bottom = rects[members, 1], rects[members, 1] + rects[members, 3]
    common_top, common_bottom = np.ceil(top.max(axis=1)), np.floor(bottom.min(axis=1))
    worth = common_bottom - common_top >= WORTH
    if not worth.any():
        return rects
    members, top, bottom = members[worth], top[worth], bottom[worth]
    common_top, common_bottom = common_top[worth], common_bottom[worth]
    first, last = rects[members[:, 0]], rects[members[:, -1]]
    width = last[:, 0] + last[:, 2] - first[:, 0]
    common = np.stack([first[:, 0], common_top, width, common_bottom - common_top], axis=1)
    above, below = rects[members], rects[members]
    above[:, :, 3] = common_top[:, None] + LAP - top
    below[:, :, 1] = common_bottom[:, None] - LAP
    below[:, :, 3] = bottom - below[:, :, 1]
    others = np.ones(number.size, dtype=bool)
    others[members.ravel()] = False
    return np.concatenate([rects[others], common, above.reshape(-1, 4), below.reshape(-1, 4)])
