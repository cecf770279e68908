"""The picture of an overlay: grid, curves, and the number of each run at the end of its curve."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import QLineF, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QTransform

from gui.chart.curve_stroke import CurveStroke
from gui.chart.frame import Frame
from gui.disc import paint_disc
from gui.fonts import font, font_within
from gui.numbers import time_label, voltage_label
from gui.shelf.overlay_view import OverlayRun
from gui.shelf.run_colours import run_colour
from gui.theme import Colours
from logger.scale import marks, round_step, time_step
from logger.trace import Trace

__all__ = ["OverlayPicture", "curve_place", "paint_grid"]

LEFT, RIGHT, TOP, BOTTOM = 58, 34, 30, 34
DISC = 9.0
PITCH = 2 * DISC + 1


def curve_place(width: int, height: int) -> QRect:
    """Return where the curves lie in a widget of that size, in pixels."""
    return QRect(LEFT, TOP, max(width - LEFT - RIGHT, 2), max(height - TOP - BOTTOM, 2))


@dataclass(frozen=True, slots=True, eq=False)
class OverlayPicture:
    """Paints `runs`, of each the trace at its place in `traces`, which has `columns` columns.

    `frame` says where they lie in `place`, `zero_words` what happened at time zero. Where no run has a
    reading there are no axes, which would show times and voltages that nobody measured, but `why_none`.
    """

    runs: Sequence[OverlayRun]
    traces: Sequence[Trace]
    columns: int
    frame: Frame
    place: QRect
    zero_words: str
    why_none: str
    colours: Colours

    def paint(self, painter: QPainter) -> None:
        """Paint all of it, in pixels of the widget."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if all(run.extent_s is None for run in self.runs):
            self._paint_why_none(painter)
            return
        paint_grid(painter, self.frame, self.place, self.colours)
        self._paint_zero(painter)
        self._paint_curves(painter)
        self._paint_numbers(painter)

    def _paint_why_none(self, painter: QPainter) -> None:
        painter.setFont(font(15))
        painter.setPen(QColor(self.colours.quiet))
        painter.drawText(self.place, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self.why_none)

    def _paint_zero(self, painter: QPainter) -> None:
        colours, frame, area = self.colours, self.frame, QRectF(self.place)
        if frame.left_s < 0 < frame.right_s:
            x = round(area.left() + frame.x(0.0)) + 0.5
            painter.setPen(QPen(QColor(colours.outline), 1, Qt.PenStyle.DashLine))
            painter.drawLine(QLineF(x, area.top(), x, area.bottom()))
            painter.setPen(QColor(colours.quiet))
            align = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(QRectF(x + 6, 4, 300, 20), align, self.zero_words)

    def _paint_curves(self, painter: QPainter) -> None:
        """As the chart paints its own; a trace counts from the begin of its run, not from zero."""
        frame, width = self.frame, self.frame.width / self.columns
        painter.save()
        painter.setClipRect(self.place)
        painter.setTransform(QTransform.fromTranslate(self.place.left(), self.place.top()), True)
        for run, found in zip(self.runs, self.traces, strict=True):
            of_run = replace(frame, left_s=frame.left_s + run.zero_s, right_s=frame.right_s + run.zero_s)
            CurveStroke(painter, of_run, width, QColor(run_colour(self.colours, run.number))).stroke(found)
        painter.restore()

    def _paint_numbers(self, painter: QPainter) -> None:
        """A numbered disc at the last visible point of each curve, moved apart where they would touch."""
        wanted = []
        foot = self.place.top() + self.frame.height
        for run, found in zip(self.runs, self.traces, strict=True):
            seen = [i for i, has in enumerate(found.columns.has_data) if has]
            if seen:
                last = seen[-1]
                x = self.place.left() + (last + 1) / self.columns * self.frame.width
                middle_V = float(found.columns.low[last] + found.columns.high[last]) / 2
                y = self.place.top() + self.frame.y(middle_V)
                wanted.append((min(max(y, self.place.top()), foot), x, run.number))
        wanted.sort()
        for y, (_, x, number) in zip(_moved_apart(wanted, foot), wanted, strict=True):
            colour = run_colour(self.colours, number)
            paint_disc(painter, QPointF(x + DISC + 4, y), DISC, number + 1, self.colours, colour)


def paint_grid(painter: QPainter, frame: Frame, place: QRect, colours: Colours) -> None:
    """Paint the lines of voltages with their labels, and the labels of times, about `place`."""
    area = QRectF(place)
    step_V = round_step(frame.high_V - frame.low_V, max(area.height() / 46, 2))
    step_s = time_step(frame.right_s - frame.left_s, max(area.width() / 110, 2))
    middle = Qt.AlignmentFlag.AlignVCenter
    shown = marks(frame.low_V, frame.high_V, step_V)
    labels = {voltage: voltage_label(voltage, step_V) for voltage in shown}
    painter.setFont(font_within(labels.values(), LEFT - 12, 13))
    heights = [round(area.top() + frame.y(voltage)) for voltage in shown]
    for y in heights:  # as rectangles: to smooth lines that lie on pixels takes as long as a curve
        painter.fillRect(QRectF(area.left(), y, area.width(), 1), QColor(colours.rule))
    painter.setPen(QColor(colours.quiet))
    for y, label in zip(heights, labels.values(), strict=True):
        painter.drawText(QRectF(0, y - 9.5, LEFT - 12, 20), Qt.AlignmentFlag.AlignRight | middle, label)
    painter.setFont(font(13))
    painter.drawText(QRectF(0, 2, LEFT - 12, 20), Qt.AlignmentFlag.AlignRight | middle, "V")
    for time_s in marks(frame.left_s, frame.right_s, step_s):
        at = QRectF(area.left() + frame.x(time_s) - 50, area.bottom() + 8, 100, 20)
        painter.drawText(at, Qt.AlignmentFlag.AlignHCenter | middle, _signed_time(time_s, step_s))


def _moved_apart(wanted: list[tuple[float, float, int]], lowest: float) -> list[float]:
    """Return heights for discs at (y, x, number), the topmost first: none touches another or lies too low."""
    found: list[float] = []
    for i, (y, _x, _number) in enumerate(wanted):
        found.append(max([y, *(found[j] + PITCH for j in range(i) if _are_near(wanted[i], wanted[j]))]))
    for i in reversed(range(len(found))):
        below = (j for j in range(i + 1, len(found)) if _are_near(wanted[i], wanted[j]))
        found[i] = min([found[i], lowest, *(found[j] - PITCH for j in below)])
    return found


def _are_near(one: tuple[float, float, int], other: tuple[float, float, int]) -> bool:
    return abs(one[1] - other[1]) < 2 * DISC


def _signed_time(time_s: float, step_s: float) -> str:
    sign = "−" if time_s < -1e-9 else ""
    return sign + time_label(abs(time_s), step_s)
