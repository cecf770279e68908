"""Keys and hands at a run: one after another, what is kept beside it, what stands around its curve."""

from __future__ import annotations

from pathlib import Path
from threading import Event

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtWidgets import QAbstractButton, QApplication
from pytestqt.qtbot import QtBot

from gui.chart.focus_mark import FocusMark
from gui.header_words import named
from gui.run_ways import LIVE_KEY
from gui.session import Finished, Session
from gui.window import Window
from logger.bench_tables import Bench as BenchFile
from logger.errors import LoggerError
from tests.gui.fakes import FakeRun, plan
from tests.gui.test_findings_texts import FOUND
from tests.gui.window_bench import CTRL, Bench, recording
from tests.gui.window_bench import bench as bench


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
