"""The step of a display, read off its readings."""

import numpy as np
import pytest

from logger.analysis.resolution import resolution_from_readings_V

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


def test_overload_does_not_hide_it():
    values = np.round(2.25 + 0.002 * RANDOM.normal(size=500), 3)
    values[:50] = np.inf
    assert resolution_from_readings_V(values) == pytest.approx(0.001)
