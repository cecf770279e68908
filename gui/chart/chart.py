"""The chart: curve, axes, flags and phases in one view, and which part of the run it shows."""

from __future__ import annotations

import itertools
from typing import Any

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QRegion,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from gui.chart.axes import TimeAxis, VoltageAxis
from gui.chart.backdrop import Backdrop
from gui.chart.curve_layer import CurveLayer
from gui.chart.focus_mark import FocusMark
from gui.chart.frame import Frame
from gui.chart.hold import Hold
from gui.chart.moment_strip import MomentStrip
from gui.chart.notes import Notes
from gui.chart.pace import Pace
from gui.chart.part import Part
from gui.chart.phase_ruler import PhaseRuler
from gui.chart.places import Places
from gui.chart.run_reading import RunReading
from gui.chart.saving_mark import SavingMark
from gui.chart.time_drag import TimeDrag
from gui.chart.time_window import TimeWindow
from gui.theme import Colours, Theme
from gui.tips import tip
from gui.words import translate
from logger.overview import Overview
from logger.scale import Range, round_step, steady_range, time_step, voltages_to_show
from logger.trace import trace

__all__ = ["Chart"]

EMPTY_V: Range = (0.0, 3.0)
PIXELS_A_VOLTAGE_MARK = 46.0
PIXELS_A_TIME_MARK = 130.0
KEY_SHARE = 0.1

WHEEL_STEP = 120.0
ZOOM_PER_STEP = 1.25


class Chart(QWidget):
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
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName(translate("Chart", "Curve of the cell voltage"))
        self._theme = theme
        self.window_of_time = TimeWindow()
        self.frame: Frame | None = None
        self._overview = Overview()
        self._notes = Notes()
        self._now_s = 0.0
        self._is_live = True
        self._range_V: Range | None = None
        self._picture: tuple[Any, ...] | None = None
        self.pace = Pace(self)
        """Says when what comes by itself is to be drawn."""
        self._build()
        FocusMark(self, theme)
        theme.changed.connect(self._recolour)

    def _build(self) -> None:
        self._backdrop, self._curve, self._saving = Backdrop(), CurveLayer(), SavingMark()
        self.strip, self.ruler, self._drag = MomentStrip(), PhaseRuler(), TimeDrag()
        self._voltage_axis, self._time_axis = VoltageAxis(), TimeAxis()
        self.reading = RunReading(self)
        self._over_view: list[Part] = [self._backdrop, self._drag, self._curve, self._saving]
        self._over_view.append(self.reading.mark)
        self._hold = Hold()
        self._drag.dragged.connect(lambda share: self._look(self.window_of_time.move_by_share, -share))
        self._drag.clicked.connect(self.reading.click)
        self.reading.changed.connect(self._repaint_stale)
        self.reading.wanted.connect(self._bring_into_view)
        self.strip.chosen.connect(self.moment_chosen)
        self.strip.moved.connect(self.moment_moved)
        self._arrange()

    def lay_over(self, part: Part) -> None:
        """Paint one more part over the curve; it is asked first whether it takes the mouse."""
        self._over_view.insert(-1, part)  # what is read off stays on top
        self._arrange()

    @property
    def parts(self) -> tuple[Part, ...]:
        """What is painted, in this order."""
        return self._parts

    def _arrange(self) -> None:
        self._parts = (*self._over_view, self.strip, self._voltage_axis, self._time_axis, self.ruler)
        for part in self._parts:
            part.setParent(self)  # it goes with the chart: what it is connected to would hold both for good
        places = self.places = Places.of(self.width(), self.height())
        for part in self._over_view:
            part.put(places.view)
        self.strip.put(places.strip)
        self._voltage_axis.put(places.voltages)
        self._time_axis.put(places.times)
        self.ruler.put(places.ruler)
        # Those that share a place share its clip: to set one takes as long as many a part.
        same = itertools.groupby(self._parts, lambda part: (part.ground, part.place))
        self._layers = [list(parts) for _, parts in same]

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay the parts out anew."""
        super().resizeEvent(event)
        self._arrange()
        self.refresh(self._now_s)

    def minimumSizeHint(self) -> QSize:
        """Small enough for a school laptop at 200 %, with a bar of four lines below."""
        return QSize(260, 128)

    # ------------------------------------------------------------ what is shown

    def show_overview(self, overview: Overview, *, is_live: bool) -> None:
        """Show the curve of `overview`; `is_live` tells that samples are still coming."""
        self._overview, self._is_live = overview, is_live
        self._range_V = self._picture = None
        self.reading.show_overview(overview)
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

    def refresh(self, now_s: float) -> bool:
        """Draw what has changed by run time `now_s`; return whether anything had to be drawn."""
        self._now_s = self.strip.until_s = now_s
        self._repaint_stale()
        width, height = float(self.places.view.width()), float(self.places.view.height())
        columns = int(width * self.devicePixelRatioF())
        if columns < 2 or height < 2:
            return False
        extent = self._overview.extent_s
        first_s, last_s = extent or (0.0, 0.0)
        window = self.window_of_time
        window.run_spans(
            first_s,
            max(now_s, last_s),
            is_live=self._is_live,
            sample_every_s=(last_s - first_s) / max(len(self._overview), 1),
        )
        stretch = window.stretch(columns)
        notes = self._notes
        picture = (
            stretch, width, height, columns, len(self._overview.gaps_s), self._theme.colours,
            int(self._now_s / (stretch[1] - stretch[0]) * columns) if self._is_live else 0,
            notes.moments, notes.phases, notes.levels, len(self._overview), notes.saving, notes.last,
            self._overview.revision,
        )  # fmt: skip
        if picture == self._picture:
            return False
        self._picture = picture
        with self.pace.work("drawing"):
            self._draw(stretch, width, height, columns)
        return True

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the parts that lie where something is stale, and note how long it takes."""
        painter = QPainter(self)
        try:
            with self.pace.work("painting"):
                self._paint(painter, event.region())
        finally:
            painter.end()

    def _paint(self, painter: QPainter, stale: QRegion) -> None:
        colours = self._theme.colours
        for rect in stale:  # type: ignore[attr-defined]
            painter.fillRect(rect, QColor(colours.paper))
        if self.frame is None:
            return
        for parts in self._layers:
            ground, corner = parts[0].ground, parts[0].place.topLeft()
            if not stale.intersects(ground):
                continue
            exposed = stale.intersected(ground).boundingRect().translated(-corner)
            painter.save()
            painter.setClipRect(ground, Qt.ClipOperation.IntersectClip)
            painter.translate(corner)
            for part in parts:
                if part.is_shown:
                    part.exposed = exposed
                    painter.save()
                    part.paint(painter, self.frame, colours)
                    painter.restore()
            painter.restore()

    def _repaint_stale(self) -> None:
        """Have Qt paint what lies where a part has changed; what has not keeps its picture."""
        told = QRect()
        for part in self._parts:
            if part.is_stale:
                part.is_stale = False
                for place in part.stale_places():
                    if place != told:  # parts over one another tell the same
                        self.update(place)
                        told = place

    def _draw(self, stretch: Range, width: float, height: float, columns: int) -> None:
        left_s, right_s = stretch
        column_s = (right_s - left_s) / columns
        found = trace(self._overview, left_s, column_s, columns)
        wanted = voltages_to_show(found.columns.low, found.columns.high)
        if wanted is not None:
            self._range_V = steady_range(wanted, self._range_V)
        low_V, high_V = self._range_V or EMPTY_V
        frame = self.frame = Frame(width, height, left_s, right_s, low_V, high_V)
        colours = self._theme.colours
        notes = self._notes.in_columns(column_s) if self._is_live else self._notes
        step_V = round_step(high_V - low_V, max(height / PIXELS_A_VOLTAGE_MARK, 2))
        step_s = time_step(right_s - left_s, max(width / PIXELS_A_TIME_MARK, 2))
        self.strip.show_moments(notes.moments, frame, colours)
        for part in self._parts:
            part.show_frame(frame, colours)
        self._voltage_axis.show_step(step_V)
        self._time_axis.show_step(step_s)
        self._backdrop.show_grid(step_V, notes)
        self._curve.show_trace(found, width / columns, self._overview.gaps_s, self._overview.overloads_s)
        self._saving.show_notes(notes, found.columns, width / columns)
        self.ruler.show_phases(notes.phases, notes.levels, self._now_s)
        self.reading.show_notes(notes)
        self.reading.show_frame(frame)
        self._repaint_stale()

    def _recolour(self) -> None:
        self.refresh(self._now_s)
        self.update()

    @property
    def colours(self) -> Colours:
        """The palette in use."""
        return self._theme.colours

    # ------------------------------------------------------------ gestures

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter reads values off; without that arrows move in time, Home shows the whole run, End follows.

        + and - zoom, about what is read off.
        """
        window, key = self.window_of_time, event.key()
        if self.reading.takes_key(event, is_following=window.is_following and self._is_live):
            event.accept()
            return
        if key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            self._look(window.move_by_share, KEY_SHARE if key == Qt.Key.Key_Right else -KEY_SHARE)
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self._zoom_by_key(0.8)
        elif key in (Qt.Key.Key_Minus, Qt.Key.Key_Underscore):
            self._zoom_by_key(1.25)
        elif key == Qt.Key.Key_Home:
            self.show_whole_run()
        elif key == Qt.Key.Key_End:
            self._look(window.follow)
        else:
            event.ignore()  # keys of the window, such as M, go on to it
            return
        event.accept()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom time about the pointer, wherever on the chart it is."""
        view = self.places.view
        share = (event.position().x() - view.left()) / max(view.width(), 1)
        self._zoom_at(ZOOM_PER_STEP ** (-event.angleDelta().y() / WHEEL_STEP), min(max(share, 0.0), 1.0))
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of what lies there: a flag, a grip, or the curve."""
        if event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        self._hold.take(self._taker(event.position()), event.position())
        self._repaint_stale()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag what is held, or show by the pointer what could be."""
        at = event.position()
        if self._hold.is_held:
            if self._hold.drag(at):
                self.reading.point_at(None)
                self._repaint_stale()
            return
        taker = self._taker(at)
        self.reading.point_at(at.x() - self.places.view.left() if taker is self._drag else None)
        shape = Qt.CursorShape.ArrowCursor if taker is None else taker.cursor(at - taker.place.topLeft())
        if shape != self.cursor().shape():
            self.setCursor(shape)

    def leaveEvent(self, event: QEvent) -> None:
        """Read nothing off where the pointer is no longer."""
        super().leaveEvent(event)
        self.reading.point_at(None)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go."""
        if event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        self._hold.release(event.position())
        self._repaint_stale()

    def event(self, event: QEvent) -> bool:
        """Say more about what lies under a resting pointer."""
        if event.type() != QEvent.Type.ToolTip or not isinstance(event, QHelpEvent):
            return super().event(event)
        at = QPointF(event.pos())
        taker = self._taker(at)
        text = "" if taker is None else taker.tip(at - taker.place.topLeft())
        QToolTip.showText(event.globalPos(), tip(text), self)
        event.setAccepted(bool(text))
        return True

    def _taker(self, at: QPointF) -> Part | None:
        """The topmost part that takes the mouse there."""
        for part in reversed(self._parts):
            inside = QRectF(part.ground).contains(at)
            if inside and part.is_shown and part.takes(at - part.place.topLeft()):
                return part
        return None

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """A double click shows the whole run; on a flag or a grip it is a press like another."""
        if self._taker(event.position()) in (None, self._drag):
            self.reading.clear()  # the first of the two clicks read something off
            self.show_whole_run()
            event.accept()
        else:
            self.mousePressEvent(event)

    def _zoom_by_key(self, factor: float) -> None:
        """About the middle, or about the cursor: then the curve stands still."""
        share = self.reading.cursor_share
        if share is not None:
            self.window_of_time.stand_still()
        self._zoom_at(factor, 0.5 if share is None else share)

    def _zoom_at(self, factor: float, share: float) -> None:
        if self.frame is None:
            return
        at_s = self.frame.left_s + share * (self.frame.right_s - self.frame.left_s)
        self._look(self.window_of_time.zoom, factor, at_s)

    def _bring_into_view(self, time_s: float) -> None:
        """Look where that time is, a little inside the picture."""
        if self.frame is None:
            return
        left_s, right_s = self.frame.left_s, self.frame.right_s
        rim_s = KEY_SHARE * (right_s - left_s)
        edge_s = left_s + rim_s if time_s < left_s else right_s - rim_s
        self._look(self.window_of_time.move, time_s - edge_s)

    def _look(self, change: Any, *arguments: float) -> None:
        change(*arguments)
        self.refresh(self._now_s)
        self.looked.emit()
