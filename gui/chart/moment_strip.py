"""The strip over the curve: numbered flags, with labels where there is room."""

from __future__ import annotations

from typing import Any

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QApplication

from gui.chart.flag_layout import PITCH, Flag, are_too_many, lay_out
from gui.chart.frame import Frame
from gui.chart.item import draw_lines
from gui.chart.notes import times_of
from gui.disc import paint_disc
from gui.fonts import font
from gui.kind_words import kind_words, label_words, moment_words
from gui.numbers import clock_text
from gui.theme import Colours
from logger.moments import Moment

__all__ = ["MomentStrip"]

DISC = 8.5


class MomentStrip(pg.GraphicsWidget):
    """Flags of the moments in view.

    Attributes
    ----------
    chosen : emitted with a moment's id when its flag is clicked.
    moved : emitted with a moment's id and the run time to which its flag was dragged, once let go.
    """

    HEIGHT = 46
    chosen = Signal(str)
    moved = Signal(str, float)

    def __init__(self) -> None:
        super().__init__()
        self.setFixedHeight(self.HEIGHT)
        self.setAcceptHoverEvents(True)
        self._frame: Frame | None = None
        self._colours: Colours | None = None
        self._moments: tuple[Moment, ...] = ()
        self._flags: tuple[Flag, ...] = ()
        self._ticks = np.empty(0)
        self._pressed: Flag | None = None
        self._pressed_x = 0.0
        self._dragged_x: float | None = None
        self.is_movable = False
        """Whether flags can be dragged."""

    def show_moments(self, moments: tuple[Moment, ...], frame: Frame, colours: Colours) -> None:
        """Take all moments in order of time (their numbers count from 1) and the frame."""
        if (frame, colours) == (self._frame, self._colours) and moments == self._moments:
            return
        self._moments, self._frame, self._colours = moments, frame, colours
        times_s = times_of(moments)
        first, beyond = np.searchsorted(times_s, (frame.left_s, np.nextafter(frame.right_s, np.inf)))
        places = frame.x(times_s[first:beyond])
        self._flags, self._ticks = (), np.empty(0)
        if are_too_many(places.size, frame.width):
            self._ticks = np.unique(np.round(places)) + 0.5
        else:
            metrics = QFontMetricsF(font(13, "medium"))
            widths = [metrics.horizontalAdvance(moment_words(m)) + 2 for m in moments[first:beyond]]
            self._flags = lay_out(places.tolist(), widths, frame.width, int(first))
        self.update()

    def paint(self, painter: QPainter, *_unused: Any) -> None:
        """Paint flags, or ticks where there are too many."""
        if self._colours is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colour = QColor(self._colours.moment)
        middle = self.HEIGHT / 2 - 4
        painter.setPen(QPen(colour, 1))
        ends = np.full(self._ticks.size, middle - 5), self._ticks, np.full(self._ticks.size, middle + 5)
        draw_lines(painter, np.stack([self._ticks, *ends], axis=1))
        for flag in self._flags:
            if flag.x - flag.anchor_x > 1 or flag.anchor_x - flag.x > 1:
                painter.setPen(QPen(colour, 1))
                painter.drawLine(QLineF(flag.x, middle + DISC, flag.anchor_x, self.HEIGHT - 1))
            self._paint_flag(painter, flag, middle)
        if self._dragged_x is not None and self._pressed is not None:
            self._paint_dragged(painter, self._pressed, self._dragged_x, middle)

    def _paint_dragged(self, painter: QPainter, flag: Flag, x: float, middle: float) -> None:
        """The flag under the hand, with the time at which it would lie."""
        assert self._colours is not None
        assert self._frame is not None
        painter.setPen(QPen(QColor(self._colours.moment), 1.5))
        painter.drawLine(QLineF(x, middle, x, self.HEIGHT - 1))
        paint_disc(painter, QPointF(x, middle), DISC + 2, flag.index + 1, self._colours)
        words = clock_text(self._frame.time_s(x), 1)
        painter.setFont(font(13, "semibold"))
        width = QFontMetricsF(painter.font()).horizontalAdvance(words) + 12
        left = x + DISC + 6 if x + DISC + 6 + width < self._frame.width else x - DISC - 6 - width
        place = QRectF(left, middle - 11, width, 22)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(self._colours.moment))
        painter.drawRoundedRect(place, 6, 6)
        painter.setPen(QColor(self._colours.paper))
        painter.drawText(place, Qt.AlignmentFlag.AlignCenter, words)

    def _paint_flag(self, painter: QPainter, flag: Flag, middle: float) -> None:
        assert self._colours is not None
        colour = QColor(self._colours.moment)
        paint_disc(painter, QPointF(flag.x, middle), DISC, flag.index + 1, self._colours)
        if flag.label_room:
            painter.setFont(font(13, "medium"))
            painter.setPen(colour)
            words = QFontMetricsF(painter.font()).elidedText(
                moment_words(self._moments[flag.index]), Qt.TextElideMode.ElideRight, flag.label_room
            )
            place = QRectF(flag.x + DISC + 5, middle - 11, flag.label_room + 4, 22)
            painter.drawText(place, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)

    def hoverMoveEvent(self, event: Any) -> None:
        """Show the whole label of the flag under the pointer."""
        flag = self._flag_at(event.pos().x())
        self.setCursor(Qt.CursorShape.PointingHandCursor if flag else Qt.CursorShape.ArrowCursor)
        if flag is None:
            self.setToolTip("")
            return
        moment = self._moments[flag.index]
        kind = kind_words(moment.kind)
        label = f": {label_words(moment)}" if moment.label else ""
        self.setToolTip(f"{flag.index + 1}  {clock_text(moment.time_s, 1)}  {kind}{label}")

    def mousePressEvent(self, event: Any) -> None:
        """Take hold of a flag."""
        flag = self._flag_at(event.pos().x())
        if flag is None or event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        self._pressed, self._pressed_x, self._dragged_x = flag, event.pos().x(), None

    def mouseMoveEvent(self, event: Any) -> None:
        """Drag the flag along; it moves only once the hand has clearly moved."""
        if self._pressed is None or self._frame is None or not self.is_movable:
            return
        by = event.pos().x() - self._pressed_x
        if self._dragged_x is None and abs(by) < QApplication.startDragDistance():
            return
        self._dragged_x = min(max(self._pressed.anchor_x + by, 0.0), self._frame.width)
        self.update()

    def mouseReleaseEvent(self, _event: Any) -> None:
        """Choose the moment that was clicked, or move the one that was dragged."""
        flag, x = self._pressed, self._dragged_x
        self._pressed = self._dragged_x = None
        if flag is None or self._frame is None or flag.index >= len(self._moments):
            return
        moment_id = self._moments[flag.index].id
        if x is None:
            self.chosen.emit(moment_id)
        else:
            self.moved.emit(moment_id, max(self._frame.time_s(x), 0.0))
        self.update()

    def _flag_at(self, x: float) -> Flag | None:
        near = [
            f for f in self._flags if abs(f.x - x) <= PITCH / 2 + 1 or f.x < x < f.x + DISC + f.label_room
        ]
        return min(near, key=lambda f: abs(f.x - x), default=None)
