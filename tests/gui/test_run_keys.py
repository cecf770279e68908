"""Keys and hands at the run: steps, kinds, flags, undoing, the wall, alarms."""

from __future__ import annotations

from pathlib import Path
from threading import Event

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QSettings, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication
from pytestqt.qtbot import QtBot

from gui.chart.focus_mark import FocusMark
from gui.header_words import named
from gui.run_ways import LIVE_KEY
from gui.session import Finished, Session
from gui.theme import Theme
from gui.wall_texts import nothing_words
from gui.widgets.key_button import KeyButton
from gui.widgets.sheet_editor import SheetEditor
from gui.widgets.wall_view import WallView, WallWords
from gui.window import Window
from logger.bench_tables import Bench as BenchFile
from logger.bench_tables import Step
from logger.disk_room import DiskRoom
from logger.errors import LoggerError
from logger.notices import RunNotice
from tests.gui.fakes import FakeRun, plan
from tests.gui.test_findings_texts import FOUND
from tests.gui.window_bench import Bench, recording
from tests.gui.window_bench import bench as bench

CTRL = Qt.KeyboardModifier.ControlModifier
METER = "scpi:/dev/ttyS9"


def test_the_next_run_begins_once_the_present_one_is_saved(
    bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("gui.session.load_finished", lambda path: Finished(recording(path), FOUND))
    bench.window.save_and_begin(plan(tmp_path / "b.h5"))
    assert bench.window.session is bench.session, "not before the first one is saved"

    def is_next() -> bool:
        bench.window.frame()
        return bench.window.session is not bench.session

    bench.qtbot.waitUntil(is_next, timeout=30_000)
    assert bench.run.stopped == 1
    assert bench.window.session is not None
    assert bench.window.session.plan.out.name == "b.h5"
    assert bench.window.stack.currentWidget() is bench.window.run_page
    bench.window.session.wait_opened(10.0)


def test_who_closes_the_window_before_the_next_run_begins_has_it_closed(
    bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    may_end = Event()

    def load(path: Path) -> Finished:
        assert may_end.wait(30.0)
        return Finished(recording(path), FOUND)

    monkeypatch.setattr("gui.session.load_finished", load)
    statuses: list[int] = []
    bench.window.done.connect(statuses.append)
    bench.window.save_and_begin(plan(tmp_path / "b.h5"))
    bench.look()
    assert not bench.window.close(), "the run is being saved"
    may_end.set()
    bench.session.close()
    bench.look()
    assert statuses == [0]
    assert bench.window.session is bench.session, "no other run began"


def test_another_run_begins_though_the_one_before_could_not_be_opened(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    """Who tires of waiting for a meter that does not answer takes another: nothing is to be saved first."""
    may_fail = Event()

    class Mute(FakeRun):
        def start(self) -> None:
            assert may_fail.wait(10.0)
            raise LoggerError("The meter does not answer.")

    first, second = plan(tmp_path / "a.h5"), plan(tmp_path / "b.h5")
    kinds = {first.out: Mute, second.out: FakeRun}
    window.desk._make_session = lambda wanted: Session(wanted, make_run=kinds[wanted.out])  # type: ignore[arg-type]
    window.begin(first)
    window.save_and_begin(second)
    assert window.session is not None
    assert window.session.plan is first, "not before that one is over"
    may_fail.set()
    qtbot.waitUntil(lambda: window.desk.is_running, timeout=10_000)
    assert window.session.plan is second
    assert "The meter does not answer." not in window.bars.texts.values()


def test_who_wants_the_next_lesson_too_early_is_told_what_it_waits_for(bench: Bench) -> None:
    bench.press(Qt.Key.Key_L, CTRL)
    assert "Stop and save it first" in bench.window.bars.texts["lesson"]
    bench.session.state = "saving"
    bench.press(Qt.Key.Key_L, CTRL)
    assert "still being saved" in bench.window.bars.texts["lesson"]
    bench.session.state = "running"


def test_a_run_that_nobody_named_is_called_after_its_time_wherever_it_is_shown() -> None:
    file = Path("run 2026-11-26 03.41.30.h5")
    assert named(file.stem, file, "2026-11-26T03:41:30+01:00") == "Run begun at 03:41"
    assert named("Strip 4", file, "2026-11-26T03:41:30+01:00") == "Strip 4"
    assert named(file.stem, file, "not known") == file.stem


def test_the_chart_shows_that_the_keyboard_has_reached_it(bench: Bench) -> None:
    (mark,) = bench.page.chart.findChildren(FocusMark)
    bench.page.chart.setFocus(Qt.FocusReason.OtherFocusReason)
    assert not mark.isVisible(), "it stands on no page that was only opened"
    bench.press(Qt.Key.Key_Tab)
    assert bench.page.follow.hasFocus()
    bench.press(Qt.Key.Key_Backtab, Qt.KeyboardModifier.ShiftModifier)
    assert bench.page.chart.hasFocus()
    assert mark.isVisible()
    assert mark.height() == bench.page.chart.height()
    bench.press(Qt.Key.Key_Tab)
    assert not mark.isVisible()


# ---------------------------------------------------------------- the run sheet


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
    editor._lines[0].hold.setText("5m")
    editor._lines[0].label.setText("Warm up")
    editor._drop(editor._lines[1])
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
    from gui.session import Session
    from tests.gui.fakes import FakeRun

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


# ---------------------------------------------------------------- moments


def test_digits_tag_kinds_without_asking_and_words_follow(bench: Bench) -> None:
    bench.run.clock.time_s = 130.0
    bench.press(Qt.Key.Key_7)
    assert not bench.page.foot.entry.isVisible()
    bench.run.clock.time_s = 140.0
    bench.press(Qt.Key.Key_L)
    bench.type("2 drops")
    bench.press(Qt.Key.Key_Return)
    assert [(m.kind, m.time_s, m.label) for m in bench.session.moments] == [("salt_added", 130.0, "2 drops")]


def test_a_kind_that_needs_a_number_asks_for_it(bench: Bench) -> None:
    bench.press(Qt.Key.Key_0)
    bench.type("22.5")
    bench.press(Qt.Key.Key_Return)
    assert [(m.kind, m.label) for m in bench.session.moments] == [("temperature", "22.5")]


def test_digits_are_text_while_typing_and_ctrl_digit_stamps_even_then(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("7 up")
    bench.press(Qt.Key.Key_7, CTRL)
    bench.press(Qt.Key.Key_Return)
    assert [(m.kind, m.label) for m in bench.session.moments] == [("note", "7 up"), ("salt_added", "")]


def test_digits_and_space_stay_with_other_pages(bench: Bench) -> None:
    bench.window.stack.show_cautions()
    bench.press(Qt.Key.Key_7)
    assert bench.session.moments == ()


def test_a_flag_is_dragged_along_the_strip_and_taken_back(bench: Bench) -> None:
    moment = bench.session.add_moment("note", "first", 50.0)
    bench.look()
    chart = bench.page.chart
    assert chart.frame is not None
    x = float(chart.frame.x(50.0))
    begin = chart.places.strip.topLeft() + QPoint(round(x), 19)
    end = begin + QPoint(120, 0)
    QTest.mousePress(chart, Qt.MouseButton.LeftButton, pos=begin)
    for share in (0.3, 0.7, 1.0):
        QTest.mouseMove(chart, begin + (end - begin) * share)
    QTest.mouseRelease(chart, Qt.MouseButton.LeftButton, pos=end)
    (moved,) = bench.session.moments
    assert moved.id == moment.id
    assert moved.time_s == pytest.approx(chart.frame.time_s(x + 120), abs=1.0)
    bench.press(Qt.Key.Key_Z, CTRL)
    assert bench.session.moments[0].time_s == 50.0
    bench.press(Qt.Key.Key_Z, CTRL | Qt.KeyboardModifier.ShiftModifier)
    assert bench.session.moments[0].time_s == pytest.approx(moved.time_s)


@pytest.mark.parametrize("zoomed", [False, True])
@pytest.mark.parametrize("by_x", [-3000, 3000])
def test_a_flag_dragged_beyond_the_run_stays_within_it(bench: Bench, by_x: int, zoomed: bool) -> None:
    """The view reaches beyond the present while a run goes on; there is nothing yet to mark."""
    moment = bench.session.add_moment("note", "first", 100.0)
    bench.look()
    chart = bench.page.chart
    if zoomed:
        for _ in range(3):
            bench.press(Qt.Key.Key_Plus)
        bench.look()
    assert chart.frame is not None
    now_s = bench.session.now_s
    begin = chart.places.strip.topLeft() + QPoint(round(chart.frame.x(100.0)), 19)
    QTest.mousePress(chart, Qt.MouseButton.LeftButton, pos=begin)
    QTest.mouseMove(chart, begin + QPoint(by_x // 2, 0))
    QTest.mouseMove(chart, begin + QPoint(by_x, 0))
    QTest.mouseRelease(chart, Qt.MouseButton.LeftButton, pos=begin + QPoint(by_x, 0))
    (moved,) = bench.session.moments
    assert moved.id == moment.id
    assert moved.time_s == pytest.approx(now_s if by_x > 0 else max(chart.frame.left_s, 0.0), abs=0.01)
    assert "moment" not in bench.window.bars.texts


def test_a_click_on_a_flag_opens_it(bench: Bench) -> None:
    bench.session.add_moment("note", "first", 50.0)
    bench.look()
    chart = bench.page.chart
    assert chart.frame is not None
    place = chart.places.strip.topLeft() + QPoint(round(chart.frame.x(50.0)), 19)
    QTest.mouseClick(chart, Qt.MouseButton.LeftButton, pos=place)
    assert bench.page.foot.entry.isVisible()
    bench.press(Qt.Key.Key_Escape)


def test_a_step_of_the_voltage_is_offered_and_taken_by_key(bench: Bench) -> None:
    times_s = 120 + np.arange(1, 60) / 3
    bench.run.push(times_s, np.where(times_s < 132.0, 2.2, 27.0))
    bench.session.add_moment("electrodes_out", "", 130.0)
    bench.look()
    assert "before a step" in bench.window.bars.texts["step near"]
    bench.press(Qt.Key.Key_G)
    assert bench.session.moments[-1].time_s == pytest.approx(132.0, abs=0.34)
    assert "step near" not in bench.window.bars.texts
    bench.press(Qt.Key.Key_Z, CTRL)
    assert bench.session.moments[-1].time_s == 130.0


def test_the_list_stays_where_it_was_scrolled_when_one_is_removed(bench: Bench) -> None:
    for i in range(40):
        bench.session.add_moment("note", f"no {i}", float(i))
    bench.look()
    listed = bench.page.panel.moments
    assert listed._list.verticalScrollBar().value() > 0  # the newest is in view
    listed._list.verticalScrollBar().setValue(3)
    bench.page.remove(bench.session.moments[5].id)
    assert listed._list.verticalScrollBar().value() == 3


# ---------------------------------------------------------------- wall, alarm, options


@pytest.mark.parametrize("number", ["2.030", "2,030", "26,97"])
def test_on_the_wall_no_tail_of_the_number_reaches_into_the_words(
    qtbot: QtBot, theme: Theme, number: str
) -> None:
    """A decimal comma hangs below the line; seen in the pixels, where the words come to the picture."""
    wall = WallView(theme)
    qtbot.addWidget(wall)
    wall.resize(960, 540)
    wall.show_words(WallWords(number=number, unit="V"))
    alone = wall.grab().toImage()
    wall.show_words(WallWords(number=number, unit="V", sentence="Wasserspaltung in frischem Puffer."))
    both = wall.grab().toImage()
    paper = alone.pixel(1, 1)
    rows = range(alone.height())
    tail = max(y for y in rows for x in range(0, alone.width(), 2) if alone.pixel(x, y) != paper)
    words = min(y for y in rows for x in range(0, both.width(), 2) if both.pixel(x, y) != alone.pixel(x, y))
    assert words > tail


def test_a_saving_is_green_on_the_wall_only_where_it_is_sure(theme: Theme, qtbot: QtBot) -> None:
    theme.choose("light")
    wall = WallView(theme)
    qtbot.addWidget(wall)
    wall.resize(960, 540)

    def has_green(is_sure: bool) -> bool:
        wall.show_words(WallWords(number="2.219", saved="33 ± 86 mV", is_saving_sure=is_sure))
        picture, green = wall.grab().toImage(), QColor(theme.colours.settled).rgb()
        places = ((x, y) for y in range(picture.height()) for x in range(picture.width()))
        return any(picture.pixel(x, y) == green for x, y in places)

    assert has_green(True)
    assert not has_green(False)


def test_without_a_run_the_wall_says_so_and_shows_no_lonely_unit(bench: Bench, theme: Theme) -> None:
    wall = WallView(theme)
    bench.qtbot.addWidget(wall)
    wall.resize(960, 540)
    wall.show_words(nothing_words())
    picture = wall.grab().toImage()
    paper = picture.pixel(1, 1)
    written = [y for y in range(picture.height()) if any(picture.pixel(x, y) != paper for x in range(960))]
    assert written
    assert min(written) > 0.3 * picture.height()


def test_the_wall_shows_number_sentence_and_danger_and_takes_keys(bench: Bench) -> None:
    bench.qtbot.waitUntil(lambda: bench.session.view is not None, timeout=10_000)
    bench.press(Qt.Key.Key_F11)
    bench.look()
    wall = bench.window.stack.wall
    assert bench.window.stack.currentWidget() is wall
    assert bench.window.isFullScreen()
    assert not bench.window.header.isVisible()
    assert wall._words.number.startswith("2.2")
    assert "Splitting water" in wall._words.sentence
    assert [name for name, _value in wall._words.figures] == ["Current", "Charge", "Hydrogen"]
    assert "Next: Connect everything" in wall._words.next_step
    bench.press(Qt.Key.Key_M)  # kept, without leaving the wall
    assert len(bench.session.moments) == 1
    assert bench.window.stack.currentWidget() is wall
    bench.run.told.append(RunNotice(1.0, "danger", "lost", "The cable is out."))
    bench.look()
    assert wall._words.danger == "The cable is out."
    bench.press(Qt.Key.Key_Escape)
    assert bench.window.stack.currentWidget() is bench.page
    assert bench.window.header.isVisible()
    assert not bench.window.isFullScreen()


def test_the_number_on_the_wall_can_be_read_from_eight_metres(bench: Bench) -> None:
    """ISO 9241-303: characters of 20 to 22 minutes of arc are comfortable (from memory), so 46 mm at 8 m.
    On a screen of 55 inches, 685 mm high, that is 1 part in 15."""
    bench.window.resize(1920, 1080)
    bench.press(Qt.Key.Key_F11)
    bench.look()
    bench.window.resize(1920, 1080)
    QApplication.processEvents()
    wall = bench.window.stack.wall
    picture = wall.grab().toImage()
    paper = bench.window.theme.colours.paper
    left = range(0, round(0.62 * picture.width()), 2)
    top = range(round(0.42 * picture.height()))
    rows = [y for y in top if any(picture.pixelColor(x, y).name() != paper for x in left)]
    assert max(rows) - min(rows) > picture.height() / 15
    bench.press(Qt.Key.Key_Escape)


def test_a_danger_is_heard_until_it_is_silenced(bench: Bench) -> None:
    sounds: list[object] = []
    bench.window.watch._make_sound = sounds.append
    bench.run.told.append(RunNotice(1.0, "warning", "silent", "The meter sends nothing.", METER))
    bench.run.source_state = "silent"
    bench.look()
    assert f"silent {METER}" in bench.window.bars.keys_of("danger")  # readings are being missed
    assert len(sounds) == 1
    bench.press(Qt.Key.Key_B, CTRL)
    bench.window.watch.bell._rang_s = -1e9
    bench.look()
    assert len(sounds) == 1


def test_sounds_can_be_turned_off(bench: Bench, settings: QSettings) -> None:
    sounds: list[object] = []
    bench.window.watch._make_sound = sounds.append
    bench.window.menu.sound.trigger()
    bench.run.told.append(RunNotice(1.0, "danger", "lost", "The cable is out."))
    bench.look()
    assert sounds == []
    assert settings.value("sound", type=bool) is False


def test_a_disk_that_fills_up_is_a_danger_until_there_is_room(bench: Bench) -> None:
    bench.session._looked_at_disk_s = 1e12  # not the disk of this computer
    bench.session.disk_room = DiskRoom(40_000_000, 600.0, True)
    bench.look()
    assert "room for about 10\u00a0min more" in bench.window.bars.texts["disk_low"]
    bench.run.told.append(RunNotice(1.0, "danger", "disk_full", "The disk takes no more data."))
    bench.look()
    assert bench.window.bars.keys_of("danger") == ("disk_full",), "one bar for one trouble"
    bench.run.told.append(RunNotice(2.0, "info", "disk_back", "The disk takes data again."))
    bench.look()
    assert "disk_low" in bench.window.bars.texts
    bench.session.disk_room = DiskRoom(10**11, 1e9, False)
    bench.look()
    assert "disk_low" not in bench.window.bars.texts


def test_somebody_who_looks_elsewhere_is_called(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    alerts = bench.window.watch.alerts
    bench.run.told.append(RunNotice(1.0, "danger", "lost", "The cable is out."))
    bench.look()
    assert alerts.told == []  # the window is in front
    monkeypatch.setattr(bench.window, "isActiveWindow", lambda: False)
    bench.run.told.append(RunNotice(2.0, "danger", "fault", "Another."))
    bench.look()
    assert alerts.told == ["Another."]


def test_a_live_file_is_kept_beside_the_recording_when_wanted(
    window: Window, settings: QSettings, tmp_path: Path
) -> None:
    assert window.ways.with_live_file(plan(tmp_path / "a.h5")).live is None
    window.menu.live.trigger()
    assert settings.value(LIVE_KEY, type=bool) is True
    assert window.ways.with_live_file(plan(tmp_path / "a.h5")).live == tmp_path / "a live.h5"


def test_a_second_copy_is_begun_in_the_folder_chosen(
    bench: Bench,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("gui.run_ways.QFileDialog.getExistingDirectory", lambda *_: str(tmp_path))
    bench.press(Qt.Key.Key_D, CTRL)
    bench.qtbot.waitUntil(lambda: (bench.look(), "second" in bench.window.bars.texts)[1], timeout=10_000)
    assert bench.run.second_folder == tmp_path
    assert str(tmp_path) in bench.window.bars.texts["second"]


def test_details_can_be_copied(bench: Bench) -> None:
    bench.window.menu.details_wanted.emit()
    assert "Python 3" in QApplication.clipboard().text()


def test_after_a_run_the_cautions_claim_no_live_source(bench: Bench) -> None:
    bench.press(Qt.Key.Key_E, CTRL)
    bench.qtbot.waitUntil(lambda: bench.session.is_over, timeout=10_000)
    bench.look()
    bench.window.stack.show_cautions()
    bench.look()
    tabs = [b for b in bench.window.header.findChildren(QAbstractButton) if b.isCheckable() and b.isChecked()]
    assert tabs == []
    assert not bench.window.header.light.isVisible()


def test_a_run_that_could_not_begin_has_no_live_controls(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    from gui.session import Plan

    window.begin(Plan(("scpi:/dev/nothing-here",), tmp_path / "a.h5", BenchFile(), "Strip 4"))
    qtbot.waitUntil(lambda: "failed" in window.bars.texts, timeout=20_000)
    assert window.run_page is not None
    foot = window.run_page.foot
    assert not any(b.isEnabled() for b in (foot.next, foot.tag, foot.kinds, foot.stop, foot.skip, foot.plan))


@pytest.mark.parametrize("code", ["disk_error", "disk_full"])
def test_a_disk_that_takes_nothing_offers_a_second_place(
    bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: str
) -> None:
    monkeypatch.setattr("gui.run_ways.QFileDialog.getExistingDirectory", lambda *_: str(tmp_path))
    bench.run.told.append(RunNotice(1.0, "danger", code, "The disk reports an error; name a second place."))
    bench.look()
    buttons = bench.window.bars.findChildren(QAbstractButton)
    (button,) = [b for b in buttons if b.text() == "Second place …" and b.isVisible()]
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    bench.qtbot.waitUntil(lambda: (bench.look(), "second" in bench.window.bars.texts)[1], timeout=10_000)
    assert bench.run.second_folder == tmp_path


def test_in_a_small_window_the_step_comes_before_its_key(theme: Theme, qtbot: QtBot) -> None:
    """Its words stay readable; the key is named by the tip and the menu."""
    step = KeyButton(theme, "Pour the buffer in, slowly", "Space", "primary", hint="when you like")
    qtbot.addWidget(step)
    step.resize(400, 60)
    assert step.has_cap()
    step.resize(170, 60)
    assert not step.has_cap()
    assert "Space" in step.toolTip()
