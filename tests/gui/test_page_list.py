"""Pages are found by their list, made when first shown, and reached by tab, key and menu."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from gui.icons import ICON_NAMES, icon
from gui.page_list import PAGES, PageEntry
from gui.pages.page import HeaderWords, Page
from gui.window import Window


class InventedPage(Page):
    """A page of this test."""

    entered_times = 0

    def entered(self) -> None:
        self.entered_times += 1

    def header_words(self) -> HeaderWords:
        return HeaderWords("Invented", ("for a test",))


def test_names_keys_and_icons_are_all_different_and_there() -> None:
    for attribute in ("name", "title", "icon", "key"):
        found = [getattr(entry, attribute) for entry in PAGES]
        assert len(set(found)) == len(found)
    for entry in PAGES:
        assert entry.icon in ICON_NAMES
        if entry.page_class:
            assert issubclass(entry.load(), Page)


def test_every_drawing_can_be_painted(qapp: QApplication) -> None:
    for name in ICON_NAMES:
        picture = icon(name, "#0b5fa5").pixmap(20).toImage()
        ink = {picture.pixelColor(x, y).name() for x in range(20) for y in range(20)}
        assert "#0b5fa5" in ink or len(ink) > 2, name


@pytest.fixture
def one_page_more(monkeypatch: pytest.MonkeyPatch) -> PageEntry:
    entry = PageEntry("invented", "Invented", "bench", "F9", f"{__name__}:InventedPage")
    more = (*PAGES, entry)
    for module in ("gui.page_stack", "gui.menu", "gui.widgets.header", "gui.page_list"):
        monkeypatch.setattr(f"{module}.PAGES", more)
    return entry


def test_one_line_adds_a_page(one_page_more: PageEntry, window: Window, qtbot: QtBot) -> None:
    window.activateWindow()
    with qtbot.waitActive(window):
        pass
    QTest.keyClick(window.windowHandle(), Qt.Key.Key_F9)
    page = window.stack.currentWidget()
    assert isinstance(page, InventedPage)
    assert page.host is window
    assert page.entered_times == 1
    tab = window.header._tabs["invented"]
    assert tab.isChecked()
    assert window.windowTitle() == "Invented · Galvanote"
    window.show_page("run")
    assert not tab.isChecked()
    tab.click()
    assert window.stack.currentWidget() is page
