"""The small card that tells what is read off: when, how much, and what else is to be known."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from gui.chart.reading_texts import ReadingWords
from gui.fonts import font
from gui.theme import Colours

__all__ = ["PADDING_X", "PADDING_Y", "Card", "ReadingCard", "paint_ground"]

PADDING_X, PADDING_Y = 11.0, 8.0
HEAD_LINE, LINE = 21.0, 17.0
BETWEEN = 14.0


class Card(Protocol):
    """What is written on a card, with the size it takes; two alike are equal."""

    def size(self, width: float, height: float) -> tuple[float, float]:
        """Width and height in pixels, where there is so much room; never more than that."""

    def paint(self, painter: QPainter, place: QRectF, colours: Colours) -> None:
        """Paint it at `place`, which is of the size it asked for."""


def paint_ground(painter: QPainter, place: QRectF, colours: Colours) -> QRectF:
    """Paint an empty card; return where it is written on."""
    painter.setPen(QPen(QColor(colours.outline), 1))
    painter.setBrush(QColor(colours.raised))
    painter.drawRoundedRect(place, 8, 8)
    return place.adjusted(PADDING_X, PADDING_Y, -PADDING_X, -PADDING_Y)


@dataclass(frozen=True, slots=True)
class ReadingCard:
    """Tells one reading: time and value in its head, below it as many lines as there is room for."""

    words: ReadingWords

    def size(self, width: float, height: float) -> tuple[float, float]:
        """As wide as its longest line; where it is low, the most important lines."""
        words = self.words
        wide = QFontMetricsF(font(13)).horizontalAdvance(words.time) + BETWEEN
        wide += QFontMetricsF(font(15.5, "semibold")).horizontalAdvance(words.value)
        lesser = QFontMetricsF(font(12.5))
        wide = max(wide, *(lesser.horizontalAdvance(text) for text in words.more), 0.0)
        head = HEAD_LINE + 2 * PADDING_Y
        lines = min(len(words.more), max(int((height - head) / LINE), 0))
        return min(wide + 2 * PADDING_X + 1, width), head + lines * LINE

    def paint(self, painter: QPainter, place: QRectF, colours: Colours) -> None:
        """Paint head and lines."""
        words, inner = self.words, paint_ground(painter, place, colours)
        head = QRectF(inner.left(), inner.top(), inner.width(), HEAD_LINE)
        side = Qt.AlignmentFlag.AlignVCenter
        painter.setFont(font(13))
        painter.setPen(QColor(colours.quiet))
        painter.drawText(head, side | Qt.AlignmentFlag.AlignLeft, words.time)
        painter.setFont(font(15.5, "semibold"))
        painter.setPen(QColor(colours.ink))
        painter.drawText(head, side | Qt.AlignmentFlag.AlignRight, words.value)
        painter.setFont(font(12.5))
        painter.setPen(QColor(colours.quiet))
        fitting = round((inner.height() - HEAD_LINE) / LINE)
        for number, text in enumerate(words.more[:fitting]):
            line = QRectF(inner.left(), head.bottom() + number * LINE, inner.width(), LINE)
            elided = QFontMetricsF(painter.font()).elidedText(text, Qt.TextElideMode.ElideRight, line.width())
            painter.drawText(line, side | Qt.AlignmentFlag.AlignLeft, elided)
