"""A page that asks for another height in another width does not end the program."""

from __future__ import annotations

from PySide6.QtCore import QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from gui.widgets.page_pane import PagePane

ROOM = QSize(400, 300)
ENOUGH = 50


class _Fickle(QWidget):
    """Too high for the pane where it has all of its width, low where a scroll bar takes some of it."""

    def __init__(self) -> None:
        super().__init__()
        self.times = 0

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.times += 1
        if self.times < ENOUGH:
            self.setMinimumHeight(ROOM.height() + 50 if self.width() == ROOM.width() else 0)


def test_a_page_is_fitted_a_few_times_only(qtbot: QtBot) -> None:
    page = _Fickle()
    pane = PagePane(page)
    qtbot.addWidget(pane)
    pane.resize(ROOM)
    pane.show()
    QApplication.processEvents()
    assert 0 < page.times < 12


def test_a_page_scrolls_where_it_has_no_room(qtbot: QtBot) -> None:
    page = QWidget()
    page.setMinimumSize(600, 500)
    pane = PagePane(page)
    qtbot.addWidget(pane)
    pane.resize(ROOM)
    pane.show()
    QApplication.processEvents()
    assert page.size() == QSize(600, 500)
    assert pane.verticalScrollBar().maximum() == 500 - pane.viewport().height()
    page.setMinimumSize(0, 0)
    QApplication.processEvents()
    assert page.size() == ROOM
