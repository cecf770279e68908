"""Moments tagged by hand in the window: by key, by button, with words, edited and brought back."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
)

from tests.gui.window_bench import Bench
from tests.gui.window_bench import bench as bench


def test_the_time_is_that_of_the_key_going_down(bench: Bench) -> None:
    """What happens between press and release, or while words are typed, does not move the moment."""
    handle = bench.window.windowHandle()
    bench.run.clock.time_s = 61.5
    QTest.keyPress(handle, Qt.Key.Key_M)
    bench.run.clock.time_s = 65.0
    QTest.keyRelease(handle, Qt.Key.Key_M)
    bench.type("buffer cloudy")
    bench.run.clock.time_s = 90.0
    bench.press(Qt.Key.Key_Return)
    (moment,) = bench.session.moments
    assert (moment.time_s, moment.kind, moment.label) == (61.5, "note", "buffer cloudy")


def test_the_time_a_key_has_waited_is_taken_off(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("gui.stamping.EventDelay.of", lambda _delay, _stamp_ms: 0.25)
    bench.run.clock.time_s = 61.5
    bench.run.clock.speed = 4.0
    bench.press(Qt.Key.Key_M)
    assert [m.time_s for m in bench.session.moments] == [60.5]


def test_the_moment_is_kept_before_any_word_is_typed(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    assert len(bench.session.moments) == 1
    assert bench.page.foot.entry.isVisible()


def test_m_is_text_while_words_are_typed_and_ctrl_m_stamps_even_then(bench: Bench) -> None:
    bench.run.clock.time_s = 10.0
    bench.press(Qt.Key.Key_M)
    bench.type("milky mess")
    assert len(bench.session.moments) == 1
    bench.run.clock.time_s = 12.0
    bench.press(Qt.Key.Key_M, Qt.KeyboardModifier.ControlModifier)
    bench.type("more")
    bench.press(Qt.Key.Key_Return)
    assert [(m.time_s, m.label) for m in bench.session.moments] == [(10.0, "milky mess"), (12.0, "more")]


def test_a_kind_is_tagged_while_the_words_of_an_earlier_moment_go_on(bench: Bench) -> None:
    bench.run.clock.time_s = 10.0
    bench.press(Qt.Key.Key_M)
    bench.type("milky")
    bench.run.clock.time_s = 12.0
    bench.press(Qt.Key.Key_3, Qt.KeyboardModifier.ControlModifier)
    bench.type(" mess 5")  # none of this is a key: no step, no note, no kind
    bench.press(Qt.Key.Key_Return)
    moments = [(m.time_s, m.kind, m.label) for m in bench.session.moments]
    assert moments == [(10.0, "note", "milky mess 5"), (12.0, "stirring_on", "")]


def test_words_being_typed_are_kept_when_the_source_ends(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("colour brown")
    bench.run.has_ended = True
    bench.look()
    assert bench.session.state != "running"
    assert bench.session.moments[-1].label == "colour brown"


def test_esc_keeps_the_moment_without_words(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("never mind")
    bench.press(Qt.Key.Key_Escape)
    assert [m.label for m in bench.session.moments] == [""]
    assert not bench.page.foot.entry.isVisible()
    bench.press(Qt.Key.Key_M)
    assert len(bench.session.moments) == 2


def test_a_held_key_stamps_once(bench: Bench) -> None:
    handle = bench.window.windowHandle()
    for repeats in (False, True, True):
        event = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_M, Qt.KeyboardModifier.NoModifier, "m", repeats)
        QApplication.sendEvent(handle, event)
    assert len(bench.session.moments) == 1


def test_a_kind_may_be_typed_or_chosen(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("salt_added two drops")
    bench.press(Qt.Key.Key_Return)
    assert [(m.kind, m.label) for m in bench.session.moments] == [("salt_added", "two drops")]


def test_the_menu_of_kinds_stamps_when_it_opens(bench: Bench) -> None:
    bench.run.clock.time_s = 30.0
    bench.page.foot.open_kinds()
    bench.run.clock.time_s = 33.0
    menu = bench.page.foot._menu
    action = next(a for a in menu.actions() if "Electrodes out" in a.text())
    action.trigger()
    menu.close()
    bench.press(Qt.Key.Key_Return)
    assert [(m.time_s, m.kind) for m in bench.session.moments] == [(30.0, "electrodes_out")]


def test_the_button_stamps_as_it_goes_down(bench: Bench) -> None:
    bench.run.clock.time_s = 20.0
    QTest.mousePress(bench.page.foot.tag, Qt.MouseButton.LeftButton)
    bench.run.clock.time_s = 21.0
    QTest.mouseRelease(bench.page.foot.tag, Qt.MouseButton.LeftButton)
    assert [m.time_s for m in bench.session.moments] == [20.0]


def test_a_moment_is_edited_removed_and_brought_back(bench: Bench) -> None:
    moment = bench.session.add_moment("note", "first", 50.0)
    bench.look()
    bench.page.edit(moment.id)
    entry = bench.page.foot.entry
    entry._time.setText("0:48,5")
    entry._kind.setCurrentIndex(entry._kind.findData("photo"))
    entry._label.setText("photo of the film")
    bench.press(Qt.Key.Key_Return)
    (edited,) = bench.session.moments
    assert (edited.time_s, edited.kind, edited.label) == (48.5, "photo", "photo of the film")
    bench.look()
    listed = bench.page.panel.moments
    listed.choose(moment.id)
    listed._list.setFocus()
    bench.press(Qt.Key.Key_Delete)
    assert bench.session.moments == ()
    assert "removed" in bench.window.bars.texts
    back = next(b for b in bench.window.bars.findChildren(QAbstractButton) if b.text() == "Bring it back")
    back.click()
    assert [m.label for m in bench.session.moments] == ["photo of the film"]
    assert "removed" not in bench.window.bars.texts


def test_a_time_that_is_none_is_refused_in_words(bench: Bench) -> None:
    moment = bench.session.add_moment("note", "", 50.0)
    bench.page.edit(moment.id)
    entry = bench.page.foot.entry
    entry._time.setText("soon")
    bench.press(Qt.Key.Key_Return)
    assert entry.isVisible()
    assert "12:30" in entry._trouble.text()
    bench.press(Qt.Key.Key_Escape)
    assert bench.session.moments[0].time_s == 50.0


# ---------------------------------------------------------------- words being typed are never lost


def opened(bench: Bench, words: str, time: str) -> str:
    """Open a moment at 50 s to be changed, type, and return its id."""
    moment = bench.session.add_moment("note", "", 50.0)
    bench.look()
    bench.page.edit(moment.id)
    entry = bench.page.foot.entry
    entry._label.setText(words)
    entry._time.setText(time)
    return moment.id


def kept(bench: Bench) -> list[tuple[float, str]]:
    return [(moment.time_s, moment.label) for moment in bench.session.moments]


def test_a_time_half_typed_does_not_take_the_words_with_it_when_the_run_ends(bench: Bench) -> None:
    opened(bench, "anode brown", "1:")
    bench.press(Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    assert kept(bench) == [(50.0, "anode brown")]
    assert not bench.page.foot.entry.is_open


def test_a_time_half_typed_does_not_take_the_words_with_it_when_the_next_is_tagged(bench: Bench) -> None:
    opened(bench, "anode brown", "1:")
    bench.run.clock.time_s = 70.0
    bench.press(Qt.Key.Key_M, Qt.KeyboardModifier.ControlModifier)
    assert kept(bench) == [(50.0, "anode brown"), (70.0, "")]


def test_a_time_still_to_come_is_refused_and_the_words_are_kept(bench: Bench) -> None:
    opened(bench, "anode brown", "99:00")
    bench.press(Qt.Key.Key_Return)
    assert kept(bench) == [(50.0, "anode brown")]
    assert "still to come" in bench.window.bars.texts["moment"]


def test_undoing_while_words_are_typed_takes_back_the_words_first(bench: Bench) -> None:
    """They went with their moment, and Enter kept them for one that was gone."""
    bench.run.clock.time_s = 50.0
    bench.press(Qt.Key.Key_M)
    bench.type("anode brown")
    bench.window.menu.undo.trigger()
    assert kept(bench) == [(50.0, "")]
    assert not bench.page.foot.entry.is_open
    bench.window.menu.redo.trigger()
    assert kept(bench) == [(50.0, "anode brown")]
    bench.window.menu.undo.trigger()
    bench.window.menu.undo.trigger()
    assert kept(bench) == []


def test_a_moment_removed_while_its_words_are_typed_comes_back_with_them(bench: Bench) -> None:
    moment_id = opened(bench, "anode brown", "0:50.0")
    bench.page.remove(moment_id)
    assert kept(bench) == []
    assert not bench.page.foot.entry.is_open
    bench.page.bring_back(moment_id)
    assert kept(bench) == [(50.0, "anode brown")]
