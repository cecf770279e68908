"""The menu: everything the window can do, each with its key."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PySide6.QtCore import Qt, Signal, SignalInstance
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu, QWidget

from gui.language import language_words
from gui.page_list import PAGES
from gui.theme import Theme
from gui.widgets.key_button import key_words
from gui.words import translate

__all__ = ["WindowMenu"]

Key = str | QKeySequence.StandardKey

LANGUAGE = "Language · Sprache"
"""In every language at once: who has chosen a wrong one must find back."""


class WindowMenu(QMenu):
    """Emits one signal for each entry; keys work whether the menu is open or not.

    What is seldom reached by hand stands one step down, so that all fits the height of a school laptop.
    """

    open_wanted = Signal()
    lesson_wanted = Signal()
    tag_wanted = Signal()
    kinds_wanted = Signal()
    words_wanted = Signal()
    pictures_wanted = Signal()
    undo_wanted = Signal()
    redo_wanted = Signal()
    to_step_wanted = Signal()
    next_wanted = Signal()
    skip_wanted = Signal()
    repeat_wanted = Signal()
    plan_wanted = Signal()
    wall_wanted = Signal()
    quiet_wanted = Signal()
    sound_turned = Signal(bool)
    second_wanted = Signal()
    live_turned = Signal(bool)
    details_wanted = Signal()
    follow_wanted = Signal()
    whole_wanted = Signal()
    stop_wanted = Signal()
    save_pressed = Signal()
    close_wanted = Signal()
    settings_wanted = Signal()
    picture_wanted = Signal()
    cautions_wanted = Signal()
    quit_wanted = Signal()
    page_wanted = Signal(str)  # a name of gui.page_list
    colours_chosen = Signal(str)  # one of gui.theme.CHOICES
    language_chosen = Signal(str)  # one of gui.language.CHOICES

    def __init__(self, theme: Theme, window: QWidget, language: str = "system") -> None:
        super().__init__(window)
        self._window = window
        self._add_undoing()
        self._add_moments()
        self._add_sheet()
        self._add_run()
        self.addSeparator()
        self._add_files()
        self.addSeparator()
        self._add_pages()
        self._add_colours(theme)
        self._add_languages(language)
        self._add(translate("Menu", "Silence the alarm"), "Ctrl+B", self.quiet_wanted)
        self.sound = self._turned(translate("Menu", "Sound"), self.sound_turned)
        self.addSeparator()
        self._add(translate("Menu", "Cautions"), "", self.cautions_wanted)
        self._add(translate("Menu", "Copy details for a report"), "", self.details_wanted)
        self._add(translate("Menu", "Quit"), "Ctrl+Q", self.quit_wanted)
        self._shortcut(QKeySequence.StandardKey.Save, self.save_pressed)
        # It opens this menu, and stands in the list of keys.
        self._action(translate("Menu", "Colours, language, sound"), "Ctrl+,", self.settings_wanted)

    def _add_undoing(self) -> None:
        undo_key = QKeySequence.StandardKey.Undo
        self.undo = self._add(translate("Menu", "Undo"), undo_key, self.undo_wanted, repeats=True)
        self.redo = self._add(translate("Menu", "Redo"), "Ctrl+Shift+Z", self.redo_wanted, repeats=True)
        self.redo.setShortcuts([QKeySequence("Ctrl+Shift+Z"), QKeySequence("Ctrl+Y")])
        self.addSeparator()

    def _add_moments(self) -> None:
        menu = self.addMenu(translate("Menu", "Moments"))
        # The key of tagging itself: gui.stamping. The tab shows it in the menu without a shortcut.
        for words, key, signal in (
            (translate("Menu", "Tag a moment") + "\tM", "", self.tag_wanted),
            (translate("Menu", "Tag a moment of a kind …"), "K", self.kinds_wanted),
            (translate("Menu", "Words for the last moment"), "L", self.words_wanted),
            (translate("Menu", "Pictures of a moment …"), "Ctrl+I", self.pictures_wanted),
            (translate("Menu", "Move it to the step of the voltage"), "G", self.to_step_wanted),
        ):
            menu.addAction(self._action(words, key, signal))

    def _add_run(self) -> None:
        self._add(translate("Menu", "Follow, or stand still"), "F", self.follow_wanted)
        self._add(translate("Menu", "Whole run") + "\t" + key_words("Home"), "", self.whole_wanted)
        self._add(translate("Menu", "Stop and save"), "Ctrl+E", self.stop_wanted)

    def _add_sheet(self) -> None:
        menu = self.addMenu(translate("Menu", "Run sheet"))
        # The space bar itself: gui.stamping.
        for words, key, signal in (
            (translate("Menu", "Next step") + "\t" + translate("Keys", "Space"), "", self.next_wanted),
            (translate("Menu", "Skip the next step"), "Ctrl+K", self.skip_wanted),
            (translate("Menu", "Repeat the last step"), "Ctrl+R", self.repeat_wanted),
            (translate("Menu", "Change the steps …"), "Ctrl+T", self.plan_wanted),
        ):
            menu.addAction(self._action(words, key, signal))

    def _add_files(self) -> None:
        self._add(translate("Menu", "Open recordings …"), QKeySequence.StandardKey.Open, self.open_wanted)
        words = translate("Menu", "Close this recording")
        self.close_recording = self._add(words, "Ctrl+W", self.close_wanted)
        self.close_recording.setShortcuts([QKeySequence("Ctrl+W"), QKeySequence("Ctrl+F4")])
        self.close_recording.setEnabled(False)
        self._add(translate("Menu", "Save picture"), "Ctrl+P", self.picture_wanted)
        self._add(translate("Menu", "Simulated lesson again"), "Ctrl+L", self.lesson_wanted)
        self._add(translate("Menu", "Second copy of this run …"), "Ctrl+D", self.second_wanted)
        self.live = self._turned(
            translate("Menu", "Live file for other programs, from the next run on"), self.live_turned
        )

    def _add_pages(self) -> None:
        menu = self.addMenu(translate("Menu", "Pages"))
        for entry in PAGES:
            action = self._action(translate("Pages", entry.title), entry.key, None)
            menu.addAction(action)
            action.triggered.connect(lambda _checked=False, name=entry.name: self.page_wanted.emit(name))
        self._add(translate("Menu", "View for the wall"), "F11", self.wall_wanted)

    def _turned(self, words: str, signal: SignalInstance) -> QAction:
        action = QAction(words, self)
        action.setCheckable(True)
        action.triggered.connect(signal)
        self.addAction(action)
        return action

    def _add(
        self, words: str, key: Key = "", signal: SignalInstance | None = None, *, repeats: bool = False
    ) -> QAction:
        action = self._action(words, key, signal, repeats=repeats)
        self.addAction(action)
        return action

    def _action(
        self, words: str, key: Key, signal: SignalInstance | None, *, repeats: bool = False
    ) -> QAction:
        """A held key does once what it stands for: steps were skipped by the dozen."""
        action = QAction(words, self)
        action.setAutoRepeat(repeats)
        if key:
            action.setShortcut(QKeySequence(key))
            action.setShortcutContext(Qt.ShortcutContext.WindowShortcut)
            self._window.addAction(action)
        if signal is not None:
            action.triggered.connect(_once(signal))
        return action

    def _shortcut(self, key: QKeySequence.StandardKey, signal: SignalInstance) -> None:
        action = QAction(self._window)
        action.setAutoRepeat(False)
        action.setShortcut(QKeySequence(key))
        action.triggered.connect(_once(signal))
        self._window.addAction(action)

    def _add_colours(self, theme: Theme) -> None:
        words = {
            "system": translate("Menu", "As the system"),
            "light": translate("Menu", "Light"),
            "dark": translate("Menu", "Dark"),
        }
        colours = self._add_choice(translate("Menu", "Colours"), words, theme.choice, self.colours_chosen)
        self.first_setting = colours.menuAction()

    def _add_languages(self, present: str) -> None:
        self._add_choice(LANGUAGE, language_words(), present, self.language_chosen)

    def _add_choice(
        self, title: str, words: Mapping[str, str], present: str, signal: SignalInstance
    ) -> QMenu:
        """Offer one of several, each with its words; `signal` is emitted with the choice."""
        menu = self.addMenu(title)
        group = QActionGroup(menu)
        for choice, text in words.items():
            action = menu.addAction(text)
            action.setCheckable(True)
            action.setChecked(choice == present)
            action.triggered.connect(lambda _checked=False, choice=choice: signal.emit(choice))
            group.addAction(action)
        return menu


def _once(signal: SignalInstance) -> Callable[[bool], None]:
    def emit(_checked: bool = False) -> None:
        signal.emit()

    return emit
