"""What was typed on the bench is there again at the next start, and invented values are not."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from gui.bench.kept_bench import PATH, TEXT, KeptBench
from gui.demo import demo_bench
from gui.pages.bench_page import BenchPage
from gui.session import Session
from gui.theme import Theme
from logger.bench import Bench, read_bench
from logger.bench_form import BenchForm
from logger.source_form import SourceForm
from tests.gui.fakes import running_session
from tests.gui.page_host import FakeHost

EXAMPLE = Path(__file__).resolve().parents[2] / "recordings" / "example-bench.toml"
BOARD = "text:/dev/ttyACM1?column=2,3&role=stack_voltage,temperature"
RESISTOR, STACK, TITLE = ("supply", "resistor_ohm"), ("supply", "stack_voltage_V"), ("", "title")


class Starts:
    """Starts of the program one after the other, with the same settings file."""

    def __init__(self, theme: Theme, file: Path) -> None:
        self._theme, self._file = theme, file
        theme.choose("light")

    @contextmanager
    def one(self, session: object = None) -> Iterator[tuple[BenchPage, FakeHost]]:
        host = FakeHost(self._theme, QSettings(str(self._file), QSettings.Format.IniFormat))
        host.session = session  # type: ignore[assignment]
        page = BenchPage(host)
        host.hold(page)
        host.until_idle()
        yield page, host
        host.close()
        host.settings.sync()
        host.until_idle()


@pytest.fixture
def starts(theme: Theme, tmp_path: Path, qtbot: QtBot) -> Starts:
    return Starts(theme, tmp_path / "settings.ini")


@contextmanager
def recording(folder: Path, bench: Bench) -> Iterator[Session]:
    """A run in progress with this bench, ended and stopped afterwards."""
    session, run = running_session(folder / "a.h5", bench=bench)
    try:
        yield session
    finally:
        run.has_ended = True
        session.stop()


def press_the_way_out(host: FakeHost, key: str) -> None:
    """Press the one button of a bar."""
    ((_words, act),) = host.told[key][2]
    act()


def type_over(page: BenchPage, key: tuple[str, str], text: str) -> None:
    edit = page.fields[key].edit
    edit.setFocus()
    edit.selectAll()
    QTest.keyClick(edit, Qt.Key.Key_Delete)
    QTest.keyClicks(edit, text)


def test_a_bench_and_its_sources_are_there_again(starts: Starts) -> None:
    with starts.one() as (page, _host):
        page.open_bench(EXAMPLE)
        type_over(page, TITLE, "Strip 4, 100 %")
        type_over(page, RESISTOR, "4,7k")
        page.sources.clear()
        page.sources.add_source(SourceForm("text", "/dev/ttyACM0", {"column": "b, 2"}))
        page.sources.add_source(SourceForm("cell", "demo", {"role": "shunt_voltage"}))
        page.sources.add_source(SourceForm.of(BOARD))
        text = page.form.text
    with starts.one() as (page, host):
        assert page.form.text == text
        assert page.fields[RESISTOR].edit.text() == "4700"
        assert page.form.bench().steps == read_bench(EXAMPLE).steps
        assert [card.form.address for card in page.sources.cards] == [
            "text:/dev/ttyACM0?column=b, 2",
            "cell:demo?role=shunt_voltage",
            BOARD,
        ]
        assert "last time" in host.told["last time"][1]
        assert page._file.text() == f"{EXAMPLE}, changed"


def test_the_bench_of_the_simulated_cell_can_be_had_instead(starts: Starts) -> None:
    with starts.one() as (page, _host):
        page.open_bench(EXAMPLE)
    with starts.one() as (page, host):
        press_the_way_out(host, "last time")
        assert page.form.text == demo_bench().source_text
        assert [card.form.address for card in page.sources.cards] == ["cell:demo"]
        assert "last time" not in host.told
        page.sources.cards[0].remove.click()
        page.sources.add_source(SourceForm("text", "/dev/ttyACM0"))
        assert page.form.value(RESISTOR) is None  # invented: not for a real meter


def test_invented_values_are_not_kept_but_what_was_typed_over_them_is(starts: Starts, tmp_path: Path) -> None:
    with recording(tmp_path, demo_bench()) as session:
        with starts.one(session) as (page, _host):
            assert page.form.value(RESISTOR) == 12000.0
        with starts.one(session) as (page, host):
            assert "last time" not in host.told
            assert page.form.value(RESISTOR) == 12000.0
            type_over(page, RESISTOR, "10k")
        with starts.one(session) as (page, host):
            assert "last time" in host.told
            assert page.form.value(RESISTOR) == 10000.0
            assert page.form.value(STACK) is None


def test_a_bench_that_was_asked_for_stands_before_that_of_last_time(starts: Starts, tmp_path: Path) -> None:
    with starts.one() as (page, _host):
        type_over(page, RESISTOR, "10k")
    with recording(tmp_path, read_bench(EXAMPLE)) as session, starts.one(session) as (page, host):
        assert "last time" not in host.told
        assert page.form.path == EXAMPLE


def test_changes_that_another_bench_replaces_can_be_brought_back(starts: Starts) -> None:
    with starts.one() as (page, host):
        type_over(page, RESISTOR, "10k")
        page.open_bench(EXAMPLE)
        assert page.form.path == EXAMPLE
        press_the_way_out(host, "bench")
        assert (page.form.path, page.form.value(RESISTOR)) == (None, 10000.0)
        assert page.fields[RESISTOR].edit.text() == "10000"
        assert "bench" not in host.told
        page.show_bench(read_bench(EXAMPLE))
        page.open_bench(EXAMPLE)
        assert "bench" not in host.told  # nothing was changed, nothing is lost


def test_invented_values_that_come_back_still_are_for_no_real_meter(starts: Starts, tmp_path: Path) -> None:
    with recording(tmp_path, demo_bench()) as session, starts.one(session) as (page, host):
        type_over(page, RESISTOR, "10k")
        page.open_bench(EXAMPLE)
        press_the_way_out(host, "bench")
        assert page.form.value(STACK) == 27.0
        page.sources.cards[0].remove.click()
        page.sources.add_source(SourceForm("text", "/dev/ttyACM0"))
        assert page.form.value(STACK) is None
        assert page.form.value(RESISTOR) == 10000.0


def test_invented_values_do_not_come_back_to_a_real_meter(starts: Starts, tmp_path: Path) -> None:
    with recording(tmp_path, demo_bench()) as session:
        with starts.one(session) as (page, host):
            type_over(page, RESISTOR, "10k")
            page.open_bench(EXAMPLE)
            page.sources.clear()
            page.sources.add_source(SourceForm("text", "/dev/ttyACM0"))
            press_the_way_out(host, "bench")
            assert (page.form.value(STACK), page.form.value(RESISTOR)) == (None, 10000.0)
        with starts.one(session) as (page, host):
            assert (page.form.value(STACK), page.form.value(RESISTOR)) == (None, 10000.0)


def test_changes_made_before_a_bench_is_brought_back_can_be_had_again(starts: Starts) -> None:
    with starts.one() as (page, host):
        type_over(page, RESISTOR, "10k")
        page.open_bench(EXAMPLE)
        type_over(page, RESISTOR, "8k")
        press_the_way_out(host, "bench")
        assert page.form.value(RESISTOR) == 10000.0
        assert "of before" in host.told["bench"][1]
        press_the_way_out(host, "bench")
        assert (page.form.path, page.form.value(RESISTOR)) == (EXAMPLE, 8000.0)


def test_the_bench_of_last_time_outlasts_a_look_at_that_of_the_simulated_cell(starts: Starts) -> None:
    with starts.one() as (page, _host):
        type_over(page, RESISTOR, "10k")
    with starts.one() as (page, host):
        type_over(page, TITLE, "Strip 5")
        press_the_way_out(host, "last time")
    with starts.one() as (page, host):
        assert (page.form.value(TITLE), page.form.value(RESISTOR)) == ("Strip 5", 10000.0)


def test_what_was_typed_and_saved_over_invented_values_outlasts_them(starts: Starts, tmp_path: Path) -> None:
    """Once saved it counted as the file's, and went with the invented values when the meter was real."""
    with recording(tmp_path, demo_bench()) as session:
        with starts.one(session) as (page, _host):
            type_over(page, RESISTOR, "10k")
            page._save(tmp_path / "mine.toml")
            page.sources.cards[0].remove.click()
            page.sources.add_source(SourceForm("text", "/dev/ttyACM0"))
            assert (page.form.value(STACK), page.form.value(RESISTOR)) == (None, 10000.0)
            assert page.form.path is None, "the file holds invented values, and this bench none"
        with starts.one(session) as (page, host):
            assert "last time" in host.told
            assert (page.form.value(STACK), page.form.value(RESISTOR)) == (None, 10000.0)


def test_invented_values_that_were_saved_reach_no_real_meter_when_their_file_is_opened(
    starts: Starts, tmp_path: Path
) -> None:
    with recording(tmp_path, demo_bench()) as session, starts.one(session) as (page, _host):
        type_over(page, RESISTOR, "10k")
        page._save(tmp_path / "mine.toml")
    with starts.one() as (page, host):
        page.sources.clear()
        page.sources.add_source(SourceForm("text", "/dev/ttyACM0"))
        page.open_bench(tmp_path / "mine.toml")
        assert (page.form.value(STACK), page.form.value(RESISTOR)) == (None, 10000.0)
        assert "off the bench" in host.told["invented"][1]


def test_a_simulated_source_beside_a_real_meter_keeps_no_invented_values(
    starts: Starts, tmp_path: Path
) -> None:
    """The simulated cell was told to stand for something else, and the real meter for the cell voltage."""
    with recording(tmp_path, demo_bench()) as session, starts.one(session) as (page, host):
        page.sources.add_source(SourceForm("text", "/dev/ttyACM0"))
        assert page.form.value(STACK) == 27.0
        role = page.sources.cards[0].role
        role.setFocus()
        while role.currentData() != "shunt_voltage":
            QTest.keyClick(role, Qt.Key.Key_Down)
        assert page.form.value(STACK) is None
        assert "off the bench" in host.told["invented"][1]


def test_the_bench_of_last_time_comes_back_with_its_sources_after_a_look_at_the_simulated_one(
    starts: Starts,
) -> None:
    """Nothing led back to it before the next start of the program."""
    with starts.one() as (page, _host):
        page.open_bench(EXAMPLE)
        page.sources.clear()
        page.sources.add_source(SourceForm("text", "/dev/ttyACM0"))
    with starts.one() as (page, host):
        press_the_way_out(host, "last time")
        assert page.form.text == demo_bench().source_text
        press_the_way_out(host, "bench")
        assert page.form.path == EXAMPLE
        assert [card.form.address for card in page.sources.cards] == ["text:/dev/ttyACM0"]
        assert page.form.value(RESISTOR) == read_bench(EXAMPLE).supply.resistor_ohm
        assert "bench" not in host.told, "the other one can be had again"


def test_contradictions_do_not_push_out_what_was_kept(settings: QSettings) -> None:
    kept = KeptBench(settings)
    good = BenchForm(read_bench(EXAMPLE))
    kept.keep(good, ["cell:demo"])
    bad = BenchForm(read_bench(EXAMPLE))
    bad._base = bad._base + "\nnonsense = 3\n"
    kept.keep(bad, [])
    assert kept.addresses == ("cell:demo",)
    assert kept.form is not None
    assert kept.form.text == good.text


@pytest.mark.parametrize("text", ["nonsense = 3", "[", "\x00"])
def test_settings_that_somebody_spoilt_bring_no_bench_back(settings: QSettings, text: str) -> None:
    settings.setValue(TEXT, text)
    settings.setValue(PATH, "/nowhere/bench.toml")
    assert KeptBench(settings).form is None


def test_nothing_was_kept_at_the_first_start(settings: QSettings) -> None:
    kept = KeptBench(settings)
    assert (kept.form, kept.addresses) == (None, ())
