"""What rounding to the digits of a display leaves open."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from logger.analysis.rounding import rounding_bias, rounding_uncertainty, two_sided_spread
from tests.campaigns.coverage import first_order


def bias_by_direct_sum(level, deviation):
    """The mean of the rounded readings less the level, over all digits (scipy's normal distribution)."""
    digits = np.arange(-40, 41)
    chances = norm.cdf(digits + 0.5, level, deviation) - norm.cdf(digits - 0.5, level, deviation)
    return float(digits @ chances) - level


@pytest.mark.parametrize(
    ("deviation", "bias"),
    [(0.1, -0.243790), (0.2, -0.144439), (0.3, -0.053866), (0.5, -0.002289), (1.0, -8.5e-10)],
)
def test_bias_at_a_quarter_digit(deviation, bias):
    """The project's chemistry reference, section 4 (computed there by series and direct sum)."""
    assert rounding_bias(0.25, deviation, 1.0) == pytest.approx(bias, rel=0.01, abs=6e-7 * (deviation < 1.0))


@pytest.mark.parametrize("level", [0.0, 0.1, 0.25, 0.49, 3.3])
@pytest.mark.parametrize("deviation", [0.05, 0.2, 0.4])
def test_the_series_is_the_direct_sum(level, deviation):
    assert rounding_bias(level, deviation, 1.0) == pytest.approx(
        bias_by_direct_sum(level, deviation), abs=1e-9
    )


def test_a_still_display_leaves_a_digit_over_the_root_of_twelve():
    """JCGM 100:2008, F.2.2.1; 1 mV gives 0.288675 mV."""
    assert rounding_uncertainty(0.0, 0.001) == pytest.approx(0.000288675, abs=1e-9)
    assert rounding_uncertainty(0.0, 0.0) == 0.0


def test_toggling_between_two_digits_proves_no_noise():
    """Noise of a twentieth of a digit right at the edge scatters by half a digit, and is biased."""
    random = np.random.default_rng(1)
    shown = np.round(0.48 + 0.05 * random.normal(size=2000))
    assert shown.std() > 0.4
    assert abs(shown.mean() - 0.48) > 0.1
    assert rounding_uncertainty(float(shown.std()), 1.0) == pytest.approx(1 / math.sqrt(12))


@pytest.mark.parametrize("deviation", [0.5, 0.7, 2.0])
def test_noise_as_large_as_the_digit_carries_over_the_steps(deviation):
    random = np.random.default_rng(2)
    levels = random.uniform(0, 1, 400)
    errors = [bias_by_direct_sum(level, deviation) for level in levels]
    shown = np.round(levels[0] + deviation * random.normal(size=20000))
    assert rounding_uncertainty(float(shown.std()), 1.0) < 0.01
    assert float(np.std(errors)) < 0.01


@pytest.mark.parametrize("noise", [0.05, 0.1, 0.15])
@pytest.mark.parametrize("level", [0.02, 0.1, 0.3, 0.48, 0.5])
def test_small_noise_leaves_a_digit_open_wherever_the_level_lies(noise, level):
    random = np.random.default_rng(3)
    shown = 7 + np.round(level + noise * random.normal(size=2000))
    left = rounding_uncertainty(float(shown.std()), 1.0, float(shown.mean()))
    assert left == pytest.approx(1 / math.sqrt(12))


def test_where_the_digits_lie_tells_smaller_noise_from_none():
    """Noise of two fifths of a digit on a digit: hardly a two-digit display, and right to a hundredth."""
    random = np.random.default_rng(4)
    shown = 7 + np.round(0.05 + 0.4 * random.normal(size=2000))
    deviation = float(shown.std())
    assert rounding_uncertainty(deviation, 1.0) == pytest.approx(1 / math.sqrt(12))
    assert (
        abs(bias_by_direct_sum(0.05, 0.4)) < rounding_uncertainty(deviation, 1.0, float(shown.mean())) < 0.02
    )


def left_open(shown):
    return rounding_uncertainty(float(shown.std(ddof=1)), 1.0, float(shown.mean()), two_sided_spread(shown))


@pytest.mark.parametrize(("share", "height"), [(0.01, 6.0), (0.03, 3.0), (0.05, 2.0), (0.2, -2.0)])
@pytest.mark.parametrize("level", [0.02, 0.3, -0.3])
def test_spikes_to_one_side_carry_no_still_display_over_its_steps(share, height, level):
    """Bubbles raise some readings by whole digits; the others stay at one, off by as much as before."""
    random = np.random.default_rng(6)
    spikes = height * (random.uniform(size=600) < share)
    shown = 7 + np.round(level + 0.05 * random.normal(size=600) + spikes)
    assert shown.var() > 0.02 + np.mean(shown % 1.0)
    assert left_open(shown) == pytest.approx(1 / math.sqrt(12))


@pytest.mark.parametrize("level", [0.0, 0.25, 0.5])
def test_noise_of_six_tenths_of_a_digit_is_seen_on_both_sides(level):
    random = np.random.default_rng(7)
    shown = 7 + np.round(level + 0.6 * random.normal(size=600))
    assert left_open(shown) < 0.01


def test_the_spread_is_that_of_the_nearer_side():
    values = np.concatenate([np.zeros(80), np.full(20, 5.0)])
    assert two_sided_spread(values) == 0.0
    assert two_sided_spread(np.concatenate([values, np.full(3, -1.0)])) == 1.0
    assert two_sided_spread(np.array([0.0, 0.0, 1.0, 1.0])) == 0.5  # of two digits never more


@given(
    deviation=st.floats(0.0, 3.0), level=st.one_of(st.none(), st.floats(-50, 50)), digit=st.floats(1e-6, 1.0)
)
def test_rounding_never_leaves_more_than_a_still_display(deviation, level, digit):
    place = None if level is None else level * digit
    assert 0.0 <= rounding_uncertainty(deviation * digit, digit, place) <= digit / math.sqrt(12) * (1 + 1e-12)


@pytest.mark.parametrize("noise", [0.25, 0.3, 0.4, 0.5, 0.7])
@pytest.mark.parametrize("correlation", [0.0, 0.9])
def test_what_is_left_open_covers_the_error_of_rounding(noise, correlation):
    """Direct simulation: 400 short windows; the error is that of the mean of the rounded readings."""
    random, errors, left = np.random.default_rng(5), [], []
    for _ in range(400):
        true = random.uniform() + noise * first_order(random, 150, correlation)
        shown = np.round(true)
        left.append(left_open(shown))
        errors.append(float(shown.mean() - true.mean()))
    white = 1 / math.sqrt(12 * 150)  # the rounding of single readings is scatter, and counted there
    assert (
        float(np.sqrt(np.mean(np.square(errors))))
        < math.hypot(float(np.sqrt(np.mean(np.square(left)))), white) + 0.01
    )
