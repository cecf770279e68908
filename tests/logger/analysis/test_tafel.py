"""Tafel lines. Check values: independent computation with scipy 1.17.1 from a stated truth, unless named."""

import math

import numpy as np
import pytest

from drivers.simulated.physics import CellBuild, Supply, operate_on_supply
from drivers.simulated.portable_noise import normals
from logger.analysis.refusal import Refused
from logger.analysis.tafel import SLOPE_RANGE_V, fit_tafel, thermal_slope_V
from logger.analysis.tafel_hysteresis import tafel_hysteresis
from tests.logger.analysis import nist_linear

# T1: overpotentials of one electrode of 1 cm2, 60 mV per decade, j0 = 1e-8 mA/cm2.
J = np.array([0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0])
T1 = 0.060 * np.log10(J / 1e-8)
OHMIC = 10.0 * J / 1000.0  # 10 ohm cm2
NOISE = 0.001 * normals(7)
ONE = {"area_cm2": 1.0, "electrodes": 1}

# A 27 V stack of 6 ohm on a cell of 2 cm2, R = 2.2k 4.7k 10k 22k 47k 100k: currents in mA, cell voltages.
CATALYSED = (
    [11.192362, 5.284145, 2.496657, 1.139236, 0.534851, 0.252042],
    [2.309649, 2.132814, 2.018453, 1.929971, 1.858774, 1.794301],
)
BARE = (
    [11.058216, 5.225081, 2.470755, 1.128370, 0.530179, 0.250041],
    [2.605575, 2.410770, 2.277621, 2.169082, 2.078391, 1.994450],
)
RESISTORS_OHM = (2200, 4700, 10000, 22000, 47000, 100000)


def codes(fit):
    return {one.code for one in fit.cautions}


def test_t1_has_the_printed_overpotentials() -> None:
    printed = [0.42, 0.4380618, 0.4619382, 0.48, 0.4980618, 0.5219382, 0.54]
    assert T1.tolist() == pytest.approx(printed, abs=5e-8)


def test_t1_without_noise_returns_the_truth() -> None:
    fit = fit_tafel(J / 1000, T1, with_ohmic=False, **ONE)
    assert fit.slope_V_per_decade.value == pytest.approx(0.060, rel=1e-10)
    assert fit.log10_exchange_density().value == pytest.approx(-8.0, rel=1e-10)
    assert fit.decades == pytest.approx(2.0)
    assert not fit.is_indicative
    assert codes(fit) == set()


def test_an_ignored_ohmic_drop_looks_straight_and_is_wrong() -> None:
    volts = T1 + OHMIC
    fit = fit_tafel(J / 1000, volts, with_ohmic=False, **ONE)
    assert fit.slope_V_per_decade.value == pytest.approx(0.10339789, abs=5e-9)
    assert fit.slope_V_per_decade.standard_uncertainty == pytest.approx(0.01134, abs=5e-6)
    assert fit.log10_exchange_density().value == pytest.approx(-4.90201, abs=5e-6)
    r_squared = 1.0 - (fit.residuals_V**2).sum() / ((volts - volts.mean()) ** 2).sum()
    assert r_squared == pytest.approx(0.943, abs=5e-4)
    assert "ohmic_left_out" in codes(fit)


def test_t1_with_noise() -> None:
    fit = fit_tafel(J / 1000, T1 + NOISE, with_ohmic=False, **ONE)
    assert fit.slope_V_per_decade.value == pytest.approx(0.05943873, abs=5e-9)
    assert fit.slope_V_per_decade.standard_uncertainty == pytest.approx(0.00065266, abs=5e-9)
    assert fit.slope_interval95_V == pytest.approx((0.05776102, 0.06111645), abs=5e-9)
    exchange = fit.log10_exchange_density()
    assert exchange.value == pytest.approx(-8.06624, abs=5e-6)
    assert exchange.standard_uncertainty == pytest.approx(0.08888, abs=5e-6)
    assert "ohmic_left_out" not in codes(fit)


def test_t1_with_noise_and_ohmic_drop() -> None:
    fit = fit_tafel(J / 1000, T1 + OHMIC + NOISE, **ONE)
    resistance = fit.ohmic_resistance_ohm
    assert resistance is not None
    assert fit.intercept_V.value == pytest.approx(0.4807256, abs=5e-8)
    assert fit.intercept_V.standard_uncertainty == pytest.approx(0.00051, abs=5e-6)
    assert fit.slope_V_per_decade.value == pytest.approx(0.06150462, abs=5e-9)
    assert fit.slope_V_per_decade.standard_uncertainty == pytest.approx(0.00081, abs=5e-6)
    assert resistance.value == pytest.approx(9.52397, abs=5e-6)
    assert resistance.standard_uncertainty == pytest.approx(0.16, abs=5e-3)


@pytest.mark.parametrize(
    ("points", "slope_V", "intercept_V", "two_term_V"),
    [(CATALYSED, 0.180, 1.951181, 0.301463), (BARE, 0.240, 2.206174, 0.360143)],
)
def test_a_set_of_resistors(points, slope_V: float, intercept_V: float, two_term_V: float) -> None:
    amperes = np.array(points[0]) / 1000
    fit = fit_tafel(amperes, points[1], area_cm2=2.0)
    assert fit.slope_V_per_decade.value == pytest.approx(slope_V, abs=2e-6)
    assert fit.intercept_V.value == pytest.approx(intercept_V, abs=1e-6)
    assert fit.ohmic_resistance_ohm is not None
    assert fit.ohmic_resistance_ohm.value == pytest.approx(20.0, abs=1e-4)
    assert codes(fit) == set()
    without = fit_tafel(amperes, points[1], area_cm2=2.0, with_ohmic=False)
    assert without.slope_V_per_decade.value == pytest.approx(two_term_V, abs=5e-7)
    assert "ohmic_left_out" in codes(without)


@pytest.mark.parametrize(("coverage", "points"), [(1.0, CATALYSED), (0.0, BARE)])
def test_the_set_of_resistors_is_that_of_the_simulator(coverage: float, points) -> None:
    for ohm, milliampere, volt in zip(RESISTORS_OHM, *points, strict=True):
        at = operate_on_supply(CellBuild(), Supply(resistor_ohm=ohm), coverage)
        assert 1000 * float(at.current_A) == pytest.approx(milliampere, abs=6e-7)
        assert float(at.voltage_V) == pytest.approx(volt, abs=6e-7)


def test_norris_of_nist_as_a_tafel_line() -> None:
    # The same least squares behind other names: certified intercept, slope and uncertainties.
    y, x = nist_linear.NORRIS.T
    fit = fit_tafel(1e-3 * 10.0 ** (x / 100), y / 100, with_ohmic=False)
    assert 100 * fit.intercept_V.value == pytest.approx(nist_linear.INTERCEPT, rel=1e-9)
    assert fit.slope_V_per_decade.value == pytest.approx(nist_linear.SLOPE, rel=1e-11)
    assert fit.slope_V_per_decade.standard_uncertainty == pytest.approx(
        nist_linear.SLOPE_UNCERTAINTY, rel=1e-9
    )


def test_uncertain_currents_widen_the_slope() -> None:
    amperes = np.array(CATALYSED[0]) / 1000
    sure = fit_tafel(amperes, CATALYSED[1], voltage_uncertainty_V=1e-3)
    doubtful = fit_tafel(
        amperes, CATALYSED[1], voltage_uncertainty_V=1e-3, current_uncertainty_A=0.03 * amperes
    )
    assert doubtful.slope_V_per_decade.standard_uncertainty > 3 * sure.slope_V_per_decade.standard_uncertainty
    # By hand for the middle: 3 % of the current are 0.013 decades, and those are 0.18 V a decade and 20 ohm.
    assert doubtful.slope_V_per_decade.value == pytest.approx(0.180, abs=1e-4)


def test_a_common_factor_of_the_currents_leaves_the_slope() -> None:
    # A stack voltage that is wrong shifts all currents alike: the intercept takes it, not the slope.
    amperes = np.array(CATALYSED[0]) / 1000
    right, wrong = fit_tafel(amperes, CATALYSED[1]), fit_tafel(1.05 * amperes, CATALYSED[1])
    assert wrong.slope_V_per_decade.value == pytest.approx(right.slope_V_per_decade.value, rel=1e-9)
    assert wrong.intercept_V.value != pytest.approx(right.intercept_V.value, abs=1e-3)


def test_coverage_of_the_slope_over_many_runs() -> None:
    # 95 % intervals under independent noise of 1 mV and 3 % of the current, as stated, must hold the truth.
    rng = np.random.default_rng(20240514)
    amperes = np.array(CATALYSED[0]) / 1000
    held = 0
    for _ in range(1000):
        fit = fit_tafel(
            amperes * (1 + 0.03 * rng.standard_normal(6)),
            np.array(CATALYSED[1]) + 1e-3 * rng.standard_normal(6),
            voltage_uncertainty_V=1e-3,
            current_uncertainty_A=0.03 * amperes,
        )
        low_V, high_V = fit.slope_interval95_V
        held += low_V <= 0.180 <= high_V
    assert 0.93 <= held / 1000 <= 0.99


def test_few_or_narrow_currents_are_indicative() -> None:
    assert fit_tafel(J[:3] / 1000, T1[:3], with_ohmic=False, **ONE).is_indicative
    narrow = fit_tafel(np.array([1.0, 2.0, 3.0, 4.0, 5.0]) / 1000, T1[1:6], with_ohmic=False, **ONE)
    assert narrow.is_indicative
    assert "tafel_indicative" in codes(narrow)
    # The same current twice is one current.
    twice = fit_tafel([1e-4, 1e-4, 1e-3, 1e-2], [0.42, 0.42, 0.48, 0.54], with_ohmic=False, **ONE)
    assert twice.is_indicative


def test_too_few_points_to_judge_the_ohmic_drop_are_said() -> None:
    fit = fit_tafel(J[:4] / 1000, (T1 + OHMIC)[:4], with_ohmic=False, **ONE)
    assert "ohmic_not_judged" in codes(fit)


def test_points_beyond_their_uncertainties_are_said_and_widen_the_slope() -> None:
    fit = fit_tafel(J / 1000, T1 + 20 * NOISE, voltage_uncertainty_V=1e-3, with_ohmic=False, **ONE)
    assert fit.reduced_chi_square is not None
    assert fit.reduced_chi_square > 10
    assert fit.degrees_of_freedom == 5
    assert "tafel_lack_of_fit" in codes(fit)


def test_a_negative_resistance_is_said() -> None:
    assert "negative_ohmic_resistance" in codes(fit_tafel(J / 1000, T1 - 0.5 * OHMIC, **ONE))


@pytest.mark.parametrize(("slope_V", "is_usual"), [(0.020, False), (0.030, True), (0.24, True), (0.3, False)])
@pytest.mark.parametrize("electrodes", [1, 2])
def test_slopes_out_of_the_ordinary_are_said(slope_V: float, is_usual: bool, electrodes: int) -> None:
    fit = fit_tafel(J / 1000, electrodes * slope_V * np.log10(J) + 2.0, area_cm2=1.0, electrodes=electrodes)
    assert ("tafel_slope_unusual" not in codes(fit)) is is_usual


@pytest.mark.parametrize(
    ("low_mV", "high_mV"),
    [
        (60, 60),  # Co-Pi, 0.1 mol/L phosphate, pH 7: Nat. Commun. 6 (2015) 8253, table 1
        (80, 90),  # Na2CoP2O7: the same table
        (
            37,
            42,
        ),  # Ni-Bi and NiFe-Bi, borate, after anodic conditioning: Catal. Sci. Technol. 2017, c7cy00873b
        (59, 59),  # about 2.303 RT/F: J. Am. Chem. Soc. 132 (2010) 16501, abstract
        (177, 177),  # about three times as much without buffer: the same abstract
        (30, 59),  # Ni-Bi after anodising and as grown (from memory)
    ],
)
def test_published_slopes_are_not_doubted(low_mV: float, high_mV: float) -> None:
    assert SLOPE_RANGE_V[0] <= low_mV / 1000 <= high_mV / 1000 <= SLOPE_RANGE_V[1]


def test_thermal_slope() -> None:
    # CODATA 2022 (exact since the SI of 2019): 2.302585 RT/F.
    assert 1000 * thermal_slope_V(25) == pytest.approx(59.15935, abs=5e-6)
    assert 2000 * thermal_slope_V(25) == pytest.approx(118.3187, abs=5e-5)
    assert 2000 * thermal_slope_V(25) / 3 == pytest.approx(39.43957, abs=5e-6)
    assert 1000 * thermal_slope_V(22) == pytest.approx(58.56409, abs=5e-6)


def test_exchange_density_of_a_cell_counts_from_the_reversible_voltage() -> None:
    fit = fit_tafel(np.array(CATALYSED[0]) / 1000, CATALYSED[1], area_cm2=2.0)
    expected = -(1.951181 - 1.231181) / 0.18
    assert fit.log10_exchange_density(1.231181).value == pytest.approx(expected, abs=5e-5)


UP_AND_DOWN = np.array([0.1, 0.5, 2.0, 10.0, 2.0, 0.5, 0.1])
DOWNWARDS = np.array([0, 0, 0, 0, 1, 1, 1])


def test_the_way_down_beside_the_way_up() -> None:
    volts = 0.060 * np.log10(UP_AND_DOWN / 1e-8) + 0.01 * UP_AND_DOWN + 0.0005 * normals(7)
    assert not tafel_hysteresis(UP_AND_DOWN / 1000, volts).is_shown
    found = tafel_hysteresis(UP_AND_DOWN / 1000, volts + 0.010 * DOWNWARDS)
    assert found.is_shown
    assert found.offset_V == pytest.approx(0.010, abs=0.0015)
    weighted = tafel_hysteresis(UP_AND_DOWN / 1000, volts + 0.010 * DOWNWARDS, voltage_uncertainty_V=0.02)
    assert not weighted.is_shown
    assert weighted.degrees_of_freedom == math.inf


@pytest.mark.parametrize(
    ("attempt", "words"),
    [
        (lambda: fit_tafel([1e-3, 2e-3, 3e-3], [1.9, 2.0, 2.1]), "3 parameters need more"),
        (lambda: fit_tafel([1e-3, 2e-3], [1.9, 2.0], with_ohmic=False), "2 parameters need more"),
        (lambda: fit_tafel([1e-3, 0.0, 3e-3], [1.9, 2.0, 2.1]), "current in A"),
        (lambda: fit_tafel([1e-3, -2e-3, 3e-3], [1.9, 2.0, 2.1]), "current in A"),
        (lambda: fit_tafel([1e-3, 2e-3, 3e-3], [1.9, math.inf, 2.1]), "voltage in V"),
        (lambda: fit_tafel([1e-3, 2e-3], [1.9, 2.0, 2.1]), "shapes"),
        (lambda: fit_tafel([1e-3] * 5, [2.0] * 5), "do not differ"),
        (lambda: fit_tafel([], []), "do not differ"),
        (lambda: fit_tafel(J / 1000, T1, area_cm2=0.0), "anode area"),
        (lambda: fit_tafel(J / 1000, T1, voltage_uncertainty_V=0.0), "uncertainty of a voltage"),
        (lambda: fit_tafel(J / 1000, T1, current_uncertainty_A=1e-6), "give both, or neither"),
        (lambda: fit_tafel(J / 1000, -T1).log10_exchange_density(), "Tafel slope"),
        (lambda: thermal_slope_V(298.15), "temperature"),
        (lambda: tafel_hysteresis(J / 1000, T1), "some up and some down"),
        (lambda: tafel_hysteresis([1e-3, 2e-3, 1e-3], [1.9, 2.0, 1.9]), "more than 4"),
    ],
)
def test_what_gives_no_line_is_refused(attempt, words: str) -> None:
    with pytest.raises(Refused, match=words):
        attempt()
