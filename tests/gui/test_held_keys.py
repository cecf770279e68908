"""A key that is held does once what it stands for, and writes nothing where it was not pressed."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent, QWindow
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from gui.held_keys import HeldKeys
from gui.pages.shelf_page import ShelfPage
from logger.shelf_entry import ShelfEntry
from tests.gui.window_bench import Bench
from tests.gui.window_bench import bench as bench

NONE = Qt.KeyboardModifier.NoModifier
CTRL = Qt.KeyboardModifier.ControlModifier
TIMES = 4


class Stamps(QObject):
    """Gives events the time that a test says: the first one asked, as it is made last."""

    def __init__(self, window: QWindow) -> None:
        super().__init__(window)
        self.now_ms = 5000
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent):
            event.setTimestamp(self.now_ms)
        return super().eventFilter(watched, event)


def hold_marked(bench: Bench, key: Qt.Key, text: str) -> None:
    """Hold a key where its repetitions are marked as such."""
    handle = bench.window.windowHandle()
    for repeats in (False, *(True,) * TIMES):
        for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
            QApplication.sendEvent(handle, QKeyEvent(kind, key, NONE, text, repeats))


class Pairs:
    """Holds a key as X11 does: each repetition a release and a press at one time."""

    def __init__(self, bench: Bench) -> None:
        self._handle = bench.window.windowHandle()
        HeldKeys(self._handle, bench.window.actions, pairs=True)
        self._stamps = Stamps(self._handle)

    def hold(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = NONE) -> None:
        self._stamps.now_ms += 500
        QTest.keyPress(self._handle, key, modifiers)
        for _ in range(TIMES):
            self._stamps.now_ms += 40
            QTest.keyRelease(self._handle, key, modifiers)
            QTest.keyPress(self._handle, key, modifiers)
        self._stamps.now_ms += 40
        QTest.keyRelease(self._handle, key, modifiers)

    def press(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = NONE) -> None:
        self._stamps.now_ms += 80
        QTest.keyPress(self._handle, key, modifiers)
        self._stamps.now_ms += 40
        QTest.keyRelease(self._handle, key, modifiers)


@pytest.fixture
def pairs(bench: Bench) -> Pairs:
    return Pairs(bench)


def words(bench: Bench) -> str:
    return bench.page.foot.entry._label.text()


@pytest.mark.parametrize(
    ("key", "text", "kind"),
    [
        (Qt.Key.Key_M, "m", "note"),
        (Qt.Key.Key_9, "9", "resistor_changed"),
        (Qt.Key.Key_0, "0", "temperature"),
    ],
)
@pytest.mark.parametrize("are_marked", [True, False])
def test_a_held_key_does_not_stand_in_the_words_it_asks_for(
    bench: Bench, key: Qt.Key, text: str, kind: str, are_marked: bool
) -> None:
    if are_marked:
        hold_marked(bench, key, text)
    else:
        Pairs(bench).hold(key)
    assert bench.page.foot.entry.is_open
    assert words(bench) == ""
    assert [m.kind for m in bench.session.moments] == [kind]


def test_a_key_held_in_the_field_repeats_there(bench: Bench, pairs: Pairs) -> None:
    bench.press(Qt.Key.Key_M)
    pairs.hold(Qt.Key.Key_X)
    assert words(bench) == "x" * (1 + TIMES)
    hold_marked(bench, Qt.Key.Key_Y, "y")
    assert words(bench) == "x" * (1 + TIMES) + "y" * (1 + TIMES)


def test_a_letter_typed_twice_stands_there_twice(bench: Bench, pairs: Pairs) -> None:
    for key in (Qt.Key.Key_M, Qt.Key.Key_M, Qt.Key.Key_M):
        pairs.press(key)
    assert words(bench) == "mm"


def test_a_held_key_that_asks_for_words_by_its_shortcut_is_not_in_them(bench: Bench, pairs: Pairs) -> None:
    bench.press(Qt.Key.Key_3)
    pairs.hold(Qt.Key.Key_L)
    assert bench.page.foot.entry.is_open
    assert words(bench) == ""


def test_a_held_key_does_one_step_skips_one_and_tags_one_moment(bench: Bench, pairs: Pairs) -> None:
    pairs.hold(Qt.Key.Key_Space)
    assert bench.page.tagging.sheet.position == 1
    pairs.hold(Qt.Key.Key_K, CTRL)
    assert bench.page.tagging.sheet.position == 2
    pairs.hold(Qt.Key.Key_3)
    assert [m.kind for m in bench.session.moments] == ["dry_cell", "stirring_on"]


@pytest.mark.parametrize("are_marked", [True, False])
def test_enter_held_on_a_moment_opens_its_words_and_leaves_them_open(bench: Bench, are_marked: bool) -> None:
    bench.press(Qt.Key.Key_3)
    bench.look()
    (moment,) = bench.session.moments
    bench.page.panel.moments.choose(moment.id)
    bench.page.panel.moments._list.setFocus()
    if are_marked:
        hold_marked(bench, Qt.Key.Key_Return, "\r")
    else:
        Pairs(bench).hold(Qt.Key.Key_Return)
    assert bench.page.foot.entry.is_open


@pytest.mark.parametrize("are_marked", [True, False])
def test_keys_held_on_the_shelf_open_a_recording_once_and_tick_it_once(
    bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, are_marked: bool
) -> None:
    opened: list[Path] = []
    monkeypatch.setattr(bench.window.recordings, "open", opened.append)
    monkeypatch.setattr(ShelfPage, "refresh", lambda _page: None)  # what it shows is given below
    bench.window.show_page("shelf")
    shelf = bench.window.stack.currentWidget()
    assert isinstance(shelf, ShelfPage)
    shelf.model.take(ShelfEntry(tmp_path / "a.h5", "finished"))
    shelf.list.setCurrentIndex(shelf.model.index(0))
    shelf.list.setFocus()
    keys = None if are_marked else Pairs(bench)
    for key, text in ((Qt.Key.Key_Return, "\r"), (Qt.Key.Key_Space, " ")):
        if keys is None:
            hold_marked(bench, key, text)
        else:
            keys.hold(key)
    assert opened == [tmp_path / "a.h5"]
    assert shelf.model.ticked == (tmp_path / "a.h5",)


def test_enter_held_on_words_keeps_them_and_does_nothing_beyond(bench: Bench, pairs: Pairs) -> None:
    bench.press(Qt.Key.Key_M)
    pairs.press(Qt.Key.Key_X)
    beyond: list[int] = []
    chart = bench.page.chart
    chart.keyPressEvent = lambda event: beyond.append(event.key())  # type: ignore[method-assign]
    pairs.hold(Qt.Key.Key_Return)
    assert [m.label for m in bench.session.moments] == ["x"]
    assert chart.hasFocus()
    assert beyond == []
    pairs.press(Qt.Key.Key_Return)
    assert beyond == [Qt.Key.Key_Return], "another press is one"


def test_undoing_repeats_while_its_key_is_held(bench: Bench, pairs: Pairs) -> None:
    for _ in range(TIMES + 2):
        pairs.press(Qt.Key.Key_3)
    pairs.hold(Qt.Key.Key_Z, CTRL)
    assert len(bench.session.moments) == 1


def test_of_the_shortcuts_only_undo_and_redo_repeat(bench: Bench) -> None:
    menu = bench.window.menu
    repeating = {a for a in bench.window.actions() if a.shortcuts() and a.autoRepeat()}
    assert repeating == {menu.undo, menu.redo}
