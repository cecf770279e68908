"""The axes: few marks, round numbers, one fixed unit, no line and no ticks."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QStaticText

from gui.chart.frame import Frame
from gui.chart.part import Part
from gui.chart.places import AXIS_WIDTH, LABELS_WIDTH, OVERHANG, STRIP_HEIGHT
from gui.fonts import font, font_within
from gui.numbers import time_label, voltage_label
from gui.theme import Colours
from logger.scale import marks

__all__ = ["TimeAxis", "VoltageAxis"]

TEXT_PX = 13
MOST_WORDS = 256
"""So many labels are kept laid out, 0.7 kB each: those of a zoom from a whole run to a second and back."""


class _Axis(Part):
    """An axis whose marks are given, not sought. A label keeps its layout: that is most of its cost."""

    ROOM = math.inf
    """Pixels that a label may be wide."""

    def __init__(self) -> None:
        super().__init__()
        self._step = 1.0
        self._font = font(TEXT_PX)
        self._laid_out: dict[str, tuple[QStaticText, float, float]] = {}

    def show_step(self, step: float) -> None:
        """Take the distance of the marks in the axis' unit."""
        if step != self._step:
            self._step, self.is_stale = step, True

    def paint(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Draw a text for each mark."""
        texts = self.texts(frame, self._step)
        self._take_font(texts)
        painter.setFont(self._font)
        painter.setPen(QColor(colours.quiet))
        for anchor, share, text in texts:
            words, width, height = self._words(text)
            painter.drawStaticText(QPointF(anchor.x() - share * width, anchor.y() - height / 2), words)

    def texts(self, frame: Frame, step: float) -> list[tuple[QPointF, float, str]]:
        """Return for each mark a point, which share of the words lies left of it, and the words."""
        raise NotImplementedError

    def _take_font(self, texts: list[tuple[QPointF, float, str]]) -> None:
        """Write smaller where a number would else lose its first digit at the edge."""
        if self._font.pixelSize() == TEXT_PX and all(self._words(t)[1] <= self.ROOM for _, _, t in texts):
            return  # as they were laid out: to measure them anew takes as long as to write them
        wanted = font_within((text for _, _, text in texts), self.ROOM, TEXT_PX)
        if wanted.pixelSize() != self._font.pixelSize():
            self._font = wanted
            self._laid_out.clear()

    def _words(self, text: str) -> tuple[QStaticText, float, float]:
        """Return the words laid out, their width and height."""
        found = self._laid_out.get(text)
        if found is None:
            if len(self._laid_out) >= MOST_WORDS:
                self._laid_out.clear()
            words = QStaticText(text)
            words.setTextFormat(Qt.TextFormat.PlainText)
            words.prepare(font=self._font)
            found = self._laid_out[text] = words, words.size().width(), words.size().height()
        return found


class VoltageAxis(_Axis):
    """Volts at the left."""

    UNIT_Y = -27.0
    ROOM = LABELS_WIDTH

    def depends_on(self, frame: Frame) -> object:
        """Nothing of time."""
        return frame.height, frame.low_V, frame.high_V

    def texts(self, frame: Frame, step: float) -> list[tuple[QPointF, float, str]]:
        """The unit on top, and right-aligned numbers at the height of the grid's lines."""
        places = [(frame.y(v), voltage_label(v, step)) for v in marks(frame.low_V, frame.high_V, step)]
        places.append((self.UNIT_Y, "V"))
        return [(QPointF(LABELS_WIDTH, STRIP_HEIGHT + y), 1.0, text) for y, text in places]


class TimeAxis(_Axis):
    """Run time below."""

    MIDDLE = 17.0 - OVERHANG
    ROOM_AT_END = 14

    def depends_on(self, frame: Frame) -> object:
        """Nothing of voltages."""
        return frame.width, frame.left_s, frame.right_s

    def texts(self, frame: Frame, step: float) -> list[tuple[QPointF, float, str]]:
        """Centred labels; one that would be cut off at the right is left out."""
        times_s = marks(max(frame.left_s, 0.0), frame.right_s, step)
        places = [(frame.x(time_s), time_label(time_s, step)) for time_s in times_s]
        last = frame.width - self.ROOM_AT_END
        return [(QPointF(AXIS_WIDTH + x, self.MIDDLE), 0.5, text) for x, text in places if x <= last]
