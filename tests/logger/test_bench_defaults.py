"""What is assumed where the bench file is silent, and that it is said."""

import math

import pytest

from logger.analysis.current_correction import DEFAULT_KINETICS
from logger.bench import parse_bench
from logger.bench_defaults import bench_accuracy, bench_circuit, bench_conditions, bench_kinetics

SUPPLY = """
[supply]
stack_voltage_V = 27.0
internal_resistance_ohm = 6.0
resistor_ohm = 12000
resistor_tolerance_percent = 1.0
"""
METER = """
[meter]
resolution_V = 0.001
accuracy_percent_of_reading = 0.5
accuracy_counts = 2
"""


def test_given_conditions_are_taken_as_they_are() -> None:
    conditions = bench_conditions(parse_bench("[cell]\ntemperature_C = 19\npressure_kPa = 98"))
    assert (conditions.temperature_C, conditions.pressure_Pa, conditions.assumed) == (19.0, 98000.0, ())


def test_assumed_conditions_are_named_one_by_one() -> None:
    assert bench_conditions(parse_bench("")).assumed == (
        "the cell at 22 °C",
        "an air pressure of 101.325 kPa",
    )
    assert bench_conditions(parse_bench("[cell]\ntemperature_C = 0")).assumed == (
        "an air pressure of 101.325 kPa",
    )


def test_a_bench_that_gives_everything_assumes_nothing() -> None:
    got = bench_circuit(parse_bench(SUPPLY + METER))
    assert got.circuit is not None
    assert (got.missing, got.assumed) == ((), ())
    assert got.circuit.loop_resistance_ohm == 12006.0
    assert got.circuit.resistor_uncertainty_ohm == pytest.approx(120 / math.sqrt(3))
    assert got.circuit.stack_voltage_uncertainty_V == pytest.approx((0.135 + 0.002) / math.sqrt(3))


def test_what_stands_in_for_missing_keys_is_said() -> None:
    got = bench_circuit(parse_bench("[supply]\ncells = 3\ncell_voltage_V = 9.0\nresistor_ohm = 12000"))
    assert got.circuit is not None
    assert got.circuit.stack_voltage_V == 27.0
    assert got.circuit.stack_voltage_uncertainty_V == pytest.approx(2.7 / math.sqrt(3))
    assert got.circuit.internal_resistance_ohm == 6.0
    assert got.circuit.internal_resistance_uncertainty_ohm == pytest.approx(6 / math.sqrt(3))
    assert got.assumed == (
        "an internal resistance of 0 to 12 Ω",
        "a resistor tolerance of 5 %",
        "a stack of 27 V as declared, within 10 %",
    )


def test_a_stack_voltage_from_an_unknown_meter_is_known_to_one_percent() -> None:
    got = bench_circuit(parse_bench(SUPPLY))
    assert got.circuit is not None
    assert got.circuit.stack_voltage_uncertainty_V == pytest.approx(0.27 / math.sqrt(3))
    assert got.assumed == ("a stack voltage measured within 1 %",)


@pytest.mark.parametrize(
    ("text", "missing"),
    [
        ("", ("supply.stack_voltage_V", "supply.resistor_ohm")),
        ("[supply]\ncells = 3\nresistor_ohm = 12000", ("supply.stack_voltage_V",)),
        ("[supply]\nstack_voltage_V = 27", ("supply.resistor_ohm",)),
    ],
)
def test_without_stack_or_resistor_there_is_no_circuit(text: str, missing: tuple[str, ...]) -> None:
    got = bench_circuit(parse_bench(text))
    assert got.circuit is None
    assert got.missing == missing


def test_the_accuracy_of_the_meter_names_what_is_missing() -> None:
    full = bench_accuracy(parse_bench(METER).meter)
    assert (full.accuracy.percent_of_reading, full.accuracy.counts, full.missing) == (0.5, 2.0, ())
    empty = bench_accuracy(parse_bench("[meter]\naccuracy_counts = 2").meter)
    assert empty.missing == ("meter.accuracy_percent_of_reading", "meter.resolution_V")
    assert empty.accuracy.offset_uncertainty_V == 0.0
    halved = bench_accuracy(parse_bench(METER.replace("[meter]", "[meter]\ngain = 0.5")).meter).accuracy
    assert halved.resolution_V == 2.0 * full.accuracy.resolution_V


def test_the_ohmic_resistance_comes_from_spacing_and_area_where_both_are_given() -> None:
    got = bench_kinetics(parse_bench("[cell]\nspacing_mm = 5\nanode_area_cm2 = 2").cell)
    assert got.kinetics.ohmic_resistance_ohm == pytest.approx(25.0)
    assert got.kinetics.ohmic_resistance_uncertainty_ohm == pytest.approx(12.5 / math.sqrt(3))
    assert got.kinetics.is_assumed
    assert "25 Ω from spacing and area" in got.assumed[1]
    silent = bench_kinetics(parse_bench("[cell]\nspacing_mm = 5").cell)
    assert silent.kinetics == DEFAULT_KINETICS
    assert silent.assumed == (
        "Tafel slopes of 180 ± 60 mV per decade together",
        "an ohmic resistance of 0 to 40 Ω",
    )
