"""What the tail of a start-up leaves in a mean, against tails that are known."""

import numpy as np
import pytest

from logger.analysis.start_up import tail_in_mean

TIMES_S = np.arange(0.0, 300.0, 0.4)
BEGIN_S = 180.0


def tail_V(height_V: float, constant_s: float) -> np.ndarray:
    return height_V * np.exp(-TIMES_S / constant_s)


@pytest.mark.parametrize(("constant_s", "height_V"), [(20.0, 0.08), (30.0, 0.08), (45.0, -0.05)])
def test_a_tail_out_of_little_noise_is_found(constant_s: float, height_V: float) -> None:
    """Closed form: the mean of A exp(-t/tau) over the window."""
    random = np.random.default_rng(3)
    noise_V = 1e-4 * random.normal(size=TIMES_S.size)
    left = tail_in_mean(TIMES_S, 2.0 + tail_V(height_V, constant_s) + noise_V, BEGIN_S, 1e-4)
    truth = abs(height_V) * constant_s * (np.exp(-180 / constant_s) - np.exp(-300 / constant_s)) / 120.0
    assert left == pytest.approx(truth, rel=0.4, abs=5e-6)


def test_a_drift_is_not_taken_for_a_tail() -> None:
    random = np.random.default_rng(4)
    noise_V = 1e-3 * random.normal(size=TIMES_S.size)
    steep = tail_in_mean(TIMES_S, 2.0 + 1e-4 * TIMES_S + noise_V, BEGIN_S, 1e-3)
    level = tail_in_mean(TIMES_S, 2.0 + noise_V, BEGIN_S, 1e-3)
    assert steep == pytest.approx(level, rel=1e-6)
    assert level < 1e-4  # the mean of the window is itself known to 0.06 mV


def test_it_scales_with_the_readings_and_never_is_negative() -> None:
    random = np.random.default_rng(5)
    volts = 2.0 + tail_V(0.08, 30.0) + 1e-3 * random.normal(size=TIMES_S.size)
    left = tail_in_mean(TIMES_S, volts, BEGIN_S, 1e-3)
    assert left > 0.0
    assert tail_in_mean(TIMES_S, 10.0 * volts, BEGIN_S, 1e-2) == pytest.approx(10.0 * left, rel=1e-9)
    assert tail_in_mean(TIMES_S, -volts, BEGIN_S, 1e-3) == pytest.approx(left, rel=1e-9)
    assert tail_in_mean(TIMES_S, volts + 1.0, BEGIN_S, 1e-3) == pytest.approx(left, rel=1e-6)


def test_a_flat_line_leaves_next_to_nothing() -> None:
    assert tail_in_mean(TIMES_S, np.full(TIMES_S.size, 2.0), BEGIN_S, 1e-6) < 1e-6


def test_a_wild_reading_does_not_overflow() -> None:
    volts = 2.0 + 0.001 * np.sin(TIMES_S)
    volts[40] = 1e300
    assert 0.0 < tail_in_mean(TIMES_S, volts, BEGIN_S, 1e299) < 1e300
    assert 0.0 < tail_in_mean(TIMES_S, volts, BEGIN_S, 1e-3) < 1e300
