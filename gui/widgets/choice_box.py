"""A field to choose from a list, with an arrow in the colours of the program."""

from __future__ import annotations

from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QComboBox, QWidget

from gui.theme import Theme

__all__ = ["ChoiceBox"]


class ChoiceBox(QComboBox):
    """A combo box whose style sheet leaves no arrow, so it draws its own."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme

    def paintEvent(self, event: QPaintEvent) -> None:
        """The style's field, then the arrow."""
        super().paintEvent(event)
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(QColor(self._theme.colours.quiet), 1.6))
            x, y = self.width() - 17.0, self.height() / 2 - 1.5
            painter.drawPolyline(QPolygonF([QPointF(x - 4, y), QPointF(x, y + 4), QPointF(x + 4, y)]))
        finally:
            painter.end()
