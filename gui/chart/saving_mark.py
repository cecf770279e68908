"""Over the curve: settled levels, the fall from "before" to the present, and the newest reading."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen, QPolygonF

from gui.chart.frame import FAR, Frame
from gui.chart.notes import Level, Notes, Saving
from gui.chart.part import Part
from gui.fonts import font
from gui.theme import Colours
from logger.overview import Columns

__all__ = ["SavingMark"]

ARROW_GAP = 14.0
SHORTEST_ARROW = 14.0
ROOM_FOR_WORDS = 62.0
TIP = 7.0
WORDS_HEIGHT = 42.0
BESIDE_ARROW = 11.0
LEVEL_HEIGHT, LEVEL_ASCENT = 16.0, 12.0
DASHES = (3.0, 2.0)
DOT = 5.5


class SavingMark(Part):
    """Draws the `Notes` that belong to voltages."""

    def __init__(self) -> None:
        super().__init__()
        self._notes = Notes()
        self._columns: Columns | None = None
        self._column = 1.0
        self._words_place: QRectF | None = None
        self._taken: list[QRectF] = []  # by words and the arrow, over which no words stand
        self._grounds: list[tuple[QRectF, bool]] = []  # of words, and whether the curve runs through
        self._moved_dots: list[QRect] = []  # what is to be painted again where nothing else has changed

    def show_notes(self, notes: Notes, columns: Columns, column: float) -> None:
        """Take what to draw, and the curve's columns (`column` pixels wide), so as not to write over it."""
        former = self._notes
        self._notes, self._columns, self._column = notes, columns, column
        self._moved_dots = []
        frame = self.frame
        if self.is_stale or frame is None or not self._keeps_its_words(former, frame):
            self.is_stale = True
        elif notes.last != former.last:
            self._moved_dots = [_around_dot(each.last, frame) for each in (former, notes) if each.last]
            self.is_stale = True

    def _keeps_its_words(self, former: Notes, frame: Frame) -> bool:
        """Tell whether in the same frame nothing looks different but the newest reading.

        Where a pixel of the design is not a whole number of the screen's, a part cannot be painted again
        without a seam.
        """
        notes = self._notes
        if replace(notes, last=None) != replace(former, last=None) or not (1 / self._column).is_integer():
            return False
        if notes.saving is not None and self._place_of_words(notes.saving, frame) != self._words_place:
            return False
        return all(self._is_crossed(place, frame) == was_crossed for place, was_crossed in self._grounds)

    def stale_places(self) -> list[QRect]:
        """Return where the newest reading was and where it is, if nothing else has changed."""
        dots, self._moved_dots = self._moved_dots, []
        corner = self.place.topLeft()
        return [dot.translated(corner).intersected(self.ground) for dot in dots] or [self.ground]

    def paint(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Paint levels, the saving and the last point."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._grounds = []
        saving = self._notes.saving
        self._words_place = None if saving is None else self._place_of_words(saving, frame)
        self._taken = []
        if saving is not None and self._words_place is not None:
            self._taken = [self._words_place, _around_arrow(saving, frame)]
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
                painter.drawEllipse(QPointF(x, y), DOT, DOT)

    def _paint_level(
        self, painter: QPainter, level: Level, runs_to_s: float, frame: Frame, colours: Colours
    ) -> None:
        left, end, right = frame.x(level.begin_s), frame.x(level.end_s), frame.x(runs_to_s)
        middle = frame.y(level.voltage_V)
        colour = QColor(getattr(colours, level.look))
        painter.setPen(QPen(colour, 1.2))
        painter.drawLine(QLineF(left, middle, right, middle))
        thick = QPen(colour, 3)
        if not level.is_settled:
            thick.setDashPattern(DASHES)
            thick.setCapStyle(Qt.PenCapStyle.FlatCap)
        painter.setPen(thick)
        painter.drawLine(QLineF(left, middle, end, middle))
        if level.text and 0 <= middle <= frame.height:
            painter.setFont(_level_font())
            metrics = QFontMetricsF(painter.font())
            text = metrics.elidedText(level.text, Qt.TextElideMode.ElideRight, frame.width - 4)
            room = self._room_for_level(level, metrics.horizontalAdvance(text), frame)
            if room is None:
                return
            self._taken.append(room)
            self._clear_if_crossed(painter, room, frame, colours)
            painter.setPen(colour)
            painter.drawText(QPointF(room.left(), room.top() + LEVEL_ASCENT), text)

    def _room_for_level(self, level: Level, width: float, frame: Frame) -> QRectF | None:
        """Return where the words of a level stand whole, or None: what was saved says more.

        Behind its end they stand on the side away from zero: the curve comes from there and leaves towards
        zero. Where the picture ends before, they stand under the line.
        """
        end, middle = frame.x(level.end_s), frame.y(level.voltage_V)
        above, below = middle - 8 - LEVEL_ASCENT, middle + 20 - LEVEL_ASCENT
        left, last = end + 6, frame.width
        if self._words_place is not None:  # then an arrow falls at the right
            last = self._words_place.right() + BESIDE_ARROW - TIP
        tops = (above, below) if level.voltage_V >= 0 else (below, above)
        if left + width > frame.width - 2:
            left, tops = max(min(end, last) - width, 2.0), (below, above)
        for top in tops:
            room = QRectF(left, top, width, LEVEL_HEIGHT)
            is_whole = room.top() >= 0 and room.bottom() <= frame.height
            if is_whole and not any(room.intersects(other) for other in self._taken):
                return room
        return None

    def _paint_saving(self, painter: QPainter, saving: Saving, frame: Frame, colours: Colours) -> None:
        if self._words_place is None:
            return
        x, top, bottom = _arrow(saving, frame)
        sign = 1.0 if bottom > top else -1.0
        colour = QColor(getattr(colours, saving.look))
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
        place = self._words_place
        self._clear_if_crossed(painter, place.adjusted(-4, -2, 4, 2), frame, colours)
        painter.setPen(colour)
        align = Qt.AlignmentFlag.AlignRight
        painter.setFont(_caption_font())
        painter.drawText(place, align | Qt.AlignmentFlag.AlignTop, saving.caption)
        painter.setFont(_value_font())
        painter.drawText(place, align | Qt.AlignmentFlag.AlignBottom, saving.value)

    def _place_of_words(self, saving: Saving, frame: Frame) -> QRectF | None:
        """Return the place beside the arrow where the curve leaves room, else beyond the level, else beside.

        None: the fall is too small to be drawn, or out of sight.
        """
        x, top, bottom = _arrow(saving, frame)
        if abs(bottom - top) < SHORTEST_ARROW or x < 0:
            return None
        width = max(
            QFontMetricsF(_caption_font()).horizontalAdvance(saving.caption),
            QFontMetricsF(_value_font()).horizontalAdvance(saving.value),
        )
        lowest = max(frame.height - WORDS_HEIGHT, 0.0)  # in a low picture they stand whole beside a part
        upper = min(max((top + bottom) / 2 - WORDS_HEIGHT / 2, 0.0), lowest)
        place = QRectF(x - BESIDE_ARROW - width, upper, width, WORDS_HEIGHT)
        if abs(bottom - top) >= ROOM_FOR_WORDS and not self._is_crossed(place, frame):
            return place
        beyond = QRectF(place)  # on the other side of the level
        beyond.moveTop(top - 8 - WORDS_HEIGHT if bottom > top else top + 8)
        is_free = not self._is_crossed(beyond, frame) and 0 <= beyond.top() <= lowest
        return beyond if is_free else place

    def _clear_if_crossed(self, painter: QPainter, place: QRectF, frame: Frame, colours: Colours) -> None:
        """Put a ground under words through which the curve runs."""
        is_crossed = self._is_crossed(place, frame)
        self._grounds.append((place, is_crossed))
        if is_crossed:
            ground = QColor(colours.paper)
            ground.setAlphaF(0.85)
            painter.fillRect(place, ground)

    def _is_crossed(self, place: QRectF, frame: Frame) -> bool:
        """Tell whether the curve passes through `place`."""
        if self._columns is None:
            return False
        first, last = int(place.left() / self._column), int(place.right() / self._column) + 1
        part = slice(max(first, 0), max(last, 0))
        high, low = self._columns.high[part], self._columns.low[part]
        # Also what leads from a column to the next: a jump stands in neither; NaN leads nowhere.
        high = np.concatenate((high, np.maximum(high[:-1], high[1:])))
        low = np.concatenate((low, np.minimum(low[:-1], low[1:])))
        with np.errstate(invalid="ignore"):
            crossed = (frame.y(high) < place.bottom() + 4) & (frame.y(low) > place.top() - 4)
        return bool(crossed.any())


def _around_dot(last: tuple[float, float], frame: Frame) -> QRect:
    """Return the pixels that the newest reading may cover."""
    reach = DOT + 2
    x, y = (min(max(v, -FAR), FAR) for v in (frame.x(last[0]), frame.y(last[1])))
    return QRectF(x - reach, y - reach, 2 * reach, 2 * reach).toAlignedRect()


def _arrow(saving: Saving, frame: Frame) -> tuple[float, float, float]:
    """Return where the arrow stands, where it begins and where it ends, in pixels within the frame."""
    x = min(frame.x(saving.at_s) + ARROW_GAP, frame.width - TIP)
    top = min(max(frame.y(saving.from_level.voltage_V), 0.0), frame.height)
    bottom = min(max(frame.y(saving.to_V), 0.0), frame.height)
    return x, top, bottom


def _around_arrow(saving: Saving, frame: Frame) -> QRectF:
    """Return the place that the arrow covers."""
    x, top, bottom = _arrow(saving, frame)
    return QRectF(QPointF(x - TIP, top), QPointF(x + TIP, bottom)).normalized()


def _level_font() -> QFont:
    return font(12.5, "medium")


def _caption_font() -> QFont:
    return font(12.5)


def _value_font() -> QFont:
    return font(20, "semibold")
