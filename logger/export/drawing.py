"""A picture as a list of simple shapes, in millimetres: what every painter of paper understands.

The origin is the upper left corner, x to the right and y downwards. Colours are ``#rrggbb``. Later shapes
lie over earlier ones. Nothing here knows how, or by which library, it is painted.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

__all__ = [
    "Bars",
    "Disc",
    "Drawing",
    "Image",
    "Line",
    "PagesPainter",
    "Painter",
    "Polygon",
    "Polyline",
    "Rect",
    "Shape",
    "Text",
]


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

    def outlines_mm(self) -> list[NDArray[np.float64]]:
        """Return the outline of each unbroken run of columns, corners as shape (4 n, 2).

        Painted so, neighbours leave no hairline where they meet, at any zoom.
        """
        x, top, height = self.rows_mm[:, 0], self.rows_mm[:, 1], self.rows_mm[:, 2]
        apart = np.flatnonzero(np.diff(x) > 1.5 * self.width_mm) + 1
        outlines = []
        for part in np.split(np.arange(x.size), apart):
            if not part.size:
                continue
            left = x[part]
            sides = np.stack([left, np.append(left[1:], left[-1] + self.width_mm)], axis=1).ravel()
            upper = np.stack([sides, np.repeat(top[part], 2)], axis=1)
            lower = np.stack([sides, np.repeat(top[part] + height[part], 2)], axis=1)
            outlines.append(np.concatenate([upper, lower[::-1]]))
        return outlines


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


@dataclass(frozen=True, slots=True)
class Image:
    """A picture of a known kind (IANA media type), as large as fits into the rectangle, in its middle."""

    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float
    data: bytes
    media_type: str
    description: str


Shape = Line | Polyline | Polygon | Rect | Bars | Disc | Text | Image


@dataclass(frozen=True, slots=True)
class Drawing:
    """A whole picture: size, shapes, and in `description` what it shows, for those who cannot see it."""

    width_mm: float
    height_mm: float
    shapes: tuple[Shape, ...]
    title: str
    description: str
    background: str = "#ffffff"
    magnification: float = 1.0
    """Painters enlarge the whole so many times; `width_mm` and `height_mm` are those before."""

    def magnified(self, factor: float) -> Drawing:
        """Return the drawing, to be painted `factor` times as large."""
        return replace(self, magnification=self.magnification * factor)


Painter = Callable[[Drawing, Path, int], None]
"""Paints a drawing into a file at so many dots per inch."""

PagesPainter = Callable[[Sequence[Drawing], Path], None]
"""Paints drawings into a file, each on a page of its size."""
