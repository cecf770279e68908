"""A line at the edge of the chart while the keyboard has reached it (WCAG 2.2, 2.4.7: focus visible)."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QColor, QFocusEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from gui.theme import Theme

__all__ = ["FocusMark"]

WIDTH = 3
BY_KEYBOARD = (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason)


class FocusMark(QWidget):
    """Lies over `chart` and takes no part in it; shown only where Tab led there, not after a click."""

    def __init__(self, chart: QWidget, theme: Theme) -> None:
        super().__init__(chart)
        self._theme = theme
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.hide()
        chart.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Come and go with the focus of the chart, along its whole height."""
        if isinstance(event, QFocusEvent):
            self.setVisible(event.gotFocus() and event.reason() in BY_KEYBOARD)
        elif event.type() == QEvent.Type.Resize and isinstance(watched, QWidget):
            self.setGeometry(0, 0, WIDTH, watched.height())
        return super().eventFilter(watched, event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the line."""
        painter = QPainter(self)
        try:
            painter.fillRect(self.rect(), QColor(self._theme.colours.curve))
        finally:
            painter.end()
