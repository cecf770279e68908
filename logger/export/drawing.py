"""A picture as a list of simple shapes, in millimetres: what every painter of paper understands.

The origin is the upper left corner, x to the right and y downwards. Colours are ``#rrggbb``. Later shapes
lie over earlier ones. Nothing here knows how, or by which library, it is painted.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

__all__ = ["Bars", "Disc", "Drawing", "Line", "Painter", "Polygon", "Polyline", "Rect", "Shape", "Text"]


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line; `dash_mm` alternates drawn and left-out lengths (empty: solid)."""

    x1_mm: float
    y1_mm: float
    x2_mm: float
    y2_mm: float
    colour: str
    width_mm: float = 0.2
    dash_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Polyline:
    """A line through points, shape (n, 2)."""

    points_mm: NDArray[np.float64]
    colour: str
    width_mm: float = 0.2


@dataclass(frozen=True, slots=True)
class Polygon:
    """A filled area without outline, corners as shape (n, 2)."""

    points_mm: NDArray[np.float64]
    fill: str


@dataclass(frozen=True, slots=True)
class Rect:
    """A filled rectangle without outline; `opacity` from 0 to 1."""

    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float
    fill: str
    opacity: float = 1.0
    radius_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Bars:
    """Many filled rectangles of one width: rows of (x, y, height), shape (n, 3); the columns of a curve."""

    rows_mm: NDArray[np.float64]
    width_mm: float
    fill: str


@dataclass(frozen=True, slots=True)
class Disc:
    """A filled circle."""

    x_mm: float
    y_mm: float
    radius_mm: float
    fill: str


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text on the baseline `y_mm`; `anchor` (left, middle, right) says which end is at `x_mm`."""

    x_mm: float
    y_mm: float
    text: str
    size_pt: float
    colour: str
    anchor: str = "left"
    weight: str = "regular"  # regular | medium | semibold


Shape = Line | Polyline | Polygon | Rect | Bars | Disc | Text


@dataclass(frozen=True, slots=True)
class Drawing:
    """A whole picture: size, shapes, and in `description` what it shows, for those who cannot see it."""

    width_mm: float
    height_mm: float
    shapes: tuple[Shape, ...]
    title: str
    description: str
    background: str = "#ffffff"
    details: dict[str, str] = field(default_factory=dict)


Painter = Callable[[Drawing, Path, int], None]
"""Paints a drawing into a file at so many dots per inch."""
