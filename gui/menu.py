"""The menu: everything the window can do, each with its key."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal, SignalInstance
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu, QWidget

from gui.page_list import PAGES
from gui.theme import CHOICES, Theme
from gui.words import translate

__all__ = ["WindowMenu"]

Key = str | QKeySequence.StandardKey


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
    page_wanted = Signal(str)  # a name of gui.page_list
    colours_chosen = Signal(str)  # one of gui.theme.CHOICES

    def __init__(self, theme: Theme, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._add_run()
        self.addSeparator()
        self._add_files()
        self.addSeparator()
        self._add_pages()
        self._add_colours(theme)
        self.addSeparator()
        self._add(translate("Menu", "Quit"), "Ctrl+Q", self.quit_wanted)
        self._shortcut(QKeySequence.StandardKey.Save, self.save_pressed)

    def _add_run(self) -> None:
        # The key of tagging itself: gui.stamping. The tab shows it in the menu without a shortcut.
        self._add(translate("Menu", "Tag a moment") + "\tM", "", self.tag_wanted)
        self._add(translate("Menu", "Tag a moment of a kind …"), "K", self.kinds_wanted)
        self._add(translate("Menu", "Follow, or stand still"), "F", self.follow_wanted)
        self._add(translate("Menu", "Whole run") + "\tHome", "", self.whole_wanted)
        self._add(translate("Menu", "Stop and save"), "Ctrl+E", self.stop_wanted)

    def _add_files(self) -> None:
        self._add(translate("Menu", "Open recordings …"), QKeySequence.StandardKey.Open, self.open_wanted)
        self._add(translate("Menu", "Save picture"), "Ctrl+P", self.picture_wanted)
        self._add(translate("Menu", "Simulated lesson again"), "Ctrl+L", self.lesson_wanted)

    def _add_pages(self) -> None:
        keys = {entry.key for entry in PAGES}
        for entry in PAGES:
            action = self._add(translate("Pages", entry.title), entry.key)
            action.triggered.connect(lambda _checked=False, name=entry.name: self.page_wanted.emit(name))
        self._add(translate("Menu", "Cautions"), "" if "F1" in keys else "F1", self.cautions_wanted)

    def _add(self, words: str, key: Key = "", signal: SignalInstance | None = None) -> QAction:
        action = QAction(words, self)
        if key:
            action.setShortcut(QKeySequence(key))
            action.setShortcutContext(Qt.ShortcutContext.WindowShortcut)
            self._window.addAction(action)
        if signal is not None:
            action.triggered.connect(_once(signal))
        self.addAction(action)
        return action

    def _shortcut(self, key: QKeySequence.StandardKey, signal: SignalInstance) -> None:
        action = QAction(self._window)
        action.setShortcut(QKeySequence(key))
        action.triggered.connect(_once(signal))
        self._window.addAction(action)

    def _add_colours(self, theme: Theme) -> None:
        words = {
            "system": translate("Menu", "As the system"),
            "light": translate("Menu", "Light"),
            "dark": translate("Menu", "Dark"),
        }
        menu = self.addMenu(translate("Menu", "Colours"))
        group = QActionGroup(menu)
        for choice in CHOICES:
            action = menu.addAction(words[choice])
            action.setCheckable(True)
            action.setChecked(choice == theme.choice)
            action.triggered.connect(lambda _checked=False, choice=choice: self.colours_chosen.emit(choice))
            group.addAction(action)


def _once(signal: SignalInstance) -> Callable[[bool], None]:
    def emit(_checked: bool = False) -> None:
        signal.emit()

    return emit
