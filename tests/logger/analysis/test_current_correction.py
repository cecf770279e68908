"""The correction of the saving to one current. Check values: independent computation from Tafel's law."""

import math
from collections.abc import Callable

import pytest

from logger.analysis.current_correction import (
    DEFAULT_KINETICS,
    CellKinetics,
    current_correction,
    estimated_ohmic_resistance_ohm,
    voltage_slope_ohm,
)
from logger.analysis.refusal import Refused
from logger.analysis.supply import SupplyCircuit

GENTLE = CellKinetics(0.100, 0.0, 20.0, 0.0)
SIMULATED = CellKinetics(0.180, 0.0, 20.0, 0.0)


@pytest.mark.parametrize(
    ("stack_V", "ohm", "inner", "first_order_mV", "exact_mV"),
    [(27, 3300, 6, 1.951083, 1.948882), (9, 1000, 3, 6.593543, 6.564472)],
)
def test_the_exact_form_and_its_first_order(
    stack_V: float, ohm: float, inner: float, first_order_mV: float, exact_mV: float
) -> None:
    circuit = SupplyCircuit(stack_V, ohm, inner)
    before_A, after_A = circuit.current_A(2.25), circuit.current_A(2.00)
    correction = current_correction(before_A, after_A, GENTLE)
    assert 1000 * correction.value_V == pytest.approx(exact_mV, abs=6e-7)
    first_order = voltage_slope_ohm(before_A, GENTLE) * (after_A - before_A)
    assert 1000 * first_order == pytest.approx(first_order_mV, abs=6e-7)


def test_the_slope_of_the_cell() -> None:
    assert voltage_slope_ohm(7.486388e-3, GENTLE) == pytest.approx(25.80112, abs=6e-6)


@pytest.mark.parametrize(
    ("before_mA", "after_mA", "truth_mV"),
    # Truth of the simulated cell for 27 V behind 12 kohm and for 9 V behind 3.3 kohm: root of its equations.
    [(2.061423, 2.082626, 1.223980), (2.041991, 2.117961, 4.374984)],
)
def test_it_corrects_the_simulated_cell_exactly(before_mA: float, after_mA: float, truth_mV: float) -> None:
    correction = current_correction(before_mA / 1000, after_mA / 1000, SIMULATED)
    assert 1000 * correction.value_V == pytest.approx(truth_mV, abs=1e-4)  # currents are given to 1 nA
    assert correction.standard_uncertainty_V == 0.0
    assert not correction.is_assumed


def test_the_uncertainty_agrees_with_the_uncertainties_package() -> None:
    uncertainties = pytest.importorskip("uncertainties")
    umath = pytest.importorskip("uncertainties.umath")
    ratio = uncertainties.ufloat(2.082626 / 2.061423, 0.004 * 2.082626 / 2.061423)
    slope = uncertainties.ufloat(0.18, 0.06)
    ohm = uncertainties.ufloat(20.0, DEFAULT_KINETICS.ohmic_resistance_uncertainty_ohm)
    theirs = slope * umath.log10(ratio) + ohm * 2.061423e-3 * (ratio - 1)
    ours = current_correction(2.061423e-3, 2.082626e-3, ratio_uncertainty=0.004)
    assert ours.value_V == pytest.approx(theirs.nominal_value, rel=1e-12)
    assert ours.standard_uncertainty_V == pytest.approx(theirs.std_dev, rel=1e-9)
    assert ours.is_assumed


def test_a_constant_current_needs_no_correction() -> None:
    correction = current_correction(2e-3, 2e-3)
    assert (correction.value_V, correction.standard_uncertainty_V) == (0.0, 0.0)


def test_a_falling_current_corrects_the_other_way() -> None:
    assert current_correction(2.1e-3, 2.0e-3).value_V < 0


def test_the_resistance_between_two_plates() -> None:
    # 5 mm of a solution of 1 S/m over 2 cm2, by hand.
    assert estimated_ohmic_resistance_ohm(5.0, 2.0) == pytest.approx(25.0)


@pytest.mark.parametrize(
    ("attempt", "words"),
    [
        (lambda: current_correction(0.0, 2e-3), "current before"),
        (lambda: current_correction(2e-3, -2e-3), "current after"),
        (lambda: current_correction(2.0e-3, 2.3e-3), "do not belong to the same current"),
        (lambda: current_correction(2.3e-3, 2.0e-3), r"percent: -13\.0435 is refused.*within 10 %"),
        (lambda: current_correction(2e-3, math.nan), "not a finite number"),
        (lambda: current_correction(2e-3, 2e-3, ratio_uncertainty=-1), "current ratio"),
        (lambda: CellKinetics(-0.1, 0, 20, 0), "Tafel slope"),
        (lambda: CellKinetics(0.1, 0, -20, 0), "ohmic resistance"),
        (lambda: voltage_slope_ohm(0.0, GENTLE), "current in A"),
        (lambda: estimated_ohmic_resistance_ohm(0.0, 2.0), "spacing"),
        (lambda: estimated_ohmic_resistance_ohm(5.0, 0.0), "area"),
        (lambda: estimated_ohmic_resistance_ohm(5.0, 2.0, 0.0), "conductivity"),
    ],
)
def test_impossible_corrections_are_refused(attempt: Callable[[], object], words: str) -> None:
    with pytest.raises(Refused, match=words):
        attempt()
