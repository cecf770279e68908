"""The window goes: what it asks, what it waits for, and what holds it."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from gui.session import Finished, Session
from gui.widgets.close_question import CloseQuestion
from gui.window import Window
from logger.errors import LoggerError
from tests.gui.fakes import FakeRun, plan
from tests.gui.test_findings_texts import FOUND
from tests.gui.window_bench import Bench, recording
from tests.gui.window_bench import bench as bench


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
