"""Steps are found where they were made, and nowhere else."""

from __future__ import annotations

import numpy as np
import pytest

from logger.nearby_step import REACH_S, nearest_step_s


def readings(step_at_s: float, low: float = 2.2, high: float = 27.0) -> tuple[np.ndarray, np.ndarray]:
    times_s = np.arange(0.0, 60.0, 1 / 3)
    volts = np.where(times_s < step_at_s, low, high)
    return times_s, volts + 0.001 * np.random.default_rng(1).standard_normal(times_s.size)


@pytest.mark.parametrize("at_s", [24.0, 30.0, 38.5])
@pytest.mark.parametrize("high", [27.0, 2.35, 0.01])
def test_a_step_is_found_from_either_side(at_s: float, high: float) -> None:
    times_s, volts = readings(30.1, high=high)
    found = nearest_step_s(times_s, volts, at_s)
    assert found == pytest.approx(times_s[times_s >= 30.1][0])


def test_noise_a_slide_a_stray_reading_and_a_far_step_are_none() -> None:
    times_s, flat = readings(99.0)
    assert nearest_step_s(times_s, flat, 30.0) is None
    assert nearest_step_s(times_s, flat + 0.02 * times_s, 30.0) is None
    stray = flat.copy()
    stray[90] = 5.0
    assert nearest_step_s(times_s, stray, 30.0) is None
    assert nearest_step_s(*readings(30.0), 30.0 + REACH_S + 3.0) is None


def test_of_two_steps_the_nearer_counts_and_overload_is_one() -> None:
    times_s, volts = readings(20.0)
    volts[times_s >= 28.0] = np.inf
    assert nearest_step_s(times_s, volts, 26.0) == pytest.approx(28.0, abs=0.34)
    assert nearest_step_s(times_s, volts, 22.0) == pytest.approx(20.0, abs=0.34)


def test_reversed_leads_step_alike_and_few_readings_tell_nothing() -> None:
    times_s, volts = readings(30.0)
    assert nearest_step_s(times_s, -volts, 28.0) == nearest_step_s(times_s, volts, 28.0)
    assert nearest_step_s(times_s[:4], volts[:4], 1.0) is None
