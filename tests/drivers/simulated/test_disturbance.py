"""Sizes of the disturbances: as planned before they were built (common practice, no source)."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.signal import welch

from drivers.errors import AddressError
from drivers.simulated.disturbance import NOISES, Disturbances, Noise, SlowNoise, find_noise


def test_bubble_noise_has_its_deviation_and_memory() -> None:
    # sd 2 mV, correlation 0.9 at 1 s. 100 000 s hold about 5000 independent values:
    # the deviation is known to 1 %, and 3 % are allowed.
    noise = Disturbances(Noise(bubbles_V=2e-3), seed=4, span_s=100_000)
    volts = noise.cell_V(np.arange(100_000.0))
    assert volts.std() == pytest.approx(2e-3, rel=0.03)
    assert abs(volts.mean()) < 5 * 2e-3 / 70
    for lag in (1, 5, 19):
        correlation = np.mean(volts[lag:] * volts[:-lag]) / volts.var()
        assert correlation == pytest.approx(np.exp(-lag / 9.5), abs=0.04)
    assert np.exp(-1 / 9.5) == pytest.approx(0.9, abs=5e-4)


def test_bubble_noise_is_nearly_as_strong_between_its_knots() -> None:
    # Midway between knots a step apart the variance is (1 + phi) / 2 with phi = exp(-0.01).
    slow = SlowNoise(1.0, 1.0, 20_000.0, seed=1, stream=0)
    midway = slow(np.arange(0.0, 20_000.0, 0.5) + 0.005)
    assert midway.var() == pytest.approx((1 + np.exp(-0.01)) / 2, rel=0.05)


def test_flicker_has_equal_strength_in_each_decade() -> None:
    # 0.5 mV rms a decade. Within the decades that the relaxations span, power between f and 10 f
    # is the same, so the density falls as 1/f.
    flicker = Disturbances(Noise(flicker_V=0.5e-3), seed=2, span_s=30_000)
    frequency, density = welch(flicker.cell_V(np.arange(0, 30_000, 0.5)), fs=2.0, nperseg=4096)
    for low_Hz in (2e-3, 1e-2):
        band = (frequency >= low_Hz) & (frequency < 10 * low_Hz)
        power = np.sum(density[band]) * frequency[1]
        assert np.sqrt(power) == pytest.approx(0.5e-3, rel=0.15)
    band = (frequency > 1e-3) & (frequency < 1e-1)
    slope = np.polyfit(np.log(frequency[band]), np.log(density[band]), 1)[0]
    assert slope == pytest.approx(-1, abs=0.15)


def test_stirring_is_a_sine_of_its_frequency() -> None:
    times_s = np.arange(0, 100, 0.01)
    volts = Disturbances(Noise(stirring_V=1e-3), seed=3, span_s=100).cell_V(times_s)
    for phase in (0.0, 0.5):  # in step with itself after whole turns, opposed after half a turn more
        shifted = Disturbances(Noise(stirring_V=1e-3), seed=3, span_s=100).cell_V(
            times_s + (10 + phase) / 4.83
        )
        assert shifted == pytest.approx(volts * np.cos(2 * np.pi * phase), abs=1e-9)
    assert volts.max() == pytest.approx(1e-3, rel=1e-3)


def test_stirring_phase_depends_on_the_seed() -> None:
    first = [Disturbances(Noise(stirring_V=1e-3), seed, 10).cell_V(np.zeros(1))[0] for seed in range(5)]
    assert len(set(first)) == 5


def test_bubbles_grow_and_break_off() -> None:
    masked = Disturbances(Noise(masks=True), seed=1, span_s=5000).masked_part(np.arange(0, 5000, 0.1))
    assert masked is not None
    assert masked.min() >= 0
    assert masked.max() < 0.03
    releases = np.flatnonzero(np.diff(masked) < 0)
    assert np.all(masked[releases + 1] < 0.1 / 5 * 0.03)  # starts from nothing
    lives_s = np.diff(releases) * 0.1
    assert lives_s.min() > 4.8
    assert np.mean(lives_s) == pytest.approx(17.5, rel=0.15)  # even between 5 s and 30 s; 280 of them


def test_warming_lowers_the_voltage_at_2_mV_a_kelvin() -> None:
    volts = Disturbances(Noise(warming_K=0.5), seed=0, span_s=1e6).cell_V(np.array([0.0, 1e6]))
    assert volts == pytest.approx([0.0, -1e-3], abs=1e-12)


def test_quiet_is_nothing_at_all() -> None:
    quiet = Disturbances(find_noise("quiet"), seed=9, span_s=100)
    times_s = np.arange(100.0)
    assert not quiet.cell_V(times_s).any()
    assert not quiet.reading_V(times_s).any()
    assert quiet.masked_part(times_s) is None


@given(
    st.sampled_from(sorted(NOISES)),
    st.lists(st.floats(0, 400), min_size=1, max_size=60),
    st.integers(0, 60),
)
def test_disturbances_do_not_depend_on_the_blocks(name: str, times_s: list[float], cut: int) -> None:
    disturbances = Disturbances(NOISES[name], seed=1, span_s=200)  # beyond the span it begins again
    times = np.array(times_s)
    for part_of in (disturbances.cell_V, disturbances.reading_V):
        parts = [part_of(times[:cut]), part_of(times[cut:])]
        assert np.array_equal(part_of(times), np.concatenate(parts))


def test_an_unknown_noise_is_refused_with_the_nearest() -> None:
    with pytest.raises(AddressError, match="did you mean rough"):
        find_noise("roug")
