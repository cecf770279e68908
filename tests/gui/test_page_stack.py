"""The pages share a window, and none of them asks for room while it is behind another."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtWidgets import QApplication, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from gui.pages.cautions_page import CautionsPage
from gui.window import Window

SMALL = 683, 384
GOOD = Path(__file__).parents[2] / "recordings" / "invented" / "good-lesson.h5"


def test_the_way_back_from_the_cautions_is_in_sight_in_a_low_window(qtbot: QtBot) -> None:
    page = CautionsPage()
    qtbot.addWidget(page)
    page.resize(700, 300)
    page.show()
    back = page.focusProxy()
    assert back is not None
    assert back.visibleRegion().boundingRect() == back.rect()


def test_the_cautions_have_one_scroll_bar_in_a_small_window(window: Window) -> None:
    window.resize(*SMALL)
    window.show()
    window.stack.show_cautions()
    QApplication.processEvents()
    assert window._scroll.verticalScrollBar().maximum() == 0


def test_a_page_behind_another_does_not_make_a_small_window_scroll(window: Window) -> None:
    """A school laptop at 200 %: two recordings were open, the one behind laid out for a large window."""
    wide = QWidget()
    wide.setMinimumWidth(900)
    window.stack.addWidget(wide)
    window.resize(*SMALL)
    for page in (
        window.stack.start_page,
        window.stack.wall,
        wide,
        window.stack.start_page,
        window.stack.wall,
    ):
        window.stack.bring(page)
        QApplication.processEvents()
        assert window.stack.width() == (900 if page is wide else SMALL[0])


def test_the_wall_fits_any_window(window: Window) -> None:
    """Part of a number is a wrong number: the wall has none of it beyond the edge."""
    window.resize(300, 200)
    window.stack.bring(window.stack.wall)
    QApplication.processEvents()
    assert window.width() == 300
    assert window.stack.wall.width() == 300
    assert window.stack.wall.visibleRegion().boundingRect() == window.stack.wall.rect()


def test_a_recording_that_is_open_at_last_comes_in_front(window: Window, qtbot: QtBot) -> None:
    window.open_file(GOOD)
    qtbot.waitUntil(lambda: bool(window.stack.findings_pages), timeout=60_000)
    assert window.stack.currentWidget() is window.stack.findings_pages[0]


def test_who_has_turned_to_another_page_meanwhile_stays_there(window: Window, qtbot: QtBot) -> None:
    window.open_file(GOOD)
    window.show_page("bench")
    qtbot.waitUntil(lambda: bool(window.stack.findings_pages), timeout=60_000)
    assert window.stack.present_name() == "bench"
    assert f"open {window.stack.findings_pages[0].finished.recording.path}" in window.bars.texts
    show = next(b for b in window.bars.findChildren(QPushButton) if b.text() == "Show its findings")
    show.click()
    assert window.stack.currentWidget() is window.stack.findings_pages[0]
