"""A person at the shelf: looks, searches, ticks, compares, finishes what was cut off, drops files."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QSettings, QStandardPaths, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel
from pytestqt.qtbot import QtBot

from gui.pages.shelf_page import FOLDER_KEY, ShelfPage
from gui.shelf.comparison_table import ComparisonTable
from gui.shelf.comparison_texts import ComparedRow
from gui.shelf.comparison_view import ComparisonView
from gui.shelf.overlay_chart import OverlayChart
from gui.shelf.overlay_picture import PITCH, _moved_apart
from gui.shelf.overlay_view import OverlayRun, OverlayView
from gui.shelf.recent_files import RecentFiles
from gui.shelf.run_colours import DARK_RUNS, LIGHT_RUNS
from gui.shelf.small_curve import _at_most
from gui.theme import DARK, LIGHT, Theme
from logger.editing import editing
from logger.moments import new_moment
from logger.overview import Overview
from tests.gui.controls import assert_nothing_clips, assert_reachable_and_named
from tests.gui.fakes import lesson
from tests.gui.page_host import FakeHost
from tests.logger.shelf_files import write_recording


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Two runs, one cut off, and a file that is no recording."""
    made = tmp_path / "runs"
    made.mkdir()
    times, values = lesson(1500.0, 1.0)
    moments = [(45.0, "buffer_in", ""), (285.0, "salt_added", "2 drops")]
    write_recording(made / "a.h5", times, values, moments, title="Strip 4")
    write_recording(made / "b.h5", times, values + 0.01, moments[:1], title="Blank")
    write_recording(made / "c.h5", times[:300], values[:300], cut_off=True, title="Strip 5")
    (made / "d.h5").write_text("no recording")
    return made


@pytest.fixture
def host(
    qtbot: QtBot,
    theme: Theme,
    settings: QSettings,
    folder: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> Iterator[FakeHost]:
    theme.choose("light")
    monkeypatch.setattr(QStandardPaths, "writableLocation", lambda _place: str(tmp_path / "cache"))
    settings.setValue(FOLDER_KEY, str(folder))
    made = FakeHost(theme, settings)
    qtbot.addWidget(made)
    page = ShelfPage(made)
    made.hold(page)
    made.until_idle()
    yield made
    for job in made.jobs:
        job.cancel()
    made.until_idle()


def test_a_folder_without_recordings_says_what_to_do(host: FakeHost, tmp_path: Path) -> None:
    empty = tmp_path / "empty"
    empty.mkdir()
    page = page_of(host)
    page.choose_folder(empty)
    host.until_idle()
    assert "No recordings here yet" in texts(host)
    assert "choose their folder" in texts(host)
    assert "Nothing chosen" not in texts(host)
    assert "Tick two" not in texts(host)


def test_another_folder_is_shown_alone_though_the_one_before_is_still_read(
    host: FakeHost, folder: Path, tmp_path: Path
) -> None:
    other = tmp_path / "other"
    other.mkdir()
    times, values = lesson(60.0)
    write_recording(other / "z.h5", times, values, title="Strip 9")
    page = page_of(host)
    page.choose_folder(folder)
    page.choose_folder(other)
    host.until_idle()
    assert [entry.path for entry in page.model.entries()] == [other / "z.h5"]
    assert "1 recording" in texts(host)
    page.choose_folder(folder)
    page.choose_folder(other)
    page.choose_folder(folder)
    host.until_idle()
    assert {entry.path.name for entry in page.model.entries()} == {"a.h5", "b.h5", "c.h5.journal", "d.h5"}


def test_looking_into_a_folder_ends_with_the_window(
    host: FakeHost, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The window stood still for five seconds while the rest of a large folder was read."""
    reads, ends = threading.Event(), threading.Event()

    class Endless:
        def read(self, _path: Path) -> dict[str, object]:
            reads.set()
            assert ends.wait(30.0)
            return {"state": "damaged", "problem": "given up"}

        def close(self) -> None:
            ends.set()

    monkeypatch.setattr("logger.shelf.ShelfReader", Endless)
    (folder / "a.h5").touch()
    page_of(host).refresh()
    assert reads.wait(30.0)
    job = host.jobs[-1]
    assert not job.is_cancellable, "nobody is asked about it"
    job.cancel()
    job.wait(10.0)
    assert job.is_over


def page_of(host: FakeHost) -> ShelfPage:
    assert isinstance(host.page, ShelfPage)
    return host.page


def texts(host: FakeHost) -> str:
    return "\n".join(label.text() for label in host.findChildren(QLabel) if label.isVisible())


def row(page: ShelfPage, name: str) -> int:
    return next(
        i
        for i in range(page.model.rowCount())
        if page.model.index(i).data(Qt.ItemDataRole.UserRole).path.name == name
    )


def test_the_shelf_shows_what_is_in_the_folder(host: FakeHost) -> None:
    page = page_of(host)
    states = {entry.path.name: entry.state for entry in page.model.entries()}
    assert states == {"a.h5": "finished", "b.h5": "finished", "c.h5.journal": "cut_off", "d.h5": "damaged"}
    assert "4 recordings" in texts(host)


def test_a_run_that_was_cut_off_is_offered_and_finished(host: FakeHost, folder: Path) -> None:
    page = page_of(host)
    level, text, actions = host.told[f"cut_off {folder}"]
    assert level == "warning"
    assert "Nothing is lost" in text
    actions[0][1]()
    host.until(lambda: page.model.entry(folder / "c.h5") is not None, "the finished run on the shelf")
    host.until_idle()
    assert (folder / "c.h5").is_file()
    assert not (folder / "c.h5.journal").exists()
    assert page.model.entry(folder / "c.h5.journal") is None


def test_another_run_that_was_cut_off_still_is_offered_when_one_is_finished(
    host: FakeHost, folder: Path
) -> None:
    times, values = lesson(60.0)
    write_recording(folder / "e.h5", times, values, cut_off=True, title="Strip 7")
    page = page_of(host)
    page.refresh()
    host.until(lambda: host.told.get(f"cut_off {folder}", ("", ""))[1].startswith("2 "), "both are offered")
    page.finish_runs([folder / "c.h5.journal"])
    host.until(lambda: page.model.entry(folder / "c.h5") is not None, "the finished run on the shelf")
    assert "e.h5" in host.told[f"cut_off {folder}"][1]
    ((_words, finish),) = host.told[f"cut_off {folder}"][2]
    finish()
    host.until(lambda: page.model.entry(folder / "e.h5") is not None, "the other one")
    assert f"cut_off {folder}" not in host.told


def test_ticks_by_the_space_bar_lay_runs_over_one_another(host: FakeHost, qtbot: QtBot) -> None:
    page = page_of(host)
    for name in ("a.h5", "b.h5"):
        page.list.setCurrentIndex(page.model.index(row(page, name)))
        QTest.keyClick(page.list, Qt.Key.Key_Space)
    assert [path.name for path in page.model.ticked] == ["a.h5", "b.h5"]
    host.until(lambda: len(page.comparison.chart.view.runs) == 2, "two curves")
    host.until_idle()
    align = page.comparison.align
    keys = [align.itemData(i) for i in range(align.count())]
    assert keys[0] == "start"
    assert {"moment:buffer_in", "moment:salt_added"} <= set(keys)
    align.setCurrentIndex(keys.index("moment:salt_added"))
    align.activated.emit(align.currentIndex())
    (only,) = page.comparison.chart.view.runs  # the blank has no salt
    assert only.zero_s == 285.0
    assert "Strip 4" in texts(host)
    assert_reachable_and_named(page)
    assert_nothing_clips(page)


def test_until_a_run_is_read_the_overlay_names_the_one_that_is_opened(host: FakeHost) -> None:
    """And there are no axes: nobody has measured what they would show."""
    page = page_of(host)
    chart = page.comparison.chart
    for name in ("a.h5", "b.h5"):
        page.model.tick(page.folder / name, on=True)
    assert chart.view.runs == ()
    assert chart.accessibleDescription() == "Opening a.h5"
    assert chart._picture is not None
    assert chart._picture.why_none == "Opening a.h5"
    image = chart.grab().toImage()
    heights = {
        y
        for y in range(image.height())
        for x in range(image.width())
        if image.pixel(x, y) != image.pixel(0, 0)
    }
    middle = image.height() / 2
    assert heights
    assert all(abs(y - middle) < 20 for y in heights), "axes beside the words"
    host.until(lambda: len(chart.view.runs) == 1, "the first curve")
    assert chart._picture.runs == chart.view.runs
    assert "Opening" not in chart.accessibleDescription()
    host.until_idle()


def test_runs_without_readings_have_no_axes_but_words(host: FakeHost, folder: Path) -> None:
    page = page_of(host)
    for name in ("a.h5", "b.h5"):
        page.model.tick(folder / name, on=True)
    host.until_idle()
    empty = [replace(run, overview=Overview()) for run in page.ticked.loaded]
    page.comparison.show_runs(empty, [])
    chart = page.comparison.chart
    assert [run.extent_s for run in chart.view.runs] == [None, None]
    assert chart._picture is not None
    assert chart._picture.why_none == "None of these runs has a reading of the cell voltage."


def test_ticking_another_run_keeps_the_cursor_while_it_is_read_and_after(
    host: FakeHost, folder: Path
) -> None:
    times, values = lesson(900.0, 1.0)
    write_recording(folder / "e.h5", times, values, title="Strip 6")
    page = page_of(host)
    page.refresh()
    host.until_idle()
    for name in ("a.h5", "b.h5"):
        page.model.tick(folder / name, on=True)
    host.until_idle()
    chart = page.comparison.chart
    QTest.keyClick(chart, Qt.Key.Key_Return)
    QTest.keyClick(chart, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    here, since = chart.reading.reader.here, chart.reading.reader.since
    assert here is not None
    assert since is not None
    page.model.tick(folder / "e.h5", on=True)
    assert chart.reading.reader.here == here
    host.until(lambda: len(chart.view.runs) == 3, "three curves")
    host.until_idle()
    with_third = chart.reading.reader.here
    assert with_third is not None
    assert (with_third.time_s, with_third.readings[:2]) == (here.time_s, here.readings)
    page.model.tick(folder / "a.h5", on=False)
    page.model.tick(folder / "e.h5", on=False)  # one alone is not compared: the overlay is not in front
    page.model.tick(folder / "a.h5", on=True)
    host.until_idle()
    again = chart.reading.reader.here
    assert again is not None
    assert (again.time_s, again.readings) == (here.time_s, here.readings[::-1])
    page.model.untick_all()
    for name in ("b.h5", "a.h5"):
        page.model.tick(folder / name, on=True)
    host.until_idle()
    assert chart.reading.reader.here is None


def test_a_ticked_run_that_was_changed_is_read_once_more(host: FakeHost, folder: Path) -> None:
    """As by a moment that was added to its findings; its curve and its colour stay meanwhile."""
    page = page_of(host)
    for name in ("a.h5", "b.h5"):
        page.model.tick(folder / name, on=True)
    host.until_idle()
    align, chart = page.comparison.align, page.comparison.chart
    QTest.keyClick(chart, Qt.Key.Key_Return)
    assert chart.reading.reader.has_cursor
    with editing(folder / "a.h5") as editor:
        editor.keep([new_moment(900.0, "stirring_on", "")])
    page.refresh()
    host.until(lambda: align.findData("moment:stirring_on") >= 0, "the moment that was added")
    assert [run.number for run in chart.view.runs] == [0, 1]
    host.until_idle()
    assert [run.recording.path.name for run in page.ticked.loaded] == ["a.h5", "b.h5"]
    assert chart.reading.reader.has_cursor
    assert page.comparison.report.isEnabled()


def test_a_large_screen_has_room_for_longer_titles(host: FakeHost) -> None:
    page = page_of(host)
    widths = []
    for width, height in ((1366, 712), (1920, 1024)):
        host.resize(width, height)
        page.resize(width, height)
        host.frame()
        widths.append(page.list.width())
        assert_nothing_clips(page)
    assert widths[1] > widths[0] + 80


def test_a_damaged_file_is_told_and_cannot_be_ticked_or_opened(host: FakeHost) -> None:
    page = page_of(host)
    index = page.model.index(row(page, "d.h5"))
    page.list.setCurrentIndex(index)
    QTest.keyClick(page.list, Qt.Key.Key_Space)
    QTest.keyClick(page.list, Qt.Key.Key_Return)
    assert page.model.ticked == ()
    assert host.opened == []
    assert "cannot be read" in texts(host)
    assert_reachable_and_named(page)


def test_return_opens_the_findings_and_they_are_recent(host: FakeHost, folder: Path) -> None:
    page = page_of(host)
    page.list.setCurrentIndex(page.model.index(row(page, "a.h5")))
    QTest.keyClick(page.list, Qt.Key.Key_Return)
    assert host.opened == [folder / "a.h5"]
    assert page.recent.paths == (folder / "a.h5",)


@pytest.mark.parametrize(
    ("typed", "kind", "written"),
    [
        ("8b.pdf", "", "8b.pdf"),
        ("8b", "Report for the browser (*.html)", "8b.html"),
        ("8b", "Picture to enlarge (*.svg)", "8b.svg"),
    ],
)
def test_the_comparison_is_written_as_a_report_for_the_class(
    host: FakeHost, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, typed: str, kind: str, written: str
) -> None:
    page = page_of(host)
    assert not page.comparison.report.isEnabled()
    for name in ("a.h5", "b.h5"):
        page.model.tick(page.folder / name, on=True)
    host.until_idle()
    assert page.comparison.report.isVisible()
    assert page.comparison.report.isEnabled()
    assert_nothing_clips(host)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / typed), kind))
    page.comparison.report.click()
    host.until_idle()
    assert host.told["export"][:2] == ("info", f"Written: {written}, in {tmp_path}")
    content = (tmp_path / written).read_bytes()
    assert content.startswith(b"%PDF" if written.endswith("pdf") else b"<")
    if not written.endswith("pdf"):
        assert b"Strip 4" in content or b"2 runs compared" in content
    page.write_report(tmp_path / written)
    host.until_idle()
    assert host.told["export"][0] == "warning"
    assert "is there already" in host.told["export"][1]
    assert (tmp_path / written).read_bytes() == content


def test_search_narrows_the_list_and_finds_moments(host: FakeHost) -> None:
    page = page_of(host)
    QTest.keyClicks(page.search, "strip drops")
    assert page.model.rowCount() == 1
    assert page._column._about.text().startswith("Found: 1 of 4 recordings")
    QTest.keyClicks(page.search, " of last year")
    assert page._column._about.text().startswith("Found: 0 of 4 recordings"), "an empty list says why"
    page.search.clear()
    assert page.model.rowCount() == 4
    assert page._column._about.text().startswith("4 recordings")


def test_dropped_files_are_ticked_and_a_dropped_folder_is_shown(
    host: FakeHost, folder: Path, tmp_path: Path
) -> None:
    page = page_of(host)
    elsewhere = tmp_path / "other"
    elsewhere.mkdir()
    times, values = lesson(300.0, 1.0)
    dropped = write_recording(elsewhere / "z.h5", times, values, title="Guest")
    assert page.take_files([dropped])
    host.until_idle()
    assert page.model.ticked == (dropped,)
    assert page.take_files([tmp_path / "notes.txt"])
    assert "dropped" in host.told
    assert page.take_files([elsewhere])
    host.until(lambda: page.model.count == 1, "the other folder")
    host.until_idle()
    assert page.folder == elsewhere


def test_a_ninth_tick_is_refused(host: FakeHost, folder: Path) -> None:
    page = page_of(host)
    page.model.ticked_changed.disconnect()
    for number in range(8):
        assert page.model.tick(folder / f"{number}.h5", on=True)
    assert not page.model.tick(folder / "nine.h5", on=True)
    assert "Eight runs" in host.told["too many"][1]
    page.model.untick_all()


def test_recent_files_are_ten_in_order_and_missing_ones_stay(settings: QSettings, tmp_path: Path) -> None:
    recent = RecentFiles(settings)
    for number in range(12):
        recent.add(tmp_path / f"{number}.h5")
    recent.add(tmp_path / "5.h5")
    again = RecentFiles(settings)
    assert [p.name for p in again.paths] == [f"{n}.h5" for n in (5, 11, 10, 9, 8, 7, 6, 4, 3, 2)]
    again.replace(tmp_path / "11.h5", tmp_path / "moved.h5")
    assert again.paths[1].name == "moved.h5"
    again.clear()
    assert again.paths == ()


def test_each_curve_lies_at_its_own_zero() -> None:
    times = np.arange(0.0, 100.0)
    spike = np.full(100, 2.0)
    spike[30] = 2.5
    other = np.full(100, 2.0)
    other[50] = 2.5
    view = OverlayView()
    view.show(
        [
            OverlayRun(Overview.of(times, spike), 30.0, "a", 0),
            OverlayRun(Overview.of(times, other), 50.0, "b", 1),
        ]
    )
    assert view.whole == (-50.0, 69.0)
    traces, _range_V = view.traces(1190)
    peaks = [int(np.nanargmax(one.columns.high)) for one in traces]
    assert peaks == [500, 500]


def test_zoom_and_move_stay_within_the_runs() -> None:
    times = np.arange(0.0, 100.0)
    view = OverlayView()
    view.show([OverlayRun(Overview.of(times, np.full(100, 2.0)), 0.0, "a", 0)])
    view.zoom(0.5, 1.0)
    assert view.stretch == (49.5, 99.0)
    view.move(10.0)
    assert view.stretch == (49.5, 99.0)
    view.move(-10.0)
    assert view.stretch == (0.0, 49.5)
    view.zoom(100.0, 0.5)
    assert view.stretch == view.whole
    for _ in range(200):
        view.zoom(0.5, 0.3)
    left, right = view.stretch
    assert right - left == pytest.approx(0.1)


def test_the_stretch_stays_within_the_runs_that_are_left() -> None:
    times = np.arange(0.0, 100.0)
    short = OverlayRun(Overview.of(times[:40], np.full(40, 2.0)), 0.0, "a", 0)
    long = OverlayRun(Overview.of(times, np.full(100, 2.0)), 0.0, "b", 1)
    view = OverlayView()
    view.show([short, long])
    view.zoom(0.25, 1.0)
    left, right = view.stretch
    assert left > 39.0
    view.show([short])
    assert view.stretch == (39.0 - (right - left), 39.0)
    view.show([long])
    assert view.stretch == (39.0 - (right - left), 39.0)


def test_no_headings_stand_about_while_the_first_run_is_read(
    qtbot: QtBot, theme: Theme, tmp_path: Path
) -> None:
    view = ComparisonView(theme)
    qtbot.addWidget(view)
    view.resize(1200, 800)
    view.show()
    view.show_runs([], [tmp_path / "a.h5", tmp_path / "b.h5"])
    QApplication.processEvents()
    said = [one.text() for one in view.findChildren(QLabel) if one.isVisible()]
    assert "2 runs, 2 to be read …" in said
    assert "Before" not in said


def test_the_voltages_stay_where_nothing_was_read() -> None:
    times = np.concatenate((np.arange(0.0, 40.0), np.arange(80.0, 120.0)))
    run = OverlayRun(Overview.of(times, np.linspace(2.3, 2.0, 80)), 0.0, "a", 0)
    view = OverlayView()
    view.show([run])
    _traces, shown_V = view.traces(600)
    assert shown_V[0] > 1.5
    view.zoom(0.1, 0.5)
    assert 39.0 < view.stretch[0] < view.stretch[1] < 80.0
    (one,), in_gap_V = view.traces(600)
    assert np.isnan(one.columns.low).all()
    assert in_gap_V == shown_V
    view.show([])
    assert view.traces(600) == ((), (0.0, 3.0))


def test_the_overlay_is_drawn_in_the_colours_of_its_runs(qtbot: QtBot, theme: Theme) -> None:
    theme.choose("light")
    chart = OverlayChart(theme)
    qtbot.addWidget(chart)
    chart.resize(600, 300)
    times, values = lesson(900.0, 1.0)
    chart.show_runs(
        [
            OverlayRun(Overview.of(times, values), 0.0, "a", 0),
            OverlayRun(Overview.of(times, values + 0.05), 0.0, "b", 3),
        ],
        "Start",
    )
    chart.show()
    image = chart.grab().toImage()
    seen = {image.pixelColor(x, y).name() for x in range(image.width()) for y in range(image.height())}
    assert {LIGHT_RUNS[0], LIGHT_RUNS[3]} <= seen
    assert LIGHT_RUNS[1] not in seen
    QTest.keyClick(chart, Qt.Key.Key_Plus)
    assert chart.view.stretch != chart.view.whole
    QTest.keyClick(chart, Qt.Key.Key_Home)
    assert chart.view.stretch == chart.view.whole


def luminance(colour: str) -> float:
    """WCAG 2.2, relative luminance."""

    def linear(c: float) -> float:
        return c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4

    made = QColor(colour)
    return 0.2126 * linear(made.redF()) + 0.7152 * linear(made.greenF()) + 0.0722 * linear(made.blueF())


@pytest.mark.parametrize(("runs", "colours"), [(LIGHT_RUNS, LIGHT), (DARK_RUNS, DARK)])
def test_every_run_colour_carries_text_and_its_number(runs: tuple[str, ...], colours: object) -> None:
    """WCAG 2.2, 1.4.3: the number is written in the colour of the paper on a disc of the run's colour."""
    paper = luminance(colours.paper)  # type: ignore[attr-defined]
    for colour in runs:
        low, high = sorted((luminance(colour), paper))
        assert (high + 0.05) / (low + 0.05) >= 4.5, colour
    assert len(set(runs)) == 8


def test_the_numbers_of_curves_that_end_alike_stay_beside_the_plot() -> None:
    """Eight runs that end at the same voltage, low down: no disc under the axis, none over another."""
    wanted = [(290.0 + i, 100.0, i) for i in range(8)]
    found = _moved_apart(wanted, 300.0)
    assert max(found) <= 300.0
    assert all(after - before >= PITCH for before, after in pairwise(found))
    assert _moved_apart([(10.0, 100.0, 0), (200.0, 100.0, 1)], 300.0) == [10.0, 200.0]
    assert _moved_apart([(10.0, 100.0, 0), (10.0, 300.0, 1)], 300.0) == [10.0, 10.0], "ends far apart"


def test_a_small_curve_keeps_its_extremes_in_fewer_columns() -> None:
    values = np.arange(640.0)
    values[[100, 101]] = np.nan, -5.0
    low, high = _at_most(80, values, np.fmin), _at_most(80, values, np.fmax)
    assert low.size == high.size == 80
    assert np.nanmin(low) == -5.0
    assert np.nanmax(high) == 639.0
    assert _at_most(1000, values, np.fmin) is values


def test_names_have_a_line_of_their_own_where_the_table_is_narrow(theme: Theme, qtbot: QtBot) -> None:
    name = "Bench 2 of the second class, with salt, dipped too little"
    cells = ComparedRow("with salt", "2.250 ± 0.016 V", "2.004 ± 0.014 V", "248 ± 4 mV", "")
    table = ComparisonTable(theme, [(name, "a.h5", cells)] * 2, "Saved at equal current")
    qtbot.addWidget(table)
    table.show()
    for width, is_narrow in ((850, False), (520, True), (850, False)):
        table.resize(width, 300)
        QApplication.processEvents()
        line = table._lines[1]
        assert (line.name.y() < line.values[0].y()) is is_narrow
        assert line.name.fitting_text() == name
        assert line.values[-1].geometry().right() <= width


def test_a_path_in_a_note_leaves_the_values_of_a_table_in_sight(theme: Theme, qtbot: QtBot) -> None:
    """Of a run that was copied the table says whose readings it has; it was as wide as that path."""
    note = f"left out: its readings are those of D:\\{'Unterricht_10b' * 9}\\a.h5 one by one"
    cells = ComparedRow("with salt", "2.250 ± 0.016 V", "2.004 ± 0.014 V", "248 ± 4 mV", note)
    table = ComparisonTable(theme, [("A run", "a.h5", cells)] * 2, "Saved at equal current")
    qtbot.addWidget(table)
    assert table.minimumSizeHint().width() < 520
