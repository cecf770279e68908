"""A run ends: stopped, given up, or not saved, which is tried again."""

from __future__ import annotations

import os
import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QFileDialog
from pytestqt.qtbot import QtBot

from gui.window import Window
from logger.errors import LoggerError
from logger.notices import RunNotice
from tests.gui.fakes import plan
from tests.gui.test_live_texts import VIEW
from tests.gui.window_bench import Bench
from tests.gui.window_bench import bench as bench


def test_stop_and_save_by_key(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("last words")
    bench.press(Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    bench.qtbot.waitUntil(lambda: bench.session.is_over, timeout=10_000)
    assert bench.run.stopped == 1
    assert [m.label for m in bench.session.moments] == ["last words"]
    assert not bench.page.foot.stop.isEnabled()


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


def test_a_run_that_could_not_be_saved_is_not_said_to_be_ready_to_end(bench: Bench) -> None:
    bench.page.announced.emit("The voltage has settled: the run can end.")
    assert "sheet" in bench.window.bars.texts
    bench.run.disk_error = LoggerError("No room for a.h5.")
    bench.window.stop()
    bench.qtbot.waitUntil(lambda: bench.session.state == "failed", timeout=10_000)
    bench.look()
    assert "No room for a.h5." in bench.window.bars.texts.values()
    assert "sheet" not in bench.window.bars.texts


def test_a_run_that_is_over_is_not_said_to_go_on(bench: Bench) -> None:
    """On its page stood that water is split, and below it what is waited for until the run can end."""
    bench.qtbot.waitUntil(lambda: bench.session.view is not None, timeout=10_000)
    for _step in bench.page.tagging.sheet.lines:
        bench.page.tagging.do_step(bench.session.now_s)
    bench.look()
    assert "Splitting water" in bench.labels()
    assert bench.page.foot.next._hint != ""
    bench.session.state = "saving"
    bench.look()
    assert "The run is over: these are its last readings." in bench.labels()
    assert "Splitting water" not in bench.labels()
    assert bench.page.foot.next._hint == ""


def test_nothing_is_waited_for_once_a_run_is_over(bench: Bench) -> None:
    """Page and wall told how long it would take to settle, the wall for good what was tagged just now."""
    bench.page.stamp("note", bench.session.now_s)
    bench.window.wall_switch.toggle()
    bench.session.state = "saving"
    bench.session.close()  # the judge has made its last view
    bench.session.view = replace(VIEW, seconds_needed=200.0)
    bench.look()
    words = bench.window.stack.wall._words
    assert (words.verdict, words.tagged) == ("Not settled", "")
    bench.window.wall_switch.toggle()
    bench.look()
    assert ": not settled\n" in bench.labels()
    assert "more" not in bench.labels()
    bench.session.state = "running"


def test_a_second_place_can_be_named_while_saving_waits_for_room(
    bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The bar of the full disk offers it; what memory holds is lost where it is refused."""
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(tmp_path / "stick"))
    bench.session.state = "saving"
    bench.window.ways.choose_second_folder()
    bench.qtbot.waitUntil(lambda: bench.run.second_folder == tmp_path / "stick", timeout=10_000)
    bench.session.state = "running"
