"""The command that sizes the supply."""

import json

import pytest

from logger.commands import main

BENCH = "[supply]\nstack_voltage_V = 27.0\nresistor_ohm = 12000\n[cell]\nanode_area_cm2 = 2.0\n"


@pytest.fixture
def bench(tmp_path):
    path = tmp_path / "bench.toml"
    path.write_text(BENCH)
    return str(path)


def test_text_comes_first(bench, capsys) -> None:
    assert main(["plan", "--bench", bench]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert out.startswith("Stack")
    assert "12\u00a0kΩ, as in the bench file" in out


def test_a_density_needs_the_area_of_the_bench(bench, capsys) -> None:
    assert main(["plan", "--bench", bench, "--current-density", "1", "--json"]) == 0
    plan = json.loads(capsys.readouterr().out)
    assert plan["wanted_current_A"] == pytest.approx(0.002)
    assert plan["resistor"]["series"] == "E24"
    assert plan["resistor"]["resistor_ohm"] == 12000
    assert plan["current"]["density_before_mA_cm2"] == pytest.approx(1.0307, abs=5e-5)


def test_a_current_needs_no_bench(capsys) -> None:
    assert main(["plan", "--current", "0.002", "--json"]) == 0
    plan = json.loads(capsys.readouterr().out)
    assert plan["stack_source"] == "assumed"
    assert plan["cautions"][0].keys() == {"code", "message", "at_s"}


@pytest.mark.parametrize(
    ("headspace_mL", "current_A", "words"),
    [
        (250, "0.002", "after 10\N{NO-BREAK SPACE}h"),
        (30, "0.002", "after 77\N{NO-BREAK SPACE}min"),
        (1, "0.02", "after 15\N{NO-BREAK SPACE}s"),
    ],
)
def test_the_time_until_a_headspace_could_be_lit_is_never_rounded_up(
    tmp_path, capsys, headspace_mL, current_A, words
):
    """0.4487647 mL of hydrogen an hour per mA (dry, 20 degC): 10.81 h to 4 % of 250 mL, 77.8 min for 30; with
    the 20.5 mA of a resistor of 1.2 kohm 15.6 s for 1 mL."""
    bench = tmp_path / "b.toml"
    bench.write_text(
        "[supply]\nstack_voltage_V = 27.0\ninternal_resistance_ohm = 6\n"
        f"[cell]\ntemperature_C = 20\npressure_kPa = 101.325\nheadspace_mL = {headspace_mL}\n"
    )
    assert main(["plan", "--bench", str(bench), "--current", current_A]) == 0
    assert words in capsys.readouterr().out


@pytest.mark.parametrize("typed", ["2mA", "0,002", "two"])
def test_a_current_that_is_no_number_is_told_how_to_write(typed, capsys) -> None:
    assert main(["plan", "--current", typed]) == 2
    said = " ".join(capsys.readouterr().err.split())
    assert f"'{typed}' is not a number; give it with a point and without a unit, for example 0.002" in said
