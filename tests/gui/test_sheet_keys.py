"""The steps of the run sheet by keys and hands: done, skipped, taken back, planned in place."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton
from pytestqt.qtbot import QtBot

from gui.session import Session
from gui.theme import Theme
from gui.widgets.key_button import KeyButton
from gui.widgets.sheet_editor import SheetEditor
from gui.window import Window
from logger.bench_tables import Bench as BenchFile
from logger.bench_tables import Step
from tests.gui.fakes import FakeRun, plan
from tests.gui.window_bench import CTRL, Bench
from tests.gui.window_bench import bench as bench


def test_the_space_bar_does_the_next_step_at_the_time_of_the_press(bench: Bench) -> None:
    handle = bench.window.windowHandle()
    bench.run.clock.time_s = 121.5
    QTest.keyPress(handle, Qt.Key.Key_Space)
    bench.run.clock.time_s = 123.0
    QTest.keyRelease(handle, Qt.Key.Key_Space)
    assert [(m.kind, m.time_s, m.label) for m in bench.session.moments] == [("dry_cell", 121.5, "")]
    bench.look()
    assert bench.page.foot.next.accessibleName() == "Pour in the buffer"
    assert "Step 2 of 6" in bench.page.foot.path.accessibleDescription()


def test_the_space_bar_is_text_while_words_are_typed(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("two words")
    bench.press(Qt.Key.Key_Return)
    assert [m.label for m in bench.session.moments] == ["two words"]


def test_the_space_bar_presses_the_button_reached_by_tab(bench: Bench) -> None:
    bench.page.follow.setFocus(Qt.FocusReason.TabFocusReason)
    bench.press(Qt.Key.Key_Space)
    assert bench.session.moments == ()
    assert bench.page.follow.accessibleName().startswith("Standing still")


def test_a_click_leaves_the_space_bar_to_the_next_step(bench: Bench) -> None:
    QTest.mouseClick(bench.page.follow, Qt.MouseButton.LeftButton)
    bench.press(Qt.Key.Key_Space)
    assert [m.kind for m in bench.session.moments] == ["dry_cell"]


def test_no_click_takes_the_space_bar_from_the_next_step(bench: Bench) -> None:
    """Every button that is seen during a run: header, menu, bars, beside the curve and below it."""
    bench.window.tell("a", "info", "Something happened.", (("Do it", lambda: None),))
    bench.look()
    takers = [
        one.accessibleName() or one.text()
        for one in bench.window.findChildren(QAbstractButton)
        if one.isVisible() and one.focusPolicy() & Qt.FocusPolicy.ClickFocus
    ]
    assert takers == []
    bar = bench.window.bars._bars["a"]
    close = next(one for one in bar.findChildren(QAbstractButton) if one.text() == "Close")
    close.setFocus(Qt.FocusReason.TabFocusReason)
    bench.press(Qt.Key.Key_Space)  # the button reached by Tab; with it the bar goes
    assert "a" not in bench.window.bars.texts
    assert bench.session.moments == ()
    bench.press(Qt.Key.Key_Space)
    assert [m.kind for m in bench.session.moments] == ["dry_cell"]


def test_a_double_click_on_the_large_buttons_is_one_press(bench: Bench) -> None:
    """Hands in gloves click twice, and no two steps lie half a second apart."""
    for _ in range(2):
        QTest.mouseClick(bench.page.foot.next, Qt.MouseButton.LeftButton)
        QTest.mouseDClick(bench.page.foot.next, Qt.MouseButton.LeftButton)  # what follows the first click
    assert [m.kind for m in bench.session.moments] == ["dry_cell", "buffer_in"]


def test_steps_are_skipped_and_taken_back_by_keys(bench: Bench) -> None:
    bench.press(Qt.Key.Key_K, CTRL)
    bench.press(Qt.Key.Key_Space)
    assert [m.kind for m in bench.session.moments] == ["buffer_in"]
    bench.press(Qt.Key.Key_R, CTRL)
    bench.look()
    assert bench.page.foot.next.accessibleName() == "Pour in the buffer"
    for _ in range(3):
        bench.press(Qt.Key.Key_Z, CTRL)
    assert bench.session.moments == ()
    assert bench.page.tagging.sheet.position == 0
    assert not bench.window.menu.undo.isEnabled()


def test_until_settled_announces_itself_once(bench: Bench) -> None:
    sounds: list[object] = []
    bench.window.watch._make_sound = sounds.append
    tagging = bench.page.tagging
    tagging.plan_steps((Step("buffer_in", hold_s=20.0), Step("salt_added", "Add the salt")))
    bench.press(Qt.Key.Key_Space)
    bench.look()
    assert "sheet" not in bench.window.bars.texts
    bench.run.clock.time_s += 21.0
    bench.look()
    bench.look()
    assert bench.window.bars.texts["sheet"] == "The time is up. Next: Add the salt (space bar)"
    assert len(sounds) == 1
    assert bench.page.foot.next.property("look") == "ready"
    bench.run.clock.time_s -= 11.0
    bench.look()
    assert "sheet" not in bench.window.bars.texts, "no bar says what the page denies"
    bench.run.clock.time_s += 11.0
    bench.look()
    assert len(sounds) == 1, "nor does a drift at the limit ring again and again"
    bench.press(Qt.Key.Key_Space)
    bench.look()
    assert "sheet" not in bench.window.bars.texts


def test_steps_are_planned_in_place(bench: Bench) -> None:
    bench.press(Qt.Key.Key_T, CTRL)
    editor = bench.window.findChild(SheetEditor)
    assert editor is not None
    assert len(editor._lines) == 6
    editor._lines[0].hold.setText("a while")
    editor._keep.click()
    assert editor.isVisible()
    assert "Step 1" in editor._trouble.text()
    QTest.keyClicks(editor._lines[0].hold, "x")
    assert editor._trouble.text() == "", "it was of what stands there no longer"
    editor._keep.click()
    assert "Step 1" in editor._trouble.text()
    editor._lines[0].hold.setText("5m")
    editor._lines[0].label.setText("Warm up")
    editor._drop(editor._lines[1])
    assert editor._trouble.text() == "", "the steps have other numbers"
    editor._move(editor._lines[1])
    editor._keep.click()
    steps = [line.step for line in bench.page.tagging.sheet.lines]
    assert [step.kind for step in steps[:2]] == ["salt_added", "dry_cell"]
    assert (steps[1].label, steps[1].hold_s) == ("Warm up", 300.0)
    assert len(steps) == 5


def test_a_step_done_while_the_steps_are_changed_is_not_asked_for_again(bench: Bench) -> None:
    first, second = (line.step.kind for line in bench.page.tagging.sheet.lines[:2])
    bench.press(Qt.Key.Key_T, CTRL)
    editor = bench.window.findChild(SheetEditor)
    assert editor is not None
    editor._move(editor._lines[1])  # the second step is to come first
    bench.session.add_moment(first, "(simulated)", 120.0)  # as the simulated cell does
    bench.look()
    assert bench.page.tagging.sheet.position == 1
    assert editor._lines[0].kind.currentData() == second
    assert (len(editor._lines), editor._lines[0]._number.text()) == (5, "2")
    editor._add.click()
    editor._keep.click()
    kinds = [line.step.kind for line in bench.page.tagging.sheet.lines]
    assert (len(kinds), kinds[:2], kinds[-1]) == (7, [first, second], "note")


def edited(bench: Bench) -> SheetEditor:
    bench.page.plan_steps()
    (editor,) = bench.window.findChildren(SheetEditor)
    return editor


def shown(editor: SheetEditor) -> list[str]:
    return [line.label.text() for line in editor._lines]


def test_a_step_undone_while_the_steps_are_changed_comes_back_as_it_was_changed(bench: Bench) -> None:
    """It was out of the list for good, and kept so it was out of the run."""
    editor = edited(bench)
    before = shown(editor)
    editor._lines[0].label.setText("Warm up")
    editor._drop(editor._lines[3])
    bench.page.tagging.do_step(60.0)
    assert shown(editor) == [before[1], before[2], *before[4:]]
    bench.page.tagging.undo()
    assert shown(editor) == ["Warm up", before[1], before[2], *before[4:]]
    assert editor._lines[0]._number.text() == "1"
    editor._keep.click()
    steps = [line.step.label for line in bench.page.tagging.sheet.lines]
    assert steps == ["Warm up", before[1], before[2], *before[4:]]


def test_a_step_repeated_while_the_steps_are_changed_takes_no_other_with_it(bench: Bench) -> None:
    tagging = bench.page.tagging
    first = tagging.sheet.lines[0].step.label
    tagging.do_step(60.0)
    editor = edited(bench)
    before = shown(editor)
    tagging.repeat_step()
    assert shown(editor) == [first, *before]
    tagging.do_step(61.0)
    assert shown(editor) == before
    tagging.skip_step()
    assert shown(editor) == before[1:]
    editor._keep.click()
    assert [line.step.label for line in tagging.sheet.lines[tagging.sheet.position :]] == before[1:]


def test_what_is_typed_when_its_step_is_done_goes_into_no_other_step(bench: Bench) -> None:
    editor = edited(bench)
    bench.qtbot.waitUntil(editor.isVisible)
    editor._lines[0].label.setFocus()
    before = shown(editor)
    bench.page.tagging.do_step(60.0)
    QTest.keyClicks(editor.focusWidget(), "warm up")
    assert shown(editor) == before[1:]
    assert editor.isVisible()


def test_the_steps_are_not_asked_for_any_more_when_the_run_has_ended(bench: Bench) -> None:
    edited(bench)
    bench.run.has_ended = True
    bench.look()
    assert not any(editor.isVisible() for editor in bench.window.findChildren(SheetEditor))


def test_without_a_sheet_the_large_button_plans_one(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:

    monkeypatch.setattr("gui.window.Session", lambda plan: Session(plan, make_run=FakeRun))  # type: ignore[arg-type]
    window.begin(plan(tmp_path / "a.h5", BenchFile()))
    assert window.session is not None
    window.session.wait_opened(10.0)
    assert window.run_page is not None
    assert window.run_page.foot.next.accessibleName() == "Plan the steps of this run"
    window.run_page.foot.next.pressed.emit()
    editor = window.findChild(SheetEditor)
    assert editor is not None
    editor.reject()


def test_in_a_small_window_the_step_comes_before_its_key(theme: Theme, qtbot: QtBot) -> None:
    """Its words stay readable; the key is named by the tip and the menu."""
    step = KeyButton(theme, "Pour the buffer in, slowly", "Space", "primary", hint="when you like")
    qtbot.addWidget(step)
    step.resize(400, 60)
    assert step.has_cap()
    step.resize(170, 60)
    assert not step.has_cap()
    assert "Space" in step.toolTip()
