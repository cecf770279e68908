"""What bars tell of a run while it goes on, and when they go."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtWidgets import QAbstractButton

from gui.session import Finished
from logger.notices import RunNotice
from tests.gui.fakes import plan
from tests.gui.test_findings_texts import FOUND
from tests.gui.window_bench import Bench, recording
from tests.gui.window_bench import bench as bench


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
