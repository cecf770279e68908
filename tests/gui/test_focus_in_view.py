"""Where the keys go can be seen, also on a page that had been scrolled, and its key saves what is edited."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QPushButton, QScrollArea, QWidget
from pytestqt.qtbot import QtBot

from gui.pages.bench_page import BenchPage
from gui.recordings_folder import choose_recordings_folder
from gui.window import Window
from logger.bench import read_bench
from logger.bench_form import FIELDS


def bench_page(window: Window, qtbot: QtBot) -> BenchPage:
    window.activateWindow()
    with qtbot.waitActive(window):
        window.show()
    window.show_page("bench")
    page = window.stack.currentWidget()
    assert isinstance(page, BenchPage)
    pane, height = pane_of(page), -1
    while height != pane.widget().height():  # until everything has its place
        height = pane.widget().height()
        window.frame()
        QApplication.processEvents()
    return page


def pane_of(page: BenchPage) -> QScrollArea:
    return next(pane for pane in page.findChildren(QScrollArea) if pane.isAncestorOf(page.save))


def is_in_sight(widget: QWidget) -> bool:
    return widget.visibleRegion().boundingRect() == widget.rect()


def test_a_page_that_had_been_scrolled_shows_the_field_that_takes_the_keys(
    window: Window, qtbot: QtBot
) -> None:
    page = bench_page(window, qtbot)
    bar = pane_of(page).verticalScrollBar()
    assert bar.maximum() > 300
    window.show_page("run")
    bar.setValue(bar.maximum())
    window.show_page("bench")
    QApplication.processEvents()
    title = page.fields["", "title"].edit
    assert title.hasFocus()
    assert is_in_sight(title)


def test_a_page_stays_where_it_was_scrolled_as_the_window_gets_the_keys_back(
    window: Window, qtbot: QtBot
) -> None:
    """It sprang back to the field, under the hand that clicked into the window, or after a dialog."""
    page = bench_page(window, qtbot)
    bar = pane_of(page).verticalScrollBar()
    page.fields["", "title"].edit.setFocus()
    bar.setValue(bar.maximum())
    other = QWidget()
    qtbot.addWidget(other)
    with qtbot.waitActive(other):
        other.show()
        other.activateWindow()
    with qtbot.waitActive(window):
        window.activateWindow()
    QApplication.processEvents()
    assert page.fields["", "title"].edit.hasFocus()
    assert bar.value() == bar.maximum()


@pytest.mark.parametrize("name", ["bench", "shelf"])
def test_the_tab_key_reaches_what_stands_before_the_field_that_takes_the_keys(
    window: Window, qtbot: QtBot, tmp_path: Path, name: str
) -> None:
    """From the header it went on to that field, and never to the buttons before it, as those that save."""
    choose_recordings_folder(window.settings, tmp_path)
    bench_page(window, qtbot)
    window.show_page(name)
    page, stops = window.stack.currentWidget(), []
    first = window.focusWidget()
    while (at := window.focusWidget()) is not None and at not in stops:
        stops.append(at)
        QTest.keyClick(window.windowHandle(), Qt.Key.Key_Tab)
    assert at is first
    wanted = [one for one in page.findChildren(QPushButton) if one.isVisible() and one.isEnabled()]
    assert wanted
    assert [one.text() for one in wanted if one not in stops] == []


def test_a_field_reached_from_outside_its_pane_is_shown(window: Window, qtbot: QtBot) -> None:
    page = bench_page(window, qtbot)
    last = page.fields[FIELDS[-1].path].edit
    assert not is_in_sight(last)
    last.setFocus(Qt.FocusReason.BacktabFocusReason)
    QApplication.processEvents()
    assert is_in_sight(last)


def test_nothing_is_moved_under_a_hand(window: Window, qtbot: QtBot) -> None:
    page = bench_page(window, qtbot)
    pane, title = pane_of(page), page.fields["", "title"].edit
    page.save.setFocus()
    contents = pane.widget()
    pane.verticalScrollBar().setValue(title.mapTo(contents, QPoint()).y() + title.height() // 2)
    before = pane.verticalScrollBar().value()
    assert not is_in_sight(title)
    point = title.mapTo(window, title.rect().bottomLeft() + QPoint(20, -4))
    QTest.mousePress(window.windowHandle(), Qt.MouseButton.LeftButton, pos=point)
    assert title.hasFocus()
    assert pane.verticalScrollBar().value() == before
    QTest.mouseRelease(window.windowHandle(), Qt.MouseButton.LeftButton, pos=point)


def test_the_key_that_saves_saves_the_bench(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = bench_page(window, qtbot)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "strips.toml"), ""))
    title = page.fields["", "title"].edit
    title.clear()
    QTest.keyClicks(title, "Strip 4")
    QTest.keyClick(title, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    assert read_bench(tmp_path / "strips.toml").title == "Strip 4"
    QTest.keyClicks(title, "b")
    QTest.keyClick(title, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    assert read_bench(tmp_path / "strips.toml").title == "Strip 4b"
