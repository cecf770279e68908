"""What is known of the recording that is chosen on the shelf: each value below its name, in a line or two."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from gui.live_texts import Row
from gui.widgets.text_label import text_label

__all__ = ["EntryFacts"]

ONE_LINE_FROM = 760
"""Pixels from which all stand in one line; in less they stand in lines of `IN_LINE`."""
IN_LINE = 3


class EntryFacts(QWidget):
    """Shows rows beside one another; labels are made once, and only their texts change."""

    def __init__(self) -> None:
        super().__init__()
        self.facts: list[_Fact] = []
        self._in_line = 0
        grid = self._grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(24)
        grid.setVerticalSpacing(8)

    def show_rows(self, rows: Sequence[Row]) -> None:
        """Show `rows`, replacing those shown."""
        while len(self.facts) < len(rows):
            self.facts.append(_Fact(self))
            self._in_line = 0
        for number, fact in enumerate(self.facts):
            fact.setVisible(number < len(rows))
            if number < len(rows):
                fact.show_row(rows[number])
        self._lay_out()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Look for how many have room beside one another."""
        super().resizeEvent(event)
        self._lay_out()

    def _lay_out(self) -> None:
        in_line = len(self.facts) if self.width() >= ONE_LINE_FROM else IN_LINE
        if in_line == self._in_line:
            return
        self._in_line = in_line
        for fact in self.facts:
            self._grid.removeWidget(fact)
        for number, fact in enumerate(self.facts):
            self._grid.addWidget(fact, *divmod(number, in_line))
        for column in range(len(self.facts)):
            self._grid.setColumnStretch(column, 1 if column < in_line else 0)


class _Fact(QWidget):
    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)  # shown without one it is a window of its own, and takes the keyboard along
        self._name, self._value = text_label("", 12.5, look="quiet"), text_label("", 15.5, weight="medium")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addWidget(self._name)
        layout.addWidget(self._value)

    def show_row(self, row: Row) -> None:
        self._name.setText(row.name)
        self._value.setText(row.value)
        self._value.setAccessibleName(f"{row.name}: {row.value}")
