"""A list to choose from is as wide as its longest line, high enough for gloves, and tells that it goes on."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from gui.theme import Theme, style_sheet
from gui.widgets.choice_box import ChoiceBox
from gui.widgets.text_button import TARGET_PX


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


def test_the_list_bears_the_name_of_its_field(qtbot: QtBot, theme: Theme) -> None:
    """The list takes the keys while it is open: a screen reader names what has them."""
    box = ChoiceBox(theme)
    qtbot.addWidget(box)
    box.setAccessibleName("Kind of instrument")
    box.addItems(["a", "b"])
    box.show()
    box.showPopup()
    assert box.view().accessibleName() == "Kind of instrument"
    box.hidePopup()


def test_each_line_of_the_list_is_high_enough_for_gloves(qtbot: QtBot, theme: Theme) -> None:
    holder = QWidget()
    holder.setStyleSheet(style_sheet(theme.colours))
    qtbot.addWidget(holder)
    box = ChoiceBox(theme, holder)
    box.addItems(["Note", "Photo"])
    holder.show()
    box.showPopup()
    QApplication.processEvents()
    heights = [box.view().visualRect(box.model().index(row, 0)).height() for row in range(2)]
    box.hidePopup()
    assert min(heights) >= TARGET_PX


@pytest.mark.parametrize("is_cut", [False, True])
def test_a_list_that_the_screen_cuts_has_a_scroll_bar(is_cut: bool, qtbot: QtBot, theme: Theme) -> None:
    holder = QWidget()
    holder.setStyleSheet(style_sheet(theme.colours))
    qtbot.addWidget(holder)
    box = ChoiceBox(theme)  # as pages are made: the style sheet comes to it later
    QVBoxLayout(holder).addWidget(box)
    count = holder.screen().size().height() // TARGET_PX + 2 if is_cut else 2
    box.setMaxVisibleItems(count)
    box.addItems([f"Kind {number}" for number in range(count)])
    holder.show()
    box.showPopup()
    QApplication.processEvents()
    has_bar = box.view().verticalScrollBar().isVisible()
    box.hidePopup()
    assert has_bar == is_cut


@pytest.mark.parametrize("times", [1, 40])
def test_a_list_wider_than_its_box_stays_on_the_screen(times: int, qtbot: QtBot, theme: Theme) -> None:
    """Its right end, with the scroll bar, lay beyond the screen: a port can have a name of any length."""
    holder = QWidget()
    holder.setStyleSheet(style_sheet(theme.colours))
    qtbot.addWidget(holder)
    box = ChoiceBox(theme, holder)
    box.addItems(["short", "a port with a long name " * times])
    box.setFixedWidth(80)
    room = holder.screen().availableGeometry()
    holder.setGeometry(room.right() - 100, room.top() + 100, 100, 50)
    holder.show()
    box.showPopup()
    QApplication.processEvents()
    shown, screen = box.view().window().frameGeometry(), box.screen().availableGeometry()
    box.hidePopup()
    assert shown.left() >= screen.left()
    assert shown.right() <= screen.right()
