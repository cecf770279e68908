"""The curve: antialiased columns where samples are dense, thin lines where they are few."""

from __future__ import annotations

import numpy as np
import pyqtgraph as pg
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from gui.chart.column_blocks import in_blocks
from gui.chart.frame import Frame
from gui.chart.item import ChartItem, draw_lines, draw_rects
from gui.fonts import font
from gui.numbers import plain
from gui.theme import Colours
from gui.words import translate
from logger.trace import Trace, touching

__all__ = ["CurveItem"]

THICKNESS = 1.7
"""Least height of a column and width of a line, in pixels."""

FAR = 1e4
"""Pixels beyond the view at which the curve is cut off, before Qt's arithmetic suffers."""

ALIGNED = 0.02
"""Pixels by which the sides of a column may miss those of pixels, nobody seeing it."""

FAR_APART = 4.0
TICK = 5.0
ROOM_FOR_VALUE = 54.0


class CurveItem(ChartItem):
    """Draws a `Trace`. What lies above or below the view is marked at its edge, not left out."""

    def __init__(self, view: pg.ViewBox) -> None:
        super().__init__(view, depth=20)
        self._trace: Trace | None = None
        self._column = 1.0
        self._offset = 0.0
        self._pen = QPen()
        self._gone_s: tuple[NDArray[np.float64], NDArray[np.float64]] = (np.empty((0, 2)), np.empty((0, 2)))

    def show_trace(
        self, trace: Trace, column: float, gaps_s: NDArray[np.float64], overloads_s: NDArray[np.float64]
    ) -> None:
        """Take what to draw: columns `column` pixels wide, gaps and overloads as (begin, end) rows."""
        self._trace, self._column = trace, column
        self._gone_s = gaps_s, overloads_s
        self.update()

    def paint_in(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Paint columns, lines, and marks at the edges."""
        if self._trace is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_gaps(painter, frame, colours)
        self._pen = QPen(QColor(colours.curve), THICKNESS)
        self._pen.setCapStyle(Qt.PenCapStyle.SquareCap)  # round ones take ten times as long
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.curve))
        self._paint_columns(painter, self._trace, frame)
        self._paint_outside(painter, self._trace, frame)
        self._paint_lines(painter, self._trace, frame)

    def _paint_columns(self, painter: QPainter, trace: Trace, frame: Frame) -> None:
        """A rectangle for each column; neighbours that do not overlap are joined.

        Near ones by a short line, which makes a smooth curve of a slope; far ones in noise by stretching
        the rectangles, because a nearly upright line looks a little different at every place.
        """
        number = trace.number
        if not number.size:
            return
        top = np.clip(frame.y(trace.columns.high[number]), -FAR, FAR)
        bottom = np.clip(frame.y(trace.columns.low[number]), -FAR, FAR)
        x, middle = (number + 0.5) * self._column, (top + bottom) / 2
        beside = np.diff(number) == 1
        apart = np.maximum(top[1:] - bottom[:-1], top[:-1] - bottom[1:])
        thin = bottom - top < 2 * THICKNESS
        far = beside & (apart > FAR_APART) & ~(thin[1:] & thin[:-1])
        joined = beside & ~far & (apart > -2 * THICKNESS)
        top, bottom = touching(top, bottom, far)
        tall = np.flatnonzero(bottom - top > THICKNESS)
        stands_out = _stands_out(top, bottom)[tall]
        width = np.where(stands_out, max(self._column, THICKNESS), self._column)
        rects = np.stack([x[tall] - width / 2, top[tall], width, (bottom - top)[tall]], axis=1)
        draw_rects(painter, rects[stands_out])
        band = rects[~stands_out]
        draw_rects(painter, in_blocks(number[tall][~stands_out], band) if self._are_pixels(painter) else band)
        alone = np.diff(np.concatenate(([number[0] - 2], number, [number[-1] + 2]))) > 1
        lonely = np.flatnonzero(alone[1:] & alone[:-1] & (bottom - top <= THICKNESS))
        ends = np.stack([x[:-1], middle[:-1], x[1:], middle[1:]], axis=1)[joined]
        dots = np.stack([x[lonely] - 0.5, middle[lonely], x[lonely] + 0.5, middle[lonely]], axis=1)
        self._draw_segments(painter, np.concatenate([ends, dots]))

    def _are_pixels(self, painter: QPainter) -> bool:
        """Tell whether columns lie on pixels; elsewhere their sides shine through, which is to be even."""
        to_pixels = painter.deviceTransform()
        begin, width = to_pixels.dx(), self._column * to_pixels.m11()
        return abs(begin - round(begin)) < ALIGNED and abs(width - 1) < ALIGNED / 4000

    def _paint_lines(self, painter: QPainter, trace: Trace, frame: Frame) -> None:
        for times_s, voltages_V in trace.lines:
            x, y = frame.x(times_s), np.clip(frame.y(voltages_V), -FAR, FAR)
            if x.size == 1:
                x, y = np.array([x[0] - 0.5, x[0] + 0.5]), y.repeat(2)
            self._draw_segments(painter, np.stack([x[:-1], y[:-1], x[1:], y[1:]], axis=1))

    def _draw_segments(self, painter: QPainter, segments: NDArray[np.float64]) -> None:
        """One by one: Qt's joins take seconds on a wide noisy line."""
        painter.setPen(self._pen)
        draw_lines(painter, segments)
        painter.setPen(Qt.PenStyle.NoPen)

    def _paint_outside(self, painter: QPainter, trace: Trace, frame: Frame) -> None:
        """Mark the stretches where the curve is above or below the view: a line at the edge and a tip."""
        columns = trace.columns
        overload = np.zeros(columns.low.size, dtype=bool)
        for begin_s, end_s in self._gone_s[1]:
            first, last = frame.x(np.array([begin_s, end_s])) / self._column
            if last >= 0 and first < overload.size:
                overload[max(int(first), 0) : max(int(last), 0) + 1] = True
        with np.errstate(invalid="ignore"):
            above = (columns.high > frame.high_V) | overload
            below = columns.low < frame.low_V
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
        painter.setPen(self._pen.color())
        top = edge + 9 if sign > 0 else edge - 26
        painter.drawText(QRectF(x - 60, top, 120, 18), Qt.AlignmentFlag.AlignCenter, text)
        painter.setPen(Qt.PenStyle.NoPen)

    def _paint_tip(self, painter: QPainter, x: float, edge: float, sign: float) -> None:
        base, point = edge + sign * (TICK + 3), edge + sign * 3
        painter.drawPolygon(QPolygonF([QPointF(x - 4, base), QPointF(x + 4, base), QPointF(x, point)]))

    def _paint_gaps(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Hatch every gap from edge to edge; one narrower than a pixel still gets a line and a tick."""
        gaps_s = self._gone_s[0]
        seen = gaps_s[(gaps_s[:, 1] >= frame.left_s) & (gaps_s[:, 0] <= frame.right_s)]
        if not len(seen):
            return
        begin, end = frame.x(seen[:, 0]), frame.x(seen[:, 1])
        # Many gaps in one pixel need only be drawn once.
        kept = np.unique(np.stack([np.floor(begin), np.ceil(end)], axis=1), axis=0)
        width = np.maximum(kept[:, 1] - kept[:, 0], 1.0)
        full = np.stack([kept[:, 0], np.zeros(len(kept)), width, np.full(len(kept), frame.height)], axis=1)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.band))
        draw_rects(painter, full)
        full[:, 1] = frame.height - TICK
        full[:, 2] = np.maximum(full[:, 2], 2.0)
        full[:, 3] = TICK
        painter.setBrush(QColor(colours.quiet))
        draw_rects(painter, full)


def _stands_out(top: NDArray[np.float64], bottom: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Tell which columns their neighbours cover by less than half: those get the full width of the line.

    The others are the inside of a band, where width shows only at its rim, and costs three times the time.
    """
    overlap = np.minimum(bottom[1:], bottom[:-1]) - np.maximum(top[1:], top[:-1])
    beside = np.maximum(np.append(overlap, -1.0), np.append(-1.0, overlap))
    stands_out: NDArray[np.bool_] = beside < 0.5 * (bottom - top)
    return stands_out
