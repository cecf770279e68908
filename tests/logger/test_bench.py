"""The bench file: what is read, and how slips are put to the user."""

import math
import os
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from logger.bench import UNTIL_SETTLED, Bench, Settling, Step, parse_bench, read_bench
from logger.bench_rules import SECTIONS, Number, Text
from logger.errors import BenchError
from logger.moments import KINDS

EXAMPLE = Path(__file__).parents[2] / "recordings" / "example-bench.toml"


def refusal(text: str) -> str:
    """Return the complaint about a text, after checking its form."""
    with pytest.raises(BenchError) as caught:
        parse_bench(text, "b.toml")
    message = str(caught.value)
    assert message.startswith("b.toml, line ")
    assert "; " in message, "the remedy is missing"
    assert "\n" not in message
    return message


def attempt(text: str) -> tuple[Bench | None, str]:
    """Return the bench of a text, or the complaint about it."""
    try:
        return parse_bench(text, "b.toml"), ""
    except BenchError as error:
        return None, str(error)


def test_an_empty_bench_file_is_a_bench_of_unknowns() -> None:
    bench = parse_bench("", "b.toml")
    assert bench == Bench()
    assert bench.supply.resistor_ohm is None
    assert bench.settling == Settling(limit_mV_per_min=5.0, window_s=60.0)


def test_the_example_reads_and_matches_the_simulated_cell() -> None:
    bench = read_bench(EXAMPLE)
    assert bench.path == EXAMPLE
    assert bench.source_text == EXAMPLE.read_text(encoding="utf-8")
    assert "invented" in bench.source_text
    assert bench.title is not None
    assert "Invented" in bench.title
    supply, cell, meter = bench.supply, bench.cell, bench.meter
    assert (supply.best_stack_voltage_V, supply.resistor_ohm, supply.internal_resistance_ohm) == (
        27.0,
        12000.0,
        6.0,
    )
    assert supply.declared_stack_voltage_V == 27.0
    assert (cell.anode_area_cm2, cell.temperature_C, cell.pressure_kPa) == (2.0, 22.0, 101.325)
    assert (meter.resolution_V, meter.accuracy_percent_of_reading, meter.accuracy_counts) == (0.001, 0.5, 2.0)
    assert [step.kind for step in bench.steps][:4] == ["dry_cell", "buffer_in", "stirring_on", "salt_added"]
    assert bench.steps[0].hold_s == 45.0
    assert bench.steps[-1].until_settled


def test_the_dataclasses_hold_exactly_the_keys_of_the_rules() -> None:
    bench = Bench()
    for section, rules in SECTIONS.items():
        assert tuple(getattr(bench, section).__slots__) == tuple(rules)


@pytest.mark.parametrize(
    ("section", "key", "rule"),
    [(s, k, r) for s, rules in SECTIONS.items() for k, r in rules.items() if isinstance(r, Number)],
)
def test_each_number_is_taken_at_its_limits_and_refused_beyond(section: str, key: str, rule: Number) -> None:
    for value in (rule.low, rule.high):
        text = f"[{section}]\n{key} = {int(value) if rule.whole else value!r}\n"
        if (section, key, value) == ("supply", "cells", 1):
            text += "cell_voltage_V = 2.0\n"
        assert getattr(getattr(parse_bench(text), section), key) == value
    for value in (rule.low - abs(rule.low) * 0.01 - 1e-3, rule.high * 1.01):
        message = refusal(f"\n[{section}]\n{key} = {value!r}\n")
        assert f"line 3: {section}.{key}" in message


@pytest.mark.parametrize(
    ("section", "key", "rule"),
    [(s, k, r) for s, rules in SECTIONS.items() for k, r in rules.items() if isinstance(r, Number)],
)
@pytest.mark.parametrize("value", ["true", '"5"', "nan", "-inf", "1979-05-27", "[1]", "9" * 400, "{}"])
def test_no_number_takes_anything_else(section: str, key: str, rule: Number, value: str) -> None:
    assert f"line 2: {section}.{key}" in refusal(f"[{section}]\n{key} = {value}\n")


@pytest.mark.parametrize(
    ("section", "key"),
    [(s, k) for s, rules in SECTIONS.items() for k, r in rules.items() if isinstance(r, Text)],
)
def test_texts_must_be_texts_and_are_cleaned(section: str, key: str) -> None:
    assert "must be a text" in refusal(f"[{section}]\n{key} = 5\n")
    text = f'[{section}]\n{key} = "a\\u202eb\\u0007\\n  c"\n'
    assert getattr(getattr(parse_bench(text), section), key) == "ab c"


@pytest.mark.parametrize(
    ("line", "unit", "meant"),
    [
        ("cell.temperature_C = 295.15", "kelvin", "22"),
        ("cell.pressure_kPa = 1013.25", "hectopascal", "101.325"),
        ("cell.pressure_kPa = 101325", "pascal", "101.325"),
        ("cell.pressure_kPa = 760", "millimetres of mercury", "101.325"),
        ("cell.pressure_kPa = 1.01325", "bar or atmosphere", "101.325"),
        ("cell.anode_area_cm2 = 200", "square millimetre", "2"),
        ("cell.anode_area_cm2 = 0.0002", "square metre", "2"),
        ("cell.volume_mL = 0.1", "litre", "100"),
        ("cell.headspace_mL = 0.25", "litre", "250"),
        ("cell.spacing_mm = 0.005", "metre", "5"),
        ("cell.salt_mass_mg = 0.02", "gram", "20"),
        ("cell.salt_mass_mg = 20000", "microgram", "20"),
        ("supply.resistor_ohm = 12", "kilo-ohm", "12000"),
        ("supply.resistor_rating_W = 250", "milliwatt", "0.25"),
        ("supply.current_A = 2.06", "milliampere", "0.00206"),
        ("supply.current_A = 2060", "microampere", "0.00206"),
        ("supply.stack_voltage_V = 27000", "millivolt", "27"),
        ("supply.stack_voltage_V = -27", "swapped leads", "27"),
        ("supply.cell_voltage_V = 1580", "millivolt", "1.58"),
        ("meter.range_V = 4000", "millivolt", "4"),
        ("meter.resolution_V = 1", "millivolt", "0.001"),
        ("meter.input_resistance_ohm = 10", "megohm", "1e+07"),
        ("meter.input_resistance_ohm = 10000", "kilo-ohm", "1e+07"),
        ("meter.zero_V = 3", "millivolt", "0.003"),
        ("settling.limit_mV_per_min = 0.005", "volt per minute", "5"),
        ("settling.window_s = 2", "minutes", "120"),
    ],
)
def test_a_slip_of_units_is_named_with_what_was_meant(line: str, unit: str, meant: str) -> None:
    message = refusal(line)
    assert (
        f"looks like {unit} (then write {meant})" in message or f"or {unit} (then write {meant})" in message
    )


def test_an_unknown_key_names_the_nearest_one_and_its_line() -> None:
    message = refusal("[supply]\ncells = 3\n\nresistor = 12000\n")
    assert (
        message
        == "b.toml, line 4: supply.resistor is not known in a table [supply]; did you mean resistor_ohm?"
    )


def test_a_key_in_the_wrong_table_is_sent_home() -> None:
    assert "it belongs in [supply]" in refusal("[cell]\nresistor_ohm = 12000\n")
    assert "it belongs in [meter]" in refusal("resolution_V = 0.001\n")


def test_an_unknown_table_names_the_nearest_one() -> None:
    assert "line 2: suply is not known in a bench file; did you mean supply?" in refusal(
        'title = "x"\n[suply]\n'
    )
    assert "known are title, supply" in refusal("[zzzzz]\n")


def test_an_unknown_key_is_cleaned_before_it_is_shown() -> None:
    assert "\x07" not in refusal('"a\\u0007b\\u202e" = 1\n')


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("cell.temperature_C = 300", 1),
        ('title = "x"\ncell = { pH = 7, temperature_C = 300 }', 2),
        ("[cell]\r\npH = 7\r\ntemperature_C = 300\r\n", 3),
        ('steps = [\n  { kind = "note" },\n  { kind = "notes" },\n]\n', 3),
        ('[[steps]]\nkind = "note"\n\n[[steps]]\nlabel = "x"\n', 4),
    ],
)
def test_the_line_is_found_however_the_key_is_written(text: str, line: int) -> None:
    assert f"line {line}: " in refusal(text)


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("title = \n", 1, "not TOML"),
        ("[cell]\npH = 7\npH = 8\n", 3, "not TOML"),
        ("[cell]\npH = 7,5\n", 2, "not TOML"),
        ('title = "never closed\n', 1, "not TOML"),
        ("title = 'a'\n\x00", 2, "not TOML"),
        ("a = " + "[" * 3000, 1, "nested too deeply"),
        ("\n[cell]\npH = " + "7" * 5000, 3, "thousands of digits"),
    ],
)
def test_a_broken_file_names_the_line(text: str, line: int, words: str) -> None:
    message = refusal(text)
    assert f"line {line}: " in message
    assert words in message


def test_a_text_far_too_long_is_refused() -> None:
    with pytest.raises(BenchError, match="too long for a bench file"):
        parse_bench("#" * 70000, "b.toml")


@pytest.mark.parametrize("text", ["supply = 5", "cell = [1]", 'settling = "x"'])
def test_a_section_must_be_a_table(text: str) -> None:
    assert "must be a table" in refusal(text)


@pytest.mark.parametrize("text", ["steps = 5", 'steps = ["note"]', "[steps]\nkind = 'note'"])
def test_the_steps_must_be_a_list_of_tables(text: str) -> None:
    assert "write [[steps]] before each step" in refusal(text)


def test_too_many_steps_are_refused() -> None:
    assert len(parse_bench('[[steps]]\nkind = "note"\n' * 200).steps) == 200
    assert "line 401: steps[201]" in refusal('[[steps]]\nkind = "note"\n' * 201)


@pytest.mark.parametrize(
    ("hold", "step"),
    [
        ('"90s"', Step("note", "x", 90.0, False)),
        ('"15m"', Step("note", "x", 900.0, False)),
        ('"1.5h"', Step("note", "x", 5400.0, False)),
        (f'"{UNTIL_SETTLED}"', Step("note", "x", None, True)),
        ('" Until  Settled "', Step("note", "x", None, True)),
    ],
)
def test_how_long_to_hold_a_step(hold: str, step: Step) -> None:
    assert parse_bench(f'[[steps]]\nkind = "note"\nlabel = "x"\nhold = {hold}').steps == (step,)


def test_a_step_without_hold_goes_on_at_will() -> None:
    assert parse_bench('[[steps]]\nkind = "salt_added"').steps == (Step("salt_added", "", None, False),)


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_moment_can_be_a_step(kind: str) -> None:
    assert parse_bench(f'[[steps]]\nkind = "{kind}"').steps[0].kind == kind


@pytest.mark.parametrize(
    ("step", "words"),
    [
        ('kind = "salt_aded"', "did you mean salt_added?"),
        ('kind = "xyzzy"', "known are dry_cell"),
        ("kind = 5", "must be a text"),
        ("", "has no kind"),
        ('kind = "note"\nlable = "x"', "did you mean label?"),
        ('kind = "note"\nlabel = 4700', "must be a text"),
        ('kind = "note"\nhold = 90', 'write for example "90s"'),
        ('kind = "note"\nhold = "soon"', "is no time to hold"),
        ('kind = "note"\nhold = "0s"', "is no time to hold"),
        ('kind = "note"\nhold = ""', "is no time to hold"),
        ('kind = "note"\nhold = "-5s"', "is no time to hold"),
    ],
)
def test_impossible_steps_are_refused(step: str, words: str) -> None:
    assert words in refusal(f"[[steps]]\n{step}\n")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (
            "[supply]\nresistor_ohm = 12000\ncurrent_A = 0.002",
            "line 3: supply.current_A contradicts resistor_ohm",
        ),
        ("[supply]\ncells = 10\ncell_voltage_V = 9.0", "make a stack of 90 V"),
        ("[supply]\ncells = 1\ncell_voltage_V = 1.2", "make a stack of 1.2 V"),
        (
            "[supply]\nstack_voltage_V = 27\nresistor_ohm = 3300\nresistor_rating_W = 0.125",
            "touching electrodes would put 0.221 W into it",
        ),
        ("[supply]\ncurrent_A = 0.9\n[cell]\nanode_area_cm2 = 1", "makes 900 mA/cm2"),
        ("[cell]\nsalt_mass_mg = 9000\nvolume_mL = 10", "more than 1 mol/L"),
        ("[meter]\nrange_V = 0.5\nresolution_V = 0.1", "more than a tenth of the range"),
    ],
)
def test_values_that_contradict_one_another_are_refused(text: str, words: str) -> None:
    assert words in refusal(text)


def test_a_rating_is_judged_with_the_declared_stack_too() -> None:
    text = "[supply]\ncells = 3\ncell_voltage_V = 9\nresistor_ohm = 3300\nresistor_rating_W = "
    assert "touching electrodes" in refusal(text + "0.125")
    assert parse_bench(text + "0.25").supply.resistor_rating_W == 0.25


def test_a_missing_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BenchError, match=r"nothing\.toml: there is no such bench file"):
        read_bench(tmp_path / "nothing.toml")


def test_a_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BenchError, match="that is a folder"):
        read_bench(tmp_path)


def test_of_a_file_without_end_no_more_is_read_than_a_bench_file_can_have(tmp_path: Path) -> None:
    path = tmp_path / "b.toml"
    with path.open("wb") as file:
        file.truncate(2**31)  # takes no room where files may have holes
    with pytest.raises(BenchError, match="too long for a bench file"):
        read_bench(path)


def test_a_file_that_may_not_be_read_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def forbidden(*_: object) -> None:
        raise PermissionError(13, os.strerror(13))

    monkeypatch.setattr(Path, "open", forbidden)
    with pytest.raises(BenchError, match="check its permissions"):
        read_bench(tmp_path / "b.toml")


def test_another_encoding_is_refused_with_its_line(tmp_path: Path) -> None:
    path = tmp_path / "b.toml"
    path.write_bytes('title = "x"\n[cell]\nanode = "nickel, gr\u00fcn"\n'.encode("latin-1"))
    with pytest.raises(BenchError, match=r"line 3: a character is not UTF-8; save the file as UTF-8"):
        read_bench(path)


def test_a_mark_in_front_and_windows_line_ends_are_read(tmp_path: Path) -> None:
    path = tmp_path / "b.toml"
    path.write_bytes(b'\xef\xbb\xbftitle = "x"\r\n[cell]\r\npH = 7\r\n')
    bench = read_bench(path)
    assert (bench.title, bench.cell.pH) == ("x", 7.0)


def test_a_complaint_about_a_file_names_the_file(tmp_path: Path) -> None:
    path = tmp_path / "b.toml"
    path.write_text("[cell]\npH = 70\n", encoding="utf-8")
    with pytest.raises(BenchError, match=r"b\.toml, line 2: cell\.pH = 70 is impossible"):
        read_bench(path)


def test_a_bench_read_from_its_own_text_is_the_same() -> None:
    bench = read_bench(EXAMPLE)
    again = parse_bench(bench.source_text, "recording")
    assert (again.supply, again.cell, again.meter, again.steps) == (
        bench.supply,
        bench.cell,
        bench.meter,
        bench.steps,
    )


KEYS = st.sampled_from(
    ["title", "steps", "nothing", "[supply]", "[cell]", "[meter]", "[settling]", "[[steps]]", "kind", "hold"]
    + [key for rules in SECTIONS.values() for key in rules]
)
VALUES = st.one_of(
    st.floats().map(repr),
    st.integers().map(str),
    st.sampled_from(
        ['"90s"', '"until settled"', '"note"', "true", "[]", "{}", "[{}]", "{a=1}", "1979-05-27", '"""\n"""']
    ),
    st.text(max_size=8),
)
LINES = st.one_of(
    st.text(max_size=20),
    st.sampled_from(["[supply]", "[cell]", "[meter]", "[settling]", "[[steps]]", "# x", ""]),
    st.builds("{} = {}".format, KEYS, VALUES),
)


@given(st.lists(LINES, max_size=12).map("\n".join))
@example("[cell]\nanode = '\ud800'")
@example("\ud800 = 1")
@example("a = 1e999999\n")
@example("[supply]\ncells = inf\n")
@example("[steps]\n[[steps]]\n")
def test_no_text_raises_anything_but_a_bench_error(text: str) -> None:
    bench, complaint = attempt(text)
    if bench is None:
        assert "; " in complaint
    else:
        assert all(math.isfinite(v) for v in (bench.settling.limit_mV_per_min, bench.settling.window_s))


@given(st.text())
def test_random_text_raises_nothing_but_a_bench_error(text: str) -> None:
    bench, complaint = attempt(text)
    assert bench is not None or complaint.startswith("b.toml, line ")
