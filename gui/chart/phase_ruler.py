"""Phases of the run, laid under the time axis like a ruler, and where the voltage had settled."""

from __future__ import annotations

from typing import Any

import pyqtgraph as pg
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter

from gui.chart.frame import Frame
from gui.chart.notes import Level, PhaseBand
from gui.fonts import font
from gui.message_words import message_words
from gui.theme import Colours

__all__ = ["PhaseRuler"]

BAND = 22.0
PARTING = 2.0


class PhaseRuler(pg.GraphicsWidget):
    """Bands with names, and a line under each settled stretch."""

    HEIGHT = 30

    def __init__(self) -> None:
        super().__init__()
        self.setFixedHeight(self.HEIGHT)
        self._frame: Frame | None = None
        self._colours: Colours | None = None
        self._phases: tuple[PhaseBand, ...] = ()
        self._levels: tuple[Level, ...] = ()
        self._now_s = 0.0

    def show_phases(
        self,
        phases: tuple[PhaseBand, ...],
        levels: tuple[Level, ...],
        now_s: float,
        frame: Frame,
        colours: Colours,
    ) -> None:
        """Take phases, settled stretches and the present run time, at which an open phase ends."""
        self._phases, self._levels, self._now_s = phases, levels, now_s
        self._frame, self._colours = frame, colours
        self.update()

    def paint(self, painter: QPainter, *_unused: Any) -> None:
        """Paint bands and lines."""
        if self._frame is None or self._colours is None:
            return
        frame, colours = self._frame, self._colours
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setClipRect(QRectF(0, 0, frame.width, self.HEIGHT))
        painter.setFont(font(12.5))
        for phase in self._phases:
            end_s = self._now_s if phase.end_s is None else phase.end_s
            left, right = frame.x(phase.begin_s), frame.x(end_s)
            if right < 0 or left > frame.width:
                continue
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(colours.band))
            painter.drawRoundedRect(QRectF(left, 0, max(right - left - PARTING, 2.0), BAND), 4, 4)
            text_left, text_right = max(left, 0.0) + 10, min(right, frame.width) - 6
            words = message_words(phase.name)
            if QFontMetricsF(painter.font()).horizontalAdvance(words) <= text_right - text_left:
                painter.setPen(QColor(colours.ink))
                place = QRectF(text_left, 0, text_right - text_left, BAND)
                painter.drawText(place, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.settled))
        for level in self._levels:
            left, right = frame.x(level.begin_s), frame.x(level.end_s)
            painter.drawRoundedRect(QRectF(left, BAND + 1.5, max(right - left, 2.0), 3), 1.5, 1.5)
