"""The bench as a form: both decimal signs, units as on the part, and a file that keeps its comments."""

from __future__ import annotations

import re
import tomllib
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logger.bench import parse_bench, read_bench
from logger.bench_form import FIELDS, BenchDraft, BenchForm, Field, FieldError, parse_number, shown
from logger.bench_rules import SECTIONS, Number
from logger.bench_tables import Bench
from logger.bench_toml import TITLE, write_values
from logger.errors import BenchError, LoggerError

EXAMPLE = Path(__file__).resolve().parents[2] / "recordings" / "example-bench.toml"


def field(key: str) -> Field:
    return next(one for one in FIELDS if one.key == key)


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("1.5", "1.5"), ("1,5", "1.5"), ("\u22123", "-3"), (" 27\u00a0000 ", "27000"), (",5", "0.5"),
        ("1e3", "1000"), ("+2.", "2"), ("0,001", "0.001"),
    ],
)  # fmt: skip
def test_both_decimal_signs_are_read(text: str, number: str) -> None:
    assert parse_number(text) == Decimal(number)


@pytest.mark.parametrize(
    "text", ["1.234,5", "1,234.5", "1.234.567", "1,5 V", "four", "", "1e999", "--1", "4.7k", "nan"]
)
def test_what_could_be_read_two_ways_is_refused(text: str) -> None:
    with pytest.raises(FieldError):
        parse_number(text)


def test_a_german_1_620_is_not_1620() -> None:
    """A locale that parts thousands with a point would read 1620 here; a voltage of 1.620 V is meant."""
    assert parse_number("1.620") == Decimal("1.620")


def test_resistors_are_read_as_they_are_labelled() -> None:
    assert field("resistor_ohm").value("12k") == 12000.0
    assert field("resistor_ohm").value("4,7 k") == 4700.0
    assert field("resistor_ohm").value("1M") == 1e6
    with pytest.raises(FieldError):
        field("anode_area_cm2").value("2k")


def test_the_unit_beside_the_field_may_be_typed_too_and_no_other() -> None:
    assert field("cell_voltage_V").value("9 V") == 9.0
    assert field("resistor_ohm").value("12 kΩ") == 12000.0
    assert field("resistor_ohm").value("470 ohm") == 470.0
    assert field("current_A").value("2,06 mA") == 0.00206
    assert field("anode_area_cm2").value("2 cm2") == 2.0
    for key, text in (
        ("cell_voltage_V", "9 mV"),
        ("current_A", "2 A"),
        ("cells", "3 V"),
        ("cell_voltage_V", "V"),
    ):
        with pytest.raises(FieldError):
            field(key).value(text)


def test_what_was_meant_is_only_offered_where_it_can_be() -> None:
    """0.001 as kilo-ohm would be 1 ohm, which is impossible too."""
    with pytest.raises(FieldError, match="give 100 to") as caught:
        field("resistor_ohm").value("0,001")
    assert caught.value.meant is None
    for one in FIELDS:
        rule = None if one.is_text else SECTIONS[one.section][one.key]
        for slip in rule.slips if isinstance(rule, Number) else ():
            for value in (slip.low, slip.high, (slip.low + slip.high) / 2):
                assert all(rule.low <= meant <= rule.high for _unit, meant in rule.meant(value))


def test_handier_units_reach_the_file_in_the_contracts_units() -> None:
    assert field("current_A").unit == "mA"
    assert field("current_A").value("2,06") == 0.00206
    assert field("input_resistance_ohm").value("10") == 10e6
    assert field("resolution_V").value("1") == 0.001
    assert shown(field("resolution_V"), 0.001) == "1"
    assert shown(field("resistor_ohm"), 12000.0, ",") == "12000"
    assert shown(field("cell_voltage_V"), 9.05, ",") == "9,05"
    assert shown(field("cells"), None) == ""


def test_what_a_field_takes_is_told_without_powers_of_ten() -> None:
    """A resistor of "100 to 1e+07 Ω" is for those who write programs."""
    with pytest.raises(FieldError, match="give 100 to 10000000 Ω; "):
        field("resistor_ohm").value("0,001")
    for one in FIELDS:
        if not one.is_text:
            with pytest.raises(FieldError) as refused:
                one.value("-99999")
            assert re.search(r"\de[-+]\d", str(refused.value)) is None


def test_a_slip_of_units_is_put_back_with_what_was_meant() -> None:
    with pytest.raises(FieldError, match="kilo-ohm") as caught:
        field("resistor_ohm").value("12")
    assert caught.value.meant == 12000
    with pytest.raises(FieldError, match="microampere") as caught:
        field("current_A").value("2060000")
    assert caught.value.meant == pytest.approx(2.06)
    with pytest.raises(FieldError, match="0 to 100 °C"):
        field("temperature_C").value("120")
    with pytest.raises(FieldError, match="whole"):
        field("cells").value("2.5")


@pytest.mark.parametrize("one", [f for f in FIELDS if not f.is_text], ids=lambda f: f.key)
def test_every_limit_of_the_rules_can_be_typed_and_comes_back(one: Field) -> None:
    rule = SECTIONS[one.section][one.key]
    assert isinstance(rule, Number)
    for value in (rule.low, rule.high):
        text = shown(one, int(value) if rule.whole else float(value), ",")
        assert one.value(text) == value
        table = f"[{one.section}]\n{one.key} = {value!r}\n"
        assert getattr(getattr(parse_bench(table), one.section), one.key) == value


def test_the_example_can_be_edited_and_keeps_its_comments() -> None:
    form = BenchForm(read_bench(EXAMPLE))
    assert not form.is_changed
    assert form.text == EXAMPLE.read_text(encoding="utf-8")
    assert form.type(field("resistor_ohm"), "10k") is None
    assert form.is_changed
    before, after = EXAMPLE.read_text(encoding="utf-8").split("\n"), form.text.split("\n")
    changed = [(a, b) for a, b in zip(before, after, strict=True) if a != b]
    assert len(changed) == 1
    assert form.bench().supply.resistor_ohm == 10000
    assert form.bench().steps == read_bench(EXAMPLE).steps


def test_saving_is_whole_or_not_at_all(tmp_path: Path) -> None:
    form = BenchForm()
    form.type(field("title"), "Strip ü")
    form.type(field("cells"), "3")
    form.type(field("cell_voltage_V"), "9")
    out = tmp_path / "b.toml"
    form.save(out)
    assert read_bench(out).supply.declared_stack_voltage_V == 27
    assert not form.is_changed
    form.type(field("cells"), "300")
    assert form.problems
    with pytest.raises(BenchError, match="cells"):
        form.save(out)
    assert read_bench(out).supply.cells == 3
    form.type(field("cells"), "60")  # possible alone, not together with 9 V
    with pytest.raises(BenchError, match="540"):
        form.save(out)
    assert read_bench(out).supply.cells == 3
    with pytest.raises(LoggerError):
        BenchForm().save(tmp_path / "nowhere" / "b.toml")


def test_an_emptied_field_leaves_the_file() -> None:
    form = BenchForm(parse_bench('[cell]\npH = 7.0 # neutral\nanode = "Ni"\n'))
    form.type(field("pH"), " ")
    assert form.text == '[cell]\nanode = "Ni"\n'


@pytest.mark.parametrize(
    "text",
    [
        "", "# only a comment\n", "[supply]\n", "[supply]\ncells = 3\n\n# about the cell\n[cell]\npH = 7\n",
        "supply = {cells = 3}\n", "supply.cells = 3\ncell.pH = 7\n", "[supply] # the stack\ncells=3#three\n",
        'title = "a # b"\r\n[supply]\r\ncells = 3\r\n',
        "[[steps]]\nkind = 'note'\n", '[supply]\n"cells" = 3\n',
        "title = '''a'''\n",
    ],
)  # fmt: skip
def test_values_reach_files_of_any_form(text: str) -> None:
    values = {
        TITLE: 'x "y" \\',
        ("supply", "cells"): 4,
        ("supply", "resistor_ohm"): 1e4,
        ("cell", "pH"): None,
    }
    written = write_values(text, values)
    document = tomllib.loads(written)
    assert document["title"] == 'x "y" \\'
    assert document["supply"] == {"cells": 4, "resistor_ohm": 1e4}
    assert "pH" not in document.get("cell", {})
    assert document.get("steps") == tomllib.loads(text).get("steps")
    assert write_values(written, values) == written


@given(st.text(max_size=40), st.floats(allow_nan=False, allow_infinity=False), st.integers(-9, 9))
def test_any_text_and_number_survive(label: str, number: float, whole: int) -> None:
    label = label.replace("\r", " ")  # texts are cleaned before; here only TOML is tested
    values = {("cell", "anode"): label, ("cell", "pH"): number, ("supply", "cells"): whole}
    written = write_values("[cell]\nanode = 'old' # why\npH = 1\n", values)
    assert tomllib.loads(written) == {"cell": {"anode": label, "pH": number}, "supply": {"cells": whole}}


def test_defaults_of_the_program_are_not_written_into_the_file() -> None:
    form = BenchForm(parse_bench("[cell]\npH = 7.0\n"))
    assert form.value(("settling", "limit_mV_per_min")) is None
    assert "settling" not in form.text


def typed_over(bench: Bench) -> BenchForm:
    form = BenchForm(bench)
    assert form.type(field("resistor_ohm"), "4.7k") is None
    assert form.type(field("title"), "Zwölf Ω") is None
    assert form.type(field("electrolyte"), "") is None
    return form


def test_a_form_put_away_comes_back_over_its_file(tmp_path: Path) -> None:
    path = tmp_path / "bench.toml"
    path.write_text(EXAMPLE.read_text(encoding="utf-8"), encoding="utf-8")
    form = typed_over(read_bench(path))
    back = BenchForm.of_draft(form.draft)
    assert (back.path, back.text, back.is_changed) == (path, form.text, True)
    saved = BenchForm(read_bench(path))
    assert not BenchForm.of_draft(saved.draft).is_changed
    assert BenchForm.of_draft(saved.draft).bench().steps == saved.bench().steps


def test_what_somebody_changed_in_the_file_meanwhile_is_not_undone(tmp_path: Path) -> None:
    path = tmp_path / "bench.toml"
    path.write_text(EXAMPLE.read_text(encoding="utf-8"), encoding="utf-8")
    draft = typed_over(read_bench(path)).draft
    other = BenchForm(read_bench(path))
    assert other.type(field("anode_area_cm2"), "7.5") is None
    other.save(path)
    back = BenchForm.of_draft(draft).bench()
    assert (back.cell.anode_area_cm2, back.supply.resistor_ohm, back.cell.electrolyte) == (7.5, 4700.0, None)


def test_a_form_whose_file_is_gone_keeps_all_it_had(tmp_path: Path) -> None:
    path = tmp_path / "bench.toml"
    path.write_text(EXAMPLE.read_text(encoding="utf-8"), encoding="utf-8")
    form = typed_over(read_bench(path))
    draft = form.draft
    path.unlink()
    back = BenchForm.of_draft(draft)
    assert (back.path, back.text) == (None, form.text)


def test_texts_of_no_bench_bring_no_form_back() -> None:
    with pytest.raises(BenchError, match="nonsense"):
        BenchForm.of_draft(BenchDraft(None, "", "nonsense = 3"))
