"""Allan deviations against NIST SP 1065, the NBS data set and a package of others; how long to average."""

import math

import allantools
import numpy as np
import pytest

from drivers.simulated.portable_noise import autoregressive, normals, uniforms
from logger.analysis.allan import (
    allan_deviation,
    averaging_advice,
    modified_allan_deviation,
    overlapping_allan_deviation,
    overlapping_allan_points,
)
from logger.analysis.refusal import Refused

# W. J. Riley, Handbook of Frequency Stability Analysis, NIST Special Publication 1065 (2008), table 31:
# the 1000-point test set (section 12.4), taken as frequency data, at averaging factors 1, 10 and 100.
SP1065 = {
    1: (2.922319e-1, 2.922319e-1, 2.922319e-1),
    10: (9.965736e-2, 9.159953e-2, 6.172376e-2),
    100: (3.897804e-2, 3.241343e-2, 2.170921e-2),
}

# The nine frequency values of the NBS test set, NIST SP 1065, section 12.4 (after NBS Monograph 140).
NBS = [892, 809, 823, 798, 671, 644, 883, 903, 677]

P1 = 2.0 + 0.002 * autoregressive(600, 0.9)


@pytest.mark.parametrize("samples", SP1065)
def test_table_31_of_sp_1065(samples: int) -> None:
    values = uniforms(1000)
    ours = [
        kind(values, samples)
        for kind in (allan_deviation, overlapping_allan_deviation, modified_allan_deviation)
    ]
    assert ours == pytest.approx(SP1065[samples], abs=5e-8)


@pytest.mark.parametrize(
    ("samples", "plain", "overlapping"), [(1, 91.22945, 91.22945), (2, 115.8082, 85.95287)]
)
def test_nbs_set(samples: int, plain: float, overlapping: float) -> None:
    assert allan_deviation(NBS, samples) == pytest.approx(plain, rel=1e-6)
    assert overlapping_allan_deviation(NBS, samples) == pytest.approx(overlapping, rel=1e-6)


@pytest.mark.parametrize("samples", [1, 2, 7, 40, 200])
@pytest.mark.parametrize(
    ("ours", "theirs"),
    [
        (allan_deviation, allantools.adev),
        (overlapping_allan_deviation, allantools.oadev),
        (modified_allan_deviation, allantools.mdev),
    ],
)
def test_agreement_with_allantools(ours, theirs, samples: int) -> None:
    _, expected, _, _ = theirs(P1, rate=1.0, data_type="freq", taus=[float(samples)])
    assert ours(P1, samples) == pytest.approx(expected[0], rel=1e-8)


def test_slow_noise_p1_has_a_hump() -> None:
    # Independent computation with allantools 2024.6.
    found = [overlapping_allan_deviation(P1, samples) for samples in (1, 10, 50, 200)]
    assert found == pytest.approx([6.1598e-4, 1.05458e-3, 8.5617e-4, 2.738e-4], rel=2e-5)


def test_overlapping_deviation_against_its_definition() -> None:
    values = normals(60)
    for samples in (1, 3, 20):
        means = [values[k : k + samples].mean() for k in range(60 - samples + 1)]
        pairs = [(means[k + samples] - means[k]) ** 2 for k in range(60 - 2 * samples + 1)]
        expected = math.sqrt(sum(pairs) / (2 * len(pairs)))
        assert overlapping_allan_deviation(values, samples) == pytest.approx(expected, rel=1e-10)


def test_a_large_mean_costs_no_digits() -> None:
    # The level of a voltage is thousands of times its noise.
    small = overlapping_allan_deviation(1e-6 * normals(2000), 100)
    assert overlapping_allan_deviation(2.0 + 1e-6 * normals(2000), 100) == pytest.approx(small, rel=1e-6)


@pytest.mark.parametrize("samples", [1, 4, 23, 91])
def test_uncertainty_of_the_points_is_that_of_white_noise(samples: int) -> None:
    # Degrees of freedom as in allantools (edf_simple, after NIST SP 1065, table 5), white frequency noise.
    point = next(one for one in overlapping_allan_points(normals(800), 0.5) if one.samples == samples)
    expected = 1.0 / math.sqrt(2.0 * allantools.edf_simple(801, samples, 0))
    assert point.relative_uncertainty == pytest.approx(expected, rel=1e-12)
    assert point.time_s == 0.5 * samples


def test_white_noise_goes_on_falling() -> None:
    advice = averaging_advice(normals(2000), 1.0)
    assert advice.behaviour == "falling"
    assert advice.time_s is not None
    assert advice.time_s >= 100.0
    assert advice.deviation == pytest.approx(advice.time_s**-0.5, rel=0.5)
    assert "or longer" in advice.words


def test_drift_limits_the_averaging() -> None:
    # White noise s and drift d a second: the variance s^2/t + d^2 t^2/2 is least at t = (s/d)^(2/3) = 21.5 s.
    advice = averaging_advice(normals(2000) + 0.01 * np.arange(2000.0), 1.0)
    assert advice.behaviour == "rising"
    assert advice.time_s is not None
    assert 10.0 < advice.time_s < 40.0
    assert "no longer" in advice.words


def test_a_flicker_floor_is_found() -> None:
    # White noise plus 1/f noise shaped in the frequency domain.
    white = normals(8192)
    shaped = np.fft.irfft(np.fft.rfft(white) / np.sqrt(np.maximum(np.arange(4097.0), 1.0)))
    advice = averaging_advice(shaped / shaped.std() + 2.0 * normals(8192, 987654321), 1.0)
    assert advice.behaviour == "floor"
    assert advice.time_s is not None
    assert advice.time_s < 512.0


def test_neighbours_that_agree_are_not_taken_for_steady() -> None:
    # Bubbles with a correlation time of 9.5 s: single readings differ least, but only from their neighbours.
    long = averaging_advice(autoregressive(7200, 0.9), 1.0)
    assert long.behaviour == "falling"
    assert long.time_s is not None
    assert long.time_s > 100.0
    short = averaging_advice(P1, 1.0)
    assert (short.time_s, short.behaviour) == (None, "wandering")
    assert "record at least" in short.words


@pytest.mark.parametrize("seed", [1234567890, 987654321, 271828182, 314159265])
def test_slow_noise_under_the_digits_is_not_called_a_drift(seed: int) -> None:
    """Bubbles with digits of 1 mV over two minutes: the curve falls from one to two readings, and then rises.

    The rise of an exponentially correlated noise is of tau^0.5 at most (NIST SP 1065, from memory).
    """
    volts = np.round(2.25 + 0.002 * autoregressive(400, 0.9655, seed), 3)
    advice = averaging_advice(volts + 0.0005 * normals(400, seed), 1 / 3)
    assert "no longer" not in advice.words
    assert advice.behaviour in ("wandering", "floor", "falling")


def test_a_random_walk_is_not_worth_averaging() -> None:
    advice = averaging_advice(np.cumsum(normals(2000)), 1.0)
    assert (advice.time_s, advice.deviation, advice.behaviour) == (None, None, "wandering")


@pytest.mark.parametrize(
    ("attempt", "words"),
    [
        (lambda: allan_deviation([1.0, 2.0, 3.0], 2), "2 averages of 2 need more"),
        (lambda: allan_deviation([1.0, 2.0, 3.0], 0), "average 1 or more"),
        (lambda: modified_allan_deviation([1.0, 2.0], 1), "3 averages of 1 need more"),
        (lambda: overlapping_allan_deviation([1.0, math.nan, 3.0], 1), "not a finite number"),
        (lambda: overlapping_allan_deviation([[1.0, 2.0]], 1), "samples in the record"),
        (lambda: overlapping_allan_points(normals(29), 1.0), "so few say nothing"),
        (lambda: overlapping_allan_points(normals(30), 0.0), "spacing"),
        (lambda: averaging_advice(np.full(100, 2.0), 1.0), "their noise does not show"),
    ],
)
def test_what_says_nothing_is_refused(attempt, words: str) -> None:
    with pytest.raises(Refused, match=words):
        attempt()
