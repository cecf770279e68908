"""The chart: curve, axes, flags and phases in one view, and which part of the run it shows."""

from __future__ import annotations

import time
from typing import Any

import pyqtgraph as pg
from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPaintEvent
from PySide6.QtWidgets import QFrame, QGraphicsScene, QSizePolicy, QWidget

from gui.chart.axes import TimeAxis, VoltageAxis
from gui.chart.backdrop_item import BackdropItem
from gui.chart.curve_item import CurveItem
from gui.chart.frame import Frame
from gui.chart.gestures import TimeViewBox
from gui.chart.moment_strip import MomentStrip
from gui.chart.notes import Notes
from gui.chart.phase_ruler import PhaseRuler
from gui.chart.saving_item import SavingItem
from gui.chart.time_window import TimeWindow
from gui.theme import Colours, Theme
from logger.overview import Overview
from logger.scale import Range, round_step, steady_range, time_step, voltages_to_show
from logger.trace import trace

__all__ = ["Chart"]

EMPTY_V: Range = (0.0, 3.0)
PIXELS_A_VOLTAGE_MARK = 46.0
PIXELS_A_TIME_MARK = 130.0
KEY_SHARE = 0.1
REST_SHARE = 1.5
"""Between two pictures of a run that goes on the chart rests for so many times as long as the last one took:
following never takes more than two fifths of a core."""
SHORTEST_REST_S = 0.004

RIGHT_MARGIN = 14


class Chart(pg.GraphicsView):
    """Shows one `Overview` and the `Notes` on it. `refresh` draws what is new; call it once a frame.

    Attributes
    ----------
    moment_chosen : emitted with a moment's id when its flag is clicked.
    moment_moved : emitted with a moment's id and a run time when its flag was dragged there.
    looked : emitted with nothing when following, zoom or place has changed.
    """

    moment_chosen = Signal(str)
    moment_moved = Signal(str, float)
    looked = Signal()

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent, background=theme.colours.paper)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("Curve of the cell voltage")
        self._theme = theme
        self.window_of_time = TimeWindow()
        self.frame: Frame | None = None
        self._overview = Overview()
        self._notes = Notes()
        self._now_s = 0.0
        self._is_live = True
        self._range_V: Range | None = None
        self._picture: tuple[Any, ...] | None = None
        self._drawn_s = self._drawing_s = self._painting_s = 0.0
        self._build()
        theme.changed.connect(self._recolour)

    def _build(self) -> None:
        self.view = TimeViewBox()
        self._voltage_axis, self._time_axis = VoltageAxis(), TimeAxis()
        self.strip, self.ruler = MomentStrip(), PhaseRuler()
        layout = pg.GraphicsLayout()
        layout.setContentsMargins(0, 0, RIGHT_MARGIN, 0)
        layout.setSpacing(0)
        layout.addItem(self.strip, 0, 1)
        layout.addItem(self._voltage_axis, 1, 0)
        layout.addItem(self.view, 1, 1)
        layout.addItem(self._time_axis, 2, 1)
        layout.addItem(self.ruler, 3, 1)
        self.setCentralItem(layout)
        # Nearly everything is new in every picture: to seek what is costs more than to paint it.
        self.setViewportUpdateMode(pg.GraphicsView.ViewportUpdateMode.FullViewportUpdate)
        self.scene().setItemIndexMethod(QGraphicsScene.ItemIndexMethod.NoIndex)
        self.viewport().setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self._backdrop, self._curve = BackdropItem(self.view), CurveItem(self.view)
        self._saving = SavingItem(self.view)
        self.view.zoomed.connect(self._zoom_at)
        self.view.dragged.connect(lambda share: self._look(self.window_of_time.move_by_share, -share))
        self.view.sigResized.connect(lambda _view: self.refresh(self._now_s))
        self.strip.chosen.connect(self.moment_chosen)
        self.strip.moved.connect(self.moment_moved)

    def minimumSizeHint(self) -> QSize:
        """Small enough for a school laptop."""
        return QSize(260, 150)

    # ------------------------------------------------------------ what is shown

    def show_overview(self, overview: Overview, *, is_live: bool) -> None:
        """Show the curve of `overview`; `is_live` tells that samples are still coming."""
        self._overview, self._is_live = overview, is_live
        self._range_V = self._picture = None
        self.window_of_time = TimeWindow(is_live=is_live)
        self.looked.emit()

    def show_notes(self, notes: Notes) -> None:
        """Show moments, phases, levels and saving from the next refresh on."""
        self._notes = notes

    def show_whole_run(self) -> None:
        """Show the whole run, and follow it."""
        self._look(self.window_of_time.whole_run)

    def toggle_following(self) -> None:
        """Follow the newest samples, or stand still."""
        self._look(self.window_of_time.toggle_following)

    @property
    def rest_s(self) -> float:
        """Host seconds for which what comes by itself is to wait, because a picture was drawn so lately."""
        rest_s = max(REST_SHARE * (self._drawing_s + self._painting_s), SHORTEST_REST_S)
        return max(0.0, self._drawn_s + rest_s - time.monotonic())

    def refresh(self, now_s: float) -> bool:
        """Draw what has changed by run time `now_s`; return whether anything had to be drawn."""
        self._now_s = now_s
        if self.closed:  # pyqtgraph has cleared the scene already
            return False
        width, height = self.view.width(), self.view.height()
        columns = int(width * self.devicePixelRatioF())
        if columns < 2 or height < 2:
            return False
        extent = self._overview.extent_s
        first_s, last_s = extent or (0.0, 0.0)
        window = self.window_of_time
        window.run_spans(
            first_s,
            max(now_s, last_s) if self._is_live else last_s,
            is_live=self._is_live,
            sample_every_s=(last_s - first_s) / max(len(self._overview), 1),
        )
        stretch = window.stretch(columns)
        notes = self._notes
        picture = (
            stretch, width, height, columns, len(self._overview.gaps_s), self._theme.colours,
            int(self._now_s / (stretch[1] - stretch[0]) * columns) if self._is_live else 0,
            notes.moments, notes.phases, notes.levels, len(self._overview), notes.saving, notes.last,
        )  # fmt: skip
        if picture == self._picture:
            return False
        self._picture = picture
        begin_s = time.monotonic()
        self._draw(stretch, width, height, columns)
        self._drawn_s = time.monotonic()
        self._drawing_s = self._drawn_s - begin_s
        return True

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint, and note how long it takes."""
        begin_s = time.monotonic()
        super().paintEvent(event)
        self._drawn_s = time.monotonic()
        self._painting_s = self._drawn_s - begin_s

    def _draw(self, stretch: Range, width: float, height: float, columns: int) -> None:
        left_s, right_s = stretch
        found = trace(self._overview, left_s, (right_s - left_s) / columns, columns)
        wanted = voltages_to_show(found.columns.low, found.columns.high)
        if wanted is not None:
            self._range_V = steady_range(wanted, self._range_V)
        low_V, high_V = self._range_V or EMPTY_V
        frame = self.frame = Frame(width, height, left_s, right_s, low_V, high_V)
        colours, notes = self._theme.colours, self._notes
        step_V = round_step(high_V - low_V, max(height / PIXELS_A_VOLTAGE_MARK, 2))
        step_s = time_step(right_s - left_s, max(width / PIXELS_A_TIME_MARK, 2))
        self._voltage_axis.show_frame(frame, step_V, colours)
        self._time_axis.show_frame(frame, step_s, colours)
        for item in (self._backdrop, self._curve, self._saving):
            item.show_frame(frame, colours)
        self._backdrop.show_grid(step_V, notes)
        self._curve.show_trace(found, width / columns, self._overview.gaps_s, self._overview.overloads_s)
        self._saving.show_notes(notes, found.columns, width / columns)
        self.strip.show_moments(notes.moments, frame, colours)
        self.ruler.show_phases(notes.phases, notes.levels, self._now_s, frame, colours)

    def _recolour(self) -> None:
        self.setBackground(self._theme.colours.paper)
        self.refresh(self._now_s)

    @property
    def colours(self) -> Colours:
        """The palette in use."""
        return self._theme.colours

    # ------------------------------------------------------------ gestures

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows move in time, + and - zoom, Home shows the whole run, End follows."""
        window, key = self.window_of_time, event.key()
        if key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            self._look(window.move_by_share, KEY_SHARE if key == Qt.Key.Key_Right else -KEY_SHARE)
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self._zoom_at(0.8, 0.5)
        elif key in (Qt.Key.Key_Minus, Qt.Key.Key_Underscore):
            self._zoom_at(1.25, 0.5)
        elif key == Qt.Key.Key_Home:
            self.show_whole_run()
        elif key == Qt.Key.Key_End:
            self._look(window.follow)
        else:
            event.ignore()  # keys of the window, such as M, go on to it
            return
        event.accept()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """A double click shows the whole run."""
        self.show_whole_run()
        event.accept()

    def _zoom_at(self, factor: float, share: float) -> None:
        if self.frame is None:
            return
        at_s = self.frame.left_s + share * (self.frame.right_s - self.frame.left_s)
        self._look(self.window_of_time.zoom, factor, at_s)

    def _look(self, change: Any, *arguments: float) -> None:
        change(*arguments)
        self.refresh(self._now_s)
        self.looked.emit()
