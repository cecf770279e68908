"""Keys held with Ctrl that belong to the window, whichever field is being typed into."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent, QWindow

from gui.focused import focused_widget, is_typed_into

__all__ = ["WindowKeys"]

EDITING_KEYS = frozenset(
    (
        Qt.Key.Key_A, Qt.Key.Key_C, Qt.Key.Key_V, Qt.Key.Key_X, Qt.Key.Key_Z, Qt.Key.Key_Y,
        Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Backspace, Qt.Key.Key_Delete,
        Qt.Key.Key_Home, Qt.Key.Key_End, Qt.Key.Key_Insert,
    )
)  # fmt: skip
"""What Ctrl does to a text everywhere; anything else held with Ctrl belongs to the window."""


class WindowKeys(QObject):
    """Keeps fields from taking the window's shortcuts for keys of their own.

    On some systems a line of text takes Ctrl+E for "to the end of the line" and Ctrl+K for "delete to the
    end": the run would not end, and words would be gone. The question whose the key is comes here first.

    Parameters
    ----------
    window : the window to watch.
    """

    def __init__(self, window: QWindow) -> None:
        super().__init__(window)
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Answer for the field in front that the key is not its own; what edits everywhere is."""
        if event.type() != QEvent.Type.ShortcutOverride or not isinstance(event, QKeyEvent):
            return super().eventFilter(watched, event)
        held = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if held != Qt.KeyboardModifier.ControlModifier or event.key() in EDITING_KEYS:
            return False
        if not is_typed_into(focused_widget(watched)):
            return False
        event.ignore()
        return True
