"""Looking at readings a piece at a time gives what looking at them all at once gives."""

import numpy as np
import pytest

from logger.analysis import readings
from logger.analysis.charge import charge, charge_of_pieces
from logger.analysis.grid import grid_of_pieces, uniform_grid
from logger.analysis.readings import Between, CorrectedVoltage, slices_of
from logger.analysis.states import recognise_states, reversed_samples, state_thresholds

LIMITS = state_thresholds(1.231, 27.0)


@pytest.fixture
def small_pieces(monkeypatch):
    monkeypatch.setattr(readings, "PIECE", 7)


def rough_run(seed, count=500):
    """Times with jitter and gaps, voltages that wander through all states, some without a number."""
    random = np.random.default_rng(seed)
    times = np.cumsum(random.choice([0.1, 0.1, 0.1, 0.5, 30.0], count))
    volts = random.choice([0.01, 0.07, 1.25, 1.3, 2.2, 2.2, 2.3, 3.9, 24.0, 26.9, -2.2, np.inf, np.nan], 60)
    volts = np.repeat(volts, random.integers(1, 20, 60))[:count]
    return times[: volts.size], volts


def test_slices_cover_everything_once(small_pieces):
    assert [(one.start, one.stop) for one in slices_of(3, 18)] == [(3, 7), (7, 14), (14, 18)]
    assert list(slices_of(5, 5)) == []


@pytest.mark.parametrize("seed", range(30))
def test_states_do_not_depend_on_where_the_pieces_end(seed, monkeypatch):
    times, volts = rough_run(seed)
    whole = recognise_states(times, volts, LIMITS)
    backwards = reversed_samples(volts)
    for piece in (1, 2, 7, 64):
        monkeypatch.setattr(readings, "PIECE", piece)
        assert recognise_states(times, volts, LIMITS) == whole
        assert reversed_samples(volts) == backwards


@pytest.mark.parametrize("seed", range(10))
def test_a_grid_of_pieces_is_that_of_the_whole(seed, small_pieces):
    times, volts = rough_run(seed)
    kept = (volts > 1.0) & (volts < 4.0)
    whole = uniform_grid(times[kept], volts[kept], 50)
    pieces = Between(times, volts, slice(0, times.size), 1.0, 4.0)
    assert len(pieces) > 10
    found = grid_of_pieces(pieces, 50)
    assert (found.step_s, found.missing) == (whole.step_s, whole.missing)
    assert found.longest_gap_s == pytest.approx(whole.longest_gap_s, rel=1e-12)
    np.testing.assert_allclose(found.times_s, whole.times_s, rtol=1e-12)
    np.testing.assert_allclose(found.values, whole.values, rtol=1e-12)


@pytest.mark.parametrize("seed", range(10))
def test_a_charge_of_pieces_is_that_of_the_whole(seed):
    times, volts = rough_run(seed)
    current, active = 0.001 * volts, (volts > 1.0) & (volts < 4.0)
    whole = charge(times, current, electrolysing=active, events_s=[40.0], greatest_current_A=0.01)
    parts = [
        (times[k : k + 7], current[k : k + 7], active[k : k + 7]) for k in range(0, times.size, 7)
    ]  # fmt: skip
    found = charge_of_pieces(
        parts, gap_limit_s=whole.gap_limit_s, events_s=[40.0], greatest_current_A=0.01
    )  # fmt: skip
    assert found.low_C == pytest.approx(whole.low_C, rel=1e-12)
    assert found.best_C == pytest.approx(whole.best_C, rel=1e-12)
    assert found.high_C == pytest.approx(whole.high_C, rel=1e-12)
    for name in ("gaps", "bridged_gaps", "missing_samples", "repeated_samples", "simultaneous_samples"):
        assert getattr(found, name) == getattr(whole, name), name


def test_corrected_voltages():
    shown = np.array([2.21, -2.19, 3e4, -np.inf, np.nan])
    volts = CorrectedVoltage(shown, zero_V=0.01, gain=2.0)
    np.testing.assert_allclose(volts[0:3], [1.1, -1.1, np.inf])
    magnitudes = CorrectedVoltage(shown, zero_V=0.01, gain=2.0, is_magnitude=True)
    np.testing.assert_allclose(magnitudes[:], [1.1, 1.1, np.inf, np.inf, np.nan])
    assert volts.size == 5
