"""The axes: few marks, round numbers, one fixed unit, no line and no ticks."""

from __future__ import annotations

import pyqtgraph as pg
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from gui.chart.frame import Frame
from gui.fonts import font
from gui.numbers import time_label, voltage_label
from gui.theme import Colours
from logger.scale import marks

__all__ = ["TimeAxis", "VoltageAxis"]

TEXT_PX = 13
UNSEEN = QPen(QColor(0, 0, 0, 0))  # pyqtgraph draws the axis' own line; a NoPen leaves a dot there


class _Axis(pg.AxisItem):
    """An axis whose marks are given, not sought."""

    def __init__(self, side: str) -> None:
        super().__init__(side, pen=UNSEEN)
        self._frame: Frame | None = None
        self._step = 1.0
        self._words: list[tuple[QRectF, int, str]] = []
        self._font = font(TEXT_PX)
        self.setStyle(tickFont=self._font)
        self.setZValue(-1)

    def show_frame(self, frame: Frame, step: float, colours: Colours) -> None:
        """Take the frame, the distance of the marks in the axis' unit, and colours."""
        pen = QPen(QColor(colours.quiet))
        if (frame, step) == (self._frame, self._step) and pen == self.textPen():
            return
        self._frame, self._step = frame, step
        if pen != self.textPen():
            self.setTextPen(pen)
        self._words = self.texts(frame, step)
        self.update()

    def paint(self, painter: QPainter, *_unused: object) -> None:
        """Draw a text for each mark; the library's own way takes twice the time."""
        painter.setFont(self._font)
        painter.setPen(self.textPen())
        for rect, align, text in self._words:
            painter.drawText(rect, align, text)

    def boundingRect(self) -> QRectF:
        """Room for labels that reach beyond the ends of the axis."""
        rect: QRectF = super().boundingRect()
        return rect.adjusted(-30, -40, 30, 10)

    def texts(self, frame: Frame, step: float) -> list[tuple[QRectF, int, str]]:
        """Return place, alignment and words of each mark."""
        raise NotImplementedError


class VoltageAxis(_Axis):
    """Volts at the left."""

    WIDTH = 58
    UNIT_Y = -27.0

    def __init__(self) -> None:
        super().__init__("left")
        self.setWidth(self.WIDTH)

    def texts(self, frame: Frame, step: float) -> list[tuple[QRectF, int, str]]:
        """The unit on top, and right-aligned numbers at the height of the grid's lines."""
        align = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        places = [(frame.y(v), voltage_label(v, step)) for v in marks(frame.low_V, frame.high_V, step)]
        places.append((self.UNIT_Y, "V"))
        return [(QRectF(0, y - 10, self.WIDTH - 12, 20), align, text) for y, text in places]


class TimeAxis(_Axis):
    """Run time below."""

    HEIGHT = 34
    ROOM_AT_END = 14

    def __init__(self) -> None:
        super().__init__("bottom")
        self.setHeight(self.HEIGHT)

    def texts(self, frame: Frame, step: float) -> list[tuple[QRectF, int, str]]:
        """Centred labels; one that would be cut off at the right is left out."""
        align = int(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignVCenter)
        return [
            (QRectF(frame.x(t) - 50, 6, 100, 22), align, time_label(t, step))
            for t in marks(max(frame.left_s, 0.0), frame.right_s, step)
            if frame.x(t) <= frame.width - self.ROOM_AT_END
        ]
