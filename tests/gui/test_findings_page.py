"""A person at the findings: looks behind the figure, drags a stretch, copies the picture, exports."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QPointF, QSettings, QSize, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel, QPushButton
from pytestqt.qtbot import QtBot

from gui.demo import demo_bench
from gui.findings.export_menu import ExportMenu
from gui.findings.plot_data import linear_axis, log_axis
from gui.findings.replace_question import ReplaceQuestion
from gui.findings.window_choice import WindowChoice, WindowTextError
from gui.findings_texts import tafel_rows, warning_texts
from gui.pages.findings_page import FindingsPage
from gui.session import Finished, load_finished
from gui.theme import Theme
from logger.export.formats import FORMATS
from logger.moment_edits import add
from logger.reader import read_recording
from tests.gui.controls import assert_nothing_clips, assert_reachable_and_named
from tests.gui.page_host import FakeHost
from tests.logger.shelf_files import write_recording


def steps() -> tuple[np.ndarray, np.ndarray, list[tuple[float, str, str]]]:
    """Invented readings: before, growth by an exponential, after, then three other resistors."""
    times = np.arange(0.0, 3000.0, 1.0)
    values = np.full(times.size, 26.97)
    values[times >= 40] = 2.25
    grown = times >= 300
    values[grown] = 2.0 + 0.25 * np.exp(-(times[grown] - 300) / 200)
    values[(times >= 1300) & (times < 1330)] = 26.97
    values[times >= 1330] = 2.0
    moments = [(40.0, "buffer_in", ""), (300.0, "salt_added", "2 drops"), (1300.0, "electrodes_out", "")]
    moments += [(1330.0, "solution_swapped", ""), (1331.0, "electrodes_in", "")]
    for number, ohm in enumerate((39000, 120000, 390000)):
        at_s = 2000.0 + 300 * number
        moments.append((at_s, "resistor_changed", str(ohm)))
        values[times >= at_s] = 2.0 + 0.18 * np.log10(12000 / ohm)
    noise = np.random.default_rng(1).standard_normal(times.size)
    return times, values + 0.0008 * noise, moments


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    times, values, moments = steps()
    path = tmp_path_factory.mktemp("findings") / "steps.h5"
    return write_recording(path, times, values, moments, title="Steps", bench_toml=demo_bench().source_text)


@pytest.fixture
def show(
    qtbot: QtBot, theme: Theme, settings: QSettings, whole: Path, tmp_path: Path
) -> Iterator[Callable[[], tuple[FakeHost, FindingsPage]]]:
    """Shows a copy of the recording; at the end waits for what still runs."""
    made: list[FakeHost] = []

    def show_it() -> tuple[FakeHost, FindingsPage]:
        theme.choose("light")
        path = tmp_path / "a run.h5"
        path.write_bytes(whole.read_bytes())
        host = FakeHost(theme, settings)
        qtbot.addWidget(host)
        page = FindingsPage(host, load_finished(path))
        host.hold(page)
        host.until_idle()
        made.append(host)
        return host, page

    yield show_it
    for host in made:
        host.until_idle()


def texts(page: FindingsPage) -> str:
    labels = (one.text() for one in page.findChildren(QLabel) if one.isVisible())
    return "\n".join(labels).replace("\u00a0", " ")


def test_everything_behind_the_figure_can_be_looked_at(
    show: Callable[[], tuple[FakeHost, FindingsPage]],
) -> None:
    host, page = show()
    assert "250" in texts(page)
    page.views.tabs["budget"].click()
    assert "Scatter" in texts(page)
    assert "type A" in texts(page)
    page.views.tabs["growth"].click()
    assert "exponential" in texts(page)
    assert page.growth.residuals.isVisible()
    assert "Time constant" in texts(page)
    page.views.tabs["tafel"].click()
    assert "Slope 18" in texts(page)  # 180 mV by the making of the readings
    assert "of the readings alone" in texts(page), "0.6 mV stood there of a meter sure to 15 mV"
    (resistance,) = [row for row in tafel_rows(page.finished.findings) if row.name == "Ohmic resistance"]
    assert "±" in resistance.value, "0.0270 Ω was shown, as sure as that"
    assert page.tafel.plot.data is not None
    assert page.tafel.plot.data.x.size == 4
    for name, tab in page.views.tabs.items():
        tab.click()
        host.frame()
        assert_reachable_and_named(page)
        if name != "moments":
            assert_nothing_clips(page)
    host.resize(1280, 600)
    host.frame()
    assert_nothing_clips(page)


def drag(page: FindingsPage, from_s: float, to_s: float, voltage_V: float) -> None:
    """Take hold of the curve's view at one time and voltage and let go at another time."""
    frame = page.chart.frame
    assert frame is not None

    def place(time_s: float) -> QPoint:
        inside = QPointF(frame.x(time_s), frame.y(voltage_V))
        return page.chart.places.view.topLeft() + inside.toPoint()

    viewport = page.chart
    QTest.mousePress(viewport, Qt.MouseButton.LeftButton, pos=place(from_s))
    for share in (0.3, 0.6, 1.0):
        QTest.mouseMove(viewport, place(from_s + share * (to_s - from_s)))
        QApplication.processEvents()
    QTest.mouseRelease(viewport, Qt.MouseButton.LeftButton, pos=place(to_s))
    QApplication.processEvents()


def test_a_dragged_stretch_is_marked_as_chosen_by_hand_and_kept(
    show: Callable[[], tuple[FakeHost, FindingsPage]],
) -> None:
    host, page = show()
    before = dict(page.finished.findings["settled"]["before"])
    page.views.tabs["windows"].click()
    host.frame()
    drag(page, before["window_begin_s"], 150.0, before["voltage_V"])
    assert page.headline._value.property("look") == "quiet", "the figure is still that of the former stretch"
    host.until(lambda: page.finished.findings["settled"]["before"] != before, "the new findings")
    host.until_idle()
    assert page.headline._value.property("look") == "settled"
    found = page.finished.findings["settled"]["before"]
    assert found["chosen_by_hand"] is True
    assert found["window_begin_s"] == pytest.approx(150.0, abs=6.0)  # a pixel is some 3 s
    assert found["window_end_s"] == before["window_end_s"]
    assert "Chosen by hand: Before." in texts(page)
    page.views.tabs["result"].click()
    assert "chosen by hand" in texts(page)
    (level, _after) = page.chart._notes.levels
    assert level.text.endswith("before, chosen by hand")
    again = load_finished(page.finished.recording.path)
    assert again.findings["settled"]["before"] == found
    page.views.tabs["windows"].click()
    page.windows.back.click()
    host.until(lambda: page.finished.findings["settled"]["before"] == before, "the program's stretch")
    host.until_idle()
    assert "chosen by hand" not in texts(page)


def test_a_stretch_is_typed_with_the_keyboard(show: Callable[[], tuple[FakeHost, FindingsPage]]) -> None:
    host, page = show()
    page.views.tabs["windows"].click()
    begin = page.windows.fields["after", "begin"]
    begin.setText("9:99:99")
    QTest.keyClick(begin, Qt.Key.Key_Return)
    assert page.windows._problem.isVisible()
    begin.setText("25:00")
    QTest.keyClick(begin, Qt.Key.Key_Return)
    host.until(lambda: "chosen_by_hand" in page.finished.findings["settled"]["after"], "the new findings")
    host.until_idle()
    assert page.finished.findings["settled"]["after"]["window_begin_s"] == pytest.approx(1500.0, abs=1.0)


def test_a_stretch_dragged_to_nothing_can_be_dragged_back_and_taken_back(
    show: Callable[[], tuple[FakeHost, FindingsPage]],
) -> None:
    """It holds too few readings to say anything; its row, its grips and the way back vanished with it."""
    host, page = show()
    before = dict(page.finished.findings["settled"]["before"])
    page.views.tabs["windows"].click()
    host.frame()
    drag(page, before["window_end_s"], before["window_begin_s"] - 100.0, before["voltage_V"])
    host.until(lambda: page.finished.findings["settled"]["before"] is None, "findings of so short a stretch")
    host.until_idle()
    assert page.windows.fields["before", "end"].isVisible()
    assert "Chosen by hand: Before." in texts(page)
    drag(page, before["window_begin_s"] + 5.0, 250.0, before["voltage_V"])
    host.until(lambda: page.finished.findings["settled"]["before"] is not None, "findings of a longer one")
    host.until_idle()
    assert page.finished.findings["settled"]["before"]["window_end_s"] == pytest.approx(250.0, abs=6.0)
    page.windows.fields["before", "begin"].setText("4:00")
    page.windows.fields["before", "end"].setText("4:05")
    QTest.keyClick(page.windows.fields["before", "end"], Qt.Key.Key_Return)
    host.until(lambda: page.finished.findings["settled"]["before"] is None, "findings of a short one again")
    host.until_idle()
    page.windows.back.click()
    host.until(lambda: page.finished.findings["settled"]["before"] == before, "the program's stretch")
    host.until_idle()
    assert "Chosen by hand" not in texts(page)


def test_dragging_the_curve_beside_the_grips_only_moves_the_view(
    show: Callable[[], tuple[FakeHost, FindingsPage]],
) -> None:
    host, page = show()
    page.views.tabs["windows"].click()
    host.frame()
    found = page.finished.findings
    drag(page, 700.0, 400.0, 2.2)
    host.until_idle()
    assert page.finished.findings is found


def test_the_picture_goes_to_the_clipboard(show: Callable[[], tuple[FakeHost, FindingsPage]]) -> None:
    host, page = show()
    QApplication.clipboard().clear()
    page.chart.setFocus()
    page.copy_picture()
    host.until_idle()
    image = QApplication.clipboard().image()
    assert image.width() > 1000
    assert host.told["picture"][0] == "info"


def test_the_export_menu_lists_what_the_logger_can_write(
    show: Callable[[], tuple[FakeHost, FindingsPage]], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    host, page = show()
    menu = page.result.export.menu()
    assert isinstance(menu, ExportMenu)
    assert list(dict.fromkeys(action.data() for action in menu.actions() if action.data())) == list(FORMATS)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "out"), ""))
    next(action for action in menu.actions() if action.data() == ".csv").trigger()
    host.until_idle()
    assert (tmp_path / "out.csv").is_file()
    assert "out.csv" in host.told["export"][1]
    before = (tmp_path / "out.csv").read_bytes()
    next(action for action in menu.actions() if "decimal comma" in action.text()).trigger()
    assert menu.question is not None
    menu.question.keep.click()
    host.until_idle()
    assert (tmp_path / "out.csv").read_bytes() == before
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "comma.csv"), ""))
    next(action for action in menu.actions() if "decimal comma" in action.text()).trigger()
    host.until_idle()
    assert (tmp_path / "comma.csv").read_text("utf-8").startswith("\ufefftime_s;")
    page.export_to(tmp_path / "nowhere" / "x.csv")
    host.until_idle()
    assert host.told["export"][0] == "warning"


@pytest.mark.parametrize(
    ("words", "name", "width_mm"), [("Slide", "slide.png", None), ("journal", "column.pdf", 85.0)]
)
def test_the_picture_is_offered_for_other_places_than_the_screen(
    show: Callable[[], tuple[FakeHost, FindingsPage]], tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    words: str, name: str, width_mm: float | None,
) -> None:  # fmt: skip
    host, page = show()
    menu = page.result.export.menu()
    assert isinstance(menu, ExportMenu)
    asked: list[str] = []

    def ask(_parent: object, _title: str, start: str, *_rest: object) -> tuple[str, str]:
        asked.append(Path(start).name)
        return str(tmp_path / name), ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", ask)
    next(action for action in menu.sizes.actions() if words in action.text()).trigger()
    host.until_idle()
    assert asked[0].endswith(f" {name}")
    if width_mm is None:
        assert QImage(str(tmp_path / name)).size() == QSize(1920, 1080)
    else:
        box = re.search(rb"/MediaBox \[[^\]]*?([\d.]+) [\d.]+\]", (tmp_path / name).read_bytes())
        assert box is not None
        assert float(box[1]) == pytest.approx(width_mm / 25.4 * 72, abs=1.0)


def test_a_large_screen_gives_the_column_of_figures_its_share(
    show: Callable[[], tuple[FakeHost, FindingsPage]],
) -> None:
    """Lines of its texts stay shorter than 75 letters or so: it does not grow further."""
    host, page = show()
    widths = []
    for width, height in ((1366, 712), (1920, 1024), (3840, 2100)):
        host.resize(width, height)
        page.resize(width, height)
        host.frame()
        widths.append(page._side.width())
        assert_nothing_clips(page)
    assert widths[1] > 1.2 * widths[0]
    assert widths[2] == widths[1]


@pytest.fixture
def menu(
    show: Callable[[], tuple[FakeHost, FindingsPage]], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> tuple[FakeHost, ExportMenu]:
    """The menu of a page whose dialog of names gives ``z.csv``."""
    host, page = show()
    found = page.result.export.menu()
    assert isinstance(found, ExportMenu)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "z.csv"), ""))
    return host, found


def trigger_csv(menu: ExportMenu) -> None:
    next(action for action in menu.actions() if action.data() == ".csv").trigger()


def labels_of(question: ReplaceQuestion) -> str:
    return "\n".join(label.text() for label in question.findChildren(QLabel))


def test_words_without_a_place_to_break_leave_the_figures_in_sight(
    theme: Theme, settings: QSettings, qtbot: QtBot, whole: Path, tmp_path: Path
) -> None:
    """A path as on a Windows disk: all were as far to the right as it was long, beyond the edge."""
    path = tmp_path / f"{'Unterricht_10b' * 12}.h5"
    path.write_bytes(whole.read_bytes())
    add(path, 500.0, "note", f"hydrogen {'ungefaehr_' * 12} 4 mL")  # a warning tells of it
    host = FakeHost(theme, settings)
    qtbot.addWidget(host)
    page = FindingsPage(host, load_finished(path))
    host.hold(page)
    host.until_idle()
    assert any("ungefaehr_" in label.text() for label in page.result.warning_list.findChildren(QLabel))
    assert page.result.width() <= page._side.width()
    assert page.result._file.toolTip() == str(path)


def test_the_question_names_every_file_that_would_be_replaced(
    menu: tuple[FakeHost, ExportMenu], tmp_path: Path
) -> None:
    host, entries = menu
    trigger_csv(entries)
    assert entries.question is None, "asked though nothing was there"
    host.until_idle()
    made = sorted(path.name for path in tmp_path.iterdir() if path.name.startswith("z."))
    assert {"z.csv", "z.moments.csv", "z.gaps.csv", "z.findings.csv", "z.datapackage.json"} <= set(made)
    for name in made:
        (tmp_path / name).write_text("mine")
    trigger_csv(entries)
    question = entries.question
    assert question is not None
    assert set(made) <= set(labels_of(question).splitlines())
    assert_nothing_clips(question)
    QTest.keyClick(question, Qt.Key.Key_Return)
    host.until_idle()
    assert {(tmp_path / name).read_text() for name in made} == {"mine"}, "Enter replaced them"
    trigger_csv(entries)
    assert entries.question is not None
    entries.question.act.click()
    host.until_idle()
    assert "mine" not in {(tmp_path / name).read_text() for name in made}


def test_one_table_beside_a_new_name_is_asked_about_too(
    menu: tuple[FakeHost, ExportMenu], tmp_path: Path
) -> None:
    host, entries = menu
    (tmp_path / "z.moments.csv").write_text("mine")
    trigger_csv(entries)
    assert entries.question is not None
    assert "z.moments.csv" in labels_of(entries.question).splitlines()
    QTest.keyClick(entries.question, Qt.Key.Key_Escape)
    host.until_idle()
    assert (tmp_path / "z.moments.csv").read_text() == "mine"
    assert not (tmp_path / "z.csv").exists()


def test_what_would_be_removed_is_said_too(menu: tuple[FakeHost, ExportMenu], tmp_path: Path) -> None:
    host, entries = menu
    trigger_csv(entries)
    host.until_idle()
    package = json.loads((tmp_path / "z.datapackage.json").read_text("utf-8"))
    old = b"time_s,temperature_degC,quality\r\n"
    (tmp_path / "z.temperature.csv").write_bytes(old)
    digest = f"sha256:{hashlib.sha256(old).hexdigest()}"
    package["resources"].append({"path": "z.temperature.csv", "bytes": len(old), "hash": digest})
    (tmp_path / "z.datapackage.json").write_text(json.dumps(package), "utf-8")
    trigger_csv(entries)
    assert entries.question is not None
    said = labels_of(entries.question)
    assert said.index("Removed") < said.index("z.temperature.csv")
    entries.question.act.click()
    host.until_idle()
    assert not (tmp_path / "z.temperature.csv").exists()


def test_a_folder_in_the_way_is_told_and_not_asked_about(
    menu: tuple[FakeHost, ExportMenu], tmp_path: Path
) -> None:
    host, entries = menu
    (tmp_path / "z.moments.csv").mkdir()
    trigger_csv(entries)
    assert entries.question is None
    host.until_idle()
    assert host.told["export"][1] == "z.moments.csv is there already; choose another name."


def test_a_warning_says_what_to_do_and_leads_to_the_bench(
    qtbot: QtBot, theme: Theme, settings: QSettings, tmp_path: Path
) -> None:
    times, values, moments = steps()
    host = FakeHost(theme, settings)
    qtbot.addWidget(host)
    recording = read_recording(write_recording(tmp_path / "no bench.h5", times, values, moments))
    page = FindingsPage(host, Finished(recording, load_finished(recording.path).findings))
    host.hold(page)
    host.until_idle()
    assert "Fill in the bench" in texts(page)
    next(
        b for b in page.result.warning_list.findChildren(QPushButton) if b.text() == "Go to the bench"
    ).click()
    assert host.shown == ["bench"]


def test_readings_that_cannot_be_judged_are_told(
    qtbot: QtBot, theme: Theme, settings: QSettings, whole: Path
) -> None:
    host = FakeHost(theme, settings)
    qtbot.addWidget(host)
    page = FindingsPage(host, Finished(read_recording(whole), {}, "the moon is full"))
    host.hold(page)
    host.until_idle()
    assert "the moon is full" in texts(page)
    assert "not determined" in texts(page)
    assert not page.views.tabs["windows"].isVisible()


def test_a_stretch_stays_within_its_bounds() -> None:
    choice = WindowChoice(100.0, 200.0, 50.0, 300.0, 2.0)
    assert (choice.moved("both", -80.0).begin_s, choice.moved("both", -80.0).end_s) == (50.0, 150.0)
    assert choice.moved("begin", 500.0).begin_s == 195.0
    assert choice.moved("end", 500.0).end_s == 300.0
    assert choice.moved("end", -500.0).end_s == 105.0
    assert choice.moved("end", 1.0).by_hand
    assert choice.typed("1:20", "2:00").texts == ("1:20", "2:00")
    for begin, end in (("0:10", "2:00"), ("1:00", "9:00"), ("2:00", "2:01"), ("x", "2:00")):
        with pytest.raises(WindowTextError):
            choice.typed(begin, end)


def test_axes_hold_their_values_and_have_marks() -> None:
    axis = linear_axis(np.array([2.0, 2.25, np.nan]), "V", 5)
    assert axis.low < 2.0 < 2.25 < axis.high
    assert 3 <= len(axis.marks) <= 6
    assert linear_axis(np.array([1.0, 1.0]), "V", 5).low < 1.0
    logs = log_axis(np.log10([0.06, 2.0]), "mA")
    assert [text for _, text in logs.marks] == ["0.05", "0.1", "0.2", "0.5", "1", "2"] or logs.marks[0][
        1
    ] == "0.1"


def test_every_advice_belongs_to_a_warning_that_there_is() -> None:
    """Codes are collected from the analysis' own source, so that a renamed code is noticed."""
    from gui.findings.advice import _BENCH, advice

    source = "\n".join(
        path.read_text(encoding="utf-8")
        for path in (Path(__file__).parents[2] / "logger" / "analysis").glob("*.py")
    )
    known = {"not_settled_before", "not_settled_after", "no_settled_before", "no_settled_after"}
    assert "not_settled_{name}" in source
    for code in (
        *_BENCH,
        "growth_poor_fit",
        "no_saving",
        "salt_too_early",
        "salt_recognised",
        "leads_reversed",
    ):
        assert code in known or f'"{code}"' in source, code
        assert code in _BENCH or advice(code)
    assert warning_texts({"warnings": [{"code": "new", "message": "m", "at_s": None}]})[0].advice == ""
