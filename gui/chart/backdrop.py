"""Behind the curve: grid of voltages, how sure the settled levels are, threads from the moments' flags."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from gui.chart.frame import Frame
from gui.chart.notes import Notes, times_of
from gui.chart.part import Part
from gui.chart.strokes import draw_lines, rows_of
from gui.theme import Colours
from logger.scale import marks

__all__ = ["Backdrop"]

LEAST_BAND = 5.0
MOST_THREADS = 60
"""With more moments in view than this, threads would hide the curve; the flags and ticks remain."""


class Backdrop(Part):
    """Draws few horizontal lines and one dotted thread for each moment."""

    def __init__(self) -> None:
        super().__init__()
        self._step_V = 0.05
        self._notes = Notes()

    def show_grid(self, step_V: float, notes: Notes) -> None:
        """Take the distance of the lines in volts, and the notes; the newest reading is not shown here."""
        notes = replace(notes, last=None)
        if (step_V, notes) != (self._step_V, self._notes):
            self._step_V, self._notes, self.is_stale = step_V, notes, True

    def paint(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Paint lines and threads."""
        self._paint_levels(painter, frame, colours)
        rule = QColor(colours.rule)
        for voltage_V in marks(frame.low_V, frame.high_V, self._step_V):
            painter.fillRect(QRectF(0, round(frame.y(voltage_V)), frame.width, 1), rule)
        if not self._notes.moments:
            return
        times_s = times_of(self._notes.moments)
        first, beyond = np.searchsorted(times_s, (frame.left_s, np.nextafter(frame.right_s, np.inf)))
        if not 0 < beyond - first <= MOST_THREADS:
            return
        pen = QPen(QColor(colours.outline), 1, Qt.PenStyle.CustomDashLine)
        pen.setDashPattern([1, 4])
        painter.setPen(pen)
        columns = np.unique(np.round(frame.x(times_s[first:beyond]))) + 0.5
        draw_lines(painter, rows_of(columns, 0.0, columns, frame.height))

    def _paint_levels(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """A soft band from end to end of each level: its 95 % interval, at least a few pixels."""
        saving = self._notes.saving
        for level in self._notes.levels:
            soft = QColor(getattr(colours, level.ground))
            soft.setAlphaF(0.6)
            end_s = saving.at_s if saving and saving.from_level == level else level.end_s
            left, right = frame.x(level.begin_s), frame.x(end_s)
            top = frame.y(level.voltage_V + level.uncertainty_V)
            height = max(frame.y(level.voltage_V - level.uncertainty_V) - top, LEAST_BAND)
            middle = frame.y(level.voltage_V)
            painter.fillRect(QRectF(left, middle - height / 2, right - left, height), soft)
