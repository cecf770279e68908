"""Rows of names and values: what stands below a value belongs to it."""

from __future__ import annotations

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from gui.live_texts import Row
from gui.widgets.value_table import ValueTable


def test_a_note_below_its_value_is_nearer_to_it_than_to_the_next_row(qtbot: QtBot) -> None:
    table = ValueTable()
    qtbot.addWidget(table)
    table.limit_to(200)
    table.show_rows(
        [
            Row("Current after", "2.08 mA", "regulation: 1.0 % from before to after"),
            Row("Heat in the resistor", "51 mW"),
        ]
    )
    table.resize(200, table.sizeHint().height())
    table.show()
    QApplication.processEvents()
    shown = [one for one in table.findChildren(QLabel) if one.isVisible()]
    value, note, following = (
        next(one for one in shown if begin in one.text()) for begin in ("2.08", "regulation", "51")
    )

    def top(one: QLabel) -> int:
        return one.mapTo(table, QPoint(0, 0)).y()

    to_its_value = top(note) - top(value) - value.height()
    to_the_next = top(following) - top(note) - note.height()
    assert to_the_next > to_its_value
