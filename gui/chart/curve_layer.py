"""The curve: columns where samples are dense, thin lines where they are few."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPolygonF

from gui.chart.curve_stroke import CurveStroke
from gui.chart.frame import Frame
from gui.chart.part import Part
from gui.chart.strokes import draw_rects, rows_of
from gui.fonts import font
from gui.numbers import plain
from gui.theme import Colours
from gui.words import translate
from logger.trace import Trace, changed_columns, within

__all__ = ["CurveLayer"]

TICK = 5.0
ROOM_FOR_VALUE = 54.0

AROUND = 16
"""Columns at either side of a changed one that may look different with it: `column_shapes.REACH` and more."""


class CurveLayer(Part):
    """Draws a `Trace`. What lies above or below the view is marked at its edge, not left out."""

    def __init__(self) -> None:
        super().__init__()
        self._trace: Trace | None = None
        self._column = 1.0
        self._gone_s: tuple[NDArray[np.float64], NDArray[np.float64]] = (np.empty((0, 2)), np.empty((0, 2)))
        self._changed: tuple[int, int] | None = None  # first and last column to be painted; None: all

    def show_trace(
        self, trace: Trace, column: float, gaps_s: NDArray[np.float64], overloads_s: NDArray[np.float64]
    ) -> None:
        """Take what to draw: columns `column` pixels wide, gaps and overloads as (begin, end) rows."""
        former, was_gone_s, was_column = self._trace, self._gone_s, self._column
        self._trace, self._column, self._gone_s = trace, column, (gaps_s, overloads_s)
        self._changed = None
        is_same = not self.is_stale and column == was_column
        if former is not None and is_same and all(map(np.array_equal, was_gone_s, self._gone_s)):
            changed = self._changed_between(former, trace)
            if changed is not None and not changed.size:
                return
            self._changed = None if changed is None else (int(changed[0]), int(changed[-1]))
        self.is_stale = True

    def _changed_between(self, former: Trace, present: Trace) -> NDArray[np.int64] | None:
        """Return the columns that look different, in the same frame; None: whatever may.

        Where a pixel of the design is not a whole number of the screen's, a part cannot be painted again
        without a seam. What lies outside the view is marked at its edge, with words as wide as they are.
        """
        if former.lines or present.lines or not (1 / self._column).is_integer() or self.frame is None:
            return None
        changed = changed_columns(former.columns, present.columns)
        for columns in (former.columns, present.columns):
            high_V, low_V = columns.high[changed], columns.low[changed]
            if (high_V > self.frame.high_V).any() or (low_V < self.frame.low_V).any():
                return None
        return changed

    def stale_places(self) -> list[QRect]:
        """Return where the changed columns are, and what may look different with them."""
        if self._changed is None:
            return [self.ground]
        (first, last), self._changed = self._changed, None
        left, right = (first - AROUND) * self._column, (last + 1 + AROUND) * self._column
        place = QRect(math.floor(left), 0, math.ceil(right) - math.floor(left), self.place.height())
        return [place.translated(self.place.topLeft()).intersected(self.ground)]

    def paint(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Paint columns, lines, and marks at the edges."""
        if self._trace is None:
            return
        self._paint_gaps(painter, frame, colours)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.curve))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_outside(painter, self._trace, frame)
        trace = self._trace
        if not trace.lines:
            left, beyond = self.exposed.left(), self.exposed.right() + 1
            first, end = math.floor(left / self._column) - AROUND, math.ceil(beyond / self._column) + AROUND
            trace = within(trace, first, end)
        CurveStroke(painter, frame, self._column, QColor(colours.curve)).stroke(trace)

    def _paint_outside(self, painter: QPainter, trace: Trace, frame: Frame) -> None:
        """Mark the stretches where the curve is above or below the view: a line at the edge and a tip."""
        columns, overloads_s = trace.columns, self._gone_s[1]
        with np.errstate(invalid="ignore"):
            above, below = columns.high > frame.high_V, columns.low < frame.low_V
        if not (len(overloads_s) or above.any() or below.any()):
            return
        overload = np.zeros(columns.low.size, dtype=bool)
        for begin_s, end_s in overloads_s:
            first, last = frame.x(np.array([begin_s, end_s])) / self._column
            if last >= 0 and first < overload.size:
                overload[max(int(first), 0) : max(int(last), 0) + 1] = True
        above |= overload
        highest = np.where(overload, np.inf, columns.high)
        known = np.flatnonzero(columns.has_data | overload)  # columns between two readings part nothing
        for beyond, value_V, edge, sign in (
            (above, highest, 0.0, 1.0),
            (below, columns.low, frame.height, -1.0),
        ):
            bounds = np.flatnonzero(np.diff(np.concatenate(([0], beyond[known].astype(np.int8), [0]))))
            for run_begin, run_end in bounds.reshape(-1, 2):
                begin, end = int(known[run_begin]), int(known[run_end - 1]) + 1
                left, right = begin * self._column, max(end, begin + 2) * self._column
                line = edge - 1.0 if sign > 0 else edge - 1.5
                draw_rects(painter, np.array([[left, line, right - left, 2.5]]))
                self._paint_tip(painter, (left + right) / 2, edge, sign)
                if right - left > ROOM_FOR_VALUE:
                    self._paint_value(painter, (left + right) / 2, edge, sign, value_V[begin:end])

    def _paint_value(
        self, painter: QPainter, x: float, edge: float, sign: float, values_V: NDArray[np.float64]
    ) -> None:
        """Say in words how far outside the curve is."""
        peak_V = float(np.nanmax(values_V) if sign > 0 else np.nanmin(values_V))
        text = plain(peak_V, 2, "V") if np.isfinite(peak_V) else translate("Chart", "beyond range")
        painter.setFont(font(12))
        painter.setPen(painter.brush().color())
        top = edge + 9 if sign > 0 else edge - 26
        painter.drawText(QRectF(x - 60, top, 120, 18), Qt.AlignmentFlag.AlignCenter, text)
        painter.setPen(Qt.PenStyle.NoPen)

    def _paint_tip(self, painter: QPainter, x: float, edge: float, sign: float) -> None:
        base, point = edge + sign * (TICK + 3), edge + sign * 3
        painter.drawPolygon(QPolygonF([QPointF(x - 4, base), QPointF(x + 4, base), QPointF(x, point)]))

    def _paint_gaps(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Hatch every gap from edge to edge; one narrower than a pixel still gets a line and a tick."""
        gaps_s = self._gone_s[0]
        if not len(gaps_s):
            return
        seen = gaps_s[(gaps_s[:, 1] >= frame.left_s) & (gaps_s[:, 0] <= frame.right_s)]
        if not len(seen):
            return
        begin, end = frame.x(seen[:, 0]), frame.x(seen[:, 1])
        # Many gaps in one pixel need only be drawn once.
        kept = np.unique(rows_of(np.floor(begin), np.ceil(end)), axis=0)
        width = np.maximum(kept[:, 1] - kept[:, 0], 1.0)
        full = rows_of(kept[:, 0], 0.0, width, frame.height)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.band))
        draw_rects(painter, full)
        full[:, 1] = frame.height - TICK
        full[:, 2] = np.maximum(full[:, 2], 2.0)
        full[:, 3] = TICK
        painter.setBrush(QColor(colours.quiet))
        draw_rects(painter, full)
