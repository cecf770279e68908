"""How a test ends with a window."""

from __future__ import annotations

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication

from gui.window import Window

__all__ = ["destroy"]


def destroy(window: Window) -> None:
    """Save what goes on in `window`, and destroy it at once."""
    window.stop_and_quit()
    if window.session is not None:
        window.session.close()
    window.frame()
    window.hide()
    window.deleteLater()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)  # type: ignore[arg-type]
