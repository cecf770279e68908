"""Over the curve: settled levels, the fall from "before" to the present, and the newest reading."""

from __future__ import annotations

import pyqtgraph as pg
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen, QPolygonF

from gui.chart.frame import Frame
from gui.chart.item import ChartItem
from gui.chart.notes import Level, Notes, Saving
from gui.fonts import font
from gui.theme import Colours

__all__ = ["SavingItem"]

ARROW_GAP = 7.0
SHORTEST_ARROW = 14.0
ROOM_FOR_WORDS = 62.0
TIP = 7.0


class SavingItem(ChartItem):
    """Draws the `Notes` that belong to voltages."""

    def __init__(self, view: pg.ViewBox) -> None:
        super().__init__(view, depth=30)
        self._notes = Notes()

    def show_notes(self, notes: Notes) -> None:
        """Take what to draw."""
        self._notes = notes
        self.update()

    def paint_in(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Paint levels, the saving and the last point."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        saving = self._notes.saving
        for level in self._notes.levels:
            runs_to_s = saving.at_s if saving and saving.from_level == level else level.end_s
            self._paint_level(painter, level, runs_to_s, frame, colours)
        if saving is not None:
            self._paint_saving(painter, saving, frame, colours)
        if self._notes.last is not None:
            x, y = frame.x(self._notes.last[0]), frame.y(self._notes.last[1])
            if 0 <= y <= frame.height:
                painter.setPen(QPen(QColor(colours.paper), 1.5))
                painter.setBrush(QColor(colours.curve))
                painter.drawEllipse(QPointF(x, y), 5.5, 5.5)

    def _paint_level(
        self, painter: QPainter, level: Level, runs_to_s: float, frame: Frame, colours: Colours
    ) -> None:
        left, end, right = frame.x(level.begin_s), frame.x(level.end_s), frame.x(runs_to_s)
        top = frame.y(level.voltage_V + level.uncertainty_V)
        bottom = frame.y(level.voltage_V - level.uncertainty_V)
        middle = frame.y(level.voltage_V)
        spread = max(bottom - top, 5.0)
        soft = QColor(colours.settled_soft)
        soft.setAlphaF(0.75)
        painter.fillRect(QRectF(left, middle - spread / 2, right - left, spread), soft)
        painter.setPen(QPen(QColor(colours.settled), 1.2))
        painter.drawLine(QLineF(left, middle, right, middle))
        painter.setPen(QPen(QColor(colours.settled), 3))
        painter.drawLine(QLineF(left, middle, end, middle))
        if level.text:
            painter.setFont(font(12.5, "medium"))
            width = QFontMetricsF(painter.font()).horizontalAdvance(level.text)
            place = QPointF(max(end - width, 2.0), bottom + 19)
            if runs_to_s > level.end_s:
                place = QPointF(min(end + 6, frame.width - width - 2), top - 7)
            painter.setPen(QColor(colours.settled))
            painter.drawText(place, level.text)

    def _paint_saving(self, painter: QPainter, saving: Saving, frame: Frame, colours: Colours) -> None:
        x = min(frame.x(saving.at_s) + ARROW_GAP, frame.width - TIP)
        top = min(max(frame.y(saving.from_level.voltage_V), 0.0), frame.height)
        bottom = min(max(frame.y(saving.to_V), 0.0), frame.height)
        if abs(bottom - top) < SHORTEST_ARROW or x < 0:
            return
        sign = 1.0 if bottom > top else -1.0
        colour = QColor(colours.settled)
        painter.setPen(QPen(colour, 2))
        painter.drawLine(QLineF(x, top, x, bottom - sign * 2))
        painter.drawPolyline(
            QPolygonF(
                [
                    QPointF(x - 5, bottom - sign * TIP),
                    QPointF(x, bottom),
                    QPointF(x + 5, bottom - sign * TIP),
                ]
            )
        )
        if abs(bottom - top) < ROOM_FOR_WORDS:
            return
        middle = (top + bottom) / 2
        right = x - 11
        for text, size, weight, baseline in (
            (saving.caption, 12.5, "regular", middle - 7),
            (saving.value, 20, "semibold", middle + 15),
        ):
            painter.setFont(font(size, weight))
            width = QFontMetricsF(painter.font()).horizontalAdvance(text)
            self._paint_words(painter, QRectF(right - width, baseline - size, width, size + 6), text, colours)

    def _paint_words(self, painter: QPainter, place: QRectF, text: str, colours: Colours) -> None:
        """Words on a ground that lets nothing shine through them."""
        ground = QColor(colours.paper)
        ground.setAlphaF(0.82)
        painter.fillRect(place.adjusted(-3, 0, 3, 0), ground)
        painter.setPen(QColor(colours.settled))
        painter.drawText(place, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, text)
