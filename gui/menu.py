"""The menu: everything the window can do, each with its key."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal, SignalInstance
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu, QWidget

from gui.theme import CHOICES, Theme

__all__ = ["WindowMenu"]

CHOICE_WORDS = {"system": "As the system", "light": "Light", "dark": "Dark"}


class WindowMenu(QMenu):
    """Emits one signal for each entry; keys work whether the menu is open or not."""

    open_wanted = Signal()
    lesson_wanted = Signal()
    tag_wanted = Signal()
    kinds_wanted = Signal()
    follow_wanted = Signal()
    whole_wanted = Signal()
    stop_wanted = Signal()
    save_pressed = Signal()
    picture_wanted = Signal()
    cautions_wanted = Signal()
    quit_wanted = Signal()
    colours_chosen = Signal(str)  # one of gui.theme.CHOICES

    def __init__(self, theme: Theme, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._add("Tag a moment\tM", "", self.tag_wanted)  # the key itself: gui.stamping
        self._add("Tag a moment of a kind …", "K", self.kinds_wanted)
        self._add("Follow, or stand still", "F", self.follow_wanted)
        self._add("Whole run\tHome", "", self.whole_wanted)
        self._add("Stop and save", "Ctrl+E", self.stop_wanted)
        self.addSeparator()
        self._add("Open recordings …", QKeySequence.StandardKey.Open, self.open_wanted)
        self._add("Save picture", "Ctrl+P", self.picture_wanted)
        self._add("Simulated lesson again", "Ctrl+L", self.lesson_wanted)
        self.addSeparator()
        self._add_colours(theme)
        self._add("Cautions", "F1", self.cautions_wanted)
        self.addSeparator()
        self._add("Quit", "Ctrl+Q", self.quit_wanted)
        self._shortcut(QKeySequence.StandardKey.Save, self.save_pressed)

    def _add(self, words: str, key: str | QKeySequence.StandardKey, signal: SignalInstance) -> QAction:
        action = QAction(words, self)
        if key:
            action.setShortcut(QKeySequence(key))
            action.setShortcutContext(Qt.ShortcutContext.WindowShortcut)
            self._window.addAction(action)
        action.triggered.connect(_once(signal))
        self.addAction(action)
        return action

    def _shortcut(self, key: QKeySequence.StandardKey, signal: SignalInstance) -> None:
        action = QAction(self._window)
        action.setShortcut(QKeySequence(key))
        action.triggered.connect(_once(signal))
        self._window.addAction(action)

    def _add_colours(self, theme: Theme) -> None:
        menu = self.addMenu("Colours")
        group = QActionGroup(menu)
        for choice in CHOICES:
            action = menu.addAction(CHOICE_WORDS[choice])
            action.setCheckable(True)
            action.setChecked(choice == theme.choice)
            action.triggered.connect(lambda _checked=False, choice=choice: self.colours_chosen.emit(choice))
            group.addAction(action)


def _once(signal: SignalInstance) -> Callable[[bool], None]:
    def emit(_checked: bool = False) -> None:
        signal.emit()

    return emit
