"""What a held key repeats: nothing where it was not pressed, and no shortcut a second time."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt
from PySide6.QtGui import QAction, QGuiApplication, QKeyEvent, QKeySequence, QWindow
from PySide6.QtWidgets import QWidget

from gui.focused import focused_widget, is_typed_into

__all__ = ["HeldKeys", "sends_pairs"]

ONCE = frozenset({Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape, Qt.Key.Key_Space})
"""Keys that open, close, answer or tick: what they repeat would come to another widget, or do it again."""


class HeldKeys(QObject):
    """Keeps what a held key repeats from where nobody meant it, and has it known as a repetition.

    A tag asks for words at once: the M that was held a little long stood in its note, and the 9 among the
    ohms of a resistor; Enter closed at once what it had opened, or opened it two dozen times. X11 repeats by
    a release and a press at one time. Qt looks for the press right after the release, and where it has not
    come yet takes both for a hand's: steps went by the dozen.

    To be made after whatever else takes keys of the window: the last one is asked first.

    Parameters
    ----------
    window : the window to watch.
    actions : returns the actions of the window, for those whose shortcut does not repeat.
    pairs : a press at the time of its own release is a repetition (see `sends_pairs`).
    """

    def __init__(
        self, window: QWindow, actions: Callable[[], Iterable[QAction]], *, pairs: bool = False
    ) -> None:
        super().__init__(window)
        self._actions, self._pairs = actions, pairs
        self._released_ms: dict[int, int] = {}
        self._pressed: tuple[int, QWidget | None] = (0, None)
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Note where a key goes down; take what it repeats elsewhere, and mark what it repeats there."""
        if not isinstance(event, QKeyEvent):
            return super().eventFilter(watched, event)
        if event.type() == QEvent.Type.KeyRelease:
            self._released_ms[event.key()] = event.timestamp()
            return False
        field = focused_widget(watched)
        if not self._is_repeated(event):
            self._pressed = (event.key(), field)
            return False
        if self._is_unwanted(event, field):
            event.accept()  # the question whose key it is: not a shortcut's, and its press comes here next
            return True
        if event.isAutoRepeat() or event.type() != QEvent.Type.KeyPress:
            return False
        QCoreApplication.sendEvent(watched, _marked(event))
        return True

    def _is_repeated(self, event: QKeyEvent) -> bool:
        is_pair = self._pairs and self._released_ms.get(event.key()) == event.timestamp()
        return event.isAutoRepeat() or is_pair

    def _is_unwanted(self, event: QKeyEvent, field: QWidget | None) -> bool:
        if is_typed_into(field) and event.text() and event.text().isprintable():
            return self._pressed != (event.key(), field)
        if event.key() in ONCE:
            return True
        held = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        keys = QKeySequence(held.value | event.key())
        return any(keys in action.shortcuts() for action in self._actions() if not action.autoRepeat())


def sends_pairs() -> bool:
    """Tell whether the window system repeats a key by a release and a press at one time."""
    return QGuiApplication.platformName() == "xcb"


def _marked(event: QKeyEvent) -> QKeyEvent:
    marked = QKeyEvent(
        event.type(),
        event.key(),
        event.modifiers(),
        event.nativeScanCode(),
        event.nativeVirtualKey(),
        event.nativeModifiers(),
        event.text(),
        True,
        event.count(),
    )
    marked.setTimestamp(event.timestamp())
    return marked
