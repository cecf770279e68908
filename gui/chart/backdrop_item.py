"""Behind the curve: the grid of voltages and the threads that hang from the moments' flags."""

from __future__ import annotations

import pyqtgraph as pg
from PySide6.QtCore import QLineF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from gui.chart.frame import Frame
from gui.chart.item import ChartItem
from gui.theme import Colours
from logger.moments import Moment
from logger.scale import marks

__all__ = ["BackdropItem"]

MOST_THREADS = 60
"""With more moments in view than this, threads would hide the curve; the flags and ticks remain."""


class BackdropItem(ChartItem):
    """Draws few horizontal lines and one dotted thread for each moment."""

    def __init__(self, view: pg.ViewBox) -> None:
        super().__init__(view, depth=5)
        self._step_V = 0.05
        self._moments: tuple[Moment, ...] = ()

    def show_grid(self, step_V: float, moments: tuple[Moment, ...]) -> None:
        """Take the distance of the lines in volts, and the moments."""
        self._step_V, self._moments = step_V, moments
        self.update()

    def paint_in(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Paint lines and threads."""
        painter.setPen(QPen(QColor(colours.rule), 1))
        rows = [round(frame.y(v)) + 0.5 for v in marks(frame.low_V, frame.high_V, self._step_V)]
        painter.drawLines([QLineF(0, y, frame.width, y) for y in rows])
        seen = [m.time_s for m in self._moments if frame.shows(m.time_s)]
        if len(seen) > MOST_THREADS:
            return
        pen = QPen(QColor(colours.outline), 1, Qt.PenStyle.CustomDashLine)
        pen.setDashPattern([1, 4])
        painter.setPen(pen)
        columns = sorted({round(frame.x(t)) for t in seen})
        painter.drawLines([QLineF(x + 0.5, 0, x + 0.5, frame.height) for x in columns])
