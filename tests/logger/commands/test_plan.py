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
