"""What is read off the curve: a hairline, a ring round the reading, and its words on a small card."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from gui.chart.frame import Frame
from gui.chart.part import Part
from gui.chart.reading_texts import ReadingWords
from gui.fonts import font
from gui.theme import Colours
from logger.reading_off import Reading

__all__ = ["ReadingMark"]

RING = 5.5
REACH_OF_RING = 9
AWAY = 14.0
EDGE = 6.0
PADDING_X, PADDING_Y = 11.0, 8.0
HEAD_LINE, LINE = 21.0, 17.0
BETWEEN = 14.0


class ReadingMark(Part):
    """Paints the reading that is read off, and the one it is compared with.

    Where it moves, only the places are painted again where it was and where it is: the rest of the curve
    keeps its picture.
    """

    def __init__(self) -> None:
        super().__init__()
        self._here: Reading | None = None
        self._since: Reading | None = None
        self._words: ReadingWords | None = None
        self._is_cursor = False
        self._painted: list[QRect] = []
        self.is_shown = False

    def show_reading(
        self, here: Reading | None, since: Reading | None, words: ReadingWords | None, *, is_cursor: bool
    ) -> None:
        """Take what to paint; `is_cursor` where the keyboard moves it."""
        new = here, since, words, is_cursor
        if new != (self._here, self._since, self._words, self._is_cursor):
            self._here, self._since, self._words, self._is_cursor = new
            self.is_shown, self.is_stale = words is not None, True

    def stale_places(self) -> list[QRect]:
        """Return where it was painted last and where it will be."""
        before = self._painted
        self._painted = [] if self.frame is None else [*self._places(self.frame)]
        corner = self.place.topLeft()
        return [rect.translated(corner).intersected(self.ground) for rect in (*before, *self._painted)]

    def paint(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Paint hairlines, rings and the card."""
        if self._here is None or self._words is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self._since is not None:
            self._paint_one(painter, self._since, frame, colours, is_other=True)
        self._paint_one(painter, self._here, frame, colours, is_other=False)
        self._paint_card(painter, self._card(frame), self._words, colours)

    def _paint_one(
        self, painter: QPainter, reading: Reading, frame: Frame, colours: Colours, *, is_other: bool
    ) -> None:
        if not frame.shows(reading.time_s):
            return
        x = round(frame.x(reading.time_s)) + 0.5
        pen = QPen(QColor(colours.ink if self._is_cursor else colours.outline), 1)
        if is_other:
            pen.setDashPattern([2, 3])
        painter.setPen(pen)
        painter.drawLine(QLineF(x, 0, x, frame.height))
        y = -1.0 if reading.value is None else frame.y(reading.value)
        if 0 <= y <= frame.height:
            painter.setPen(QPen(QColor(colours.ink), 1.8))
            painter.setBrush(QColor(colours.paper))
            painter.drawEllipse(QPointF(x, y), RING, RING)

    def _paint_card(self, painter: QPainter, card: QRectF, words: ReadingWords, colours: Colours) -> None:
        painter.setPen(QPen(QColor(colours.outline), 1))
        painter.setBrush(QColor(colours.raised))
        painter.drawRoundedRect(card, 8, 8)
        inner = card.adjusted(PADDING_X, PADDING_Y, -PADDING_X, -PADDING_Y)
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

    # ------------------------------------------------------------ where

    def _places(self, frame: Frame) -> list[QRect]:
        """Rectangles that the mark covers, in pixels of its place."""
        if self._here is None or self._words is None:
            return []
        found = [self._card(frame).adjusted(-2, -2, 2, 2).toAlignedRect()]
        for reading in (self._here, self._since):
            if reading is not None and frame.shows(reading.time_s):
                x = round(frame.x(reading.time_s))
                found.append(QRect(x - REACH_OF_RING, 0, 2 * REACH_OF_RING + 1, round(frame.height) + 1))
        return found

    def _card(self, frame: Frame) -> QRectF:
        """Beside the hairline where there is room, at the top unless the reading is there."""
        assert self._here is not None
        assert self._words is not None
        width, height = self._size(self._words, frame.height)
        width = min(width, frame.width - 2 * EDGE)
        x = min(max(frame.x(self._here.time_s), 0.0), frame.width)
        left = x + AWAY if x + AWAY + width <= frame.width - EDGE else x - AWAY - width
        value = self._here.value
        is_high = value is not None and frame.y(value) < height + 4 * EDGE
        top = frame.height - height - 2 * EDGE if is_high else EDGE
        return QRectF(
            min(max(left, EDGE), frame.width - EDGE - width),
            max(min(top, frame.height - height - 1), 0.5),
            width,
            height,
        )

    def _size(self, words: ReadingWords, room: float) -> tuple[float, float]:
        """Width and height; as many lines as `room` holds, the most important ones."""
        wide = QFontMetricsF(font(13)).horizontalAdvance(words.time) + BETWEEN
        wide += QFontMetricsF(font(15.5, "semibold")).horizontalAdvance(words.value)
        lesser = QFontMetricsF(font(12.5))
        wide = max(wide, *(lesser.horizontalAdvance(text) for text in words.more), 0.0)
        head = HEAD_LINE + 2 * PADDING_Y
        lines = min(len(words.more), max(int((room - head) / LINE), 0))
        return wide + 2 * PADDING_X + 1, head + lines * LINE
