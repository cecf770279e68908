"""Which stretch of a phase counts as settled, and how sure its voltage is."""

import numpy as np
import pytest

from drivers.simulated.portable_noise import autoregressive
from logger.analysis.comparison import from_readings
from logger.analysis.plateau import plateau
from logger.analysis.refusal import Refused
from logger.analysis.settled import settled_window, window_lengths_s

LIMIT = 5.0 / 60e3
LESSON = {"limit_V_per_s": LIMIT, "window_s": 60.0, "resolution_V": 0.001}


def bubbles(random, times):
    """Ornstein-Uhlenbeck noise of 2 mV and 9.5 s, and white noise of 0.3 mV."""
    phi = np.exp(-np.diff(times, prepend=times[0]) / 9.5)
    noise = np.empty(times.size)
    noise[0] = random.normal()
    for k in range(1, times.size):
        noise[k] = phi[k] * noise[k - 1] + np.sqrt(1 - phi[k] ** 2) * random.normal()
    return 0.002 * noise + 0.0003 * random.normal(size=times.size)


def test_the_deterministic_lesson_plateaus():
    """Portable noise, sd 2 mV and phi 0.9, on the simulator's true voltages; digits of another script.

    The whole phase settles, its beginning agrees, and the slope is noise: mean and uncertainty are those
    of the plateau estimator.
    """
    times = np.arange(600.0)
    for seed, level, mean, u, freedom in (
        (1234567890, 2.250555, 2.2503921, 3.317804e-4, 19.5293),
        (987654321, 1.995998, 1.9965509, 5.437146e-4, 11.1145),
    ):
        found = settled_window(times, level + 0.002 * autoregressive(600, 0.9, seed), **LESSON)
        assert found.is_settled
        assert (found.begin_s, found.end_s) == (0.0, 599.0)
        assert found.voltage_V == pytest.approx(mean, abs=5e-8)
        assert found.scatter_uncertainty_V == pytest.approx(u, rel=1e-6)
        assert found.scatter_freedom == pytest.approx(freedom, rel=1e-5)


def test_a_start_up_is_not_averaged_in():
    """80 mV falling with 30 s: from 45 s on the slope passes, but the mean is still 2 to 3 mV off."""
    times = np.arange(0, 420, 0.4)
    random = np.random.default_rng(4)
    errors, starts = [], []
    for _ in range(20):
        volts = 2.0 + 0.08 * np.exp(-times / 30.0) + bubbles(random, times)
        found = settled_window(times, np.round(volts, 3), **LESSON)
        assert found.is_settled
        errors.append(found.voltage_V - 2.0)
        starts.append(found.begin_s)
    assert np.median(starts) > 50
    assert abs(np.mean(errors)) < 0.0012


@pytest.mark.parametrize(("length_s", "at_least"), [(240, 0.90), (420, 0.97)])
def test_a_good_lesson_settles_and_its_interval_holds_the_truth(length_s, at_least):
    """Bubble noise of 2 mV, start-up of 80 mV, 2.5 readings a second, 1 mV digits: short campaign."""
    times = np.arange(0, length_s, 0.4)
    random = np.random.default_rng(6)
    settled, hits = [], []
    for _ in range(80):
        volts = 2.25 + 0.08 * np.exp(-times / 30.0) + bubbles(random, times)
        found = settled_window(times, np.round(volts, 3), **LESSON)
        settled.append(found.is_settled)
        hits.append(abs(found.voltage_V - 2.25) <= from_readings(found).expanded_uncertainty)
    assert np.mean(settled) >= at_least
    assert np.mean(hits) >= 0.90


def test_a_lasting_drift_is_not_settled_and_is_carried():
    times = np.arange(0, 300, 0.4)
    random = np.random.default_rng(1)
    found = settled_window(times, 2.25 - 20e-3 * times / 60.0 + bubbles(random, times), **LESSON)
    assert not found.is_settled
    assert found.end_s == times[-1]
    # It may go on by as much as it moved: W |b| / sqrt(3), known better than the noise.
    assert found.drift_uncertainty_V == pytest.approx(20e-3 / 60 * found.length_s / np.sqrt(3), rel=0.3)


def test_a_phase_shorter_than_the_window_is_never_settled():
    times = np.arange(0, 30, 0.4)
    found = settled_window(times, np.full(times.size, 2.25), **LESSON)
    assert not found.is_settled
    assert found.voltage_V == 2.25


def test_a_display_that_never_moves_is_settled_without_scatter():
    times = np.arange(0, 300, 0.4)
    found = settled_window(times, np.full(times.size, 2.25), **LESSON)
    assert found.is_settled
    assert found.scatter_uncertainty_V == 0.0
    assert found.drift_uncertainty_V == 0.0
    assert found.length_s == pytest.approx(299.6, abs=0.5)


def test_a_gap_shortens_the_window_to_what_follows_it():
    times = np.r_[np.arange(0, 200, 0.4), np.arange(260, 400, 0.4)]
    found = settled_window(times, np.full(times.size, 2.25), **LESSON)
    assert found.begin_s >= 260.0


@pytest.mark.parametrize("rate", [0.5, 1.0, 10.0, 100.0])
def test_the_rate_of_the_readings_matters_little(rate):
    times = np.arange(0, 600, 1 / rate)
    random = np.random.default_rng(8)
    found = settled_window(times, 2.25 + bubbles(random, times), **LESSON)
    assert found.is_settled
    assert 0.0002 < found.scatter_uncertainty_V < 0.0012  # theory 2 mV sqrt(2 x 9.5/600) = 0.36 mV


def test_fast_readings_are_averaged_and_no_longer_cost_more():
    times = np.arange(0, 600, 0.001)
    found = settled_window(times, np.full(times.size, 2.0), **LESSON)
    assert found.is_settled


def test_few_readings_are_refused():
    with pytest.raises(Refused, match="30"):
        settled_window(np.arange(29.0), np.full(29, 2.0), **LESSON)


def test_a_stretch_full_of_gaps_is_refused():
    times = np.r_[np.arange(0, 8, 0.4), np.arange(300, 308, 0.4)]
    with pytest.raises(Refused, match=r"no reading|30"):
        settled_window(times, np.full(times.size, 2.0), **LESSON)


@pytest.mark.parametrize(("limit", "window"), [(0.0, 60.0), (LIMIT, 0.0), (-1.0, 60.0), (np.nan, 60.0)])
def test_an_impossible_rule_is_refused(limit, window):
    with pytest.raises(Refused):
        settled_window(np.arange(100.0), np.ones(100), limit_V_per_s=limit, window_s=window)


def test_lengths_run_from_the_longest_to_the_shortest():
    lengths = list(window_lengths_s(240.0, 60.0))
    assert lengths[0] == 240.0
    assert lengths[-1] == pytest.approx(60.0, abs=5.0)
    assert min(lengths) >= 60.0
    assert len(lengths) <= 42
    assert list(window_lengths_s(60.0, 60.0)) == [60.0]


def test_the_mean_is_that_of_the_window():
    times = np.arange(0, 240, 0.4)
    volts = 2.25 + bubbles(np.random.default_rng(2), times)
    found = settled_window(times, volts, **LESSON)
    inside = (times >= found.begin_s) & (times <= found.end_s)
    assert found.voltage_V == pytest.approx(plateau(volts[inside]).mean, abs=1e-4)
    assert found.median_V == pytest.approx(np.median(volts[inside]), abs=2e-4)
