"""Combination of uncertainties against the worked examples of the GUM (JCGM 100:2008, annex H)."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from logger.analysis.refusal import Refused
from logger.analysis.uncertainty import (
    Component,
    combine,
    correlated_standard_uncertainty,
    coverage_factor,
    degrees_of_freedom_of_estimate,
    rectangular_standard_uncertainty,
)


def end_gauge() -> list[Component]:
    """JCGM 100, H.1: calibration of a 50 mm end gauge; lengths in nm, the standard 50 000 623 nm long."""
    standard_nm = 50_000_623
    return [
        Component("standard", 25.0, 1.0, 18),
        Component("difference", 9.7, 1.0, 25.6),
        Component("expansion coefficient", 1.2e-6, 0.0),
        Component("temperature of the bed", 0.41, 0.0),
        Component("difference of expansion", 0.58e-6, -standard_nm * -0.1, 50),
        Component("difference of temperature", 0.029, -standard_nm * 11.5e-6, 2),
    ]


def test_h1_length() -> None:
    # JCGM 100, H.1.2: the standard and the mean difference of the comparator; printed: 50.000 838 mm.
    length_nm = 50_000_623 + 215
    assert length_nm * 1e-6 == pytest.approx(50.000838, abs=5e-10)
    low_nm, high_nm = combine(end_gauge(), probability=0.99).interval(length_nm)
    assert (low_nm + high_nm) / 2 == pytest.approx(length_nm)


def test_h1_components_and_combined_uncertainty() -> None:
    combined = combine(end_gauge(), probability=0.99)
    contributions = [c.contribution for c in combined.components]
    assert contributions == pytest.approx([25.0, 9.7, 0.0, 0.0, 2.900036, 16.675208], abs=1e-6)
    assert combined.standard_uncertainty == pytest.approx(31.710610, abs=1e-5)
    assert round(combined.standard_uncertainty) == 32  # as printed
    assert combined.degrees_of_freedom == pytest.approx(16.656, abs=1e-3)
    assert math.floor(combined.degrees_of_freedom) == 16  # as printed


def test_h1_expanded_uncertainty_with_truncated_degrees_of_freedom() -> None:
    combined = combine(end_gauge())
    factor = coverage_factor(0.99, math.floor(combined.degrees_of_freedom))
    assert factor == pytest.approx(2.920782, abs=5e-7)  # printed: 2.92
    assert factor * combined.standard_uncertainty == pytest.approx(92.6198, abs=1e-4)  # printed: 93


def test_h1_second_order_terms() -> None:
    # Two products of small quantities, JCGM 100, H.1.7; printed with them: 34 nm (from memory).
    standard_nm = 50_000_623
    expansion = standard_nm * 0.58e-6 * 0.41
    difference = standard_nm * 1.2e-6 * 0.029
    assert expansion == pytest.approx(11.890148, abs=1e-5)
    assert difference == pytest.approx(1.740022, abs=1e-5)
    whole = combine(
        [*end_gauge(), Component("second order", expansion), Component("second order", difference)]
    )
    assert whole.standard_uncertainty == pytest.approx(33.911150, abs=1e-5)


VOLTAGE_V = np.array([5.007, 4.994, 5.005, 4.990, 4.999])
CURRENT_A = 1e-3 * np.array([19.663, 19.639, 19.640, 19.685, 19.678])
PHASE_RAD = np.array([1.0456, 1.0438, 1.0468, 1.0428, 1.0433])


def impedance() -> tuple[dict[str, float], dict[str, list[float]], np.ndarray]:
    """JCGM 100, H.2: values and sensitivities of R, X, Z, and the covariance of the three means."""
    covariance = np.cov(np.vstack([VOLTAGE_V, CURRENT_A, PHASE_RAD])) / VOLTAGE_V.size
    v, i, phi = VOLTAGE_V.mean(), CURRENT_A.mean(), PHASE_RAD.mean()
    z = v / i
    values = {"R": z * math.cos(phi), "X": z * math.sin(phi), "Z": z}
    slopes = {
        "R": [values["R"] / v, -values["R"] / i, -values["X"]],
        "X": [values["X"] / v, -values["X"] / i, values["R"]],
        "Z": [z / v, -z / i, 0.0],
    }
    return values, slopes, covariance


def test_h2_means_and_correlations() -> None:
    _, _, covariance = impedance()
    spread = np.sqrt(np.diag(covariance))
    assert spread == pytest.approx([3.209361e-3, 9.471008e-6, 7.520638e-4], rel=2e-7)
    correlation = covariance / np.outer(spread, spread)
    assert correlation[0, 1] == pytest.approx(-0.355311, abs=6e-7)
    assert correlation[0, 2] == pytest.approx(0.857624, abs=6e-7)
    assert correlation[1, 2] == pytest.approx(-0.645111, abs=6e-7)


@pytest.mark.parametrize(
    ("name", "value", "uncertainty"),
    # Printed: 127.732 (0.071), 219.847 (0.295), 254.260 (0.236); more digits: GTC 1.5.1 and recomputation.
    [
        ("R", 127.732169928102, 0.071071407396995),
        ("X", 219.846512, 0.2955817),
        ("Z", 254.259702, 0.2363361),
    ],
)
def test_h2_results(name: str, value: float, uncertainty: float) -> None:
    values, slopes, covariance = impedance()
    assert values[name] == pytest.approx(value, abs=6e-7)
    got = correlated_standard_uncertainty(slopes[name], covariance)
    assert got == pytest.approx(uncertainty, abs=6e-8)


def test_h2_correlations_of_the_results() -> None:
    _, slopes, covariance = impedance()
    matrix = np.array([slopes[name] for name in "RXZ"])
    result = matrix @ covariance @ matrix.T
    spread = [correlated_standard_uncertainty(slopes[name], covariance) for name in "RXZ"]
    correlation = result / np.outer(spread, spread)
    assert [correlation[0, 1], correlation[0, 2], correlation[1, 2]] == pytest.approx(
        [-0.588430, -0.485259, 0.992512], abs=6e-7
    )


def test_uncorrelated_covariance_gives_the_same_as_a_budget() -> None:
    budget = [Component("a", 0.3, 2.0), Component("b", 0.1, -5.0)]
    same = correlated_standard_uncertainty([2.0, -5.0], np.diag([0.09, 0.01]))
    assert combine(budget).standard_uncertainty == pytest.approx(same, rel=1e-12)


def test_it_agrees_with_the_uncertainties_package() -> None:
    uncertainties = pytest.importorskip("uncertainties")
    stack, cell, resistor = (
        uncertainties.ufloat(27.0, 0.05),
        uncertainties.ufloat(2.25, 0.01),
        uncertainties.ufloat(3306, 95.3),
    )
    theirs = (stack - cell) / resistor
    budget = [
        Component("stack", 0.05, 1 / 3306),
        Component("cell", 0.01, -1 / 3306),
        Component("resistor", 95.3, -24.75 / 3306**2),
    ]
    assert combine(budget).standard_uncertainty == pytest.approx(theirs.std_dev, rel=1e-12)


def test_welch_satterthwaite_of_two_equal_shares() -> None:
    combined = combine([Component("a", 1.0, 1.0, 5), Component("b", 1.0, -1.0, 5)])
    assert combined.degrees_of_freedom == pytest.approx(10.0)


def test_a_budget_without_uncertainty_has_none() -> None:
    combined = combine([Component("a", 0.0, 1.0, 3)])
    assert combined.standard_uncertainty == 0.0
    assert combined.expanded_uncertainty == 0.0
    assert combine([]).interval(1.5) == (1.5, 1.5)


def test_tiny_uncertainties_keep_their_degrees_of_freedom() -> None:
    assert combine([Component("a", 1e-90, 1.0, 7)]).degrees_of_freedom == pytest.approx(7.0)


@given(st.lists(st.tuples(st.floats(1e-9, 1e3), st.floats(0.1, 1e4)), min_size=1, max_size=8))
def test_effective_degrees_of_freedom_lie_between_the_smallest_and_the_sum(
    parts: list[tuple[float, float]],
) -> None:
    combined = combine(Component("x", u, 1.0, dof) for u, dof in parts)
    freedoms = [dof for _, dof in parts]
    assert min(freedoms) * (1 - 1e-9) <= combined.degrees_of_freedom <= sum(freedoms) * (1 + 1e-9)


@pytest.mark.parametrize(("freedom", "factor"), [(3, 3.182446), (16, 2.119905), (math.inf, 1.959964)])
def test_coverage_factors_of_the_t_table(freedom: float, factor: float) -> None:
    assert coverage_factor(0.95, freedom) == pytest.approx(factor, abs=5e-7)  # JCGM 100, table G.2


def test_an_uncertainty_known_to_a_fifth_has_twelve_and_a_half_degrees_of_freedom() -> None:
    assert degrees_of_freedom_of_estimate(0.20) == pytest.approx(12.5)
    assert degrees_of_freedom_of_estimate(0.25) == pytest.approx(8.0)  # the example of JCGM 100, G.4.2
    assert degrees_of_freedom_of_estimate(0.0) == math.inf


def test_limits_become_a_standard_uncertainty() -> None:
    assert rectangular_standard_uncertainty(1.0) == pytest.approx(0.577350, abs=5e-7)


@pytest.mark.parametrize(
    "attempt",
    [
        lambda: Component("a", -1.0),
        lambda: Component("a", math.nan),
        lambda: Component("a", 1.0, math.inf),
        lambda: Component("a", 1.0, 1.0, 0.0),
        lambda: Component("a", 1.0, 1.0, math.nan),
        lambda: combine([Component("a", 1.0)], probability=1.0),
        lambda: coverage_factor(0.95, -1.0),
        lambda: coverage_factor(0.0, 3.0),
        lambda: coverage_factor(math.nan, 3.0),
        lambda: correlated_standard_uncertainty([1.0, 2.0], [[1.0]]),
        lambda: correlated_standard_uncertainty([1.0, 1.0], [[1.0, math.nan], [0.0, 1.0]]),
        lambda: correlated_standard_uncertainty([1.0, -1.0], [[1.0, 5.0], [5.0, 1.0]]),
        lambda: rectangular_standard_uncertainty(-0.1),
        lambda: degrees_of_freedom_of_estimate(-0.1),
    ],
)
def test_what_is_no_uncertainty_is_refused(attempt: Callable[[], object]) -> None:
    with pytest.raises(Refused):
        attempt()
