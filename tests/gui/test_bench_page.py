"""A person at the bench: types what stands on the table, tries a meter out, saves, records."""

from __future__ import annotations

import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QLocale, QPoint, QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel, QLineEdit, QScrollArea, QWidget
from pytestqt.qtbot import QtBot

from drivers.link import OpenPort
from drivers.listening import Heard
from drivers.port_list import PortInfo
from drivers.recognition import Candidate
from drivers.registry import KINDS
from drivers.samples import ROLES
from drivers.simulated.lesson import LESSONS
from gui.bench.field_texts import field_texts
from gui.bench.quantity_field import QuantityField
from gui.bench.source_card import OPTION_COLUMNS, SourceCard
from gui.bench.source_texts import kind_texts, lesson_texts, option_texts, role_texts
from gui.demo import demo_bench
from gui.pages.bench_page import BenchPage
from gui.pages.page import HeaderWords
from gui.recordings_folder import choose_recordings_folder, recordings_folder
from gui.theme import Theme
from logger.bench import read_bench
from logger.bench_form import FIELDS
from logger.bench_toml import Key
from logger.calibration import CalibrationError
from logger.calibration_store import CalibrationStore
from logger.source_form import SourceForm
from tests.drivers.emulation import EmulatorProcess
from tests.gui.controls import assert_nothing_clips, assert_reachable_and_named
from tests.gui.fakes import running_session
from tests.gui.languages import speaking
from tests.gui.page_host import FakeHost


@pytest.fixture
def host(qtbot: QtBot, theme: Theme, settings: QSettings) -> Iterator[FakeHost]:
    theme.choose("light")
    made = FakeHost(theme, settings)
    qtbot.addWidget(made)
    page = BenchPage(made)
    made.hold(page)
    made.until_idle()
    yield made
    probes = [card.stop_listening() for card in page.sources.cards]
    for probe in probes:
        assert probe is None or probe.join(10.0)
    made.until_idle()


@pytest.fixture
def page(host: FakeHost) -> BenchPage:
    assert isinstance(host.page, BenchPage)
    return host.page


def type_into(field: QuantityField, text: str) -> None:
    field.edit.setFocus()
    field.edit.selectAll()
    QTest.keyClick(field.edit, Qt.Key.Key_Delete)
    QTest.keyClicks(field.edit, text)


def said(page: BenchPage) -> str:
    labels = page.consequences.findChildren(QLabel)
    return "\n".join(one.text() for one in labels if one.isVisible()).replace("\u00a0", " ")


def test_every_key_of_the_bench_file_has_a_field_and_every_kind_a_name() -> None:
    assert field_texts().keys() == {field.path for field in FIELDS}
    assert kind_texts().keys() >= KINDS.keys()
    assert role_texts().keys() == set(ROLES)
    assert lesson_texts().keys() == LESSONS.keys()
    assert option_texts().keys() >= {key for kind in KINDS.values() for key in kind.keys if key != "role"}


def test_consequences_follow_each_key(page: BenchPage) -> None:
    assert "Give the stack" in said(page)
    type_into(page.fields["supply", "cells"], "3")
    type_into(page.fields["supply", "cell_voltage_V"], "9")
    type_into(page.fields["supply", "resistor_ohm"], "12k")
    # (27 - 2.25) / (12000 + 6) by hand
    assert "2.06 mA" in said(page)
    # from 24.75 to 25 V across the resistors: 1.01 % by hand
    assert "rises by 1.0 %" in said(page)
    type_into(page.fields["cell", "anode_area_cm2"], "2,0")
    assert "1.03 mA/cm²" in said(page)
    type_into(page.fields["supply", "resistor_rating_W"], "0,01")
    # touching electrodes: 27^2 / 12006 = 61 mW by hand
    assert "rating" in said(page)
    assert any(
        "too small" in text or "not enough" in text for text in (said(page), *page.consequences.caution_texts)
    )


def test_headspace_and_hydrogen_are_told(page: BenchPage) -> None:
    page.show_bench(demo_bench())
    type_into(page.fields["cell", "headspace_mL"], "50")
    # 4 % of 50 mL is 2.0 mL; at 0.931 mL/h 2.15 h by hand
    assert "0.931 mL" in said(page)
    assert "2.1 h" in said(page)
    assert "leave the vessel open" in said(page)


def test_what_follows_is_shown_without_loading_the_library_for_fits() -> None:
    """On a busy machine the first look at the bench stood still for a second: the window loaded it."""
    program = (
        "import sys\n"
        "from gui.bench.consequence_texts import consequence_rows, current_note\n"
        "from gui.demo import demo_bench\n"
        "from logger.analysis.supply_plan import plan_supply\n"
        "plan = plan_supply(demo_bench())\n"
        "assert '95 %' in current_note(plan).replace('\\u00a0', ' ') and consequence_rows(plan)\n"
        "sys.exit('scipy' in sys.modules)\n"
    )
    assert subprocess.run([sys.executable, "-c", program], check=False, timeout=60).returncode == 0


def test_weak_regulation_is_cautioned(page: BenchPage) -> None:
    page.show_bench(demo_bench())
    type_into(page.fields["supply", "stack_voltage_V"], "6")
    assert any("rise by" in text for text in page.consequences.caution_texts)
    type_into(page.fields["supply", "stack_voltage_V"], "27")
    assert not any("rise by" in text for text in page.consequences.caution_texts)


def test_a_slip_is_marked_with_what_was_meant_and_taken_by_a_button(page: BenchPage) -> None:
    field = page.fields["supply", "resistor_ohm"]
    type_into(field, "12")
    assert "kilo-ohm" in field._problem.text()
    assert field._take.isVisible()
    assert "12000" in field._take.text()
    field._take.click()
    assert field.edit.text() == "12000"
    assert not field._problem.isVisible()
    assert page.form.value(("supply", "resistor_ohm")) == 12000.0


def test_german_numbers_are_shown_with_a_comma_and_both_signs_are_read(page: BenchPage) -> None:
    before = QLocale()
    QLocale.setDefault(QLocale(QLocale.Language.German))
    try:
        page.show_bench(demo_bench())
        assert page.fields["cell", "pressure_kPa"].edit.text() == "101,325"
        type_into(page.fields["cell", "pressure_kPa"], "99.5")
        assert page.form.value(("cell", "pressure_kPa")) == 99.5
        type_into(page.fields["cell", "pressure_kPa"], "99,6")
        assert page.form.value(("cell", "pressure_kPa")) == 99.6
        assert "pressure_kPa = 99.6" in page.form.text
    finally:
        QLocale.setDefault(before)


def test_a_bench_is_saved_and_opened_again(
    page: BenchPage, host: FakeHost, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "my bench"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(out), ""))
    type_into(page.fields["", "title"], "Strip 4")
    type_into(page.fields["supply", "cells"], "three")
    page.save.click()
    assert host.told["bench"][0] == "warning"
    type_into(page.fields["supply", "cells"], "3")
    page.save.click()
    saved = tmp_path / "my bench.toml"
    assert read_bench(saved).supply.cells == 3
    type_into(page.fields["supply", "cells"], "4")
    page.save.click()  # without asking for a name again
    assert read_bench(saved).supply.cells == 4
    assert page.take_files([saved])
    assert page.header_words() == HeaderWords("Strip 4", (str(saved),))
    broken = tmp_path / "broken.toml"
    broken.write_text("[supply]\ncels = 3\n")
    page.open_bench(broken)
    assert "did you mean cells?" in host.told["bench"][1]
    assert page.form.path == saved


def test_a_path_without_a_place_to_break_leaves_the_buttons_in_sight(
    host: FakeHost, page: BenchPage, tmp_path: Path
) -> None:
    """As on a Windows disk: the form was as wide as the path, and its pane does not scroll sideways."""
    path = tmp_path / f"{'Unterricht_10b' * 12}.toml"
    path.write_text(demo_bench().source_text, encoding="utf-8")
    assert page.take_files([path])
    for _ in range(3):  # as far as what follows from the path goes up the page
        host.frame()
    (form,) = [pane for pane in page.findChildren(QScrollArea) if pane.isAncestorOf(page.record)]
    assert form.widget().width() <= form.viewport().width()
    assert page._file.toolTip() == str(path)


def test_a_bench_of_another_file_is_not_replaced_by_a_name_without_its_ending(
    page: BenchPage, host: FakeHost, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The dialog asks about the name as typed: that of the file with the ending was replaced unasked."""
    other = tmp_path / "strips.toml"
    other.write_text('title = "of last year"\n')
    choose_recordings_folder(host.settings, tmp_path)
    asked: list[str] = []
    typed = [str(tmp_path / "strips"), str(other)]

    def ask(_parent: object, _title: str, start: str, _kinds: str) -> tuple[str, str]:
        asked.append(start)
        return typed[len(asked) - 1], ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", ask)
    page.save_as.click()
    assert read_bench(other).title == "of last year"
    assert "strips.toml is there already" in host.told["bench"][1]
    assert page.form.path is None
    page.save_as.click()  # the dialog has asked about this one
    assert read_bench(other).title != "of last year"
    assert asked == [str(tmp_path / "bench.toml")] * 2, "beside the recordings"


def listening(page: BenchPage, emulator: EmulatorProcess, kind: str) -> SourceCard:
    """Let the first card listen to an emulated instrument of that kind."""
    card = page.sources.cards[0]
    card.kind.setCurrentIndex(card.kind.findData(kind))
    card.kind.activated.emit(card.kind.currentIndex())
    card.port.setEditText(SourceForm.of(emulator.address).port)
    card.listen.click()
    return card


def test_listening_shows_readings_and_bytes_and_compares_with_the_display(
    page: BenchPage, host: FakeHost
) -> None:
    emulator = EmulatorProcess("text", "--port", "0")
    emulator.start()
    try:
        card = listening(page, emulator, "text")
        host.until(lambda: card._reading.text() not in ("", "–"), "a reading")
        host.until(lambda: card.raw.toPlainText() != "", "raw bytes")
        assert_reachable_and_named(page)
        assert_nothing_clips(page)
        shown = card.probe.channels()[0].value  # type: ignore[union-attr]
        QTest.keyClicks(card.display, f"{shown:.1f}".replace(".", ","))
        QTest.keyClick(card.display, Qt.Key.Key_Return)
        assert "Agrees" in card._verdict.text()
        card.display.setText("0.5")
        card.compare.click()
        assert "do not record" in card._verdict.text()
        card.known.setText("26,97")
        card.take.click()
        host.until(lambda: "name" in card._calibration.text(), "the advice to name the instrument")
        probe = card.stop_listening()
        assert probe is not None
        assert probe.join(10.0)
    finally:
        emulator.end()


@pytest.fixture
def calibrated(
    page: BenchPage, host: FakeHost, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[SourceCard]:
    """A card that listens to an instrument with a calibration of one point."""
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    for name in ("APPDATA", "HOME"):
        monkeypatch.setenv(name, str(tmp_path))
    emulator = EmulatorProcess("scpi", "--port", "0")
    emulator.start()
    try:
        card = listening(page, emulator, "scpi")
        assert not card.forget.isVisible()

        def takes_point() -> bool:  # once there are readings enough
            card.known.setText("26,97")
            card.take.click()
            host.until_idle()
            return "1 point:" in card._calibration.text()

        host.until(takes_point, "a calibration")
        yield card
        end_listening(card)
    finally:
        emulator.end()


def end_listening(card: SourceCard) -> None:
    probe = card.stop_listening()
    assert probe is None or probe.join(10.0)


def bring_back(host: FakeHost) -> None:
    _level, _text, ((_words, act),) = host.told["forgotten"]
    act()
    host.until_idle()


def test_a_calibration_is_forgotten_in_the_window_and_brought_back(
    calibrated: SourceCard, page: BenchPage, host: FakeHost
) -> None:
    """A point taken against a slip of the pen corrected every run; only the command line knew a way out."""
    assert calibrated.forget.isVisible()
    assert_reachable_and_named(page)
    kept = CalibrationStore().all()
    assert len(kept) == 1
    calibrated.forget.click()
    host.until(lambda: not calibrated.forget.isVisible(), "forgetting")
    assert CalibrationStore().all() == {}
    assert calibrated._calibration.text() == ""
    bring_back(host)
    assert calibrated.forget.isVisible()
    assert CalibrationStore().all() == kept
    assert "forgotten" not in host.told


def test_a_forgotten_calibration_can_be_brought_back_until_another_is_kept(
    calibrated: SourceCard, host: FakeHost, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The way back went with a point that was not taken, and with a file that could not be written."""

    def refuse(*_: object) -> None:
        raise CalibrationError("the disk is full; make room")

    kept = CalibrationStore().all()
    calibrated.forget.click()
    host.until_idle()
    calibrated.known.setText("2,6,9")
    calibrated.take.click()
    host.until_idle()
    with monkeypatch.context() as patch:
        patch.setattr(CalibrationStore, "keep", refuse)
        bring_back(host)
    assert CalibrationStore().all() == {}
    level, text, _actions = host.told["forgotten"]
    assert (level, text) == ("warning", "the disk is full; make room")
    bring_back(host)
    assert CalibrationStore().all() == kept
    calibrated.forget.click()
    host.until_idle()
    calibrated.known.setText("26,96")
    calibrated.take.click()
    host.until_idle()
    assert len(CalibrationStore().all()) == 1
    assert "forgotten" not in host.told, "it would put the new point away"


def test_a_calibration_brought_back_is_shown_with_its_own_instrument_only(
    calibrated: SourceCard, host: FakeHost
) -> None:
    """A card whose port was changed meanwhile said that the calibration corrects that other instrument."""
    calibrated.forget.click()
    host.until_idle()
    end_listening(calibrated)
    calibrated.port.setEditText("/dev/no-such-port")
    calibrated.listen.click()
    bring_back(host)
    assert len(CalibrationStore().all()) == 1
    assert calibrated._calibration.text() == ""
    assert not calibrated.forget.isVisible()


def test_a_port_that_is_not_there_is_told_in_the_card(page: BenchPage, host: FakeHost) -> None:
    card = page.sources.add_source(SourceForm("text", "/dev/no-such-port"))
    card.toggle_listening()
    host.until(lambda: "no-such-port" in card._state.text(), "the reason")
    probe = card.stop_listening()
    assert probe is not None
    assert probe.join(10.0)


def test_several_sources_with_roles_make_one_run(page: BenchPage, host: FakeHost, tmp_path: Path) -> None:
    choose_recordings_folder(host.settings, tmp_path)
    page.show_bench(demo_bench())
    page.sources.add.click()
    second = page.sources.cards[1]
    second.port.setEditText("COM7")
    second.role.setCurrentIndex(second.role.findData("shunt_voltage"))
    second._options["name"].setText("Meter 2")
    page.record.click()
    host.until(lambda: bool(host.begun), "the run")
    (plan,) = host.begun
    assert plan.addresses == ("cell:demo", "text:COM7?name=Meter 2&role=shunt_voltage")
    assert plan.bench.supply.resistor_ohm == 12000.0
    assert plan.title == "Simulated lesson"
    second.remove.click()
    assert len(page.sources.cards) == 1


def test_a_source_that_cannot_be_stops_recording_with_the_reason(page: BenchPage, host: FakeHost) -> None:
    page.sources.add.click()
    page.record.click()
    assert "No port" in host.told["bench"][1]
    assert host.begun == []


def test_while_a_run_records_its_port_is_left_alone(page: BenchPage, host: FakeHost, tmp_path: Path) -> None:
    session, run = running_session(tmp_path / "a.h5")
    try:
        host.session = session
        host.frame()
        assert page.sources.cards[0].listen.isEnabled()  # a simulated cell can be had many times
    finally:
        run.has_ended = True
        session.stop()
        session.close()


def test_while_a_run_records_the_bench_offers_to_end_it_first(
    page: BenchPage, host: FakeHost, tmp_path: Path
) -> None:
    choose_recordings_folder(host.settings, tmp_path)
    session, run = running_session(tmp_path / "a.h5")
    try:
        host.session = session
        host.frame()
        QTest.mouseClick(page.record, Qt.MouseButton.LeftButton)
        host.until_idle()
        assert host.begun == [], "nobody has said that the run may end"
        _level, text, ((_words, save_and_begin),) = host.told["another run"]
        assert "“Strip 4” is still being recorded" in text
        type_into(page.fields["supply", "resistor_ohm"], "4,7k")  # seen while the offer stood
        save_and_begin()
        host.until(lambda: bool(host.begun), "the next run")
        assert host.begun[0].bench.supply.resistor_ohm == 4700.0
        assert "another run" not in host.told
    finally:
        run.has_ended = True
        session.stop()
        session.close()


def test_what_is_wrong_with_a_field_is_scrolled_to(page: BenchPage, host: FakeHost) -> None:
    """Tab leads to a field at the lower edge; what is wrong with it appears below the edge."""
    field = page.fields["cell", "temperature_C"]
    field.edit.setFocus()
    area = page._pane
    area.ensureWidgetVisible(field.edit, 0, 0)
    bar = area.verticalScrollBar()
    below = field.edit.mapTo(area.viewport(), field.edit.rect().bottomLeft()).y() - area.viewport().height()
    bar.setValue(bar.value() + below + 1)  # the field's last line is the last one seen
    QTest.keyClicks(field.edit, "300")
    host.frame()
    host.frame()
    bottom = field._problem.mapTo(area.viewport(), field._problem.rect().bottomLeft()).y()
    assert field._problem.isVisible()
    assert 0 < bottom <= area.viewport().height()


def test_runs_go_to_the_folder_that_was_chosen(
    page: BenchPage, host: FakeHost, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(stick))
    QTest.mouseClick(page.place.choose, Qt.MouseButton.LeftButton)
    page.record.click()
    host.until(lambda: bool(host.begun), "the run")
    assert host.begun[0].out.parent == stick
    stick.rmdir()  # unplugged
    page.record.click()
    assert "stick is not there" in host.told["no folder"][1]
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(tmp_path / "nowhere"))
    QTest.mouseClick(page.place.choose, Qt.MouseButton.LeftButton)
    assert "Nothing can be written to" in host.told["bench"][1]
    assert recordings_folder(host.settings) == stick, "a folder that cannot be used is not kept"


def test_invented_values_go_with_the_simulated_cell(
    qtbot: QtBot, theme: Theme, settings: QSettings, tmp_path: Path
) -> None:
    """A real run must not take over the current of a supply that nobody has; what was typed stays."""
    host = FakeHost(theme, settings)
    qtbot.addWidget(host)
    session, run = running_session(tmp_path / "a.h5")
    host.session = session
    page = BenchPage(host)
    host.hold(page)
    try:
        type_into(page.fields["cell", "anode_area_cm2"], "3,5")
        assert "2.06 mA" in said(page)
        card = page.sources.cards[0]
        card.kind.setFocus()
        QTest.keyClicks(card.kind, "Handheld")
        assert card.form.kind == "lcd14"
        assert "2.06 mA" not in said(page)
        bench = page.form.bench()
        assert (bench.title, bench.supply.resistor_ohm, bench.meter.range_V) == (None, None, None)
        assert bench.cell.anode_area_cm2 == 3.5
        assert "nvented" not in bench.source_text
        assert bench.steps == demo_bench().steps
        assert "your own" in host.told["invented"][1]
    finally:
        run.has_ended = True
        session.stop()
        session.close()
        host.until_idle()


def test_a_bench_file_to_be_copied_keeps_its_values_and_steps_beside_a_real_meter(
    page: BenchPage, host: FakeHost, tmp_path: Path
) -> None:
    """The lesson's file says that its values are invented, as does a copy with one's own: they went."""
    copy = tmp_path / "class-7b.toml"
    text = (Path(__file__).parents[2] / "recordings" / "ten-minute-bench.toml").read_text(encoding="utf-8")
    copy.write_text(text.replace("stack_voltage_V = 27.0", "stack_voltage_V = 26.4"), encoding="utf-8")
    page.sources.clear()
    page.sources.add_source(SourceForm.of("scpi:/dev/ttyUSB0"))
    page.entered()
    page.open_bench(copy)
    assert page.form.path == copy
    assert page.form.value(("supply", "stack_voltage_V")) == 26.4
    assert page.form.value(("supply", "resistor_ohm")) == 12000.0
    assert page.form.bench().steps == read_bench(copy).steps
    assert "invented" not in host.told


def test_everything_is_reached_by_tab_and_named_and_nothing_clips_on_a_small_screen(
    page: BenchPage, host: FakeHost
) -> None:
    page.show_bench(demo_bench())
    page.sources.cards[0].more.click()
    host.resize(1280, 600)
    host.frame()
    assert_reachable_and_named(page)
    assert_nothing_clips(page)


def test_tab_leads_through_the_sources_where_they_stand_also_those_that_came_later(
    host: FakeHost, page: BenchPage
) -> None:
    page.sources.add_source(SourceForm("auto"))
    first, second = page.sources.cards
    second.kind.setCurrentIndex(second.kind.findData("scpi"))
    second.kind.activated.emit(second.kind.currentIndex())  # as choosing from the list does
    second.more.click()
    host.frame()
    page.place.choose.setFocus()
    met: list[QWidget] = []
    while (focused := host.focusWidget()) is not page.fields["supply", "cells"].edit:
        assert focused is not None
        met.append(focused)
        assert len(met) < 40, "Tab does not come to the supply"
        QTest.keyClick(focused, Qt.Key.Key_Tab)
    seen = [stop for stop in page.sources.stops if stop.isVisible() and stop.isEnabled()]
    assert met == [page.place.choose, *seen]
    options = [edit for edit in second.findChildren(QLineEdit) if edit.isVisible() and edit in met]
    assert len(options) > 1
    assert met.index(second.more) < met.index(options[0]) < met.index(page.sources.listen_all)
    assert met.index(first.remove) < met.index(second.kind)


def sections_by_key(page: BenchPage) -> list[str]:
    """Return the sections of the form in the order in which the tab key comes to them."""
    found: list[str] = []
    first = widget = page.fields["", "title"].edit
    while True:
        section = next((path[0] for path, field in page.fields.items() if field.edit is widget), None)
        if section is not None and section not in found[-1:]:
            found.append(section)
        widget = widget.nextInFocusChain()  # type: ignore[assignment]
        if widget is first:
            return found


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_large_screen_shows_the_form_in_two_columns_and_a_small_one_in_one(
    qapp: QApplication, qtbot: QtBot, theme: Theme, settings: QSettings, language: str
) -> None:
    with speaking(qapp, language):
        host = FakeHost(theme, settings)
        qtbot.addWidget(host)
        page = BenchPage(host)
        host.hold(page)
        host.until_idle()
        page.show_bench(demo_bench())

        def place(key: Key) -> QPoint:
            return page.fields[key].mapTo(page, QPoint())

        order = [
            ("supply", "cells"),
            ("cell", "anode"),
            ("meter", "range_V"),
            ("settling", "limit_mV_per_min"),
        ]
        for width, height in ((1366, 712), (1920, 1024), (1280, 664), (2560, 1380), (683, 340)):
            host.resize(width, height)
            page.resize(width, height)
            host.frame()
            lefts = [place(key).x() for key in order]
            tops = [place(key).y() for key in order]
            if width >= 1920:
                assert lefts[0] == lefts[3] < lefts[1] == lefts[2]
                assert tops[1] < tops[0]
                assert page._pane.verticalScrollBar().maximum() == 0, "it fits"
                assert sections_by_key(page) == ["", "supply", "settling", "cell", "meter"]
                taken = page._side.geometry().right() - page._pane.x()
                assert taken > 0.94 * min(width, 1920), f"{width - taken} pixels lie idle"
            else:
                assert len(set(lefts)) == 1
                assert tops == sorted(tops)
                assert sections_by_key(page) == ["", "supply", "cell", "meter", "settling"]
            assert page._pane.horizontalScrollBar().maximum() == 0
            assert_nothing_clips(page)


def test_what_is_heard_is_offered_and_put_on_the_bench(
    page: BenchPage, host: FakeHost, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = Heard("COM7", "recognised", 9600, (Candidate("text", 1.0, 9, 0.9, shown="2.251 V"),))
    silent = Heard("COM8", "silent", message="nothing was sent")
    ports = (PortInfo("COM7", ""), PortInfo("COM8", ""), PortInfo("COM9", "", is_worth_listening=False))
    asked: list[str] = []

    def listen(names: list[str], *, opener: OpenPort) -> tuple[Heard, ...]:
        asked.extend(names)
        return told, silent

    monkeypatch.setattr("gui.bench.sources_panel.find_ports", lambda: ports)
    monkeypatch.setattr("gui.bench.sources_panel.listen_to_all", listen)
    page.sources.listen_all.click()
    assert "nothing is sent" in host.told["listening"][1]
    host.until_idle()
    assert asked == ["COM7", "COM8"]
    assert host.told["heard COM8"][:2] == ("warning", "COM8: nothing was sent")
    level, text, actions = host.told["heard COM7"]
    assert (level, "2.251 V" in text) == ("info", True)
    assert "listening" not in host.told
    actions[0][1]()
    assert [card.form.checked_address() for card in page.sources.cards] == [told.addresses[0]]
    page.hide()
    assert "heard COM8" not in host.told, "what was heard stands over no other page"


def test_listening_to_all_ports_ends_with_the_window(
    page: BenchPage, host: FakeHost, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Who closes the window need not wait for ports that have nothing to say."""
    listens = threading.Event()

    def listen(names: list[str], *, opener: OpenPort) -> tuple[Heard, ...]:
        listens.set()
        while True:  # as long as ports can be opened
            opener("loop://", 9600).close()

    monkeypatch.setattr("gui.bench.sources_panel.find_ports", tuple)
    monkeypatch.setattr("gui.bench.sources_panel.listen_to_all", listen)
    page.sources.listen_all.click()
    job = host.jobs[-1]
    assert listens.wait(30.0)
    assert not job.is_cancellable, "nobody is asked about it"
    job.cancel()
    job.wait(30.0)
    assert job.is_over


@pytest.mark.parametrize("by", ["keys", "mouse"])
def test_any_port_of_the_list_can_be_chosen(page: BenchPage, qtbot: QtBot, by: str) -> None:
    names = ["demo", "blank", "bench", "stability"]
    card = page.sources.cards[0]
    box = card.port
    for number in (2, 1, 3, 0):
        if by == "mouse":
            box.showPopup()
            view = box.view()
            qtbot.waitExposed(view)
            QTest.mouseClick(
                view.viewport(),
                Qt.MouseButton.LeftButton,
                pos=view.visualRect(view.model().index(number, 0)).center(),
            )
        else:
            key = Qt.Key.Key_Down if number > box.currentIndex() else Qt.Key.Key_Up
            while box.currentIndex() != number:
                before = box.currentIndex()
                QTest.keyClick(box, key)
                assert box.currentIndex() != before
        assert (card.form.port, box.currentText()) == (names[number], names[number])


def test_a_board_keeps_what_each_of_its_channels_stands_for(page: BenchPage, host: FakeHost) -> None:
    """It was shown as the cell voltage, and would have been recorded as that."""
    board = "text:/dev/ttyACM0?column=2,3&role=shunt_voltage,temperature"
    card = page.sources.add_source(SourceForm.of(board))
    host.frame()
    assert card.role.currentText() == "Voltage of a shunt, Temperature"
    assert card.form.checked_address() == board
    card.role.setFocus()
    QTest.keyClick(card.role, Qt.Key.Key_Home)
    assert card.form.address == "text:/dev/ttyACM0?column=2,3"
    QTest.keyClick(card.role, Qt.Key.Key_End)
    assert card.form.address == board


def test_the_name_of_an_option_stands_nearer_to_its_own_field_than_to_another(page: BenchPage) -> None:
    card = page.sources.add_source(SourceForm("lcd14", "/dev/ttyUSB0"))
    card.resize(900, 500)
    card.show()
    card.more.click()
    QApplication.processEvents()
    edits = list(card._options.values())
    first, below = edits[0], edits[OPTION_COLUMNS]
    label = card._option_labels[list(card._options)[OPTION_COLUMNS]]
    words_top = label.y() + label.contentsRect().top()
    assert words_top - first.geometry().bottom() > below.y() - label.geometry().bottom()


def test_an_example_has_the_decimal_sign_of_the_window(
    qapp: QApplication, theme: Theme, qtbot: QtBot
) -> None:
    with speaking(qapp, "de"):
        card = SourceCard(theme, SourceForm("lcd14", "/dev/ttyUSB0"))
        qtbot.addWidget(card)
        assert card.display.placeholderText() == "2,251"
