"""The run as a path of steps: what is done, where we are, what comes."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from gui.fonts import font
from gui.theme import Theme

__all__ = ["PhasePath"]

STEPS = {"dry": "Dry cell", "before": "Before", "growth": "Growth", "after": "After"}
DISC = 11.0
GAP = 26.0


class PhasePath(QWidget):
    """Four steps in a row: a tick for what is over, a bold number for the present one."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._phase: str | None = None
        self._seen: frozenset[str] = frozenset()
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Steps of the run")
        theme.changed.connect(self.update)

    def show_phase(self, phase: str | None, seen: frozenset[str]) -> None:
        """Take the present phase and all that have occurred."""
        if (phase, seen) != (self._phase, self._seen):
            self._phase, self._seen = phase, seen
            self.setAccessibleDescription(f"Now: {STEPS.get(phase or '', 'not known')}")
            self.update()

    def sizeHint(self) -> QSize:
        """Room for all steps."""
        metrics = QFontMetricsF(font(14, "semibold"))
        width = sum(metrics.horizontalAdvance(words) + 2 * DISC + 8 + GAP for words in STEPS.values())
        return QSize(round(width), 40)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the steps."""
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            x = 0.0
            for number, (phase, words) in enumerate(STEPS.items(), start=1):
                x = self._paint_step(painter, x, number, phase, words)
        finally:
            painter.end()

    def _paint_step(self, painter: QPainter, x: float, number: int, phase: str, words: str) -> float:
        colours = self._theme.colours
        middle = self.height() / 2
        is_now = phase == self._phase
        is_done = phase in self._seen and not is_now
        disc = QRectF(x + 1, middle - DISC, 2 * DISC, 2 * DISC)
        if is_done:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(colours.settled))
            painter.drawEllipse(disc)
            pen = QPen(QColor(colours.paper), 1.8)
            pen.setCapStyle(Qt.PenCapStyle.RoundCap)
            painter.setPen(pen)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            c = disc.center()
            painter.drawPolyline(
                QPolygonF([c + QPointF(-4, 0.3), c + QPointF(-1.2, 3.2), c + QPointF(4.2, -3)])
            )
        else:
            painter.setPen(QPen(QColor(colours.ink if is_now else colours.outline), 1.6 if is_now else 1.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawEllipse(disc)
            painter.setFont(font(12, "semibold" if is_now else "regular"))
            painter.setPen(QColor(colours.ink if is_now else colours.quiet))
            painter.drawText(disc, Qt.AlignmentFlag.AlignCenter, str(number))
        painter.setFont(font(14, "semibold" if is_now else "regular"))
        painter.setPen(QColor(colours.ink if is_now else colours.quiet))
        width = QFontMetricsF(painter.font()).horizontalAdvance(words)
        place = QRectF(disc.right() + 8, 0, width + 4, self.height())
        painter.drawText(place, Qt.AlignmentFlag.AlignVCenter, words)
        return place.right() + GAP - 4
