"""Base of everything painted inside the chart's view, in pixels of the view."""

from __future__ import annotations

import numpy as np
import pyqtgraph as pg
import shiboken6
from numpy.typing import NDArray
from PySide6.QtCore import QLineF, QRectF
from PySide6.QtGui import QPainter

from gui.chart.frame import Frame
from gui.theme import Colours

__all__ = ["ChartItem", "draw_lines", "draw_rects"]


class ChartItem(pg.GraphicsObject):
    """An item that lies over the whole view and paints in its pixels, not in seconds and volts.

    Pens and texts so keep their size at any zoom, and no transform has to be undone. Subclasses paint
    in `paint_in`, which is only called with a frame and colours set.
    """

    def __init__(self, view: pg.ViewBox, depth: float) -> None:
        super().__init__(view)
        self.setZValue(depth)
        self.frame: Frame | None = None
        self.colours: Colours | None = None

    def show_frame(self, frame: Frame, colours: Colours) -> None:
        """Take the frame and colours to paint with from now on."""
        if self.frame is None or (frame.width, frame.height) != (self.frame.width, self.frame.height):
            self.prepareGeometryChange()
        self.frame, self.colours = frame, colours
        self.update()

    def boundingRect(self) -> QRectF:
        """The whole view."""
        frame = self.frame
        return QRectF(0, 0, frame.width, frame.height) if frame is not None else QRectF()

    def paint(self, painter: QPainter, *_unused: object) -> None:
        """Paint, clipped to the view."""
        if self.frame is None or self.colours is None:
            return
        painter.setClipRect(self.boundingRect())
        self.paint_in(painter, self.frame, self.colours)

    def paint_in(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Paint within `frame`."""
        raise NotImplementedError


def draw_rects(painter: QPainter, rects: NDArray[np.float64]) -> None:
    """Fill many rectangles (rows of x, y, width, height) in one call, without an object for each."""
    rows = np.ascontiguousarray(rects, dtype=np.float64)
    if len(rows):
        painter.drawRects(shiboken6.wrapInstance(rows.ctypes.data, QRectF), len(rows))  # type: ignore[call-overload]


def draw_lines(painter: QPainter, lines: NDArray[np.float64]) -> None:
    """Draw many lines (rows of x1, y1, x2, y2) in one call, without an object for each."""
    rows = np.ascontiguousarray(lines, dtype=np.float64)
    if len(rows):
        painter.drawLines(shiboken6.wrapInstance(rows.ctypes.data, QLineF), len(rows))  # type: ignore[call-overload]
