"""What to fill for a curve that has a column for each pixel. Pure functions on arrays, no Qt.

Everything is in pixels of the screen, y downwards.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from logger.trace import touching

__all__ = ["Shapes", "columns_of_lines", "shapes"]

Vector = NDArray[np.float64]

FAR_APART = 4.0
"""Pixels between neighbouring columns from which on a stretched column joins them better than a line."""

HIGH = 16.0
"""Height in pixels from which on neighbours that touch need no line to look smooth."""

REACH = 8
TURNS = 5
"""A column is in a thicket where of the columns up to `REACH` away so many are turning points."""


class Columns(NamedTuple):
    """Columns of a curve: number (growing), upper and lower end, and which are joined to the next one.

    `is_joined` has one item less: whether the curve goes on from one of these columns to the next.
    """

    number: NDArray[np.int64]
    top: Vector
    bottom: Vector
    is_joined: NDArray[np.bool_]


class Shapes(NamedTuple):
    """What to fill: `tall` columns, `segments` between the middles of low ones, and `dots`.

    Of the tall ones `is_inside` tells which are the inside of a band, `is_thicket` where they stand so
    close that a smooth rim would be seen by nobody.
    """

    number: NDArray[np.int64]
    top: Vector
    bottom: Vector
    is_inside: NDArray[np.bool_]
    is_thicket: NDArray[np.bool_]
    segments: NDArray[np.float64]
    dots: NDArray[np.float64]


def shapes(columns: Columns, thickness: float, scale: float) -> Shapes:
    """Return what to fill, so that the curve is `thickness` pixels thick wherever it is flat.

    Neighbours that do not overlap are joined: near ones by a short line, which makes a smooth curve of a
    slope; far ones in noise by stretching them, because a nearly upright line looks a little different at
    every place, and those in a thicket, because a line takes longer and is not seen there.

    Parameters
    ----------
    thickness, scale : pixels; and pixels of the screen in one of the design.
    """
    number, top, bottom, is_joined = columns
    middle = (top + bottom) / 2
    apart = np.maximum(top[1:] - bottom[:-1], top[:-1] - bottom[1:])
    is_loose = is_joined & (apart > -2 * thickness)
    segments = dots = np.empty((0, 4))
    has_line = np.zeros(number.size, dtype=bool)
    is_thicket = None
    if is_loose.any():  # else it is a band, all of which overlaps
        is_thicket = _is_thicket(number, middle)
        is_stretched, is_lined = _joints(bottom - top, apart, is_thicket, thickness, scale)
        line = np.flatnonzero(is_loose & is_lined)
        has_line[line] = has_line[line + 1] = True
        x = number + 0.5
        segments = np.stack([x[line], middle[line], x[line + 1], middle[line + 1]], axis=1)
        if (is_loose & is_stretched).any():
            top, bottom = touching(top, bottom, is_loose & is_stretched)
    is_tall = bottom - top > thickness
    if not is_tall.all():
        alone = np.flatnonzero(~is_tall & ~has_line)
        dots = np.stack([number[alone], middle[alone], number[alone] + 1.0, middle[alone]], axis=1)
    inside = _is_inside(number, top, bottom)
    if inside.all() and is_tall.all():
        return Shapes(number, top, bottom, inside, np.zeros_like(inside), segments, dots)
    tall = np.flatnonzero(is_tall)
    if is_thicket is None:
        is_thicket = np.zeros_like(inside) if inside[tall].all() else _is_thicket(number, middle)
    return Shapes(number[tall], top[tall], bottom[tall], inside[tall], is_thicket[tall], segments, dots)


def _joints(
    height: Vector, apart: Vector, is_thicket: NDArray[np.bool_], thickness: float, scale: float
) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
    """Tell which neighbours that hardly overlap are stretched to meet, and which a line joins.

    Parameters
    ----------
    height, is_thicket : of each column, shape (n,).
    apart : pixels between a column and the next, shape (n - 1,); negative where they overlap.
    """
    is_thin, is_high = height < 2 * thickness, height > HIGH * scale
    are_high = is_high[1:] & is_high[:-1]
    is_far = (apart > FAR_APART * scale) & ~(is_thin[1:] & is_thin[:-1])
    # A thin one that is stretched towards a near one may still be too low to be filled.
    is_dense = is_thicket[1:] & is_thicket[:-1] & ~(is_thin[1:] | is_thin[:-1])
    is_stretched = is_far | is_dense | (are_high & (apart > 0))
    return is_stretched, ~is_stretched & ~are_high


def _are_some_missing(number: NDArray[np.int64]) -> bool:
    return bool(number[-1] - number[0] >= number.size)


def _is_inside(number: NDArray[np.int64], top: Vector, bottom: Vector) -> NDArray[np.bool_]:
    """Tell which columns a neighbour covers by half or more: a band's, whose width shows only at its rim."""
    overlap = np.minimum(bottom[1:], bottom[:-1]) - np.maximum(top[1:], top[:-1])
    if _are_some_missing(number):
        overlap[np.diff(number) > 1] = -1.0  # what lies beyond a gap is no neighbour
    beside = np.maximum(np.append(overlap, -1.0), np.append(-1.0, overlap))
    inside: NDArray[np.bool_] = beside >= 0.5 * (bottom - top)
    return inside


def _is_thicket(number: NDArray[np.int64], middle: Vector) -> NDArray[np.bool_]:
    """Tell around which columns the curve turns up and down again and again.

    How a column is filled depends on no column farther away than that: a part is painted again alone.
    """
    slope = np.diff(middle)
    turns = np.zeros(middle.size + 1, dtype=np.int64)
    is_turn = slope[1:] * slope[:-1] < 0
    if _are_some_missing(number):
        is_turn &= number[2:] - number[:-2] == 2
        beyond, first = np.searchsorted(number, number + REACH + 1), np.searchsorted(number, number - REACH)
    else:
        at = np.arange(middle.size)
        beyond, first = np.minimum(at + REACH + 1, middle.size), np.maximum(at - REACH, 0)
    np.cumsum(is_turn, out=turns[2:-1])
    turns[-1] = turns[-2]
    around = turns[beyond] - turns[first]
    thicket: NDArray[np.bool_] = around >= TURNS
    return thicket


def columns_of_lines(x: Vector, y: Vector, is_joined: NDArray[np.bool_], count: int) -> Columns:
    """Return the columns that straight lines between points pass through.

    Parameters
    ----------
    x, y : shape (n,); points, never going left.
    is_joined : shape (n - 1,); whether a line goes from a point to the next.
    count : columns 0 ... count - 1, each a pixel wide, are wanted.
    """
    edges = np.arange(count + 1, dtype=np.float64)
    beyond = np.searchsorted(x, edges, side="right")
    crossed = (beyond > 0) & (beyond < x.size)
    crossed[crossed] = is_joined[beyond[crossed] - 1]
    at_edge = np.full(count + 1, np.nan)
    at_edge[crossed] = np.interp(edges[crossed], x, y)
    top = np.fmin(at_edge[:-1], at_edge[1:])
    bottom = np.fmax(at_edge[:-1], at_edge[1:])
    inside = (x >= 0) & (x < count)
    column = x[inside].astype(np.int64)
    with np.errstate(invalid="ignore"):
        np.fmin.at(top, column, y[inside])
        np.fmax.at(bottom, column, y[inside])
    number = np.flatnonzero(~np.isnan(top))
    return Columns(number, top[number], bottom[number], crossed[number[:-1] + 1] & (np.diff(number) == 1))
