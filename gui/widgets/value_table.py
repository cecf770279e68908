"""Name on the left, value with its convention on the right."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from gui.fonts import font
from gui.live_texts import Row
from gui.widgets.text_label import TextLabel

__all__ = ["ValueTable"]

ROW_HEIGHT = 25
ROOM = 330
AFTER_NOTE = 6
"""Pixels below a note that stands below its value: it belongs to that one, not to the next."""


class ValueTable(QWidget):
    """Shows rows; labels are made once and reused, only texts change. A long note goes below its value.

    `room` is the width in pixels up to which a note stands beside its value.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(0)
        self._lines: list[_Line] = []
        self._room = ROOM

    def limit_to(self, room: int) -> None:
        """Say how wide the table is."""
        if room != self._room:
            self._room = room
            self.show_rows(
                [line.row for line in self._lines if line.row is not None and line.isVisibleTo(self)]
            )

    def show_rows(self, rows: Sequence[Row]) -> None:
        """Show `rows`, replacing those shown."""
        while len(self._lines) < len(rows):
            self._lines.append(_Line())
            self._layout.addWidget(self._lines[-1])
        for i, line in enumerate(self._lines):
            line.setVisible(i < len(rows))
            if i < len(rows):
                line.show_row(rows[i], self._room)


class _Line(QWidget):
    def __init__(self) -> None:
        super().__init__()
        self.row: Row | None = None
        self._room = 0
        self._name, self._value = QLabel(), QLabel()
        self._note, self._below = QLabel(), TextLabel()
        self._name.setFont(font(14))
        self._value.setFont(font(14.5, "medium"))
        for label in (self._note, self._below):
            label.setFont(font(12.5))
        for label in (self._name, self._note, self._below):
            label.setProperty("look", "quiet")
        self._below.setWordWrap(True)
        self._below.setAlignment(Qt.AlignmentFlag.AlignRight)
        top = QHBoxLayout()
        top.setSpacing(5)
        top.addWidget(self._name)
        top.addStretch(1)
        top.addWidget(self._value)
        top.addWidget(self._note)
        layout = self._whole = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(top)
        layout.addWidget(self._below)
        for label in (self._name, self._value, self._note):
            label.setFixedHeight(ROW_HEIGHT)

    def show_row(self, row: Row, room: int) -> None:
        if (row, room) == (self.row, self._room):
            return
        self.row, self._room = row, room
        for label, text in ((self._name, row.name), (self._value, row.value), (self._note, row.note)):
            label.setText(text)
        is_long = sum(label.sizeHint().width() for label in (self._name, self._value, self._note)) > room
        self._note.setText("" if is_long else row.note)
        self._note.setVisible(bool(row.note) and not is_long)
        self._below.setText(row.note if is_long else "")
        self._below.setVisible(is_long)
        self._whole.setContentsMargins(0, 0, 0, AFTER_NOTE if is_long else 0)
        self.setToolTip(row.detail)
        self._value.setAccessibleName(f"{row.name}: {row.value} {row.detail or row.note}".strip())
