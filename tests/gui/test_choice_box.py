"""A list to choose from is as wide as its longest line, however narrow its field."""

from __future__ import annotations

from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from gui.theme import Theme
from gui.widgets.choice_box import ChoiceBox


def test_no_line_of_the_list_is_cut(qtbot: QtBot, theme: Theme) -> None:
    box = ChoiceBox(theme)
    qtbot.addWidget(box)
    longest = "Frische Lösung in der Zelle (Phase nachher), mit allem, was dazugehört"
    box.addItems(["kurz", longest])
    box.setFixedWidth(120)
    box.show()
    box.showPopup()
    QApplication.processEvents()
    assert box.view().viewport().width() >= box.view().sizeHintForColumn(0)
    assert box.fontMetrics().horizontalAdvance(longest) > box.width(), "else it shows nothing"
    box.hidePopup()
