"""Grips at the ends of the settled stretches on the curve, to drag them."""

from __future__ import annotations

from typing import Any

import pyqtgraph as pg
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from gui.chart.frame import Frame
from gui.chart.item import ChartItem
from gui.findings.window_choice import WindowChoice
from gui.theme import Colours

__all__ = ["WindowHandles"]

GRIP_HALF = 9.0
GRIP_HEIGHT = 30.0
PILL = QRectF(-3.5, -11.0, 7.0, 22.0)


class WindowHandles(ChartItem):
    """Draws two grips for each stretch; dragging one moves that end, dragging between them moves both.

    Attributes
    ----------
    dropped : emitted with the name of the stretch when a grip was let go.
    """

    dropped = Signal(str)

    def __init__(self, view: pg.ViewBox) -> None:
        super().__init__(view, depth=40)
        self._choices: dict[str, WindowChoice] = {}
        self._held: tuple[str, str] | None = None
        self._held_from_s = 0.0

    def show_choices(self, choices: dict[str, WindowChoice]) -> None:
        """Show the grips of these stretches; while one is held, it stays as it is held."""
        if self._held is None and choices != self._choices:
            self.prepareGeometryChange()
            self._choices = dict(choices)
            self.update()

    @property
    def choices(self) -> dict[str, WindowChoice]:
        """The stretches as they are held or were let go."""
        return dict(self._choices)

    def paint_in(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Paint the grips, and the ground of a stretch that is held."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for name, choice in self._choices.items():
            y = frame.y(choice.voltage_V)
            left, right = frame.x(choice.begin_s), frame.x(choice.end_s)
            if self._held is not None and self._held[0] == name:
                ground = QColor(colours.settled_soft)
                ground.setAlphaF(0.5)
                painter.fillRect(QRectF(left, 0, right - left, frame.height), ground)
            for x in (left, right):
                painter.setPen(QPen(QColor(colours.paper), 1.5))
                painter.setBrush(QColor(colours.settled))
                painter.drawRoundedRect(PILL.translated(x, y), 3.5, 3.5)
                painter.setPen(QPen(QColor(colours.paper), 1))
                painter.drawLine(QLineF(x, y - 5, x, y + 5))

    def shape(self) -> QPainterPath:
        """Only the grips and the line between them take the mouse; the rest belongs to the curve."""
        path = QPainterPath()
        if self.frame is None:
            return path
        for choice in self._choices.values():
            y = self.frame.y(choice.voltage_V)
            left, right = self.frame.x(choice.begin_s), self.frame.x(choice.end_s)
            path.addRect(QRectF(left, y - 6, right - left, 12))
            for x in (left, right):
                path.addRect(QRectF(x - GRIP_HALF, y - GRIP_HEIGHT / 2, 2 * GRIP_HALF, GRIP_HEIGHT))
        path.setFillRule(Qt.FillRule.WindingFill)
        return path

    def hoverEvent(self, event: Any) -> None:
        """Show by the pointer that a grip can be dragged."""
        if event.isExit():
            self.unsetCursor()
        elif event.acceptDrags(Qt.MouseButton.LeftButton):
            self.setCursor(Qt.CursorShape.SizeHorCursor)

    def mouseDragEvent(self, event: Any) -> None:
        """Move the end, or the whole stretch, that was taken hold of."""
        frame = self.frame
        if event.button() != Qt.MouseButton.LeftButton or frame is None:
            event.ignore()
            return
        if event.isStart():
            self._held = self._grip_at(event.buttonDownPos(), frame)
            self._held_from_s = self._time_s(event.buttonDownPos().x(), frame)
        if self._held is None:
            event.ignore()
            return
        event.accept()
        name, part = self._held
        now_s = self._time_s(event.pos().x(), frame)
        self._choices[name] = self._choices[name].moved(part, now_s - self._held_from_s)
        self._held_from_s = now_s
        self.prepareGeometryChange()
        self.update()
        if event.isFinish():
            self._held = None
            self.dropped.emit(name)

    def _time_s(self, x: float, frame: Frame) -> float:
        return frame.left_s + x * (frame.right_s - frame.left_s) / frame.width

    def _grip_at(self, place: QPointF, frame: Frame) -> tuple[str, str] | None:
        found = []
        for name, choice in self._choices.items():
            if abs(frame.y(choice.voltage_V) - place.y()) > GRIP_HEIGHT:
                continue
            left, right = frame.x(choice.begin_s), frame.x(choice.end_s)
            found += [(abs(place.x() - left), name, "begin"), (abs(place.x() - right), name, "end")]
            if left + GRIP_HALF < place.x() < right - GRIP_HALF:
                found.append((0.0, name, "both"))
        nearest = min(found, default=None)
        return None if nearest is None else (nearest[1], nearest[2])
