"""The key that stamps a moment: its time is taken as the key goes down, before anything else happens."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent, QWindow
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit

__all__ = ["StampingKey"]


class StampingKey(QObject):
    """Watches the window system's key events of one window for M, and for Ctrl+M while typing.

    Events are seen here before any widget sees them, so the time is that of the press however busy the
    widgets are. A plain M is text while words are being typed. A key that is held repeats nothing.

    Parameters
    ----------
    window : the window to watch.
    now_s : returns the run time in seconds.
    stamp : called with the run time of the press; returns whether the key was used.
    """

    def __init__(self, window: QWindow, now_s: Callable[[], float], stamp: Callable[[float], bool]) -> None:
        super().__init__(window)
        self._now_s, self._stamp = now_s, stamp
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Stamp on the press of the key; pass everything else on."""
        if event.type() != QEvent.Type.KeyPress:
            return super().eventFilter(watched, event)
        time_s = self._now_s()
        assert isinstance(event, QKeyEvent)
        if event.key() != Qt.Key.Key_M or QApplication.activePopupWidget() is not None:
            return False
        held = event.modifiers() & ~(Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier)
        with_ctrl = held == Qt.KeyboardModifier.ControlModifier
        typing = isinstance(QApplication.focusWidget(), QLineEdit | QComboBox)
        if not with_ctrl and (held or typing):
            return False
        return True if event.isAutoRepeat() else self._stamp(time_s)
