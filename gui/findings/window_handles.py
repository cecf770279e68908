"""Grips at the ends of the settled stretches on the curve, to drag them."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPen

from gui.chart.frame import Frame
from gui.chart.part import Part
from gui.findings.window_choice import WindowChoice
from gui.theme import Colours

__all__ = ["WindowHandles"]

GRIP_HALF = 9.0
GRIP_HEIGHT = 30.0
LINE_HALF = 6.0
PILL = QRectF(-3.5, -11.0, 7.0, 22.0)


class WindowHandles(Part):
    """Draws two grips for each stretch; dragging one moves that end, dragging between them moves both.

    Attributes
    ----------
    dropped : emitted with the name of the stretch when a grip was let go.
    """

    dropped = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._choices: dict[str, WindowChoice] = {}
        self._held: tuple[str, str] | None = None
        self._held_from_s = 0.0
        self._has_moved = False

    def show_choices(self, choices: dict[str, WindowChoice]) -> None:
        """Show the grips of these stretches; while one is held, it stays as it is held."""
        if self._held is None and choices != self._choices:
            self._choices, self.is_stale = dict(choices), True

    @property
    def choices(self) -> dict[str, WindowChoice]:
        """The stretches as they are held or were let go."""
        return dict(self._choices)

    def paint(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
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

    # ------------------------------------------------------------ the mouse

    def takes(self, at: QPointF) -> bool:
        """On the grips and on the line between them; the rest belongs to the curve."""
        return self.frame is not None and self._grip_at(at, self.frame) is not None

    def cursor(self, at: QPointF) -> Qt.CursorShape:
        """A grip can be dragged."""
        return Qt.CursorShape.SizeHorCursor

    def press(self, at: QPointF) -> None:
        """Take hold of an end, or of the whole stretch."""
        if self.frame is not None:
            self._held, self._held_from_s = self._grip_at(at, self.frame), self.frame.time_s(at.x())
            self._has_moved = False

    def drag(self, at: QPointF) -> None:
        """Move what is held."""
        if self._held is None or self.frame is None:
            return
        name, part = self._held
        now_s = self.frame.time_s(at.x())
        self._choices[name] = self._choices[name].moved(part, now_s - self._held_from_s)
        self._held_from_s, self._has_moved, self.is_stale = now_s, True, True

    def release(self, at: QPointF) -> None:
        """Let go; a mere click chooses nothing."""
        held, self._held = self._held, None
        if held is not None and self._has_moved:
            self.is_stale = True
            self.dropped.emit(held[0])

    def _grip_at(self, at: QPointF, frame: Frame) -> tuple[str, str] | None:
        found = []
        for name, choice in self._choices.items():
            away = abs(frame.y(choice.voltage_V) - at.y())
            left, right = frame.x(choice.begin_s), frame.x(choice.end_s)
            for part, x in (("begin", left), ("end", right)):
                if abs(at.x() - x) <= GRIP_HALF and away <= GRIP_HEIGHT / 2:
                    found.append((abs(at.x() - x), name, part))
            if left + GRIP_HALF < at.x() < right - GRIP_HALF and away <= LINE_HALF:
                found.append((0.0, name, "both"))
        nearest = min(found, default=None)
        return None if nearest is None else (nearest[1], nearest[2])
