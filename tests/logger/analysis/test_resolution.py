"""The step of a display, read off its readings."""

import numpy as np
import pytest

from logger.analysis.resolution import are_multiples, goes_in_finer_steps, resolution_from_readings_V

RANDOM = np.random.default_rng(5)


@pytest.mark.parametrize("step", [0.01, 0.001, 0.0001, 187.5e-6])
def test_a_rounded_display_is_seen(step):
    values = step * np.round((2.25 + 0.002 * RANDOM.normal(size=2000)) / step)
    assert resolution_from_readings_V(values) == pytest.approx(step, rel=1e-6)


def test_scaled_counts_keep_their_step():
    values = 11.02 * 0.0001875 * np.round(RANDOM.normal(1000, 3, size=2000)) + 0.013
    assert resolution_from_readings_V(values) == pytest.approx(11.02 * 0.0001875, rel=1e-6)


@pytest.mark.parametrize(
    "values",
    [
        np.empty(0),
        np.full(100, 2.25),
        2.25 + 0.002 * RANDOM.normal(size=2000),
        np.full(100, np.nan),
        np.repeat([2.0, 2.1, 2.1 + np.pi / 30], 50),
    ],
)
def test_no_step_is_invented(values):
    found = resolution_from_readings_V(values)
    assert found is None


@pytest.mark.parametrize("overload", [np.inf, np.nan, 9.9e37, -1e9])
def test_overload_does_not_hide_it(overload):
    """9.9E37 is how a meter on the wire says infinity (IEEE 488.2 / SCPI-99, 7.2.1.4)."""
    values = np.round(2.25 + 0.002 * RANDOM.normal(size=500), 3)
    values[:50] = overload
    assert resolution_from_readings_V(values) == pytest.approx(0.001)


def shown_in_steps(step, seed=1, noise=0.002, count=300):
    return step * np.round((2.25 + noise * np.random.default_rng(seed).normal(size=count)) / step)


@pytest.mark.parametrize(
    ("fine", "coarse"), [(0.0001, 0.001), (0.00001, 0.001), (0.001, 0.01), (0.0001, 0.01)]
)
def test_another_range_shows_in_the_digits(fine, coarse):
    noise = 0.6 * coarse if coarse > 0.005 else 0.002
    one, other = shown_in_steps(fine, noise=noise), shown_in_steps(coarse, 2, noise=noise)
    assert goes_in_finer_steps(one, other)
    assert not goes_in_finer_steps(other, one)


@pytest.mark.parametrize("step", [0.0001, 0.001, 0.01])
def test_the_same_range_does_not(step):
    for seed in range(50):
        one, other = shown_in_steps(step, seed), shown_in_steps(step, seed + 100, noise=0.0007)
        assert not goes_in_finer_steps(one, other)


def test_a_display_that_toggles_proves_nothing():
    toggling = np.tile([2.250, 2.252], 100)
    assert not goes_in_finer_steps(shown_in_steps(0.001), toggling)


def test_two_levels_that_both_occur_often_are_a_coarse_range():
    """10 mV digits after 1 mV digits, in noise of 2 mV: the coarse display shows two levels."""
    coarse = 0.01 * np.round((1.996 + 0.002 * np.random.default_rng(2).normal(size=300)) / 0.01)
    assert np.unique(coarse).size == 2
    assert goes_in_finer_steps(shown_in_steps(0.001), coarse)


def test_a_stray_reading_beside_a_still_display_proves_nothing():
    still = np.full(300, 2.250)
    still[7] = 2.257
    assert not goes_in_finer_steps(shown_in_steps(0.001), still)


@pytest.mark.parametrize("step", [0.01, 0.001, 0.0001, 62.5e-6])
def test_what_a_display_shows_are_multiples_of_its_digit(step):
    shown = step * np.round((2.25 + 0.002 * RANDOM.normal(size=2000)) / step)
    assert are_multiples(shown, step)
    assert not are_multiples(shown + 0.3 * step, step)
    assert not are_multiples(shown / 1.0037, step)


def test_no_readings_and_no_digit_are_no_multiples():
    assert not are_multiples(np.empty(0), 0.001)
    assert not are_multiples(np.full(50, np.inf), 0.001)
    assert not are_multiples(np.full(50, 2.25), 0.0)
