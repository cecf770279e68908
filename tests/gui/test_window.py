"""A person at the window: what it shows of a run, and what follows it."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton

from gui.session import Finished
from tests.gui.test_findings_texts import FOUND
from tests.gui.window_bench import Bench, recording
from tests.gui.window_bench import bench as bench


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


def test_following_is_one_visible_control(bench: Bench) -> None:
    bench.page.chart.setFocus()
    assert bench.page.follow.accessibleName() == "Following the whole run"
    bench.press(Qt.Key.Key_F)
    assert bench.page.follow.accessibleName().startswith("Standing still")
    bench.page.follow.click()
    assert bench.page.follow.accessibleName().startswith("Following")


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
