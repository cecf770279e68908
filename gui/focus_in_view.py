"""What the keys go to is in sight, however it came by them."""

from __future__ import annotations

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QApplication, QScrollArea, QWidget

__all__ = ["FocusInView"]

ROOM_AROUND = 8


class FocusInView(QObject):
    """Scrolls the panes of a window to what takes the keys.

    A pane shows by itself only what the Tab key reaches from within it: a page that came to the front again
    was typed into below its edge. Nothing is moved under a mouse that is pressed, nor where only the window
    had lost the keys, to a dialog or another program: whoever had scrolled away from the field goes on there.

    Parameters
    ----------
    window : whose panes scroll.
    """

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._last: QWidget | None = None
        application = QApplication.instance()
        assert isinstance(application, QApplication)
        application.focusChanged.connect(self._follow)

    def _follow(self, _before: QWidget | None, focused: QWidget | None) -> None:
        if focused is None or focused is self._last or not self._window.isAncestorOf(focused):
            return
        self._last = focused
        if QApplication.mouseButtons() == Qt.MouseButton.NoButton:
            show_whole(focused)


def show_whole(widget: QWidget) -> None:
    """Scroll every pane around a widget to it; of one taller than its pane, to the beginning."""
    around = widget.parentWidget()
    while around is not None:
        contents = around.widget() if isinstance(around, QScrollArea) else None
        if isinstance(around, QScrollArea) and contents is not None and contents.isAncestorOf(widget):
            # Not ensureWidgetVisible: of a field it shows the text cursor only.
            for corner in (widget.rect().bottomLeft(), widget.rect().topLeft()):
                place = widget.mapTo(contents, corner)
                around.ensureVisible(place.x(), place.y(), 0, ROOM_AROUND)
        around = around.parentWidget()
