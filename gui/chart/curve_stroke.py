"""How a curve gets onto the screen: whole pixels where it is dense, smooth strokes where that shows."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPainter, QPen

from gui.chart.column_rows import Band
from gui.chart.column_shapes import Columns, Shapes, columns_of_lines, shapes
from gui.chart.frame import FAR, Frame
from gui.chart.strokes import draw_lines, draw_mask, draw_pixels, draw_rects, rows_of
from logger.trace import Trace

__all__ = ["THICKNESS", "CurveStroke"]

THICKNESS = 1.7
"""Least height of a column and width of a line, in pixels of the design."""

MANY = 0.25
"""With fewer samples a column than this, each line between two of them is to be seen as one."""

STEEP = 20.0
"""Pixels of the design that lines rise and fall within a column, on average, from which on they are filled
column by column: to stroke them takes ten times as long, and nobody sees that they slant."""

RIM = 2
"""Pixels beyond the view to which whole pixels are filled."""

Vector = NDArray[np.float64]


class CurveStroke:
    """Strokes one `Trace` with columns `column` pixels wide, in the pixels of whatever is painted on.

    There a column is as wide as a pixel, or hardly more: its sides need no smoothing.
    """

    def __init__(self, painter: QPainter, frame: Frame, column: float, colour: QColor) -> None:
        self._painter, self._frame, self._column, self._colour = painter, frame, column, colour
        to_pixels = painter.deviceTransform()
        self._left, self._above, self._scale = to_pixels.dx(), to_pixels.dy(), to_pixels.m11()
        self._pen = QPen(colour, THICKNESS * self._scale)
        self._pen.setCapStyle(Qt.PenCapStyle.SquareCap)  # round ones take ten times as long

    def stroke(self, trace: Trace) -> None:
        """Paint all of it."""
        painter = self._painter
        painter.save()
        try:
            painter.setTransform(painter.deviceTransform().inverted()[0], True)
            self._stroke_columns(trace)
            self._stroke_lines(trace)
        finally:
            painter.restore()

    def _y(self, voltages_V: Vector) -> Vector:
        return _within(self._above + self._scale * self._frame.y(voltages_V), -FAR, FAR)

    def _x(self, columns: NDArray[Any]) -> Vector:
        x: Vector = self._left + columns * (self._column * self._scale)
        return x

    def _stroke_columns(self, trace: Trace) -> None:
        number = trace.number
        if number.size:
            high, low = trace.columns.high, trace.columns.low
            if number.size < high.size:
                high, low = high[number], low[number]
            self._fill(Columns(number, self._y(high), self._y(low), np.diff(number) == 1))

    def _stroke_lines(self, trace: Trace) -> None:
        """Straight lines from sample to sample; a sample that stands alone is a dot."""
        if not trace.lines:
            return
        sizes = np.array([times_s.size for times_s, _ in trace.lines])
        x = self._frame.x(np.concatenate([times_s for times_s, _ in trace.lines])) / self._column
        y = self._y(np.concatenate([voltages_V for _, voltages_V in trace.lines]))
        is_joined = np.ones(x.size - 1, dtype=bool)
        is_joined[np.cumsum(sizes)[:-1] - 1] = False
        if not trace.number.size and self._are_steep(x, y, is_joined):
            self._fill(columns_of_lines(x, y, is_joined, trace.columns.low.size))
            return
        ends = rows_of(x[:-1], y[:-1], x[1:], y[1:])[is_joined]
        alone = np.cumsum(sizes)[sizes == 1] - 1
        dots = rows_of(x[alone] - 0.5, y[alone], x[alone] + 0.5, y[alone])
        self._stroke_segments(np.concatenate([ends, dots]))

    def _are_steep(self, x: Vector, y: Vector, is_joined: NDArray[np.bool_]) -> bool:
        count = self._frame.width / self._column
        rise = np.abs(np.diff(y))[is_joined].sum()
        return bool(x.size > MANY * count and rise > STEEP * self._scale * count)

    def _fill(self, columns: Columns) -> None:
        if columns.number.size:
            found = shapes(columns, THICKNESS * self._scale, self._scale)
            self._stroke_segments(found.segments)
            self._stroke_segments(found.dots)
            self._fill_tall(found)

    def _fill_tall(self, found: Shapes) -> None:
        """The inside of a band and thickets in whole pixels, what stands out of a smooth curve smoothly."""
        painter = self._painter
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._colour)
        if found.is_inside.all():
            painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
            self._fill_pixels(found.number, found.top, found.bottom, 1)
            return
        smooth = ~(found.is_inside | found.is_thicket)
        if smooth.any():
            painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
            width = THICKNESS * self._scale
            x = self._x(found.number[smooth] + 0.5) - width / 2
            height = found.bottom[smooth] - found.top[smooth]
            draw_rects(painter, rows_of(x, found.top[smooth], width, height))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        for part, width in (
            (found.is_inside, 1),
            (found.is_thicket & ~found.is_inside, max(round(THICKNESS * self._scale), 1)),
        ):
            self._fill_pixels(found.number[part], found.top[part], found.bottom[part], width)

    def _fill_pixels(self, number: NDArray[np.int64], top: Vector, bottom: Vector, width: int) -> None:
        """Fill columns `width` pixels wide."""
        if not number.size:
            return
        beyond = self._above + self._scale * self._frame.height + RIM
        first = _within(np.rint(top), self._above - RIM, beyond).astype(np.int64)
        last = np.maximum(_within(np.rint(bottom), self._above - RIM, beyond).astype(np.int64), first + 1)
        if self._column * self._scale == 1.0:  # the usual: a column is one pixel of the screen
            left = number + round(self._left)
            right = left + width - 1
        else:
            left = np.rint(self._x(number)).astype(np.int64)
            right = np.maximum(np.rint(self._x(number + 1)).astype(np.int64) - 2 + width, left)
        bounds = rows_of(left, first, right, last, dtype=np.int64)
        if width == 1 and (band := Band(bounds)).is_dense:
            for strip in band.strips():
                draw_mask(self._painter, strip.column, strip.row, strip.is_filled, self._colour)
            bounds = band.rectangles()
        bounds[:, 3] -= 1
        draw_pixels(self._painter, bounds)

    def _stroke_segments(self, segments: NDArray[np.float64]) -> None:
        """One by one: Qt's joins take seconds on a wide noisy line."""
        if len(segments):
            segments[:, 0::2] = self._x(segments[:, 0::2])
            self._painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
            self._painter.setPen(self._pen)
            draw_lines(self._painter, segments)


def _within(values: Vector, least: float, most: float) -> Vector:
    """As `numpy.clip`, which takes longer for the few numbers of a picture."""
    found: Vector = np.minimum(np.maximum(values, least), most)
    return found
