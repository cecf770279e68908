"""The current through the cell. Check values: independent computation from Kirchhoff's laws, unless named."""

import math
from collections.abc import Callable

import numpy as np
import pytest

from logger.analysis.current import (
    Current,
    cell_current,
    cell_current_A,
    current_density_mA_cm2,
    current_from_shunt,
    currents_agree,
    meter_share,
    relative_current_change,
    relative_current_change_from_sag,
)
from logger.analysis.refusal import Refused
from logger.analysis.supply import SupplyCircuit, resistor_uncertainty_ohm


def test_a_whole_run_is_converted_at_once() -> None:
    voltage_V = np.array([2.250555, 2.00, 27.0, np.nan])
    current_A = cell_current_A(SupplyCircuit(27, 12000, 6), voltage_V)
    assert current_A[0] == pytest.approx(2.061423e-3, abs=6e-10)
    assert current_A[2] == 0.0
    assert np.isnan(current_A[3])


def test_the_uncertainty_from_tolerances() -> None:
    circuit = SupplyCircuit(27.0, 3300, 6, 0.05, resistor_uncertainty_ohm(3300, 5), 2)
    current = cell_current(circuit, 2.25, 0.01)
    assert 1000 * current.value_A == pytest.approx(7.486388, abs=6e-7)
    assert 1000 * current.standard_uncertainty_A == pytest.approx(0.216319, abs=6e-7)
    assert 100 * current.standard_uncertainty_A / current.value_A == pytest.approx(2.8895, abs=6e-5)


def test_the_uncertainty_agrees_with_the_uncertainties_package() -> None:
    uncertainties = pytest.importorskip("uncertainties")
    ufloat = uncertainties.ufloat
    theirs = (ufloat(27, 0.05) - ufloat(2.25, 0.01)) / (ufloat(3300, 95.0) + ufloat(6, 2.0))
    ours = cell_current(SupplyCircuit(27, 3300, 6, 0.05, 95.0, 2.0), 2.25, 0.01)
    assert ours.standard_uncertainty_A == pytest.approx(theirs.std_dev, rel=1e-12)


@pytest.mark.parametrize(("stack_V", "percent"), [(9, 3.70370), (18, 1.58730), (27, 1.01010), (36, 0.74074)])
def test_regulation_depends_on_the_stack_alone(stack_V: float, percent: float) -> None:
    for ohm in (1000.0, 12000.0):
        circuit = SupplyCircuit(stack_V, ohm, 3)
        change = relative_current_change(circuit, 2.25, 2.00)
        assert 100 * change == pytest.approx(percent, abs=6e-6)
        assert change == pytest.approx(circuit.current_A(2.00) / circuit.current_A(2.25) - 1, rel=1e-9)


def test_a_sagging_stack_lowers_the_current() -> None:
    change = relative_current_change_from_sag(SupplyCircuit(27, 3300, 6), 2.25, 0.27)
    assert 100 * change == pytest.approx(-1.0909, abs=5e-5)


def test_the_current_of_a_shunt() -> None:
    current = current_from_shunt(0.2061423, 100.0, 0.0005, 0.5)
    assert current.value_A == pytest.approx(2.061423e-3)
    relative = math.hypot(0.0005 / 0.2061423, 0.5 / 100.0)
    assert current.standard_uncertainty_A / current.value_A == pytest.approx(relative, rel=1e-12)
    assert current_from_shunt(-0.2, 100.0).value_A == pytest.approx(-2e-3)


def test_a_shunt_without_current_still_has_an_uncertainty() -> None:
    assert current_from_shunt(0.0, 100.0, 0.001).standard_uncertainty_A == pytest.approx(1e-5)


def test_two_currents_are_compared_within_three_combined_uncertainties() -> None:
    formula = Current(2.06e-3, 3e-6, "formula")
    assert currents_agree(formula, Current(2.07e-3, 4e-6, "shunt"))
    assert not currents_agree(formula, Current(2.08e-3, 4e-6, "shunt"))


def test_the_density_is_over_the_wetted_area() -> None:
    assert current_density_mA_cm2(2.061423e-3, 2.0) == pytest.approx(1.0307115)


@pytest.mark.parametrize(
    ("input_ohm", "percent"), [(10e6, 0.0109), (1e6, 0.109), (100e3, 1.091), (30e3, 3.638)]
)
def test_a_meter_takes_its_share_of_the_current(input_ohm: float, percent: float) -> None:
    assert 100 * meter_share(2.25, input_ohm, 2.061423e-3) == pytest.approx(percent, rel=2e-3)
    assert meter_share(-2.25, input_ohm, 2.061423e-3) > 0


@pytest.mark.parametrize(
    "attempt",
    [
        lambda: cell_current(SupplyCircuit(9, 1000), 9.0),
        lambda: cell_current(SupplyCircuit(9, 1000), math.nan),
        lambda: cell_current(SupplyCircuit(9, 1000), 2.0, -0.1),
        lambda: relative_current_change(SupplyCircuit(9, 1000), 9.0, 2.0),
        lambda: relative_current_change(SupplyCircuit(9, 1000), 2.0, 12.0),
        lambda: relative_current_change_from_sag(SupplyCircuit(9, 1000), 9.5, 0.1),
        lambda: current_from_shunt(0.1, 0.0),
        lambda: current_from_shunt(math.inf, 1.0),
        lambda: current_from_shunt(0.1, 1.0, -0.1),
        lambda: current_from_shunt(0.1, 1.0, 0.1, -0.1),
        lambda: current_density_mA_cm2(0.1, 0.0),
        lambda: meter_share(2.25, 0.0, 0.002),
        lambda: meter_share(2.25, 1e7, 0.0),
        lambda: current_density_mA_cm2(math.nan, 1.0),
    ],
)
def test_impossible_currents_are_refused(attempt: Callable[[], object]) -> None:
    with pytest.raises(Refused):
        attempt()
