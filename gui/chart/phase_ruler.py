"""Phases of the run, laid under the time axis like a ruler, and where the voltage had settled."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter

from gui.chart.frame import Frame
from gui.chart.notes import Level, PhaseBand
from gui.chart.part import Part
from gui.fonts import font
from gui.message_words import message_words
from gui.theme import Colours

__all__ = ["PhaseRuler"]

BAND = 22.0
PARTING = 2.0


class PhaseRuler(Part):
    """Bands with names, and a line under each settled stretch."""

    def __init__(self) -> None:
        super().__init__()
        self._phases: tuple[PhaseBand, ...] = ()
        self._levels: tuple[Level, ...] = ()
        self._now_s = 0.0

    def show_phases(self, phases: tuple[PhaseBand, ...], levels: tuple[Level, ...], now_s: float) -> None:
        """Take phases, settled stretches and the present run time, at which an open phase ends."""
        is_open = bool(phases) and phases[-1].end_s is None
        if (phases, levels) != (self._phases, self._levels) or (is_open and now_s != self._now_s):
            self.is_stale = True
        self._phases, self._levels, self._now_s = phases, levels, now_s

    def depends_on(self, frame: Frame) -> object:
        """Nothing where there is no phase or level, else nothing of voltages."""
        return (frame.width, frame.left_s, frame.right_s) if self._phases or self._levels else None

    def paint(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Paint bands and lines."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
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
        for level in self._levels:
            painter.setBrush(QColor(getattr(colours, level.look)))
            left, right = frame.x(level.begin_s), frame.x(level.end_s)
            painter.drawRoundedRect(QRectF(left, BAND + 1.5, max(right - left, 2.0), 3), 1.5, 1.5)
