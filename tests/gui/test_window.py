"""A person at the window: what it shows of a run, bars, the end of a run, recordings."""

from __future__ import annotations

import os
import shutil
import threading
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QFileDialog,
    QLabel,
)
from pytestqt.qtbot import QtBot

from gui.recordings_folder import choose_recordings_folder
from gui.session import Finished, Session
from gui.widgets.close_question import CloseQuestion
from gui.window import Window
from logger.errors import LoggerError
from logger.moment_edits import edit
from logger.notices import RunNotice
from logger.reader import read_recording
from tests.gui.fakes import FakeRun, plan
from tests.gui.test_findings_texts import FOUND
from tests.gui.window_bench import Bench, recording
from tests.gui.window_bench import bench as bench

# ---------------------------------------------------------------- showing


def test_the_page_tells_voltage_state_and_how_fresh_the_disk_is(bench: Bench) -> None:
    bench.qtbot.waitUntil(lambda: bench.session.view is not None, timeout=10_000)
    bench.look()
    number = bench.page.panel.number
    assert number.accessibleDescription().startswith("2.2")
    assert "Splitting water" in bench.labels()
    assert "saved to disk 0.4 s ago" in bench.labels()
    assert "Bench meter" in bench.labels()


def test_a_stale_number_is_grey_and_tells_its_age(bench: Bench) -> None:
    bench.run.clock.time_s += 12.0
    bench.look()
    assert "12\u00a0s ago" in bench.page.panel.number.accessibleDescription()


def test_dangers_are_bars_and_go_when_all_is_well_again(bench: Bench) -> None:
    bench.run.told.append(RunNotice(1.0, "danger", "lost", "The cable is out."))
    bench.look()
    assert bench.window.bars.texts["lost"] == "The cable is out."
    bench.run.told.append(RunNotice(2.0, "info", "back", "The meter is back."))
    bench.look()
    assert "lost" not in bench.window.bars.texts
    assert bench.window.bars.texts["back"] == "The meter is back."


def test_each_source_has_its_own_danger_until_it_is_back(bench: Bench) -> None:
    bench.run.told += [
        RunNotice(1.0, "danger", "lost", "The cell's meter is gone.", "text:COM3"),
        RunNotice(2.0, "danger", "lost", "The shunt's meter is gone.", "scpi:COM4"),
    ]
    bench.look()
    shown = bench.window.bars.texts.values()
    assert {"The cell's meter is gone.", "The shunt's meter is gone."} <= set(shown)
    bench.run.told.append(RunNotice(3.0, "info", "back", "The shunt's meter is back.", "scpi:COM4"))
    bench.look()
    shown = bench.window.bars.texts.values()
    assert "The cell's meter is gone." in shown
    assert "The shunt's meter is gone." not in shown


def test_a_question_about_a_run_goes_with_the_run(bench: Bench) -> None:
    """It went on saying that the recording was running, over a run that had ended by itself."""
    bench.window.close()
    assert isinstance(bench.window.leaving.question, CloseQuestion)
    bench.look()
    assert bench.window.leaving.question is not None
    bench.run.disk_error = LoggerError("No room for a.h5.")
    bench.run.has_ended = True
    bench.qtbot.waitUntil(lambda: bench.session.is_over, timeout=10_000)
    bench.look()
    assert bench.window.leaving.question is None
    assert bench.window.isVisible(), "nobody has said that it may go"


def test_before_anything_is_recorded_the_window_goes_without_a_question(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It asked about a recording that had been running for 0:00 while a slow meter was waited for."""
    may_open = threading.Event()

    class SlowRun(FakeRun):
        def start(self) -> None:
            may_open.wait(10.0)

    monkeypatch.setattr("gui.session.load_finished", lambda path: Finished(recording(path), FOUND))
    window.desk._make_session = lambda plan: Session(plan, make_run=SlowRun)  # type: ignore[arg-type]
    window.begin(plan(tmp_path / "a.h5"))
    left: list[int] = []
    window.done.connect(left.append)
    try:
        window.close()
        assert window.leaving.question is None
        assert left == []
        assert window.run_page is not None
        assert window.run_page.foot.stop.accessibleName() == "Ending …", "nothing is being saved"
    finally:
        may_open.set()
    qtbot.waitUntil(lambda: bool(left), timeout=10_000)


def test_a_silent_channel_has_its_own_bar_until_it_comes_again(bench: Bench) -> None:
    """Of two channels of a board one bar was seen, and it stayed until somebody closed it."""
    board = "text:COM3"
    bench.run.told += [
        RunNotice(1.0, "warning", "channel_silent", f"No reading of {one}.", board, one)
        for one in ("shunt_voltage", "temperature")
    ]
    bench.look()
    texts = tuple(bench.window.bars.texts.values())
    assert {"No reading of shunt_voltage.", "No reading of temperature."} <= set(texts)
    bench.run.told.append(RunNotice(2.0, "info", "channel_back", "It comes.", board, "temperature"))
    bench.look()
    texts = tuple(bench.window.bars.texts.values())
    assert "No reading of temperature." not in texts
    assert "No reading of shunt_voltage." in texts


def test_a_meter_that_is_lost_again_is_not_called_back(bench: Bench) -> None:
    """The note of its return stood below the danger for eight seconds."""
    bench.run.told += [
        RunNotice(1.0, "info", "back", "The meter is back.", "text:COM3"),
        RunNotice(2.0, "danger", "lost", "The meter is gone.", "text:COM3"),
    ]
    bench.look()
    assert "The meter is gone." in bench.window.bars.texts.values()
    assert "The meter is back." not in bench.window.bars.texts.values()


def test_no_meter_is_asked_for_once_its_run_is_over(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("gui.session.load_finished", lambda path: Finished(recording(path), FOUND))
    bench.run.told += [
        RunNotice(1.0, "danger", "lost", "The meter is gone. Plug it in again.", "text:COM3"),
        RunNotice(2.0, "warning", "echo", "The adapter echoes.", "text:COM3"),
    ]
    bench.look()
    assert "The meter is gone. Plug it in again." in bench.window.bars.texts.values()
    bench.window.stop()
    bench.look()
    assert "The meter is gone. Plug it in again." not in bench.window.bars.texts.values()
    assert "The adapter echoes." in bench.window.bars.texts.values()  # that may still be worth knowing


def test_trouble_with_the_judgement_is_told_of_each_run(bench: Bench, tmp_path: Path) -> None:
    bench.session.trouble = "The judgement of this run stopped."
    bench.look()
    assert "trouble" in bench.window.bars.texts
    bench.session.state = "failed"
    bench.window.begin(plan(tmp_path / "b.h5"))
    session = bench.window.session
    assert session is not None
    session.wait_opened(10.0)
    bench.look()
    assert "trouble" not in bench.window.bars.texts
    session.trouble = "The judgement of the other run stopped, too."
    bench.look()
    assert "the other run" in bench.window.bars.texts["trouble"]


def test_touching_electrodes_are_a_danger_until_they_part(bench: Bench) -> None:
    end_s = bench.run.clock.time_s
    bench.run.push(end_s + np.arange(1, 60) / 3, np.full(59, 0.005))
    bench.qtbot.waitUntil(
        lambda: bench.session.view is not None and bench.session.view.state == "touching", timeout=10_000
    )
    bench.look()
    assert "touch" in bench.window.bars.texts["touching"]
    bench.run.push(end_s + 20 + np.arange(1, 60) / 3, np.full(59, 2.2))
    bench.qtbot.waitUntil(lambda: bench.session.view.state != "touching", timeout=10_000)  # type: ignore[union-attr]
    bench.look()
    assert "touching" not in bench.window.bars.texts


def test_many_bars_stay_few_and_keep_the_gravest(bench: Bench) -> None:
    for i in range(8):
        bench.window.bars.show_bar(f"i{i}", "info", "a note")
    bench.window.bars.show_bar("d", "danger", "a danger")
    assert len(bench.window.bars.texts) == 3
    assert "d" in bench.window.bars.texts


def test_following_is_one_visible_control(bench: Bench) -> None:
    bench.page.chart.setFocus()
    assert bench.page.follow.accessibleName() == "Following the whole run"
    bench.press(Qt.Key.Key_F)
    assert bench.page.follow.accessibleName().startswith("Standing still")
    bench.page.follow.click()
    assert bench.page.follow.accessibleName().startswith("Following")


def test_cautions_are_shown_until_understood(bench: Bench, settings: QSettings) -> None:
    assert "hydrogen and oxygen" in bench.window.bars.texts["cautions"]
    bench.window.stack.show_cautions()
    assert "qualified people decide" in bench.labels()
    bench.press(Qt.Key.Key_Escape)
    assert bench.window.stack.currentWidget() is bench.page
    understood = next(b for b in bench.window.bars.findChildren(QAbstractButton) if b.text() == "Understood")
    understood.click()
    assert "cautions" not in bench.window.bars.texts
    assert settings.value("cautions_understood", type=bool) is True


def test_ctrl_s_says_that_nothing_need_be_done(bench: Bench) -> None:
    bench.press(Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    assert "Ctrl+E" in bench.window.bars.texts["saved"]
    assert bench.session.state == "running"


# ---------------------------------------------------------------- the end


def test_stop_and_save_by_key(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("last words")
    bench.press(Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    bench.qtbot.waitUntil(lambda: bench.session.is_over, timeout=10_000)
    assert bench.run.stopped == 1
    assert [m.label for m in bench.session.moments] == ["last words"]
    assert not bench.page.foot.stop.isEnabled()


def test_closing_while_recording_asks_and_may_be_declined(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("gui.session.load_finished", lambda path: Finished(recording(path), FOUND))
    bench.window.close()
    question = bench.window.leaving.question
    assert question is not None
    assert question.text.text().endswith(("2:00.", "1:59."))
    bench.run.clock.time_s = 130.0
    bench.qtbot.waitUntil(lambda: "2:10" in question.text.text(), timeout=5_000)  # the time goes on
    question.keep.click()
    assert bench.window.isVisible()
    assert bench.session.state == "running"
    bench.window.close()
    question = bench.window.leaving.question
    assert question is not None
    with bench.qtbot.waitSignal(bench.window.done, timeout=10_000):
        question.act.click()
    assert bench.run.stopped == 1


def test_an_end_from_outside_does_not_wait_for_the_question(bench: Bench) -> None:
    bench.window.close()
    assert bench.window.leaving.question is not None
    with bench.qtbot.waitSignal(bench.window.done, timeout=10_000):
        bench.window.stop_and_quit()
    assert bench.run.stopped == 1


def test_a_signal_from_outside_saves_without_asking(bench: Bench) -> None:
    with bench.qtbot.waitSignal(bench.window.done, timeout=10_000):
        bench.window.stop_and_quit()
    assert bench.window.leaving.question is None
    assert bench.run.stopped == 1


def test_a_run_that_is_being_opened_is_saved_when_the_session_ends(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It began while the end waited for it, and was left to be recovered."""
    end_is_wanted, begun = threading.Event(), []

    class SlowRun(FakeRun):
        def start(self) -> None:
            assert end_is_wanted.wait(10.0)
            begun.append(self)

    class Opening(Session):
        def stop(self) -> None:
            super().stop()
            end_is_wanted.set()

    monkeypatch.setattr("gui.window.Session", lambda plan: Opening(plan, make_run=SlowRun))  # type: ignore[arg-type]
    window.begin(plan(tmp_path / "a.h5"))
    window.save_now()
    assert [run.stopped for run in begun] == [1]


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="no pseudo-terminals here")
@pytest.mark.parametrize("way", [Window.close, Window.stop_and_quit, Window.save_now])
def test_a_meter_that_does_not_answer_is_given_up_at_the_end(
    window: Window, qtbot: QtBot, tmp_path: Path, way: Callable[[Window], object]
) -> None:
    """It was asked for 20 s whether it is there, and the end waited for that."""
    from gui.session import Plan
    from logger.bench import Bench as BenchFile

    folder = tmp_path / "runs"
    folder.mkdir()
    master, slave = os.openpty()
    try:
        window.begin(Plan((f"scpi:{os.ttyname(slave)}",), folder / "a.h5", BenchFile(), "Strip 4"))
        session = window.session
        assert session is not None
        qtbot.waitUntil(lambda: session.waits_for != (), timeout=20_000)
        way(window)
        qtbot.waitUntil(lambda: session.is_over, timeout=20_000)
    finally:
        os.close(slave)
        os.close(master)
    assert session.errors == (
        "The run was given up before its instrument had answered. Nothing was recorded.",
    )
    assert list(folder.iterdir()) == []


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="no pseudo-terminals here")
def test_stopping_gives_a_silent_meter_up_and_its_port_can_be_used_again(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    """Who stopped waited for the 20 s in which it is asked whether it is there."""
    from gui.session import Plan
    from logger.bench import Bench as BenchFile

    folder = tmp_path / "runs"
    folder.mkdir()
    master, slave = os.openpty()
    port = os.ttyname(slave)
    try:
        window.begin(Plan((f"scpi:{port}",), folder / "a.h5", BenchFile(), "Strip 4"))
        first = window.session
        assert first is not None
        qtbot.waitUntil(lambda: first.waits_for != (), timeout=20_000)
        QTest.keyClick(window.windowHandle(), Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
        qtbot.waitUntil(lambda: "failed" in window.bars.texts, timeout=20_000)
        said = "The run was given up before its instrument had answered. Nothing was recorded."
        assert window.bars.texts["failed"] == said
        assert window.bars.keys_of("danger") == (), "it was wanted"
        assert list(folder.iterdir()) == []
        assert window.isVisible()

        window.begin(Plan((f"text:{port}",), folder / "a.h5", BenchFile(), "Strip 4"))
        second = window.session
        assert second is not None

        def has_readings() -> bool:
            os.write(master, b"2.250 V\r\n")
            return second.overview.last is not None or second.is_over

        qtbot.waitUntil(has_readings, timeout=20_000)
        assert (second.state, second.errors) == ("running", ())
        window.stop()
        qtbot.waitUntil(lambda: second.is_over, timeout=20_000)
    finally:
        os.close(slave)
        os.close(master)
    assert [one.name for one in folder.iterdir()] == ["a.h5"]


def test_a_run_that_cannot_begin_says_why_and_offers_another_try(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    from gui.session import Plan
    from logger.bench import Bench as BenchFile

    window.begin(Plan(("scpi:/dev/nothing-here",), tmp_path / "a.h5", BenchFile(), "Strip 4"))
    qtbot.waitUntil(lambda: "failed" in window.bars.texts, timeout=20_000)
    assert "/dev/nothing-here" in window.bars.texts["failed"]
    again = next(b for b in window.bars.findChildren(QAbstractButton) if b.text() == "Try again")
    again.click()
    qtbot.waitUntil(lambda: window.session is not None and window.session.is_over, timeout=20_000)


def test_why_a_run_could_not_begin_is_gone_once_another_has(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    """Its other try would have begun nothing, beside a run that goes on."""
    from gui.session import Plan
    from logger.bench import Bench as BenchFile

    window.begin(Plan(("scpi:/dev/nothing-here",), tmp_path / "a.h5", BenchFile(), "Strip 4"))
    qtbot.waitUntil(lambda: "failed" in window.bars.texts, timeout=20_000)
    window.begin(Plan(("cell:demo?speed=20",), tmp_path / "b.h5", BenchFile(), "Strip 5"))
    assert "failed" not in window.bars.texts
    assert window.session is not None
    window.session.wait_opened(20.0)


def test_a_run_that_could_not_be_saved_stays_and_is_saved_again(bench: Bench) -> None:
    """The only offer began another run of that name: it was refused, and the curve of this one was gone."""
    page, told = bench.page, "No room for a.h5. What was recorded is safe in a.h5.journal"
    bench.run.disk_error = LoggerError(told)
    codes = ("disk_full", "disk_error", "not_archived")
    bench.run.told += [RunNotice(120.0, "danger", code, told) for code in codes]
    bench.look()
    bench.press(Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    key = f"failed {bench.session.plan.out}"
    bench.qtbot.waitUntil(lambda: key in bench.window.bars.texts, timeout=10_000)
    bench.run.clock.time_s += 600.0
    bench.look()
    dangers = bench.window.bars.keys_of("danger")
    assert dangers == (key,), "one bar says it"
    assert "The run is over, and not saved yet." in bench.labels()
    buttons = {b.text(): b for b in bench.window.bars.findChildren(QAbstractButton) if b.isVisible()}
    assert "Try again" not in buttons
    bench.run.disk_error = None
    shutil.copy(Path(__file__).parents[2] / "recordings" / "invented" / "blank.h5", bench.session.plan.out)
    buttons["Save again"].click()
    bench.qtbot.waitUntil(lambda: bool(bench.window.findings_pages), timeout=20_000)
    assert bench.window.run_page is page, "its curve has stayed"
    assert key not in bench.window.bars.texts


def test_a_run_that_could_not_be_saved_is_saved_while_the_next_one_goes_on(
    bench: Bench, tmp_path: Path
) -> None:
    """The button did nothing but go: nobody was told that the run was in its journal alone."""
    first, key = bench.session, f"failed {bench.session.plan.out}"
    bench.run.disk_error = LoggerError("No room for a.h5.")
    bench.window.stop()
    bench.qtbot.waitUntil(lambda: key in bench.window.bars.texts, timeout=10_000)
    bench.window.begin(plan(tmp_path / "b.h5"))
    assert bench.window.session is not None
    bench.window.session.wait_opened(10.0)
    bench.look()

    def save_again() -> None:
        buttons = {b.text(): b for b in bench.window.bars.findChildren(QAbstractButton) if b.isVisible()}
        buttons["Save again"].click()

    save_again()
    bench.qtbot.waitUntil(lambda: key in bench.window.bars.texts, timeout=10_000)  # no room yet
    bench.run.disk_error = None
    shutil.copy(Path(__file__).parents[2] / "recordings" / "invented" / "blank.h5", first.plan.out)
    save_again()
    bench.qtbot.waitUntil(lambda: bool(bench.window.findings_pages), timeout=20_000)
    assert key not in bench.window.bars.texts
    assert first.state == "finished"
    assert bench.window.session.state == "running"


def test_a_run_that_fails_again_before_the_next_frame_is_offered_again(bench: Bench) -> None:
    """The bar had gone with the press, and nothing led to the run any more."""
    key = f"failed {bench.session.plan.out}"
    bench.run.disk_error = LoggerError("The folder of a.h5 is gone.")
    bench.window.stop()
    bench.qtbot.waitUntil(lambda: key in bench.window.bars.texts, timeout=10_000)
    for _time in range(2):
        buttons = {b.text(): b for b in bench.window.bars.findChildren(QAbstractButton) if b.isVisible()}
        buttons["Save again"].click()
        bench.session.close()  # it has failed before a frame could see it being saved
        bench.look()
        assert key in bench.window.bars.texts


@pytest.mark.parametrize("key", [Qt.Key.Key_S, Qt.Key.Key_E])
def test_the_offer_to_save_again_comes_back_by_key_when_its_bar_was_closed(
    bench: Bench, tmp_path: Path, key: Qt.Key
) -> None:
    """Closed by mistake, it was gone until the next start of the program."""
    bar = f"failed {bench.session.plan.out}"
    bench.run.disk_error = LoggerError("No room for a.h5.")
    bench.window.stop()
    bench.qtbot.waitUntil(lambda: bar in bench.window.bars.texts, timeout=10_000)
    buttons = bench.window.bars._bars[bar].findChildren(QAbstractButton)
    next(button for button in buttons if button.text() == "Close").click()
    assert bar not in bench.window.bars.texts
    bench.press(key, Qt.KeyboardModifier.ControlModifier)
    assert bar in bench.window.bars.texts
    bench.window.untell(bar)
    bench.window.begin(plan(tmp_path / "b.h5"))
    assert bench.window.session is not None
    bench.window.session.wait_opened(10.0)
    bench.look()
    bench.press(Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    assert bar in bench.window.bars.texts, "also while the next run goes on"


def test_who_closes_the_window_sees_that_the_run_could_not_be_saved(bench: Bench) -> None:
    """It went, as after a run that is saved: what is to be done was seen at the next start."""
    left: list[int] = []
    bench.window.done.connect(left.append)
    bench.run.disk_error = LoggerError("No room for a.h5.")
    bench.window.close()
    question = bench.window.leaving.question
    assert isinstance(question, CloseQuestion)
    question.act.click()
    bench.qtbot.waitUntil(lambda: bench.session.state == "failed", timeout=10_000)
    bench.look()
    assert left == []
    assert "No room for a.h5." in bench.window.bars.texts.values()
    bench.window.close()
    assert left == [0], "who closes it once more has seen it"


def test_a_run_that_could_not_be_saved_is_not_said_to_be_ready_to_end(bench: Bench) -> None:
    bench.page.announced.emit("The voltage has settled: the run can end.")
    assert "sheet" in bench.window.bars.texts
    bench.run.disk_error = LoggerError("No room for a.h5.")
    bench.window.stop()
    bench.qtbot.waitUntil(lambda: bench.session.state == "failed", timeout=10_000)
    bench.look()
    assert "No room for a.h5." in bench.window.bars.texts.values()
    assert "sheet" not in bench.window.bars.texts


def test_an_end_from_outside_does_not_wait_for_room(bench: Bench) -> None:
    bench.run.disk_error = LoggerError("No room for a.h5.")
    with bench.qtbot.waitSignal(bench.window.done, timeout=10_000) as left:
        bench.window.stop_and_quit()
    assert left.args == [1]


def test_an_answer_does_not_hold_a_window_that_is_to_go_from_outside(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    may_fail = threading.Event()

    def stop(_run: FakeRun) -> Path:
        assert may_fail.wait(10.0)
        raise LoggerError("No room for a.h5.")

    monkeypatch.setattr(FakeRun, "stop", stop)
    left: list[int] = []
    bench.window.done.connect(left.append)
    bench.window.close()
    question = bench.window.leaving.question
    assert isinstance(question, CloseQuestion)
    bench.window.stop_and_quit()
    question.act.click()
    may_fail.set()
    bench.session.close()
    bench.look()
    assert left == [1]


def test_a_second_place_can_be_named_while_saving_waits_for_room(
    bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The bar of the full disk offers it; what memory holds is lost where it is refused."""
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(tmp_path / "stick"))
    bench.session.state = "saving"
    bench.window.ways.choose_second_folder()
    bench.qtbot.waitUntil(lambda: bench.run.second_folder == tmp_path / "stick", timeout=10_000)
    bench.session.state = "running"


def test_findings_follow_the_run(bench: Bench, tmp_path: Path) -> None:
    bench.session.finished = Finished(recording(tmp_path / "a.h5"), FOUND)
    bench.session.state = "finished"
    bench.look()
    texts = bench.labels().replace("\u00a0", " ")
    for part in ("254.6 ± 2.6 mV", "95 %", "2.251 ± 0.013 V", "The leads were reversed.", str(tmp_path)):
        assert part in texts
    assert "Simulated, invented data" in texts
    pages = [b.text() for b in bench.window.header.findChildren(QAbstractButton) if b.isVisible()]
    assert pages[:3] == ["Run", "Bench", "Findings"]
    bench.window.show_page("run")
    assert bench.window.stack.currentWidget() is bench.page


def test_the_page_of_a_saved_run_does_not_say_that_it_is_being_saved(bench: Bench, tmp_path: Path) -> None:
    bench.session.state = "saving"
    bench.look()
    assert bench.page.foot.stop.accessibleName() == "Saving …"
    bench.session.finished = Finished(recording(tmp_path / "a.h5"), FOUND)
    bench.session.state = "finished"
    bench.look()
    bench.window.show_page("run")
    assert bench.page.foot.stop.accessibleName() == "Saved"
    bench.window.resize(900, 560)  # in a small window, too
    bench.look()
    assert bench.page.foot.stop.accessibleName() == "Saved"
    assert not bench.page.foot.stop.isEnabled()


def test_recordings_are_looked_for_where_they_are_recorded(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The dialog began wherever the program had been started: with a click on its drawing, anywhere."""
    choose_recordings_folder(window.settings, tmp_path)
    asked: list[str] = []

    def ask(_parent: object, _title: str, folder: str, _kinds: str) -> tuple[list[str], str]:
        asked.append(folder)
        return [], ""

    monkeypatch.setattr(QFileDialog, "getOpenFileNames", ask)
    QTest.keyClick(window.windowHandle(), Qt.Key.Key_O, Qt.KeyboardModifier.ControlModifier)
    assert asked == [str(tmp_path)]


def test_a_file_that_is_no_recording_is_told_in_a_bar(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    path = tmp_path / "notes.h5"
    path.write_text("no recording")
    window.open_file(path)
    assert "Opening notes.h5" in "\n".join(w.text() for w in window.stack.start_page.findChildren(QLabel))
    qtbot.waitUntil(lambda: bool(window.bars.texts), timeout=10_000)
    assert "notes.h5" in next(iter(window.bars.texts.values()))


def test_once_a_recording_is_open_the_start_page_offers_what_can_be_done(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    path = Path(shutil.copy(Path(__file__).parents[2] / "recordings" / "invented" / "blank.h5", tmp_path))
    window.open_file(path)
    qtbot.waitUntil(lambda: bool(window.findings_pages), timeout=20_000)
    assert window.stack.currentWidget() is window.findings_pages[0]
    window.show_page("run")
    start = window.stack.start_page
    assert window.stack.currentWidget() is start
    seen = [label.text() for label in start.findChildren(QLabel) if label.isVisible()]  # no bar that is gone
    assert not any("Opening" in text for text in seen)
    buttons = [b for b in start.findChildren(QAbstractButton) if b.isVisible()]
    assert len(buttons) == 3
    assert start.focusProxy() in buttons


def test_several_recordings_open_in_their_order_and_the_first_stays_in_front(
    window: Window, qtbot: QtBot
) -> None:
    """Whichever is read quickest; and a file that cannot be read keeps none of the others out."""
    folder = Path(__file__).parents[2] / "recordings" / "invented"
    names = ["good-lesson.h5", "missing.h5", "blank.h5"]
    for name in names:
        window.open_file(folder / name)
    start = window.stack.start_page
    assert "Opening good-lesson.h5, 1 of 3 …" in [one.text() for one in start.findChildren(QLabel)]
    qtbot.waitUntil(lambda: len(window.findings_pages) == 2, timeout=60_000)
    opened = [page.finished.recording.path.name for page in window.findings_pages]
    assert opened == ["good-lesson.h5", "blank.h5"]
    assert window.stack.currentWidget() is window.findings_pages[0]
    assert any("missing.h5" in text for text in window.bars.texts.values())


def test_a_recording_asked_for_while_it_is_on_its_way_opens_once(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An impatient second press opened it twice, and what was changed on one page was not on the other."""
    may_open = threading.Event()

    def load(path: Path, _progress: object = None) -> Finished:
        assert may_open.wait(10.0)
        return Finished(recording(path), FOUND)

    monkeypatch.setattr("gui.opening.load_finished", load)
    first, second = tmp_path / "a.h5", tmp_path / "b.h5"
    for path in (first, second, first, second):
        window.open_file(path)
    may_open.set()
    qtbot.waitUntil(lambda: len(window.findings_pages) == 2 and window._jobs.are_over, timeout=30_000)
    assert [page.finished.recording.path for page in window.findings_pages] == [first, second]


def test_a_recording_that_is_open_comes_to_the_front_and_opens_no_second_page(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    """Findings of a second page were without what was changed on the first, and were kept in the file."""
    invented = Path(__file__).parents[2] / "recordings" / "invented"
    first, second = (Path(shutil.copy(invented / name, tmp_path)) for name in ("good-lesson.h5", "blank.h5"))

    def open_and_wait(path: Path) -> None:
        window.open_file(path)
        qtbot.waitUntil(lambda: window._jobs.are_over, timeout=60_000)

    open_and_wait(first)
    open_and_wait(second)
    page, _other = window.findings_pages
    salt = next(m for m in page.moments.keeper.moments if m.kind == "salt_added")
    page.moments.move_to(salt.id, 280.0)
    open_and_wait(first)
    open_and_wait(tmp_path / "." / "good-lesson.h5")
    assert len(window.findings_pages) == 2
    assert window.stack.currentWidget() is page
    # What another program has changed is seen on a page that begins with it.
    edit(first, salt.id, time_s=270.0)
    open_and_wait(first)
    assert len(window.findings_pages) == 3
    latest = window.findings_pages[-1]
    assert window.stack.currentWidget() is latest
    assert [m.time_s for m in latest.moments.keeper.moments if m.kind == "salt_added"] == [270.0]


def test_a_recording_whose_findings_were_ended_is_opened_to_have_them_made(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    invented = Path(__file__).parents[2] / "recordings" / "invented"
    path = Path(shutil.copy(invented / "good-lesson.h5", tmp_path))
    window.add_findings(Finished(read_recording(path), {}, "The findings were not worked out."))
    window.open_file(path)
    qtbot.waitUntil(lambda: len(window.findings_pages) == 2, timeout=60_000)
    assert window.findings_pages[-1].finished.findings


def test_several_recordings_can_be_switched(window: Window, tmp_path: Path) -> None:
    for name in ("a.h5", "b.h5"):
        window.add_findings(Finished(recording(tmp_path / name), FOUND))
    window.header.file_chosen.emit(0)
    assert window.stack.currentWidget() is window.findings_pages[0]


def test_the_picture_is_saved_beside_the_recording(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    window.add_findings(Finished(recording(tmp_path / "a.h5"), FOUND))
    window.recordings.save_picture()
    qtbot.waitUntil(lambda: "picture" in window.bars.texts, timeout=20_000)
    assert (tmp_path / "a.png").stat().st_size > 10_000, window.bars.texts


def test_a_picture_saved_again_replaces_nothing(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(b"mine")
    window.add_findings(Finished(recording(tmp_path / "a.h5"), FOUND))
    window.recordings.save_picture()
    qtbot.waitUntil(lambda: "picture" in window.bars.texts, timeout=20_000)
    assert (tmp_path / "a.png").read_bytes() == b"mine"
    assert (tmp_path / "a (2).png").stat().st_size > 10_000, window.bars.texts
    assert "a (2).png" in window.bars.texts["picture"]
