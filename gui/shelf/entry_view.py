"""One recording of the shelf, larger: its curve, what is known of it, and what can be done with it."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from gui.fonts import font
from gui.shelf.entry_texts import count_text, entry_rows, title_text
from gui.shelf.shelf_delegate import paint_curve
from gui.theme import Theme
from gui.widgets.value_table import ValueTable
from gui.words import translate
from logger.shelf_entry import ShelfEntry

__all__ = ["EntryView"]

WIDTH = 620


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
        self._title, self._file, self._words = _label(22, "semibold"), _label(12.5, look="quiet"), _label(14)
        self._file.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._curve = _Curve(theme)
        self._table = ValueTable()
        self.open = _button(translate("Shelf", "Show findings"), "primary", self.open_wanted)
        self.finish = _button(translate("Shelf", "Finish this run"), "primary", self.finish_wanted)
        self.folder = _button(translate("Shelf", "Show folder"), "", self.folder_wanted)
        self._hint = _label(13, look="quiet")
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
        layout.addWidget(self._table)
        layout.addLayout(buttons)
        layout.addWidget(self._file)
        layout.addWidget(self._hint)
        layout.addStretch(1)
        column.setMaximumWidth(WIDTH)
        scroll = QScrollArea()
        scroll.setWidget(column)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(scroll)

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


def _what_it_is(entry: ShelfEntry) -> str:
    if entry.state == "damaged":
        return translate(
            "Shelf",
            "This file cannot be read: {why}. It was left as it is. If a file of that name ending in "
            ".journal lies beside it, finish that one; else take the copy you keep elsewhere.",
        ).format(why=entry.problem)
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
        self.setAccessibleName(translate("Shelf", "Curve of the run, small"))
        theme.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(420, 190)

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


def _label(size: float, weight: str = "regular", look: str = "") -> QLabel:
    label = QLabel()
    label.setFont(font(size, weight))
    label.setProperty("look", look)
    label.setWordWrap(True)
    return label


def _button(words: str, look: str, signal: object) -> QPushButton:
    button = QPushButton(words)
    button.setFont(font(14, "medium"))
    button.setMinimumHeight(38)
    if look:
        button.setProperty("look", look)
    button.setAccessibleName(words)
    button.clicked.connect(lambda _checked=False: signal.emit())  # type: ignore[attr-defined]
    return button
