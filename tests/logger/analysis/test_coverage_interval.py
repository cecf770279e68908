"""Coverage intervals by convolution, against worked examples of JCGM 101 and EA-4/02, and against draws."""

import math

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy.stats import norm

from logger.analysis.coverage_interval import coverage_factor, coverage_half_width
from logger.analysis.uncertainty import Component, combine

EXACT = math.inf


def test_four_rectangles_of_jcgm_101() -> None:
    """JCGM 101:2008, 9.2.3: rectangles of u = 1 give ±3.88, in closed form 2 sqrt(3) (2 - (3/5)^(1/4))."""
    half = coverage_half_width(0.0, EXACT, [math.sqrt(3.0)] * 4)
    assert half == pytest.approx(2.0 * math.sqrt(3.0) * (2.0 - 0.6**0.25), rel=2e-5)
    assert round(half, 2) == 3.88


def test_one_dominant_rectangle_of_jcgm_101() -> None:
    """JCGM 101:2008, 9.2.4 and table 4: the fourth has u = 10; ±17.0, where 1.96 u would be ±19.9."""
    half = coverage_half_width(0.0, EXACT, [math.sqrt(3.0)] * 3 + [10.0 * math.sqrt(3.0)])
    assert round(half, 1) == 17.0
    assert round(1.96 * math.sqrt(103.0), 1) == 19.9


def test_the_factors_of_ea_4_02() -> None:
    """EA-4/02, S9 and S10 (from memory): 1.65 for one rectangle, 1.83 for a trapezoid of beta 0.33."""
    assert round(coverage_half_width(0.0, EXACT, [1.0]) * math.sqrt(3.0), 2) == pytest.approx(1.65, abs=0.006)
    wide, narrow = 4.0, 2.0  # beta = (wide - narrow)/(wide + narrow)
    u = math.hypot(wide, narrow) / math.sqrt(3.0)
    assert round(coverage_half_width(0.0, EXACT, [wide, narrow]) / u, 2) == pytest.approx(1.83, abs=0.011)


def test_closed_forms() -> None:
    assert coverage_half_width(0.0, EXACT, [0.5]) == pytest.approx(0.475, rel=1e-6)
    assert coverage_half_width(0.0, EXACT, [1.0, 1.0]) == pytest.approx(2.0 * (1 - math.sqrt(0.05)), rel=1e-5)
    assert coverage_half_width(0.0, EXACT, []) == 0.0
    assert coverage_half_width(0.0, EXACT, [0.0]) == 0.0


@pytest.mark.parametrize("probability", [1e-6, 0.5, 0.6827, 0.95, 0.99, 0.9999999])
def test_the_normal_factor_is_that_of_another_library(probability: float) -> None:
    expected = norm.ppf(0.5 + probability / 2.0)
    assert coverage_factor(probability, EXACT) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("freedom", [1.5, 6.0, 30.0, EXACT])
def test_without_rectangles_it_is_students_interval(freedom: float) -> None:
    expected = 0.3 * coverage_factor(0.95, freedom)
    assert coverage_half_width(0.3, freedom, []) == pytest.approx(expected, rel=1e-5)
    assert coverage_half_width(0.3, freedom, [1e-9]) == pytest.approx(expected, rel=1e-5)


@pytest.mark.parametrize(
    ("scale", "freedom", "limits"), [(0.7, 4.0, [2.0, 0.3]), (1.0, 6.0, [3.0]), (0.2, 20.0, [1.0, 1.0, 0.4])]
)
def test_it_agrees_with_draws(scale: float, freedom: float, limits: list[float]) -> None:
    """As JCGM 101 does it: 400 000 numbers drawn from each distribution."""
    random = np.random.default_rng(1)
    errors = scale * random.standard_t(freedom, 400_000)
    for limit in limits:
        errors += random.uniform(-limit, limit, errors.size)
    half = coverage_half_width(scale, freedom, limits)
    assert np.mean(np.abs(errors) <= half) == pytest.approx(0.95, abs=0.0015)  # four binomial deviations


@example(2.0, 2.0, [1.4e-15], 0.75)
@example(5e-324, 2.0, [1.0], 0.5)
@given(
    st.floats(0.0, 10.0),
    st.floats(2.0, 200.0),
    st.lists(st.floats(0.0, 10.0), max_size=5),
    st.floats(0.5, 0.99),
)
def test_it_lies_between_its_widest_part_and_the_sum(
    scale: float, freedom: float, limits: list[float], probability: float
) -> None:
    half = coverage_half_width(scale, freedom, limits, probability)
    student = coverage_factor(probability, freedom) * scale
    assert half <= (student + sum(limits)) * 1.01 + 1e-12
    assert half >= max([student, *(probability * one for one in limits)]) * 0.99 - 1e-9


def test_rectangles_decide_the_factor_only_where_they_dominate() -> None:
    """JCGM 100, G.2.3: Student's factor holds where nothing of another shape is much of the sum."""
    normal = Component("scatter", 1.0, 1.0, 20, "A")
    small = combine((normal, Component("digit", 0.9, shape="rectangular")))
    assert small.coverage_factor == coverage_factor(0.95, small.degrees_of_freedom)
    large = combine((normal, Component("digit", 10.0, shape="rectangular")))
    assert 1.645 < large.coverage_factor < 1.70
    assert large.standard_uncertainty == pytest.approx(math.hypot(1.0, 10.0))
    assert combine(
        (Component("digit", 1.0, 2.0, shape="rectangular"),)
    ).expanded_uncertainty == pytest.approx(0.95 * 2.0 * math.sqrt(3.0))
