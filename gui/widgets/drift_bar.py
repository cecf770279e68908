"""The drift as what it is: an interval, against the settling limit."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from gui.fonts import font
from gui.numbers import plain, short
from gui.theme import Theme
from gui.words import translate

__all__ = ["DriftBar"]

HALF_SCALE = 2.4
"""The scale reaches this many settling limits to either side of zero."""

BAR_Y = 14.0
EDGE = 14.0
"""Room at either end for the whole of a dot there, and for the arrow that says: further out."""


class DriftBar(QWidget):
    """A dark bar (the 90 % interval of the drift) and a green one (the settling limit).

    When the dark bar lies inside the green one, the voltage has settled. An interval beyond the scale is
    cut off with an arrow tip.
    """

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._limit = 5.0
        self._drift: float | None = None
        self._interval: tuple[float, float] | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(translate("Live panel", "Drift against the settling limit"))
        theme.changed.connect(self.update)

    def show_drift(self, drift: float | None, interval: tuple[float, float] | None, limit: float) -> None:
        """Take the drift, its interval and the limit, all in mV/min."""
        if (drift, interval, limit) == (self._drift, self._interval, self._limit):
            return
        self._drift, self._interval, self._limit = drift, interval, limit
        if drift is None:
            words = translate("Live panel", "Drift not known, limit {limit}").format(limit=short(limit))
        else:
            words = translate("Live panel", "Drift {drift} millivolts a minute, limit {limit}").format(
                drift=plain(drift, 1), limit=short(limit)
            )
        self.setAccessibleDescription(words)
        self.update()

    def sizeHint(self) -> QSize:
        """A bar with its scale."""
        return QSize(300, 46)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint scale, limit and interval."""
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            self._paint_scale(painter)
            if self._drift is not None:
                self._paint_interval(painter, self._drift)
        finally:
            painter.end()

    def _x(self, drift: float) -> float:
        half = self.width() / 2 - EDGE
        return self.width() / 2 + half * drift / (HALF_SCALE * self._limit)

    def _paint_scale(self, painter: QPainter) -> None:
        colours = self._theme.colours
        left, right = self._x(-self._limit), self._x(self._limit)
        painter.setPen(QPen(QColor(colours.outline), 1.5))
        painter.drawLine(QLineF(0, BAR_Y, self.width(), BAR_Y))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.settled_soft))
        painter.drawRoundedRect(QRectF(left, BAR_Y - 8, right - left, 16), 8, 8)
        painter.setPen(QPen(QColor(colours.outline), 1))
        painter.drawLine(QLineF(self._x(0), BAR_Y - 10, self._x(0), BAR_Y + 10))
        painter.setFont(font(12))
        painter.setPen(QColor(colours.quiet))
        limit = short(self._limit)
        for x, text in ((left, f"−{limit}"), (self._x(0), "0"), (right, f"+{limit} mV/min")):
            place = QRectF(x - 60, BAR_Y + 13, 120, 18)
            if "min" in text:
                place.moveLeft(x - 12)
                painter.drawText(place, Qt.AlignmentFlag.AlignLeft, text)
            else:
                painter.drawText(place, Qt.AlignmentFlag.AlignHCenter, text)

    def _paint_interval(self, painter: QPainter, drift: float) -> None:
        reach = HALF_SCALE * self._limit
        low, high = self._interval or (drift, drift)
        left, right = self._x(max(low, -reach)), self._x(min(high, reach))
        pen = QPen(QColor(self._theme.colours.ink), 4.5)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setPen(pen)
        if right > left and high > -reach and low < reach:
            painter.drawLine(QLineF(left + 2, BAR_Y, right - 2, BAR_Y))
        if abs(drift) <= reach:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(self._theme.colours.ink))
            painter.drawEllipse(QPointF(self._x(drift), BAR_Y), 6, 6)
        thin = QPen(QColor(self._theme.colours.ink), 2)
        thin.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setPen(thin)
        for beyond, x, sign in ((low < -reach, 2.0, 1), (high > reach, self.width() - 2.0, -1)):
            if beyond:
                painter.drawLine(QLineF(x, BAR_Y, x + sign * 6, BAR_Y - 5))
                painter.drawLine(QLineF(x, BAR_Y, x + sign * 6, BAR_Y + 5))
