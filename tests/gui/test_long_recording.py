"""A recording whose readings stay in its file: the curve is there first, the findings follow."""

from __future__ import annotations

import csv
import threading
from collections import defaultdict
from functools import partial
from pathlib import Path

import h5py
import pytest
from PySide6.QtCore import QSettings
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from gui.chart.chart import Chart
from gui.pages.findings_page import FindingsPage
from gui.session import Finished, found_later, load_finished
from gui.theme import Theme
from logger.moment_edits import edit
from logger.progress import Progress
from logger.reader import read_recording
from logger.stored_overview import StoredOverview
from tests.gui.finished_run import changed, refuse
from tests.gui.page_host import FakeHost
from tests.gui.test_findings_page import demo_bench, steps
from tests.logger.shelf_files import write_recording

LONG_S = 60.0


@pytest.fixture
def path(tmp_path: Path) -> Path:
    times, values, moments = steps()
    bench_toml = demo_bench().source_text
    return write_recording(
        tmp_path / "steps.h5", times, values, moments, title="Steps", bench_toml=bench_toml
    )


@pytest.fixture
def host(qtbot: QtBot, theme: Theme, settings: QSettings, monkeypatch: pytest.MonkeyPatch) -> FakeHost:
    """Whatever is opened is taken for a long recording."""
    monkeypatch.setattr("logger.reader.read_recording", partial(read_recording, held_samples=0))
    host = FakeHost(theme, settings)
    qtbot.addWidget(host)
    return host


def findings_held_back(monkeypatch: pytest.MonkeyPatch) -> dict[float, threading.Event]:
    """Have the first findings of what is opened wait for an event, that of the time of its first moment.

    A table has no others.
    """
    are_wanted: dict[float, threading.Event] = defaultdict(threading.Event)

    def find(pending: Finished, progress: Progress) -> Finished:
        are_wanted[pending.recording.moments[0].time_s].wait()
        return found_later(pending, progress)

    monkeypatch.setattr("gui.pages.findings_page.found_later", find)
    monkeypatch.setattr("logger.export.formats.EASILY_ANALYSED", 0)
    return are_wanted


def exported(table: Path) -> dict[str, str]:
    with table.open(newline="") as file:
        return {row["quantity"]: row["value"] for row in csv.DictReader(file)}


def texts(page: FindingsPage) -> str:
    return "\n".join(one.text() for one in page.findChildren(QLabel) if one.isVisible())


def test_the_curve_is_there_before_the_findings(host: FakeHost, path: Path) -> None:
    finished = load_finished(path)
    assert finished.is_pending
    assert isinstance(finished.overview, StoredOverview)
    page = FindingsPage(host, finished)
    host.hold(page)
    page.frame()
    assert page.chart.frame is not None
    assert page.chart.frame.right_s > 2000.0
    assert "being worked out" in texts(page)
    host.until_idle()
    assert not page.finished.is_pending
    assert "250" in texts(page)
    assert finished.overview.revision == 1


def test_the_findings_are_those_of_the_same_readings_in_memory(host: FakeHost, path: Path) -> None:
    page = FindingsPage(host, load_finished(path))
    host.hold(page)
    host.until_idle()
    from logger.analysis.findings import findings

    assert page.finished.findings == findings(read_recording(path))


def test_the_findings_wait_until_the_curve_has_been_painted(
    host: FakeHost, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun = threading.Event()
    monkeypatch.setattr("gui.pages.findings_page.CURVE_FIRST_S", LONG_S)
    monkeypatch.setattr(
        "gui.pages.findings_page.found_later", lambda pending, _progress: begun.set() or pending
    )
    paint, had_begun = Chart.paintEvent, []

    def paint_and_note(chart: Chart, event: QPaintEvent) -> None:
        had_begun.append(begun.is_set())
        paint(chart, event)

    monkeypatch.setattr(Chart, "paintEvent", paint_and_note)
    page = FindingsPage(host, load_finished(path))
    host.hold(page)
    host.until_idle()
    assert begun.is_set()
    assert had_begun[0] is False


def test_the_findings_of_a_page_that_nobody_looks_at_are_worked_out_all_the_same(
    host: FakeHost, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("gui.pages.findings_page.CURVE_FIRST_S", 0.0)
    page = FindingsPage(host, load_finished(path))
    page.hide()
    host.until_idle()
    assert not page.finished.is_pending
    assert page.finished.findings


def test_a_table_has_the_findings_that_are_shown_though_the_file_keeps_none(
    host: FakeHost, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("logger.export.formats.EASILY_ANALYSED", 0)
    page = FindingsPage(host, load_finished(path))
    host.hold(page)
    host.until_idle()
    assert page.finished.recording.findings_json is None
    page.export_to(path.with_name("a.csv"))
    host.until_idle()
    rows = exported(path.with_name("a.findings.csv"))
    shown = page.finished.findings["voltage_saved"]["value_V"]
    assert float(rows["voltage_saved.value_V"]) == shown
    assert "warning.older_findings" not in rows


def test_an_export_that_waits_for_the_findings_of_a_change_is_told(
    host: FakeHost, path: Path, tmp_path: Path
) -> None:
    page = FindingsPage(host, load_finished(path))
    host.hold(page)
    host.until_idle()
    page.moments.move_to(page.moments.keeper.moments[0].id, 3.0)
    page.export_to(tmp_path / "out.csv")
    assert host.told["follows"][1] == "That follows as soon as the findings are there."
    host.until_idle()
    assert "\n3.0" in (tmp_path / "out.moments.csv").read_text("utf-8")


def test_a_table_asked_for_while_the_findings_are_worked_out_has_them(
    host: FakeHost, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It had none, without a word: they were not there yet."""
    monkeypatch.setattr("logger.export.formats.EASILY_ANALYSED", 0)
    page = FindingsPage(host, load_finished(path))
    page.export_to(path.with_name("a.csv"))
    assert "follows" in host.told
    host.until_idle()
    rows = exported(path.with_name("a.findings.csv"))
    assert float(rows["voltage_saved.value_V"]) == page.finished.findings["voltage_saved"]["value_V"]


@pytest.mark.parametrize("closes", [False, True])
def test_a_table_asked_for_with_a_change_that_is_refused_has_the_first_findings(
    host: FakeHost, path: Path, monkeypatch: pytest.MonkeyPatch, closes: bool
) -> None:
    """They were still being worked out, and it had none, without a word."""
    are_wanted = findings_held_back(monkeypatch)
    monkeypatch.setattr("logger.reanalysis.keep_changes", refuse)
    page = FindingsPage(host, load_finished(path))
    page.moments.move_to(page.moments.keeper.moments[0].id, 3.0)
    page.export_to(path.with_name("a.csv"))
    if closes:
        assert page.begin_to_close()
    host.until(lambda: bool(changed(host.told)), "the refusal")
    are_wanted[40.0].set()
    host.until_idle()
    begin_s = float(exported(path.with_name("a.findings.csv"))["settled.before.window_begin_s"])
    assert begin_s == page.finished.findings["settled"]["before"]["window_begin_s"]


def test_a_table_asked_for_before_the_file_was_changed_by_others_has_the_findings_of_that(
    host: FakeHost, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was found first let it go: it had the new moments and no findings."""
    are_wanted = findings_held_back(monkeypatch)
    page = FindingsPage(host, load_finished(path))
    (first,) = host.jobs
    page.export_to(path.with_name("a.csv"))
    edit(path, page.moments.keeper.moments[0].id, time_s=45.0)
    page.follow_file(load_finished(path))
    are_wanted[40.0].set()
    host.until(lambda: first not in host.jobs, "the end of the first findings")
    host.frame()
    are_wanted[45.0].set()
    host.until_idle()
    assert exported(path.with_name("a.findings.csv"))["settled.before.window_begin_s"] == "45.0"


def test_a_table_is_written_also_where_the_findings_were_ended(host: FakeHost, path: Path) -> None:
    page = FindingsPage(host, load_finished(path))
    (analysing,) = host.jobs
    page.export_to(path.with_name("a.csv"))
    analysing.cancel()
    host.until_idle()
    assert "since that was ended" in page.finished.trouble
    assert path.with_name("a.csv").exists()


def test_what_ends_the_work_is_told_and_the_curve_stays(host: FakeHost, path: Path) -> None:
    page = FindingsPage(host, load_finished(path))
    for job in host.jobs:
        job.cancel()  # before the curve is seen, for which the work waits
    host.hold(page)
    host.until_idle()
    assert "since that was ended" in texts(page)


def test_a_damaged_file_is_told_in_one_line(host: FakeHost, path: Path) -> None:
    finished = load_finished(path)
    with h5py.File(path, "r") as file:
        place = file["run/cell_voltage/value"].id.get_chunk_info(0)
    with path.open("r+b") as file:
        file.seek(place.byte_offset + 20)
        file.write(b"\xff" * (place.size - 40))
    page = FindingsPage(host, finished)
    host.hold(page)
    host.until_idle()
    page.frame()
    assert page.finished.findings == {}
    assert "damaged" in page.finished.trouble
    assert "\n" not in page.finished.trouble
    level, text, _ = host.told["curve"]
    assert level == "warning"
    assert "steps.h5" in text
