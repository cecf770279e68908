"""Views behind tabs with the keyboard: the tab, then what it shows, and where the keys are can be seen."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from gui.findings.tabbed_views import TabbedViews
from gui.theme import Theme, style_sheet


@pytest.fixture
def views(qtbot: QtBot, theme: Theme) -> Iterator[TabbedViews]:
    theme.choose("light")
    inner = {name: QPushButton(f"in {name}") for name in ("result", "moments")}
    made = TabbedViews()
    for name, button in inner.items():
        made.add(name, name, button)
    made.setStyleSheet(style_sheet(theme.colours))
    page = QWidget()
    column = QVBoxLayout(page)
    column.addWidget(made)
    column.addWidget(QPushButton("behind"))
    qtbot.addWidget(page)
    page.resize(400, 300)
    page.show()
    page.activateWindow()
    with qtbot.waitActive(page):
        pass
    yield made  # its page stays with it
    page.hide()


def words_of_focus() -> str:
    focused = QApplication.focusWidget()
    return focused.text() if isinstance(focused, QPushButton) else ""


@pytest.mark.parametrize("name", ["result", "moments"])
def test_the_keys_go_to_the_tab_then_to_what_it_shows(views: TabbedViews, name: str) -> None:
    views.tabs[name].click()
    views.tabs[name].setFocus()
    stops = []
    while words_of_focus() != f"in {name}" and len(stops) < 4:
        stops.append(words_of_focus())
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
    assert stops in ([name], [name, ""]), "the pane around the view may be between"


def test_the_line_under_a_tab_with_the_keys_is_thicker_and_moves_no_word(
    views: TabbedViews, theme: Theme
) -> None:
    tab = views.tabs["result"]

    def line() -> int:
        image = tab.grab().toImage()
        colour = {QColor(theme.colours.ink).rgb(), QColor(theme.colours.curve).rgb()}
        return sum(
            image.pixel(image.width() // 2, y) in colour for y in range(image.height() - 14, image.height())
        )

    views.tabs["moments"].setFocus()
    without, size = line(), tab.sizeHint()
    tab.setFocus()
    QApplication.processEvents()
    assert without == 2
    assert line() == 4
    assert tab.sizeHint() == size
