"""A session opens, runs, ends by itself, saves and analyses, and never makes the window wait."""

from __future__ import annotations

import shutil
import threading
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from gui.demo import DEMO_ADDRESS, demo_bench, demo_plan
from gui.session import Plan, Session
from logger.errors import LoggerError
from logger.reader import read_recording
from logger.run import Run
from tests.gui.fakes import lesson, running_session

INVENTED = Path(__file__).parents[2] / "recordings" / "invented"


def wait_until(done: Callable[[], bool], session: Session, limit_s: float = 30.0) -> None:
    deadline_s = time.monotonic() + limit_s
    while not done():
        session.poll()
        assert time.monotonic() < deadline_s, f"still {session.state}: {session.error}"
        time.sleep(0.01)


def test_a_simulated_lesson_ends_saved_and_judged(tmp_path: Path) -> None:
    out = tmp_path / "lesson.h5"
    session = Session(Plan(("cell:demo?speed=2000&seed=3",), out, demo_bench(), "A lesson"))
    wait_until(lambda: session.is_over, session)
    assert session.error == ""
    assert session.finished is not None
    assert session.finished.recording.path == out
    saved = session.finished.findings["voltage_saved"]
    assert saved is not None
    # The lesson's own truth is near 0.25 V; how near is the analysis' own test.
    assert abs(saved["value_V"] - 0.25) < 0.02
    assert len(session.overview) == sum(c.times_s.size for c in read_recording(out).channels)
    session.close()


def test_the_live_view_appears_while_it_runs(tmp_path: Path) -> None:
    session, run = running_session(tmp_path / "a.h5")
    run.push(*lesson(600))
    wait_until(lambda: session.view is not None, session)
    assert session.view is not None
    assert session.view.phase == "growth" or session.view.phases
    assert session.overview.last is not None
    session.close()


def test_a_duration_ends_the_run(tmp_path: Path) -> None:
    session, run = running_session(tmp_path / "a.h5", duration_s=0.05)
    wait_until(lambda: session.state != "running", session)
    session.close()
    assert run.stopped == 1


def test_a_source_that_ends_ends_the_run(tmp_path: Path) -> None:
    session, run = running_session(tmp_path / "a.h5")
    session.poll()
    assert session.state == "running"
    run.has_ended = True
    wait_until(lambda: session.is_over, session)
    assert run.stopped == 1
    session.close()


def test_what_cannot_be_opened_fails_with_the_remedy_and_leaves_no_file(tmp_path: Path) -> None:
    session = Session(Plan(("scpi:/dev/nothing-here",), tmp_path / "a.h5", demo_bench()))
    session.wait_opened(30.0)
    assert session.state == "failed"
    assert "/dev/nothing-here" in session.error
    assert list(tmp_path.iterdir()) == []
    session.close()


def test_the_time_of_a_run_stands_still_once_it_is_over(tmp_path: Path) -> None:
    """Saving may take long on a full disk: no step falls due then, no phase grows, no meter falls silent."""
    session, run = running_session(tmp_path / "a.h5")
    run.push(*lesson(120))
    ended_s = session.now_s
    session.stop()
    run.clock.time_s += 30.0
    assert session.now_s == ended_s
    session.close()
    assert session.now_s == ended_s


def test_a_run_that_could_not_be_saved_can_be_saved_again(tmp_path: Path) -> None:
    out = tmp_path / "a.h5"
    session, run = running_session(out)
    assert not session.can_save_again
    run.disk_error = LoggerError("no room for a.h5")
    session.stop()
    session.close()
    assert (session.state, session.error) == ("failed", "no room for a.h5")
    assert session.can_save_again
    run.disk_error = None
    shutil.copy(INVENTED / "blank.h5", out)
    session.save_again()
    session.close()
    assert session.state == "finished"
    assert session.finished is not None
    assert session.finished.recording.path == out


def test_a_run_that_never_began_cannot_be_saved_again(tmp_path: Path) -> None:
    session = Session(Plan(("scpi:/dev/nothing-here",), tmp_path / "a.h5", demo_bench()))
    session.wait_opened(30.0)
    assert not session.can_save_again
    session.close()


def test_a_recording_that_cannot_be_read_again_is_a_failure_told_in_words(tmp_path: Path) -> None:
    session, _run = running_session(tmp_path / "a.h5")  # the fake run writes no file
    session.stop()
    session.close()
    assert session.state == "failed"
    assert "a.h5" in session.error


def test_stopping_while_opening_gives_the_run_up(tmp_path: Path) -> None:
    may_start = threading.Event()

    def make(*arguments: Any, **options: Any) -> Run:
        may_start.wait(30.0)
        return Run(*arguments, **options)

    session = Session(Plan(("cell:demo?speed=1",), tmp_path / "a.h5", demo_bench()), make_run=make)
    session.stop()
    may_start.set()
    session.close()
    assert (session.state, session.is_given_up) == ("failed", True)
    assert session.errors == (
        "The run was given up before its instrument had answered. Nothing was recorded.",
    )
    assert not session.can_save_again
    assert list(tmp_path.iterdir()) == []


def test_a_run_that_begins_all_the_same_when_it_is_stopped_is_saved(tmp_path: Path) -> None:
    begins, may_begin = threading.Event(), threading.Event()

    class OpenRun(Run):
        def start(self) -> None:
            super().start()
            begins.set()
            may_begin.wait(30.0)

    session = Session(Plan(("cell:demo?speed=1",), tmp_path / "a.h5", demo_bench()), make_run=OpenRun)
    assert begins.wait(30.0)
    session.stop()
    may_begin.set()
    wait_until(lambda: session.is_over, session)
    assert (session.state, session.is_given_up) == ("finished", False)
    assert (tmp_path / "a.h5").exists()
    session.close()


def test_moments_keep_the_time_they_are_given(tmp_path: Path) -> None:
    session, run = running_session(tmp_path / "a.h5")
    run.clock.time_s = 9.0
    moment = session.add_moment("note", "", 7.25)
    assert session.moments == (moment,)
    assert moment.time_s == 7.25
    session.edit_moment(moment.id, label="drop")
    assert session.moments[0].label == "drop"
    session.close()


def test_gaps_reach_the_chart(tmp_path: Path) -> None:
    from logger.recording import Gap

    session, run = running_session(tmp_path / "a.h5")
    run.gaps = (Gap(3.0, 4.0, "cell_voltage", "unplugged"),)
    wait_until(lambda: len(session.overview.gaps_s) == 1, session)
    session.close()


def test_the_first_start_needs_nothing(tmp_path: Path) -> None:
    made = demo_plan(tmp_path / "first.h5")
    assert made.addresses == (DEMO_ADDRESS,)
    assert made.title == "Simulated lesson"
    assert made.bench.supply.stack_voltage_V == 27.0


def test_a_fault_in_judging_is_told_and_does_not_end_the_recording(tmp_path: Path) -> None:
    session, run = running_session(tmp_path / "a.h5")
    assert session._assessment is not None
    session._assessment.view = None  # type: ignore[assignment, method-assign]
    run.push(*lesson(60))
    wait_until(lambda: bool(session.trouble), session)
    assert "Recording goes on" in session.trouble
    assert session.state == "running"
    session.poll()
    session.close()


def keep_words(session: Session, moment_id: str) -> None:
    session.edit_moment(moment_id, label="colour brown")


def test_what_is_being_typed_is_kept_before_the_run_ends(tmp_path: Path) -> None:
    out = tmp_path / "lesson.h5"
    session = Session(Plan(("cell:demo?speed=5000&seed=3",), out, demo_bench(), "A lesson"))
    wait_until(lambda: session.state == "running", session)
    note = session.add_moment("note", "", 1.0)
    # The window's entry does this: its words come only when they are settled.
    session.before_stop = lambda: keep_words(session, note.id)
    wait_until(lambda: session.is_over, session)
    session.close()
    assert "colour brown" in [moment.label for moment in read_recording(out).moments]
