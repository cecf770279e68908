"""The growth phase as it is drawn: the readings, and the model that the findings name."""

from __future__ import annotations

import numpy as np
import pytest

from logger.analysis.findings import findings
from logger.analysis.growth_curve import growth_curve
from tests.logger.simulated_run import channel, lesson, recording


def exponential(seed=2):
    """Invented readings that fall from 2.25 V to 2.00 V with a time constant of 200 s."""
    times = np.arange(0.0, 1500.0, 0.5)
    values = np.where(times < 300, 2.25, 2.0 + 0.25 * np.exp(-(times - 300.0) / 200.0))
    values = values + 0.001 * np.random.default_rng(seed).standard_normal(times.size)
    moments = [(0.5, "buffer_in"), (300.0, "salt_added")]
    return recording(channel(times, values), moments=moments)


def test_the_model_lies_on_the_readings_and_leaves_the_noise():
    run = exponential()
    found = findings(run)
    assert found["growth"]["model"] == "exponential"
    curve = growth_curve(run, found)
    assert curve.times_s.size <= 160
    assert curve.times_s[0] >= 0.0
    expected = 2.0 + 0.25 * np.exp(-curve.times_s / 200.0)
    assert curve.voltage_V == pytest.approx(expected, abs=0.002)
    assert curve.fitted_V == pytest.approx(expected, abs=0.002)
    # the mean of 15 readings with 1 mV of noise each
    assert curve.residual_V.std() == pytest.approx(0.001 / np.sqrt(15), rel=0.4)


def test_without_a_fit_the_readings_remain():
    run, _ = lesson(3)
    found = findings(run)
    assert found["growth"] is None
    curve = growth_curve(run, found)
    assert curve.times_s.size > 100
    assert curve.fitted_V is None
    assert curve.residual_V is None


def test_without_a_growth_phase_there_is_no_curve():
    run = exponential()
    assert growth_curve(run, {}) is None
    assert growth_curve(run, {"phases": None, "growth": None}) is None
