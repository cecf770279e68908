"""Check values worked out beforehand with scipy from the formulas that `physics` names."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from drivers.simulated.physics import (
    CellBuild,
    Supply,
    avrami_coverage,
    logistic_coverage,
    operate_at_current,
    operate_on_supply,
    reversible_voltage_V,
)

BUILD = CellBuild()
STACK_27 = Supply()
BLOCK_9 = Supply(stack_V=9.0, resistor_ohm=3300.0, internal_ohm=6.0)


@pytest.mark.parametrize(
    ("temperature_C", "pressure_Pa", "expected_V"),
    [
        # Section 1, column "E_rev wet", and its further checks.
        (20, 101325, 1.232938),
        (22, 101325, 1.231181),
        (25, 101325, 1.228534),
        (60, 101325, 1.195163),
        (80, 101325, 1.169035),
        (25, 1e5, 1.228272),
        (20, 85e3, 1.229524),
    ],
)
def test_reversible_voltage(temperature_C: float, pressure_Pa: float, expected_V: float) -> None:
    assert reversible_voltage_V(temperature_C, pressure_Pa) == pytest.approx(expected_V, abs=6e-7)


@pytest.mark.parametrize(("temperature_C", "pressure_Pa"), [(-1, 1e5), (101, 1e6), (100, 1e5), (295.15, 1e5)])
def test_no_reversible_voltage_without_liquid_water(temperature_C: float, pressure_Pa: float) -> None:
    with pytest.raises(ValueError, match="water"):
        reversible_voltage_V(temperature_C, pressure_Pa)


@pytest.mark.parametrize(
    ("supply", "coverage", "current_mA", "voltage_V", "anode_V", "cathode_V"),
    [
        # Section 10, table "truth": before and after, both supplies.
        (STACK_27, 0.0, 2.061423, 2.250555, 0.736569, 0.241576),
        (STACK_27, 1.0, 2.082626, 1.995998, 0.481055, 0.242110),
        (BLOCK_9, 0.0, 2.041991, 2.249179, 0.736075, 0.241083),
        (BLOCK_9, 1.0, 2.117961, 1.998020, 0.481493, 0.242987),
    ],
)
def test_operating_points(
    supply: Supply, coverage: float, current_mA: float, voltage_V: float, anode_V: float, cathode_V: float
) -> None:
    point = operate_on_supply(BUILD, supply, coverage)
    assert 1e3 * point.current_A == pytest.approx(current_mA, abs=6e-7)
    assert point.voltage_V == pytest.approx(voltage_V, abs=6e-7)
    assert point.anode_V == pytest.approx(anode_V, abs=6e-7)
    assert point.cathode_V == pytest.approx(cathode_V, abs=6e-7)


@pytest.mark.parametrize(
    ("supply", "raw_mV", "equal_current_mV", "correction_mV"),
    [
        # Section 10, table "truth": raw saved, saved at the before-current, exact correction.
        (STACK_27, 254.556896, 255.780876, 1.223980),
        (BLOCK_9, 251.159089, 255.534073, 4.374984),
    ],
)
def test_voltage_saved(supply: Supply, raw_mV: float, equal_current_mV: float, correction_mV: float) -> None:
    before = operate_on_supply(BUILD, supply, 0.0)
    after = operate_on_supply(BUILD, supply, 1.0)
    equal = operate_at_current(BUILD, before.current_A, 1.0)
    raw = 1e3 * (before.voltage_V - after.voltage_V)
    at_equal_current = 1e3 * (before.voltage_V - equal.voltage_V)
    assert raw == pytest.approx(raw_mV, abs=6e-7)
    assert at_equal_current == pytest.approx(equal_current_mV, abs=6e-7)
    assert at_equal_current - raw == pytest.approx(correction_mV, abs=6e-7)


@pytest.mark.parametrize(
    ("supply", "correction_mV"), [(STACK_27, 1.219901), (BLOCK_9, 4.323458)]
)  # section 10, "first order"
def test_first_order_correction(supply: Supply, correction_mV: float) -> None:
    before = operate_on_supply(BUILD, supply, 0.0)
    after = operate_on_supply(BUILD, supply, 1.0)
    slopes_V = BUILD.catalysed.slope_V + BUILD.cathode.slope_V
    ohm = slopes_V / (math.log(10) * after.current_A) + BUILD.ohmic_resistance_ohm
    assert 1e3 * ohm * (after.current_A - before.current_A) == pytest.approx(correction_mV, abs=6e-7)


def test_voltage_against_coverage() -> None:
    # Section 10, "V against th (27 V)".
    coverage = np.array([1e-6, 1e-4, 1e-3, 1e-2, 0.1, 0.5])
    expected = [2.249631, 2.216117, 2.169109, 2.113534, 2.055169, 2.013839]
    assert operate_on_supply(BUILD, STACK_27, coverage).voltage_V == pytest.approx(expected, abs=6e-7)


def test_voltage_during_logistic_growth() -> None:
    # Section 10, "Logistic V at 60, 300, 600, 900, 1200 s".
    coverage = logistic_coverage(np.array([60.0, 300.0, 600.0, 900.0, 1200.0]))
    expected = [2.248148, 2.209134, 2.094239, 2.002868, 1.996051]
    assert operate_on_supply(BUILD, STACK_27, coverage).voltage_V == pytest.approx(expected, abs=6e-7)


def test_voltage_during_avrami_growth() -> None:
    # Section 10, "Avrami V at 1, 10, 60, 300, 600, 1800 s".
    coverage = avrami_coverage(np.array([1.0, 10.0, 60.0, 300.0, 600.0, 1800.0]))
    expected = [2.222338, 2.151184, 2.084929, 2.027166, 2.007805, 1.996141]
    assert operate_on_supply(BUILD, STACK_27, coverage).voltage_V == pytest.approx(expected, abs=6e-7)


@pytest.mark.parametrize(
    ("stack_V", "line_ohm", "input_ohm", "expected_V"),
    [(27.0, 12006, 10e6, 26.967623), (27.85, 3306, 10e6, 27.840796), (27.85, 3306, 1e6, 27.758231)],
)  # section 2, "Dry cell"
def test_dry_reading(stack_V: float, line_ohm: float, input_ohm: float, expected_V: float) -> None:
    supply = Supply(stack_V, line_ohm - 6.0, 6.0, input_ohm)
    assert supply.open_circuit_V() == pytest.approx(expected_V, abs=6e-7)


@given(
    coverage=st.floats(0, 1),
    stack_V=st.floats(3, 60),
    line_ohm=st.floats(100, 1e5),
    area_cm2=st.floats(0.1, 10),
)
def test_current_agrees_with_a_bracketing_root(
    coverage: float, stack_V: float, line_ohm: float, area_cm2: float
) -> None:
    # A slow second solution: Brent's method on the current, with its own root for the anode.
    def voltage_V(current_A: float) -> float:
        density = 1e3 * current_A / area_cm2

        def surplus(eta: float) -> float:
            bare = (1 - coverage) * 7.5e-7 * 10 ** (eta / 0.12)
            return math.log((bare + coverage * 1e-8 * 10 ** (eta / 0.06)) / density)

        anode_V = brentq(surplus, -2.0, 3.0, xtol=1e-13)
        cathode_V = 0.12 * math.log10(density / 1e-2)
        return float(reversible_voltage_V(22, 101325) + anode_V + cathode_V + 20 * current_A)

    current_A = brentq(lambda i: stack_V - voltage_V(i) - i * line_ohm, 1e-9, stack_V / line_ohm, xtol=1e-16)
    point = operate_on_supply(BUILD, Supply(stack_V, line_ohm, 0.0), coverage, area_cm2=area_cm2)
    assert point.current_A == pytest.approx(current_A, rel=1e-9)
    assert point.voltage_V == pytest.approx(voltage_V(current_A), abs=1e-9)


@given(st.floats(0, 1), st.floats(1e-6, 1e-1))
def test_the_two_ways_to_set_the_point_agree(coverage: float, current_A: float) -> None:
    wanted = operate_at_current(BUILD, current_A, coverage)
    stack_V = float(wanted.voltage_V + current_A * STACK_27.line_ohm)
    found = operate_on_supply(BUILD, STACK_27, coverage, stack_V=stack_V)
    assert found.current_A == pytest.approx(current_A, rel=1e-9)
    assert found.voltage_V == pytest.approx(float(wanted.voltage_V), abs=1e-9)


@given(st.lists(st.floats(0, 1), min_size=1, max_size=30))
def test_points_solved_together_are_those_solved_alone(coverages: list[float]) -> None:
    together = operate_on_supply(BUILD, STACK_27, np.array(coverages)).voltage_V
    alone = [float(operate_on_supply(BUILD, STACK_27, np.array([c])).voltage_V[0]) for c in coverages]
    assert together.tolist() == alone


def test_a_stack_too_low_to_split_water_is_refused() -> None:
    with pytest.raises(ValueError, match="cannot split water"):
        operate_on_supply(BUILD, Supply(stack_V=1.2), 0.0)


@pytest.mark.parametrize("current_A", [0.0, -1e-3, math.nan])
def test_a_current_without_logarithm_is_refused(current_A: float) -> None:
    with pytest.raises(ValueError, match="above zero"):
        operate_at_current(BUILD, current_A, 0.0)
