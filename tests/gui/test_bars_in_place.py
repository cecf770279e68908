"""Bars come and go without moving what a hand is about to press, and without being cut off themselves."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QObject, QPoint, QRect, QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QApplication, QLabel, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from gui.pages.shelf_page import ShelfPage
from gui.recordings_folder import choose_recordings_folder
from gui.session import load_finished
from gui.window import Window
from logger.cautions import IN_SHORT
from tests.gui.controls import visible_controls
from tests.gui.fitting import too_tight
from tests.gui.window_bench import Bench
from tests.gui.window_bench import bench as bench

INVENTED = Path(__file__).parents[2] / "recordings" / "invented"
SIZES = [(1366, 768), (1280, 720), (1920, 1080)]
BARS = (
    ("touching", "danger", "The electrodes touch.", ()),
    ("disk_low", "danger", "The disk is nearly full: make room.", (("Second place …", lambda: None),)),
    (
        "told",
        "info",
        "Something that takes a few words more to say, but not so many that nobody reads it.",
        (),
    ),
)


def tell(window: Window) -> None:
    for key, level, text, actions in BARS:
        window.tell(key, level, text, actions)
    settle()


def untell(window: Window) -> None:
    for key in tuple(window.bars.texts):
        window.untell(key)
    settle()


def words(bars: QWidget) -> list[str]:
    """What can be read on the bars."""
    return [one.text() for one in bars.findChildren(QLabel) if one.isVisible()]


def settle() -> None:
    for _ in range(4):
        QApplication.processEvents()


def places(window: Window) -> dict[QWidget, QPoint]:
    """Where the controls are that can be pressed; a list keeps its upper edge, and may get lower."""
    return {
        one: one.mapTo(window, QPoint(0, 0))
        for one in visible_controls(window)
        if not window.bars.isAncestorOf(one)
    }


def assert_keeps_still(window: Window, what: str) -> None:
    window._show_header()
    for width, height in SIZES:
        window.resize(width, height)
        untell(window)
        before = places(window)
        assert before
        tell(window)
        after = places(window)
        moved = [
            (type(one).__name__, at, after.get(one)) for one, at in before.items() if after.get(one) != at
        ]
        assert moved == [], f"{what}, {width} x {height}"
        assert too_tight(window.bars) == []
        untell(window)
        assert places(window) == before, f"{what}, {width} x {height}, after the bars"


def test_the_run_page_keeps_still(bench: Bench, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: bench.session.view is not None, timeout=10_000)
    bench.look()
    assert_keeps_still(bench.window, "run")
    bench.page.stamp("note", bench.session.now_s)
    assert_keeps_still(bench.window, "run, words being typed")


def test_the_pages_keep_still(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    assert_keeps_still(window, "start")
    for name in ("bench", "help"):
        window.show_page(name)
        assert_keeps_still(window, name)
    choose_recordings_folder(window.settings, tmp_path)
    window.show_page("shelf")
    view = next(one for one in window.findChildren(QAbstractItemView) if one.isVisible())
    qtbot.waitUntil(lambda: window.frame() or window.stack.currentWidget().reading.is_over, timeout=30_000)  # type: ignore[union-attr]
    assert view.isVisible()
    assert_keeps_still(window, "shelf")
    window.stack.show_cautions()
    assert_keeps_still(window, "cautions")


def test_a_recording_on_the_shelf_keeps_still(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    shutil.copy(INVENTED / "good-lesson.h5", tmp_path)
    choose_recordings_folder(window.settings, tmp_path)
    window.show_page("shelf")
    page = window.stack.currentWidget()
    assert isinstance(page, ShelfPage)
    qtbot.waitUntil(
        lambda: window.frame() or (page.reading.is_over and page.model.count == 1), timeout=30_000
    )
    page.list.setCurrentIndex(page.model.index(0))
    settle()
    assert "Show findings" in " ".join(
        b.text() for b in visible_controls(window) if isinstance(b, QPushButton)
    )
    assert_keeps_still(window, "shelf with a recording")


def test_the_findings_keep_still(window: Window) -> None:
    window.add_findings(load_finished(INVENTED / "good-lesson.h5"))
    for tab in window.findings_pages[0].views.tabs.values():
        if tab.isVisible():
            tab.click()
            assert_keeps_still(window, f"findings, {tab.text()}")


@pytest.mark.parametrize("show", [lambda w: w.show_page("run"), lambda w: w.show_page("bench")])
def test_bars_are_whole_in_a_small_window(bench: Bench, show: Callable[[Window], None]) -> None:
    """The full-HD screen at 200 %."""
    show(bench.window)
    bench.window.resize(960, 540)
    tell(bench.window)
    assert too_tight(bench.window.bars) == []


def test_a_long_bar_is_whole_on_the_school_laptop_at_200_percent(bench: Bench) -> None:
    """The cautions of the first start leave some of the curve: their words go across the window."""
    bench.window.resize(683, 384)
    actions = (("All cautions", lambda: None), ("Understood", lambda: None))
    bench.window.tell(
        "cautions", "info", IN_SHORT + " They are there to be read.", actions
    )  # as long as in German
    settle()
    assert too_tight(bench.window.bars) == []
    assert bench.page.chart.places.view.height() >= 40


def test_bars_of_the_start_page_are_seen_after_other_pages_were(window: Window) -> None:
    """Pages behind it asked for more height than there was, and a danger stood below the edge."""
    window.resize(683, 384)
    window.add_findings(load_finished(INVENTED / "good-lesson.h5"))
    for name in ("shelf", "help", "bench"):
        window.show_page(name)
        settle()
    window.show_page("run")
    settle()
    assert window.stack.height() == window._scroll.viewport().height(), "nothing to scroll to"
    for width, height in ((960, 540), (683, 384)):
        window.resize(width, height)
        tell(window)
        assert window.bars.mapTo(window, QPoint(0, window.bars.height())).y() <= window.height()


def test_bars_go_with_the_page_in_front(bench: Bench) -> None:
    tell(bench.window)
    assert bench.page.isAncestorOf(bench.window.bars)
    bench.window.show_page("bench")
    settle()
    assert not bench.page.isAncestorOf(bench.window.bars)
    assert bench.window.bars.isVisible()
    bench.window.wall_switch.toggle()
    settle()
    assert not bench.window.bars.isVisible(), "the wall says itself what is grave"
    bench.window.wall_switch.toggle()
    settle()
    assert not bench.page.isAncestorOf(bench.window.bars), "the wall leads back to the bench"
    assert bench.window.bars.isVisible()
    bench.window.show_page("run")
    settle()
    assert bench.page.isAncestorOf(bench.window.bars)
    assert bench.window.bars.isVisible()
    assert len(bench.window.bars.texts) == len(BARS)


def test_in_a_low_window_the_gravest_bar_must_do(bench: Bench) -> None:
    """The school laptop at 200 %."""
    bench.window.resize(683, 384)
    bench.window.tell("told", "info", "Something.")
    for key, level, text, actions in BARS[:2]:
        bench.window.tell(key, level, text, actions)
    settle()

    def shown() -> list[str]:
        return [key for key, bar in bench.window.bars._bars.items() if bar.isVisible()]

    assert len(shown()) == 1
    gravest = shown()[0]
    assert bench.window.bars._bars[gravest].level == "danger"
    assert "2 more" in words(bench.window.bars)
    assert too_tight(bench.window.bars) == []
    bench.window.untell(gravest)
    settle()
    assert len(shown()) == 1
    assert "1 more" in words(bench.window.bars)
    bench.window.resize(1366, 768)
    settle()
    assert set(shown()) == set(bench.window.bars.texts)
    assert not [text for text in words(bench.window.bars) if text.endswith("more")]


def test_the_way_to_a_run_that_is_not_saved_outlasts_three_lost_meters(bench: Bench) -> None:
    """The oldest of four dangers fell away: the next run's meters took the button from the run before."""
    bars = bench.window.bars
    bench.window.tell("failed a.h5", "danger", "a.h5 is not saved.", (("Save again", lambda: None),))
    lost = [f"lost scpi:/dev/ttyUSB{i}" for i in range(3)]
    for key in lost:
        bench.window.tell(key, "danger", f"{key} is gone.")
    bench.window.tell("told", "info", "Something.")
    settle()
    assert bars.keys_of("danger") == (*reversed(lost), "failed a.h5"), "the topmost first"
    assert bars.keys_of("info") == (), "a note has no room beside four dangers"
    assert "1 more" in words(bars)
    for key in lost:
        bench.window.untell(key)
    settle()
    offers = [one.text() for one in bars.findChildren(QPushButton) if one.isVisible()]
    assert offers == ["Save again", "Close"]


@pytest.mark.parametrize("size", [(960, 540), (911, 512), (1093, 614), (1280, 720), (1366, 768)])
def test_bars_leave_the_curve_its_room(bench: Bench, size: tuple[int, int]) -> None:
    """Full HD at 200 %, school laptops at 150 and 125 %: however much there is to tell, the run is seen."""
    bench.window.resize(*size)
    tell(bench.window)
    assert bench.page.chart.places.view.height() >= 100


def test_the_words_of_bars_begin_at_one_line(bench: Bench) -> None:
    """Signs are not equally wide: i, ! and !!."""
    bench.window.resize(1366, 768)
    for level in ("info", "warning", "danger"):
        bench.window.tell(level, level, "Something.")
    settle()
    starts = {
        one.mapTo(bench.window, QPoint(0, 0)).x()
        for one in bench.window.bars.findChildren(QLabel)
        if one.text() == "Something."
    }
    assert len(starts) == 1


def test_words_are_typed_where_they_are_seen_though_a_bar_stands_on_a_low_page(
    window: Window, tmp_path: Path
) -> None:
    """Their field opened below the edge of the window."""
    window.resize(683, 384)
    mine = shutil.copy(INVENTED / "good-lesson.h5", tmp_path)  # words being typed are kept at the end
    finished = load_finished(Path(mine))
    window.add_findings(finished)
    actions = (("Try again", lambda: None), ("Copy the words", lambda: None))
    window.tell("changed", "warning", IN_SHORT, actions)
    settle()
    (page,) = window.findings_pages
    page.moments.edit(finished.recording.moments[0].id)
    settle()
    window.frame()
    field, pane = page.moments.entry._label, window._scroll.viewport()
    assert window.focusWidget() is field
    assert pane.rect().contains(QRect(field.mapTo(pane, QPoint(0, 0)), field.size()))
    window._scroll.verticalScrollBar().setValue(0)
    window.frame()
    assert window._scroll.verticalScrollBar().value() == 0, "whoever scrolls away may do so"


REFUSED = (
    "Der Ordner darf nicht beschrieben werden. Nicht in der Datei: 5:00 Salz zugegeben: 3 Tropfen; 21:40 "
    "Elektroden heraus; 22:10 Lösung gewechselt; 22:11 Elektroden hinein. "
)
ACTIONS = (("Noch einmal versuchen", lambda: None), ("Worte kopieren", lambda: None))


def test_a_page_is_no_wider_than_a_window_that_was_made_narrow_under_a_bar(window: Window) -> None:
    """The buttons beside the words held it as wide as it was: its right edge was out of sight."""
    window.resize(1100, 600)
    window.add_findings(load_finished(INVENTED / "good-lesson.h5"))
    (page,) = window.findings_pages
    window.tell("changed", "warning", REFUSED, ACTIONS)
    settle()
    for width in (850, 820, 683):
        window.resize(width, 600)
        settle()
        assert page.width() == width
        assert too_tight(window.bars) == []


def test_a_page_comes_to_rest_where_its_scroll_bar_takes_room(window: Window) -> None:
    """With it the page was narrow and needed none, without it wide and did: that ended the program."""
    window.resize(900, 460)
    window.add_findings(load_finished(INVENTED / "good-lesson.h5"))
    (page,) = window.findings_pages
    window.tell("changed", "warning", 2 * REFUSED, ACTIONS)
    settle()
    sizes = SizesOf(page)
    for height in range(400, 560, 20):
        for width in range(798, 810, 2):
            window.resize(width, height)
            settle()
            settle()
            assert len(sizes.seen) < 30
            sizes.seen.clear()
            settle()
            assert sizes.seen == [], f"{width} x {height}"
            sizes.seen.clear()


class SizesOf(QObject):
    """Notes every size that a widget takes."""

    def __init__(self, widget: QWidget) -> None:
        super().__init__(widget)
        self.seen: list[QSize] = []
        widget.installEventFilter(self)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QResizeEvent):
            self.seen.append(event.size())
        return False
