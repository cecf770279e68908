"""Two to eight runs over one another, each with its number at its end."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF, QWheelEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from gui.disc import paint_disc
from gui.fonts import font, font_within
from gui.numbers import time_label, voltage_label
from gui.shelf.overlay_view import OverlayRun, OverlayView
from gui.shelf.run_colours import run_colour
from gui.theme import Theme
from gui.words import translate
from logger.scale import Range, marks, round_step, time_step
from logger.trace import Trace

__all__ = ["OverlayChart"]

LEFT, RIGHT, TOP, BOTTOM = 58.0, 34.0, 30.0, 34.0
DISC = 9.0
PITCH = 2 * DISC + 1
KEY_SHARE = 0.1
ZOOM_STEP = 1.25


class OverlayChart(QWidget):
    """Paints runs on one axis of time. Wheel and + - zoom, dragging and arrows move, Home shows all."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self.view = OverlayView()
        self._zero_words = ""
        self._drawn: tuple[object, ...] = ()
        self._traces: tuple[Trace, ...] = ()
        self._range_V: Range = (0.0, 3.0)
        self._dragged_from: float | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName(translate("Shelf", "Curves over one another"))
        theme.changed.connect(self.update)

    def minimumSizeHint(self) -> QSize:
        """Enough to see a difference."""
        return QSize(280, 150)

    def show_runs(self, runs: list[OverlayRun], zero_words: str) -> None:
        """Show `runs`; `zero_words` tells what happened at time zero."""
        self.view.show(runs)
        self._zero_words = zero_words
        self._drawn = ()
        names = ", ".join(f"{run.number + 1} {run.name}" for run in runs)
        self.setAccessibleDescription(f"{names}. {zero_words}")
        self.update()

    # ------------------------------------------------------------ painting

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint grid, curves and their numbers."""
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            self._prepare()
            self._paint_grid(painter)
            area = self._area()
            painter.save()
            painter.setClipRect(area)
            for run, one in zip(self.view.runs, self._traces, strict=True):
                self._paint_curve(painter, area, run, one)
            painter.restore()
            self._paint_numbers(painter, area)
            if self.hasFocus():
                painter.setPen(QPen(QColor(self._theme.colours.curve), 1.5))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 8, 8)
        finally:
            painter.end()

    def _area(self) -> QRectF:
        return QRectF(
            LEFT, TOP, max(self.width() - LEFT - RIGHT, 2.0), max(self.height() - TOP - BOTTOM, 2.0)
        )

    def _columns(self) -> int:
        return max(int(self._area().width() * self.devicePixelRatioF()), 2)

    def _prepare(self) -> None:
        wanted = (self.view.runs, self.view.stretch, self._columns())
        if wanted != self._drawn:
            self._drawn = wanted
            self._traces, self._range_V = self.view.traces(self._columns())

    def _x(self, area: QRectF, time_s: float) -> float:
        left, right = self.view.stretch
        return area.left() + (time_s - left) / (right - left) * area.width()

    def _y(self, area: QRectF, voltage_V: float) -> float:
        low, high = self._range_V
        return area.bottom() - (voltage_V - low) / (high - low) * area.height()

    def _paint_grid(self, painter: QPainter) -> None:
        colours, area = self._theme.colours, self._area()
        low, high = self._range_V
        left, right = self.view.stretch
        step_V = round_step(high - low, max(area.height() / 46, 2))
        step_s = time_step(right - left, max(area.width() / 110, 2))
        middle = Qt.AlignmentFlag.AlignVCenter
        labels = {voltage: voltage_label(voltage, step_V) for voltage in marks(low, high, step_V)}
        painter.setFont(font_within(labels.values(), LEFT - 12, 13))
        for voltage, label in labels.items():
            y = round(self._y(area, voltage)) + 0.5
            painter.setPen(QPen(QColor(colours.rule), 1))
            painter.drawLine(QLineF(area.left(), y, area.right(), y))
            painter.setPen(QColor(colours.quiet))
            place = QRectF(0, y - 10, LEFT - 12, 20)
            painter.drawText(place, Qt.AlignmentFlag.AlignRight | middle, label)
        painter.setFont(font(13))
        painter.drawText(QRectF(0, 2, LEFT - 12, 20), Qt.AlignmentFlag.AlignRight | middle, "V")
        for time_s in marks(left, right, step_s):
            x = self._x(area, time_s)
            place = QRectF(x - 50, area.bottom() + 8, 100, 20)
            painter.drawText(place, Qt.AlignmentFlag.AlignHCenter | middle, _signed_time(time_s, step_s))
        if left < 0 < right:
            x = round(self._x(area, 0.0)) + 0.5
            painter.setPen(QPen(QColor(colours.outline), 1, Qt.PenStyle.DashLine))
            painter.drawLine(QLineF(x, area.top(), x, area.bottom()))
            painter.setPen(QColor(colours.quiet))
            painter.drawText(QRectF(x + 6, 4, 300, 20), Qt.AlignmentFlag.AlignLeft | middle, self._zero_words)

    def _paint_curve(self, painter: QPainter, area: QRectF, run: OverlayRun, found: Trace) -> None:
        colour = QColor(run_colour(self._theme.colours, run.number))
        width = area.width() / self._columns()
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        bars = [
            QRectF(
                area.left() + number * width,
                self._y(area, high) - 0.7,
                width,
                max(self._y(area, low) - self._y(area, high), 0.0) + 1.4,
            )
            for number, low, high in zip(found.number, found.low_V, found.high_V, strict=True)
        ]
        painter.drawRects(bars)
        painter.setPen(QPen(colour, 1.4))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for times, volts in found.lines:
            points = [
                QPointF(self._x(area, t - run.zero_s), self._y(area, v))
                for t, v in zip(times, volts, strict=True)
            ]
            painter.drawPolyline(QPolygonF(points))

    def _paint_numbers(self, painter: QPainter, area: QRectF) -> None:
        """A numbered disc at the last visible point of each curve, moved apart where they would touch."""
        wanted = []
        for run, one in zip(self.view.runs, self._traces, strict=True):
            seen = [i for i, has in enumerate(one.columns.has_data) if has]
            if seen:
                last = seen[-1]
                x = area.left() + (last + 1) / self._columns() * area.width()
                y = self._y(area, float(one.columns.low[last] + one.columns.high[last]) / 2)
                wanted.append((min(max(y, area.top()), area.bottom()), x, run.number))
        wanted.sort()
        for y, (_, x, number) in zip(_moved_apart(wanted, area.bottom()), wanted, strict=True):
            colours = self._theme.colours
            colour = run_colour(colours, number)
            paint_disc(painter, QPointF(x + DISC + 4, y), DISC, number + 1, colours, colour)

    # ------------------------------------------------------------ gestures

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows move, + and - zoom, Home shows everything."""
        key = event.key()
        if key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            self.view.move(KEY_SHARE if key == Qt.Key.Key_Right else -KEY_SHARE)
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self.view.zoom(1 / ZOOM_STEP, 0.5)
        elif key in (Qt.Key.Key_Minus, Qt.Key.Key_Underscore):
            self.view.zoom(ZOOM_STEP, 0.5)
        elif key == Qt.Key.Key_Home:
            self.view.show_whole()
        else:
            event.ignore()
            return
        self.update()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom time about the pointer."""
        area = self._area()
        share = min(max((event.position().x() - area.left()) / area.width(), 0.0), 1.0)
        self.view.zoom(ZOOM_STEP ** (-event.angleDelta().y() / 120), share)
        self.update()
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the curves."""
        self._dragged_from = event.position().x()
        self.setFocus()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Move them."""
        if self._dragged_from is not None:
            moved = event.position().x() - self._dragged_from
            self._dragged_from = event.position().x()
            self.view.move(-moved / self._area().width())
            self.update()

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:
        """Let go."""
        self._dragged_from = None

    def mouseDoubleClickEvent(self, _event: QMouseEvent) -> None:
        """A double click shows everything."""
        self.view.show_whole()
        self.update()


def _moved_apart(wanted: list[tuple[float, float, int]], lowest: float) -> list[float]:
    """Return heights for discs at (y, x, number), the topmost first: none touches another or lies too low."""
    found: list[float] = []
    for i, (y, _x, _number) in enumerate(wanted):
        found.append(max([y, *(found[j] + PITCH for j in range(i) if _are_near(wanted[i], wanted[j]))]))
    for i in reversed(range(len(found))):
        below = (j for j in range(i + 1, len(found)) if _are_near(wanted[i], wanted[j]))
        found[i] = min([found[i], lowest, *(found[j] - PITCH for j in below)])
    return found


def _are_near(one: tuple[float, float, int], other: tuple[float, float, int]) -> bool:
    return abs(one[1] - other[1]) < 2 * DISC


def _signed_time(time_s: float, step_s: float) -> str:
    sign = "−" if time_s < -1e-9 else ""
    return sign + time_label(abs(time_s), step_s)
