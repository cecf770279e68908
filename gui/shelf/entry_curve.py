"""The curve of the recording that is chosen on the shelf, with its voltages and its time."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from gui.chart.frame import Frame
from gui.fonts import font
from gui.shelf.overlay_picture import curve_place, paint_grid
from gui.shelf.small_curve import SmallCurve
from gui.theme import Theme
from gui.words import translate
from logger.scale import steady_range
from logger.shelf_entry import ShelfEntry

__all__ = ["EntryCurve"]

LEAST_HEIGHT = 190
SHORTEST_S = 0.1


class EntryCurve(QWidget):
    """Shows what the shelf keeps of a run's readings, as large as there is room; looks like an overlay."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._theme = theme
        self._entry: ShelfEntry | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(LEAST_HEIGHT)
        self.setAccessibleName(translate("Shelf", "Curve of the run"))
        theme.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        """More is welcome."""
        return QSize(420, LEAST_HEIGHT)

    def show_entry(self, entry: ShelfEntry | None) -> None:
        """Show the curve of a recording; None: nothing."""
        self._entry = entry
        self.setAccessibleDescription("" if entry is None else _why_none(entry))
        self.update()

    def frame_of(self, curve: SmallCurve) -> Frame | None:
        """Return which times and voltages the widget shows, None where nothing was read."""
        shown = curve.voltages()
        if self._entry is None or shown is None:
            return None
        place = curve_place(self.width(), self.height())
        last_s = max(self._entry.duration_s, SHORTEST_S)
        return Frame(place.width(), place.height(), 0.0, last_s, *steady_range(shown, None))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint grid and curve."""
        if self._entry is None:
            return
        place, colours = curve_place(self.width(), self.height()), self._theme.colours
        curve = SmallCurve.of(self._entry, place.width())
        frame = self.frame_of(curve)
        painter = QPainter(self)
        try:
            if frame is None:
                painter.setFont(font(15))
                painter.setPen(QColor(colours.quiet))
                painter.drawText(
                    place, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, _why_none(self._entry)
                )
                return
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            paint_grid(painter, frame, place, colours)
            curve.paint(painter, QRectF(place), (frame.low_V, frame.high_V), QColor(colours.curve))
        finally:
            painter.end()


def _why_none(entry: ShelfEntry) -> str:
    """Return why there is no curve; empty where there is one."""
    if any(voltage_V is not None for voltage_V in entry.low_V):
        return ""
    if entry.samples:
        return translate("Shelf", "Every reading was beyond the range of the meter.")
    return translate("Shelf", "No voltage of the cell was read.")
