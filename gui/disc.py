"""The numbered disc that stands for a moment, or for one of several runs, wherever it is shown."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter

from gui.fonts import font
from gui.theme import Colours

__all__ = ["paint_disc"]

LARGEST_SHARE, WIDEST_SHARE = 1.28, 1.55
"""Size of the digits, and width of all of them together, in radii."""


def paint_disc(
    painter: QPainter, middle: QPointF, radius: float, number: int, colours: Colours, fill: str = ""
) -> None:
    """Paint a disc with its number, which shrinks until its digits lie within the disc.

    Without `fill` it is a moment's.
    """
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(fill or colours.moment))
    painter.drawEllipse(middle, radius, radius)
    painter.setPen(QColor(colours.paper))
    size = radius * LARGEST_SHARE
    width = QFontMetricsF(font(size, "semibold")).horizontalAdvance(str(number))
    painter.setFont(font(size * min(1.0, WIDEST_SHARE * radius / width), "semibold"))
    place = QRectF(middle.x() - radius, middle.y() - radius, 2 * radius, 2 * radius)
    painter.drawText(place, Qt.AlignmentFlag.AlignCenter, str(number))
