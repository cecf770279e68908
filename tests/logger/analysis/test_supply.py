"""The stack and its resistor. Check values: independent computation from Kirchhoff's laws, unless named."""

import math
from collections.abc import Callable

import pytest

from logger.analysis.refusal import Refused
from logger.analysis.resistor import nearest_preferred_ohm
from logger.analysis.supply import (
    STACK_AGREEMENT,
    SupplyCircuit,
    battery_life_h,
    fuse_range_A,
    internal_resistance,
    resistor_uncertainty_ohm,
    stack_deviation,
    wanted_resistor_ohm,
)

# Vs, R, r, I(2.25 V) mA, I(2.00 V) mA, power in R at 2.25 V / W, touching current mA, touching power W
TABLE = [
    (9, 1000, 3, 6.729811, 6.979063, 0.045290, 8.973081, 0.08052),
    (18, 3300, 4, 4.766949, 4.842615, 0.074989, 5.447942, 0.09794),
    (27, 3300, 6, 7.486388, 7.562008, 0.184952, 8.166969, 0.22011),
    (36, 6800, 8, 4.957403, 4.994125, 0.167116, 5.287897, 0.19014),
]


@pytest.mark.parametrize(
    ("stack_V", "ohm", "inner", "at225", "at200", "power", "short", "short_power"), TABLE
)
def test_currents_and_powers_of_the_table(
    stack_V: float,
    ohm: float,
    inner: float,
    at225: float,
    at200: float,
    power: float,
    short: float,
    short_power: float,
) -> None:
    circuit = SupplyCircuit(stack_V, ohm, inner)
    assert 1000 * circuit.current_A(2.25) == pytest.approx(at225, abs=6e-7)
    assert 1000 * circuit.current_A(2.00) == pytest.approx(at200, abs=6e-7)
    assert circuit.resistor_power_W(2.25) == pytest.approx(power, abs=6e-7)
    assert 1000 * circuit.touching_current_A == pytest.approx(short, abs=6e-7)
    assert circuit.touching_power_W == pytest.approx(short_power, abs=6e-6)


def test_the_powers_add_up() -> None:
    circuit = SupplyCircuit(27, 12000, 6)
    inner_W = circuit.current_A(2.25) ** 2 * 6
    spent_W = circuit.cell_power_W(2.25) + circuit.resistor_power_W(2.25) + inner_W
    assert circuit.stack_power_W(2.25) == pytest.approx(spent_W, rel=1e-12)
    assert circuit.cell_power_W(2.25) / circuit.stack_power_W(2.25) == pytest.approx(2.25 / 27)


@pytest.mark.parametrize(
    ("stack_V", "loop_ohm", "input_ohm", "reading_V"),
    [
        (27.0, 12006, 10e6, 26.967623),
        (27.85, 3306, 10e6, 27.840796),
        (27.85, 3306, 1e6, 27.758231),
        (27.85, 3306, math.inf, 27.85),
    ],
)
def test_a_dry_cell_reads_nearly_the_whole_stack(
    stack_V: float, loop_ohm: float, input_ohm: float, reading_V: float
) -> None:
    circuit = SupplyCircuit(stack_V, loop_ohm - 6, 6)
    assert circuit.dry_cell_voltage_V(input_ohm) == pytest.approx(reading_V, abs=6e-7)


def test_internal_resistance_from_an_open_and_a_loaded_reading() -> None:
    got = internal_resistance(27.85, 27.80, 7.70e-3, reading_uncertainty_V=0.010)
    assert got.value_ohm == pytest.approx(6.4935, abs=5e-5)
    assert got.standard_uncertainty_ohm == pytest.approx(1.84, abs=5e-3)


def test_internal_resistance_of_the_published_double_pulse() -> None:
    # Technical bulletin "Battery Internal Resistance" 1.1.0 (2005): 1.485 V to 1.378 V for 500 mA more.
    assert internal_resistance(1.485, 1.378, 0.5).value_ohm == pytest.approx(0.214, abs=5e-4)


def test_equal_readings_are_no_resistance_and_no_mistake() -> None:
    assert internal_resistance(27.0, 27.0, 0.01).value_ohm == 0.0


def test_internal_resistance_carries_the_uncertainty_of_the_current() -> None:
    uncertainties = pytest.importorskip("uncertainties")
    opened, loaded = uncertainties.ufloat(27.85, 0.01), uncertainties.ufloat(27.0, 0.01)
    theirs = (opened - loaded) / uncertainties.ufloat(0.1, 0.002)
    ours = internal_resistance(27.85, 27.0, 0.1, 0.01, 0.002)
    assert ours.value_ohm == pytest.approx(theirs.nominal_value, rel=1e-12)
    assert ours.standard_uncertainty_ohm == pytest.approx(theirs.std_dev, rel=1e-9)


@pytest.mark.parametrize(
    ("density_mA_cm2", "wanted_ohm", "e24_ohm", "e24_mA", "e96_ohm"),
    # 1 cm2 in a 27 V stack at 2.25 V; preferred values: IEC 60063.
    [
        (1, 24744, 24000, 1.030992, 24900),
        (2, 12369, 12000, 2.061469, 12400),
        (5, 4944, 5100, 4.847239, 4990),
        (10, 2469, 2400, 10.286783, 2490),
    ],
)
def test_choosing_a_resistor(
    density_mA_cm2: float, wanted_ohm: float, e24_ohm: float, e24_mA: float, e96_ohm: float
) -> None:
    wanted = wanted_resistor_ohm(27, 2.25, density_mA_cm2 / 1000, 6)
    assert wanted == pytest.approx(wanted_ohm, abs=1e-6)
    assert nearest_preferred_ohm(wanted) == e24_ohm
    assert 1000 * SupplyCircuit(27, e24_ohm, 6).current_A(2.25) == pytest.approx(e24_mA, abs=6e-7)
    assert nearest_preferred_ohm(wanted, "E96") == e96_ohm


def test_battery_life() -> None:
    assert battery_life_h(500, 7.48639e-3) == pytest.approx(66.788, abs=5e-4)


def test_the_rating_must_bear_touching_electrodes() -> None:
    circuit = SupplyCircuit(9, 1000)
    assert circuit.touching_power_W == pytest.approx(0.081)
    circuit.check_rating(0.25)
    with pytest.raises(
        Refused, match=r"touching electrodes would put 0\.081 W into it; take a resistor of at least 1296 ohm"
    ):
        circuit.check_rating(0.0625)


@pytest.mark.parametrize("inner", [0.0, 6.0])
def test_the_least_resistor_is_loaded_exactly_to_its_rating(inner: float) -> None:
    least_ohm = SupplyCircuit(27, 3300, inner).least_resistor_ohm(0.125)
    assert SupplyCircuit(27, least_ohm, inner).touching_power_W == pytest.approx(0.125, rel=1e-9)


def test_a_weak_stack_can_overload_no_resistor() -> None:
    # The most a source gives away is Vs^2/(4r): 27 V behind 1 kohm cannot heat anything with 1 W.
    for rating_W in (0.1823, 0.25, 1.0):
        assert SupplyCircuit(27, 3300, 1000).least_resistor_ohm(rating_W) == 0.0
    assert SupplyCircuit(27, 3300, 1000).least_resistor_ohm(0.1822) > 0.0


def test_the_fuse_lies_above_the_working_current_and_below_the_short() -> None:
    low_A, high_A = fuse_range_A(SupplyCircuit(27, 3300, 6), 2.25)
    assert (low_A, high_A) == pytest.approx((1.5 * 7.486388e-3, 5 * 7.486388e-3), rel=1e-6)
    assert fuse_range_A(SupplyCircuit(27, 3300), 2.25)[1] == pytest.approx(5 * 7.5e-3)
    _, limited_A = fuse_range_A(SupplyCircuit(9, 100, 100), 2.0)
    assert limited_A == pytest.approx(0.09)


def test_declared_batteries_are_compared_with_the_reading() -> None:
    assert stack_deviation(3, 9.0, 27.0) == pytest.approx(0.0)
    assert stack_deviation(3, 9.0, 18.0) < -STACK_AGREEMENT


def test_the_uncertainty_of_a_tolerance() -> None:
    assert resistor_uncertainty_ohm(3300, 5) == pytest.approx(165 / math.sqrt(3))


@pytest.mark.parametrize(
    ("attempt", "words"),
    [
        (lambda: SupplyCircuit(-27, 3300), "polarity is reversed"),
        (lambda: SupplyCircuit(0, 3300), "more than zero"),
        (lambda: SupplyCircuit(60.1, 3300), "outside extra-low voltage"),
        (lambda: SupplyCircuit(math.nan, 3300), "not a finite number"),
        (lambda: SupplyCircuit(27, 0), "series resistor"),
        (lambda: SupplyCircuit(27, -1), "series resistor"),
        (lambda: SupplyCircuit(27, 3300, -1), "internal resistance"),
        (lambda: SupplyCircuit(27, 3300, 6, -0.1), "standard uncertainty of the stack voltage"),
        (lambda: SupplyCircuit(27, 3300).check_drive(27.0), "no current flows"),
        (lambda: SupplyCircuit(27, 3300).dry_cell_voltage_V(0), "input resistance"),
        (lambda: SupplyCircuit(27, 3300).check_rating(0), "power rating"),
        (lambda: internal_resistance(27.0, 27.1, 0.01), "readings are swapped"),
        (lambda: internal_resistance(27.0, 26.9, 0.0), "load current"),
        (lambda: wanted_resistor_ohm(2.0, 2.25, 0.001), "cannot drive"),
        (lambda: wanted_resistor_ohm(9.0, 2.25, 0.001, 7000), "cannot drive"),
        (lambda: wanted_resistor_ohm(2.25, 2.25, 0.001), "cannot drive"),
        (lambda: wanted_resistor_ohm(9.0, 2.25, 0.0), "current in A"),
        (lambda: battery_life_h(500, 0), "current in A"),
        (lambda: battery_life_h(-500, 1), "capacity"),
        (lambda: fuse_range_A(SupplyCircuit(9, 1000), 9.5), "no current flows"),
        (lambda: stack_deviation(0, 9.0, 27.0), "cells in the stack"),
        (lambda: resistor_uncertainty_ohm(3300, 101), "tolerance"),
    ],
)
def test_impossible_supplies_are_refused(attempt: Callable[[], object], words: str) -> None:
    with pytest.raises(Refused, match=words):
        attempt()
