"""The strip over the curve: numbered flags, with labels where there is room; ticks where they crowd."""

from __future__ import annotations

import math

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from gui.chart.flag_layout import PITCH, Flag, lay_out
from gui.chart.frame import Frame
from gui.chart.notes import times_of
from gui.chart.part import Part
from gui.chart.places import STRIP_HEIGHT
from gui.chart.strokes import draw_lines, rows_of
from gui.disc import paint_disc
from gui.fonts import font
from gui.kind_words import kind_words, label_words, moment_words
from gui.numbers import clock_text
from gui.theme import Colours
from logger.moments import Moment

__all__ = ["MomentStrip"]

DISC = 8.5
MIDDLE = STRIP_HEIGHT / 2 - 4
RING = 2.5
TICK_REACH = 5.0
"""Pixels from a tick within which it is meant."""


class MomentStrip(Part):
    """Flags of the moments in view.

    Attributes
    ----------
    chosen : emitted with a moment's id when its flag is clicked.
    moved : emitted with a moment's id and the run time to which its flag was dragged, once let go.
    """

    REACH = 11
    chosen = Signal(str)
    moved = Signal(str, float)

    def __init__(self) -> None:
        super().__init__()
        self._moments: tuple[Moment, ...] = ()
        self._flags: tuple[Flag, ...] = ()
        self._ticks = np.empty(0)
        self._crowd = np.empty(0)  # places of the moments that have a tick, not a flag
        self._crowded = np.empty(0, np.intp)  # which they are
        self._chosen_id = ""
        self._chosen_tick: Flag | None = None  # where the chosen moment is one of the crowd
        self._pressed: Flag | None = None
        self._pressed_id = ""
        self._pressed_x = 0.0
        self._dragged_x: float | None = None
        self.is_movable = False
        """Whether flags can be dragged."""
        self.until_s = math.inf
        """Up to here: the present of a run, the end of a recording. No moment lies beyond, or before 0."""

    def show_moments(self, moments: tuple[Moment, ...], frame: Frame, colours: Colours) -> None:
        """Take all moments in order of time (their numbers count from 1) and the frame."""
        if (frame, colours) == (self.frame, self.colours) and moments == self._moments:
            return
        self.is_stale = self.is_stale or moments != self._moments
        self._moments = moments
        self.show_frame(frame, colours)
        self._flags, self._ticks = (), np.empty(0)
        self._crowd, self._crowded = np.empty(0), np.empty(0, np.intp)
        self._chosen_tick = None
        if not moments:
            return
        times_s = times_of(moments)
        first, beyond = np.searchsorted(times_s, (frame.left_s, np.nextafter(frame.right_s, np.inf)))
        places = frame.x(times_s[first:beyond])
        metrics = QFontMetricsF(font(13, "medium"))

        def label_width(number: int) -> float:
            return metrics.horizontalAdvance(moment_words(moments[first + number])) + 2

        self._flags = lay_out(places, label_width, frame.width, int(first))
        has_tick = np.ones(places.size, bool)
        has_tick[[flag.index - int(first) for flag in self._flags]] = False
        self._crowd = places[has_tick]
        self._crowded = np.flatnonzero(has_tick) + int(first)
        at = np.round(self._crowd)  # in order: what is double stands side by side
        self._ticks = at[np.append(True, at[1:] != at[:-1])[: at.size]] + 0.5
        self._chosen_tick = self._find_chosen_tick()

    def show_chosen(self, moment_id: str) -> None:
        """Mark the flag of the moment that is chosen elsewhere; empty: of none."""
        if moment_id != self._chosen_id:
            self._chosen_id, self.is_stale = moment_id, True
            self._chosen_tick = self._find_chosen_tick()

    def depends_on(self, frame: Frame) -> object:
        """Nothing where there is no moment, else nothing of voltages."""
        return (frame.width, frame.left_s, frame.right_s) if self._moments else None

    def paint(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Paint flags, or ticks where there are too many."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colour = QColor(colours.moment)
        middle = MIDDLE
        painter.setPen(QPen(colour, 1))
        draw_lines(painter, rows_of(self._ticks, middle - 5, self._ticks, middle + 5))
        for flag in self._flags:
            if flag.x - flag.anchor_x > 1 or flag.anchor_x - flag.x > 1:
                painter.setPen(QPen(colour, 1))
                painter.drawLine(QLineF(flag.x, middle + DISC, flag.anchor_x, STRIP_HEIGHT - 1))
            self._paint_flag(painter, flag, middle, colours)
        self._paint_chosen(painter, middle, colours)
        if self._dragged_x is not None and self._pressed is not None:
            self._paint_dragged(painter, self._pressed, self._dragged_x, middle)

    def _paint_chosen(self, painter: QPainter, middle: float, colours: Colours) -> None:
        """A ring about the flag of the chosen moment; where there are only ticks, its number too."""
        flag = next((f for f in self._flags if self._moments[f.index].id == self._chosen_id), None)
        if flag is None and (flag := self._chosen_tick) is not None:
            paint_disc(painter, QPointF(flag.x, middle), DISC, flag.index + 1, colours)
        if flag is not None:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(colours.ink), 2))
            painter.drawEllipse(QPointF(flag.x, middle), DISC + RING, DISC + RING)

    def _find_chosen_tick(self) -> Flag | None:
        if not self._chosen_id:
            return None
        seen = (self._moments[i].id for i in self._crowded)
        number = next((i for i, one in enumerate(seen) if one == self._chosen_id), None)
        return None if number is None else self._tick(number)

    def _tick(self, number: int) -> Flag:
        x = float(self._crowd[number])
        return Flag(int(self._crowded[number]), x, x, 0.0)

    def _paint_dragged(self, painter: QPainter, flag: Flag, x: float, middle: float) -> None:
        """The flag under the hand, with the time at which it would lie."""
        assert self.colours is not None
        assert self.frame is not None
        painter.setPen(QPen(QColor(self.colours.moment), 1.5))
        painter.drawLine(QLineF(x, middle, x, STRIP_HEIGHT - 1))
        paint_disc(painter, QPointF(x, middle), DISC + 2, flag.index + 1, self.colours)
        words = clock_text(self.frame.time_s(x), 1)
        painter.setFont(font(13, "semibold"))
        width = QFontMetricsF(painter.font()).horizontalAdvance(words) + 12
        left = x + DISC + 6 if x + DISC + 6 + width < self.frame.width else x - DISC - 6 - width
        place = QRectF(left, middle - 11, width, 22)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(self.colours.moment))
        painter.drawRoundedRect(place, 6, 6)
        painter.setPen(QColor(self.colours.paper))
        painter.drawText(place, Qt.AlignmentFlag.AlignCenter, words)

    def _paint_flag(self, painter: QPainter, flag: Flag, middle: float, colours: Colours) -> None:
        colour = QColor(colours.moment)
        paint_disc(painter, QPointF(flag.x, middle), DISC, flag.index + 1, colours)
        if flag.label_room:
            painter.setFont(font(13, "medium"))
            painter.setPen(colour)
            words = QFontMetricsF(painter.font()).elidedText(
                moment_words(self._moments[flag.index]), Qt.TextElideMode.ElideRight, flag.label_room
            )
            place = QRectF(flag.x + DISC + 5, middle - 11, flag.label_room + 4, 22)
            painter.drawText(place, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)

    # ------------------------------------------------------------ the mouse

    def takes(self, at: QPointF) -> bool:
        """Where there is a flag or its label."""
        return self._flag_at(at.x()) is not None

    def cursor(self, at: QPointF) -> Qt.CursorShape:
        """A flag can be clicked."""
        return Qt.CursorShape.PointingHandCursor

    def tip(self, at: QPointF) -> str:
        """The whole label of the flag under the pointer."""
        flag = self._flag_at(at.x())
        if flag is None or flag.index >= len(self._moments):
            return ""
        moment = self._moments[flag.index]
        kind = kind_words(moment.kind)
        label = f": {label_words(moment)}" if moment.label else ""
        return f"{flag.index + 1}  {clock_text(moment.time_s, 1)}  {kind}{label}"

    def press(self, at: QPointF) -> None:
        """Take hold of a flag."""
        flag = self._pressed = self._flag_at(at.x())
        self._pressed_x, self._dragged_x = at.x(), None
        # Others may come or go while it is held, and their numbers with them.
        self._pressed_id = "" if flag is None else self._moments[flag.index].id

    def drag(self, at: QPointF) -> None:
        """Drag the flag along."""
        if self._pressed is None or self.frame is None or not self.is_movable:
            return
        x = self._pressed.anchor_x + at.x() - self._pressed_x
        first_x, last_x = max(self.frame.x(0.0), 0.0), min(self.frame.x(self.until_s), self.frame.width)
        self._dragged_x = min(max(x, first_x), last_x)
        self.is_stale = True

    def release(self, at: QPointF) -> None:
        """Choose the moment that was clicked, or move the one that was dragged."""
        flag, x = self._pressed, self._dragged_x
        self._pressed = self._dragged_x = None
        self.is_stale = True
        if flag is None or self.frame is None:
            return
        if x is None:
            self.chosen.emit(self._pressed_id)
        else:
            self.moved.emit(self._pressed_id, min(max(self.frame.time_s(x), 0.0), self.until_s))

    def _flag_at(self, x: float) -> Flag | None:
        if self._chosen_tick is not None and abs(self._chosen_tick.x - x) <= DISC + RING:
            return self._chosen_tick  # its disc lies over all others
        near = [
            f for f in self._flags if abs(f.x - x) <= PITCH / 2 + 1 or f.x < x < f.x + DISC + f.label_room
        ]
        if not near and self._crowd.size:
            number = int(np.abs(self._crowd - x).argmin())
            return self._tick(number) if abs(self._crowd[number] - x) <= TICK_REACH else None
        return min(near, key=lambda f: abs(f.x - x), default=None)
