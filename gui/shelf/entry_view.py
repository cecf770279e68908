"""One recording of the shelf, larger: its curve, what is known of it, and what can be done with it."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QVBoxLayout,
    QWidget,
)

from gui.message_words import message_words
from gui.shelf.entry_curve import EntryCurve
from gui.shelf.entry_facts import EntryFacts
from gui.shelf.entry_texts import count_text, entry_rows, title_text
from gui.theme import Theme
from gui.tips import tip
from gui.widgets.scroll_pane import scroll_pane
from gui.widgets.text_button import text_button
from gui.widgets.text_label import breakable, text_label
from gui.words import translate
from logger.shelf_entry import ShelfEntry

__all__ = ["EntryView"]

WORDS_WIDTH = 700
"""Longer lines are hard to read."""


class EntryView(QWidget):
    """Shows a `ShelfEntry`.

    Attributes
    ----------
    open_wanted, folder_wanted, finish_wanted : emitted with nothing: open the findings, show the folder,
        finish a run that was cut off.
    curve, facts : what is shown of it.
    """

    open_wanted = Signal()
    folder_wanted = Signal()
    finish_wanted = Signal()

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._title, self._file, self._words = (
            text_label("", 22, weight="semibold", wraps=True),
            text_label("", 12.5, look="quiet", wraps=True),
            text_label("", 14, wraps=True),
        )
        self._file.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._file.setMinimumWidth(1)  # a name that has no place to break takes no room from the curve
        self.curve = EntryCurve(theme)
        self.facts = EntryFacts()
        self.open = text_button(translate("Shelf", "Show findings"), "primary", size_px=14)
        self.finish = text_button(translate("Shelf", "Finish this run"), "primary", size_px=14)
        self.folder = text_button(translate("Shelf", "Show folder"), size_px=14)
        self.open.clicked.connect(lambda _checked=False: self.open_wanted.emit())
        self.finish.clicked.connect(lambda _checked=False: self.finish_wanted.emit())
        self.folder.clicked.connect(lambda _checked=False: self.folder_wanted.emit())
        self._hint = text_label("", 13, look="quiet", wraps=True)
        self._build()
        self.show_entry(None)

    def _build(self) -> None:
        buttons = QHBoxLayout()
        buttons.setSpacing(10)
        for button in (self.open, self.finish, self.folder):
            buttons.addWidget(button)
        buttons.addStretch(1)
        column = QWidget()
        layout = QVBoxLayout(column)
        layout.setContentsMargins(0, 4, 12, 12)
        layout.setSpacing(10)
        for words in (self._words, self._hint):
            words.setMaximumWidth(WORDS_WIDTH)
        layout.addWidget(self._title)
        layout.addWidget(self._words)
        layout.addLayout(buttons)  # above what gives way: a bar that comes moves no button
        layout.addWidget(self.curve, 1)
        for part in (self.facts, self._file, self._hint):
            layout.addWidget(part)
        layout.addStretch(0)  # takes the room where no curve does
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(scroll_pane(column, takes_focus=False))

    def show_entry(self, entry: ShelfEntry | None) -> None:
        """Show a recording; None: nothing is chosen."""
        state = "" if entry is None else entry.state
        title = translate("Shelf", "Nothing chosen") if entry is None else breakable(title_text(entry))
        self._title.setText(title)
        self._words.setText("" if entry is None else _what_it_is(entry))
        self._words.setVisible(bool(self._words.text()))
        self.curve.show_entry(entry)
        self.curve.setVisible(state not in ("", "damaged"))
        self.facts.show_rows(() if entry is None else entry_rows(entry))
        self._file.setText("" if entry is None else str(entry.path))
        self._file.setToolTip(tip(self._file.text()))
        self.open.setVisible(state == "finished")
        self.finish.setVisible(state == "cut_off")
        self.folder.setVisible(entry is not None)
        self._hint.setText(
            translate("Shelf", "Tick two to eight runs (space bar) to lay them over one another.")
        )

    def show_empty(self) -> None:
        """Say what a folder without recordings needs."""
        self.show_entry(None)
        self._title.setText(translate("Shelf", "No recordings here yet"))
        self._words.setText(
            translate(
                "Shelf",
                "A run that is recorded appears here by itself. To see others choose their folder, or drop "
                "recordings on this page.",
            )
        )
        self._words.show()
        self._hint.setText("")


def _what_it_is(entry: ShelfEntry) -> str:
    if entry.state == "damaged":
        return translate(
            "Shelf",
            "This file cannot be read: {why}. It was left as it is. If a file of that name ending in "
            ".journal lies beside it, finish that one; else take the copy you keep elsewhere.",
        ).format(why=message_words(entry.problem))
    if entry.state == "cut_off":
        return translate(
            "Shelf",
            "This run was cut off. Nothing is lost: {count} readings are in its journal. Finishing it "
            "makes the recording.",
        ).format(count=count_text(entry.samples))
    if entry.state == "recording":
        return translate("Shelf", "This run is being recorded at the moment.")
    return ""
