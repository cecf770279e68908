"""A pane scrolls by keys where there is something to scroll, and shows then that the keys are there."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication, QScrollArea, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from gui.theme import Theme, style_sheet
from gui.widgets.scroll_pane import scroll_pane


def pane(qtbot: QtBot, theme: Theme, height: int, *, takes_focus: bool = True) -> QScrollArea:
    theme.choose("light")
    inner, page = QWidget(), QWidget()
    inner.setMinimumHeight(height)
    made = scroll_pane(inner, "Table", takes_focus=takes_focus)
    made.setParent(page)
    QVBoxLayout(page).addWidget(made)
    page.setStyleSheet(style_sheet(theme.colours))
    qtbot.addWidget(page)
    page.resize(300, 200)
    page.show()
    page.activateWindow()
    with qtbot.waitActive(page):
        QApplication.processEvents()
    made.page = page  # type: ignore[attr-defined]
    return made


def test_the_bar_shows_that_the_keys_are_there(qtbot: QtBot, theme: Theme) -> None:
    made = pane(qtbot, theme, 900)
    made.clearFocus()
    bar, colour = made.verticalScrollBar(), QColor(theme.colours.curve)

    def is_shown() -> bool:
        return bar.grab().toImage().pixelColor(bar.width() // 2, 6) == colour

    assert not is_shown()
    made.setFocus(Qt.FocusReason.TabFocusReason)
    assert is_shown()
    made.clearFocus()
    assert not is_shown()


def test_keys_do_not_stop_where_nothing_scrolls(qtbot: QtBot, theme: Theme) -> None:
    assert pane(qtbot, theme, 20).focusPolicy() == Qt.FocusPolicy.NoFocus
    assert pane(qtbot, theme, 900).focusPolicy() == Qt.FocusPolicy.StrongFocus
    assert pane(qtbot, theme, 900, takes_focus=False).focusPolicy() == Qt.FocusPolicy.NoFocus
