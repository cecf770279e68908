"""The numbered disc that stands for a moment wherever it is shown."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter

from gui.fonts import font
from gui.theme import Colours

__all__ = ["paint_disc"]


def paint_disc(painter: QPainter, middle: QPointF, radius: float, number: int, colours: Colours) -> None:
    """Paint a disc with its number; the number shrinks when it has three digits."""
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colours.moment))
    painter.drawEllipse(middle, radius, radius)
    painter.setPen(QColor(colours.paper))
    painter.setFont(font(radius * (1.28 if number < 100 else 1.05), "semibold"))
    place = QRectF(middle.x() - radius, middle.y() - radius, 2 * radius, 2 * radius)
    painter.drawText(place, Qt.AlignmentFlag.AlignCenter, str(number))
