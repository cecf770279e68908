"""Two to eight runs over one another: looked at along time, and read off."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QPointF, QSize, Qt
from PySide6.QtGui import (
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPixmap,
    QResizeEvent,
    QTransform,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from gui.chart.focus_mark import FocusMark
from gui.chart.frame import Frame
from gui.chart.hold import Hold
from gui.chart.time_drag import TimeDrag
from gui.shelf.overlay_picture import OverlayPicture, curve_place
from gui.shelf.overlay_reading import OverlayReading
from gui.shelf.overlay_view import OverlayRun, OverlayView
from gui.theme import Theme
from gui.words import translate

__all__ = ["OverlayChart"]

KEY_SHARE = 0.1
ZOOM_STEP = 1.25
WHEEL_STEP = 120.0


class OverlayChart(QWidget):
    """Shows runs on one axis of time. Wheel and + - zoom, dragging and arrows move, Home shows all.

    Return, or a click, reads them off; the picture below the mark is painted once and kept.
    """

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self.view = OverlayView()
        self.frame: Frame | None = None
        self._zero_words = self._why_none = ""
        self._picture: OverlayPicture | None = None
        self._painted, self._is_stale = QPixmap(), True
        self._hold, self._drag = Hold(), TimeDrag()
        self._drag.setParent(self)  # it goes with the chart: what it is connected to would hold both for good
        self._drag.dragged.connect(lambda share: self._look(self.view.move, -share))
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName(translate("Shelf", "Curves over one another"))
        self.reading = OverlayReading(self)
        self._drag.clicked.connect(self.reading.click)
        self.reading.changed.connect(self._repaint_mark)
        self.reading.wanted.connect(lambda time_s: self._look(self.view.bring_into_view, time_s))
        FocusMark(self, theme)
        theme.changed.connect(self._draw)

    def minimumSizeHint(self) -> QSize:
        """Enough to see a difference."""
        return QSize(280, 150)

    def show_runs(self, runs: list[OverlayRun], zero_words: str, why_none: str = "") -> None:
        """Show `runs`; `zero_words` tells what happened at time zero, `why_none` why no curve is there."""
        self.view.show(runs)
        self._zero_words, self._why_none = zero_words, why_none
        names = ", ".join(f"{run.number + 1} {run.name}" for run in runs)
        self.reading.show_runs(runs)
        self.reading.describe(f"{names}. {zero_words}" if runs else why_none)
        self._draw()

    # ------------------------------------------------------------ painting

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Draw anew in the room there is."""
        super().resizeEvent(event)
        self._draw()

    def _draw(self) -> None:
        """Find what the curves look like where they are looked at; it is painted when it is needed."""
        place = curve_place(self.width(), self.height())
        columns = max(int(place.width() * self.devicePixelRatioF()), 2)
        traces, (low_V, high_V) = self.view.traces(columns)
        frame = self.frame = Frame(place.width(), place.height(), *self.view.stretch, low_V, high_V)
        colours = self._theme.colours
        self._picture = OverlayPicture(
            self.view.runs, traces, columns, frame, place, self._zero_words, self._why_none, colours
        )
        self._is_stale = True
        for part in (self._drag, self.reading.mark):
            part.put(place)
            part.show_frame(frame, colours)
        self.reading.show_frame(frame)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the picture, and what is read off over it."""
        painter, mark = QPainter(self), self.reading.mark
        try:
            painter.drawPixmap(0, 0, self._kept_picture())
            if self.frame is not None and mark.is_shown:
                painter.setClipRect(mark.ground, Qt.ClipOperation.IntersectClip)
                painter.setTransform(QTransform.fromTranslate(mark.place.left(), mark.place.top()), True)
                mark.paint(painter, self.frame, self._theme.colours)
        finally:
            painter.end()

    def _kept_picture(self) -> QPixmap:
        ratio, painted = self.devicePixelRatioF(), self._painted
        if painted.size() != self.size() * ratio or painted.devicePixelRatio() != ratio:
            painted = self._painted = QPixmap(self.size() * ratio)
            painted.setDevicePixelRatio(ratio)
            self._is_stale = True
        if self._is_stale:
            self._is_stale = False
            painted.fill(self._theme.colours.paper)
            if self._picture is not None:
                painter = QPainter(painted)
                try:
                    self._picture.paint(painter)
                finally:
                    painter.end()
        return painted

    def _repaint_mark(self) -> None:
        """Have Qt paint where the mark was and where it is; the rest keeps its picture."""
        mark = self.reading.mark
        if mark.is_stale:
            mark.is_stale = False
            for place in mark.stale_places():
                self.update(place)

    # ------------------------------------------------------------ gestures

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter reads off; without that arrows move, Home shows everything. + and - zoom."""
        key = event.key()
        if self.reading.takes_key(event, is_following=False):
            event.accept()
        elif key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            self._look(self.view.move, KEY_SHARE if key == Qt.Key.Key_Right else -KEY_SHARE)
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self._zoom_by_key(1 / ZOOM_STEP)
        elif key in (Qt.Key.Key_Minus, Qt.Key.Key_Underscore):
            self._zoom_by_key(ZOOM_STEP)
        elif key == Qt.Key.Key_Home:
            self._look(self.view.show_whole)
        else:
            event.ignore()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom time about the pointer."""
        share = self._from_left(event.position()) / self._drag.place.width()
        self._look(
            self.view.zoom, ZOOM_STEP ** (-event.angleDelta().y() / WHEEL_STEP), min(max(share, 0.0), 1.0)
        )
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the curves."""
        if event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        at = event.position()
        self._hold.take(self._drag if self._is_over_curves(at) else None, at)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Move them, or read off what lies under the pointer."""
        at = event.position()
        if self._hold.drag(at):
            self.reading.point_at(None)
        elif not self._hold.is_held:
            self.reading.point_at(self._from_left(at) if self._is_over_curves(at) else None)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go; where they were not moved, the click reads them off."""
        if event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        self._hold.release(event.position())

    def mouseDoubleClickEvent(self, _event: QMouseEvent) -> None:
        """A double click shows everything."""
        self.reading.clear()  # the first of the two clicks read something off
        self._look(self.view.show_whole)

    def leaveEvent(self, event: QEvent) -> None:
        """Read nothing off where the pointer is no longer."""
        super().leaveEvent(event)
        self.reading.point_at(None)

    def _is_over_curves(self, at: QPointF) -> bool:
        return self._drag.ground.contains(at.toPoint())

    def _from_left(self, at: QPointF) -> float:
        return at.x() - self._drag.place.left()

    def _zoom_by_key(self, factor: float) -> None:
        """About the cursor, or about the middle."""
        share = self.reading.cursor_share
        self._look(self.view.zoom, factor, 0.5 if share is None else share)

    def _look(self, change: Callable[..., None], *arguments: float) -> None:
        change(*arguments)
        self._draw()
