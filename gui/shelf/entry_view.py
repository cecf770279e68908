"""One recording of the shelf, larger: its curve, what is known of it, and what can be done with it."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from gui.message_words import message_words
from gui.shelf.entry_texts import count_text, entry_rows, title_text
from gui.shelf.shelf_delegate import paint_curve
from gui.theme import Theme
from gui.widgets.scroll_pane import scroll_pane
from gui.widgets.text_button import text_button
from gui.widgets.text_label import text_label
from gui.widgets.value_table import ValueTable
from gui.words import translate
from logger.shelf_entry import ShelfEntry

__all__ = ["EntryView"]

WIDTH = 700
TABLE_WIDTH = 380
CURVE_HEIGHT = 210
"""The same in every window: a bar that takes room moves no button below it; the column scrolls."""


class EntryView(QWidget):
    """Shows a `ShelfEntry`.

    Attributes
    ----------
    open_wanted, folder_wanted, finish_wanted : emitted with nothing: open the findings, show the folder,
        finish a run that was cut off.
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
        self._curve = _Curve(theme)
        self._table = ValueTable()
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
        layout.addWidget(self._title)
        layout.addWidget(self._words)
        layout.addWidget(self._curve)
        self._table.setMaximumWidth(TABLE_WIDTH)  # a value far from its name is read in the wrong line
        layout.addWidget(self._table)
        layout.addLayout(buttons)
        layout.addWidget(self._file)
        layout.addWidget(self._hint)
        layout.addStretch(1)
        column.setMaximumWidth(WIDTH)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(scroll_pane(column, takes_focus=False))

    def show_entry(self, entry: ShelfEntry | None) -> None:
        """Show a recording; None: nothing is chosen."""
        state = "" if entry is None else entry.state
        self._title.setText(translate("Shelf", "Nothing chosen") if entry is None else title_text(entry))
        self._words.setText("" if entry is None else _what_it_is(entry))
        self._words.setVisible(bool(self._words.text()))
        self._curve.show_entry(entry)
        self._curve.setVisible(state not in ("", "damaged"))
        self._table.show_rows(() if entry is None else entry_rows(entry))
        self._file.setText("" if entry is None else str(entry.path))
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


class _Curve(QWidget):
    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._theme = theme
        self._entry: ShelfEntry | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setFixedHeight(CURVE_HEIGHT)
        self.setAccessibleName(translate("Shelf", "Curve of the run, small"))
        theme.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(420, CURVE_HEIGHT)

    def show_entry(self, entry: ShelfEntry | None) -> None:
        self._entry = entry
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            colours = self._theme.colours
            painter.setPen(QColor(colours.rule))
            painter.setBrush(QColor(colours.raised))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), 10, 10)
            if self._entry is not None:
                place = QRectF(self.rect()).adjusted(16, 18, -16, -18)
                paint_curve(painter, place, self._entry, QColor(colours.curve))
        finally:
            painter.end()
