"""Calling somebody who looks at another window, or at nothing."""

from __future__ import annotations

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QSystemTrayIcon, QWidget

__all__ = ["Alerts"]

SHOWN_MS = 10_000


class Alerts:
    """Notifications of the system, only while the window is not in front.

    They may be switched off or missing, so they are never the only channel: whatever is told here stands in
    the window as well.
    """

    def __init__(self, window: QWidget) -> None:
        self._window = window
        self._tray: QSystemTrayIcon | None = None
        self._hiding = QTimer(window)
        self._hiding.setSingleShot(True)
        self._hiding.timeout.connect(self.close)
        self.told: list[str] = []
        """What was told so far, newest last (the last hundred)."""

    def call(self, text: str) -> None:
        """Tell `text`, if the window is not in front."""
        if self._window.isActiveWindow() and not self._window.isMinimized():
            return
        self.told = [*self.told[-99:], text]
        QApplication.alert(self._window)
        if not (QSystemTrayIcon.isSystemTrayAvailable() and QSystemTrayIcon.supportsMessages()):
            return
        if self._tray is None:
            self._tray = QSystemTrayIcon(self._window.windowIcon(), self._window)
        self._tray.show()
        self._tray.showMessage("Galvanote", text, self._window.windowIcon(), SHOWN_MS)
        self._hiding.start(SHOWN_MS)

    def close(self) -> None:
        """Take the icon away again."""
        self._hiding.stop()
        if self._tray is not None:
            self._tray.hide()
