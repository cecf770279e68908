"""Current interrupt. Check values: independent computation from the stated truth (numpy, scipy 1.17.1)."""

import math

import numpy as np
import pytest

from logger.analysis.current_correction import CellKinetics, voltage_slope_ohm
from logger.analysis.interrupt import current_interrupt, extrapolated_drops_V, initial_slope_V_s
from logger.analysis.interrupt_model import Relaxation, fall_V
from logger.analysis.refusal import Refused

CURRENT_A = 2e-3
ANODE = (0.060, 1e-3)  # volts a decade, farad
CATHODE = (0.120, 40e-6)
BEFORE_V = 2.25


def time_constant_s(slope_V, capacitance_F):
    return capacitance_F * slope_V / (math.log(10.0) * CURRENT_A)


def fall(times_s, electrodes=(ANODE, CATHODE), ohmic_V=0.040):
    rows = np.array([(slope_V, time_constant_s(slope_V, farad)) for slope_V, farad in electrodes])
    return fall_V(np.maximum(times_s, 0.0), ohmic_V, rows)


def samples(rate_Hz, *, noise_V=0.0, offset=0.0, electrodes=(ANODE, CATHODE), seed=1):
    """Samples across a break at 0 s; `offset` is the break's place between two samples."""
    times = (np.arange(-100, int(0.06 * rate_Hz)) + offset) / rate_Hz
    volts = np.where(times > 0, BEFORE_V - fall(times, electrodes), BEFORE_V)
    return times, volts + noise_V * np.random.default_rng(seed).standard_normal(times.size)


def test_time_constants_and_falls() -> None:
    assert 1000 * time_constant_s(*ANODE) == pytest.approx(13.02883, abs=5e-6)
    assert 1000 * time_constant_s(*CATHODE) == pytest.approx(1.04231, abs=5e-6)
    found = 1000 * fall(np.array([1e-3, 1e-2, 1.0]), (ANODE,), 0.0)
    assert found == pytest.approx([1.926961, 14.841984, 113.44297], abs=6e-6)


def test_the_fall_obeys_the_double_layer() -> None:
    # The slow way: C dV/dt = -I(V), with I = I0 10^(-fall/b), in small explicit steps.
    slope_V, farad = ANODE
    step_s, fallen_V = 1e-6, 0.0
    for _ in range(10_000):
        fallen_V += step_s * CURRENT_A * 10.0 ** (-fallen_V / slope_V) / farad
    assert fallen_V == pytest.approx(0.014841984, rel=1e-4)


def test_charge_transfer_resistance() -> None:
    one = CellKinetics(0.060, 0.0, 0.0, 0.0)
    assert voltage_slope_ohm(CURRENT_A, one) == pytest.approx(13.02883, abs=5e-6)


@pytest.mark.parametrize(
    ("rate_Hz", "linear_mV", "square_root_mV"),
    [(100e3, 40.0162, None), (10e3, 41.1742, 31.17), (1e3, 65.6331, None), (860.0, 69.5193, None)],
)
def test_straight_extrapolation_is_worse_the_slower(rate_Hz, linear_mV, square_root_mV) -> None:
    since = np.arange(1, 6) / rate_Hz
    found = extrapolated_drops_V(since, fall(since))
    assert 1000 * found.linear_V == pytest.approx(linear_mV, abs=6e-5)
    if square_root_mV is not None:
        assert 1000 * found.square_root_V == pytest.approx(square_root_mV, abs=5e-3)


@pytest.mark.parametrize("rate_Hz", [5e3, 10e3, 100e3])
def test_two_logarithms_recover_the_drop(rate_Hz: float) -> None:
    found = current_interrupt(*samples(rate_Hz), CURRENT_A, opened_at_s=0.0)
    assert 1000 * found.drop_V == pytest.approx(40.0, abs=5e-5)
    assert found.resistance_ohm == pytest.approx(20.0, abs=5e-5)
    assert found.rate_Hz == pytest.approx(rate_Hz)
    cathode, anode = found.relaxations
    assert (cathode.slope_V_per_decade, cathode.capacitance_F) == pytest.approx(CATHODE, rel=1e-5)
    assert (anode.slope_V_per_decade, anode.capacitance_F) == pytest.approx(ANODE, rel=1e-5)
    assert "extrapolation_differs" in {one.code for one in found.cautions}


@pytest.mark.parametrize("offset", [0.05, 0.5, 0.95])
def test_a_break_between_two_samples_is_found_and_its_place_is_in_the_uncertainty(offset: float) -> None:
    found = current_interrupt(*samples(10e3, offset=offset), CURRENT_A)
    assert abs(found.opened_at_s) <= 0.5e-4
    # Anode 2 V/s and cathode 50 V/s (I/C) times a tenth of a millisecond over the square root of twelve.
    assert 1000 * found.drop_uncertainty_V == pytest.approx(52.0 * 0.1 / math.sqrt(12), rel=0.05)
    assert abs(found.drop_V - 0.040) < 1.75 * found.drop_uncertainty_V  # rectangular: never beyond sqrt(3)
    assert "instant_uncertain" in {one.code for one in found.cautions}


def test_initial_slope_is_current_over_capacitance() -> None:
    rows = tuple(Relaxation(b, time_constant_s(b, c), c) for b, c in (ANODE, CATHODE))
    assert initial_slope_V_s(rows) == pytest.approx(2e-3 / 1e-3 + 2e-3 / 40e-6, rel=1e-9)


@pytest.mark.parametrize(("rate_Hz", "noise_V"), [(5e3, 1e-3), (10e3, 0.2e-3)])
def test_intervals_hold_the_truth(rate_Hz: float, noise_V: float) -> None:
    held = 0
    for seed in range(100):
        times, volts = samples(rate_Hz, noise_V=noise_V, seed=seed)
        try:
            found = current_interrupt(times, volts, CURRENT_A, opened_at_s=0.0)
        except Refused:
            continue  # said so: no interval that could be wrong
        held += abs(found.drop_V - 0.040) <= 1.96 * found.drop_uncertainty_V
    assert 0.90 <= held / 100 <= 0.995


def test_one_electrode_against_a_reference() -> None:
    times, volts = samples(10e3, electrodes=(ANODE,), noise_V=1e-4)
    found = current_interrupt(
        times, volts, CURRENT_A, opened_at_s=0.0, electrodes=1, current_uncertainty_A=2e-5
    )
    assert len(found.relaxations) == 1
    assert abs(found.drop_V - 0.040) < 3 * found.drop_uncertainty_V
    # 1 % of the current alone is 0.2 ohm.
    assert found.resistance_uncertainty_ohm == pytest.approx(
        math.hypot(0.2, found.drop_uncertainty_V / CURRENT_A), rel=0.02
    )


def test_a_missing_electrode_is_refused_and_not_counted_as_ohmic() -> None:
    times, volts = samples(5e3, noise_V=20e-3)
    with pytest.raises(Refused, match="average several breaks"):
        current_interrupt(times, volts, CURRENT_A, opened_at_s=0.0)


def test_an_electrode_faster_than_the_samples_is_said() -> None:
    fast = (0.120, 5e-6)  # 0.13 ms
    found = current_interrupt(*samples(10e3, electrodes=(ANODE, fast)), CURRENT_A, opened_at_s=0.0)
    assert "relaxation_too_fast" in {one.code for one in found.cautions}


def slow(rate_Hz):
    times = np.arange(-100, 200) / rate_Hz
    return times, np.where(times > 0, BEFORE_V - fall(times), BEFORE_V)


TIMES, VOLTS = samples(10e3, noise_V=1e-4)


@pytest.mark.parametrize(
    ("attempt", "words"),
    [
        (lambda: current_interrupt(*slow(10.0), CURRENT_A), "sampling rate .* relax between two samples"),
        (lambda: current_interrupt(*slow(860.0), CURRENT_A), "sampling rate"),
        (lambda: current_interrupt(*slow(4999.0), CURRENT_A), "sampling rate"),
        (lambda: current_interrupt(TIMES, VOLTS, 0.0), "current before the break"),
        (lambda: current_interrupt(TIMES[:40], VOLTS[:40], CURRENT_A), "50 after are needed"),
        (lambda: current_interrupt(TIMES, VOLTS[:-1], CURRENT_A), "samples across the break"),
        (lambda: current_interrupt(TIMES, np.where(TIMES > 0, 26.9, VOLTS), CURRENT_A), "battery's side"),
        (
            lambda: current_interrupt(TIMES, 2.25 + 0 * VOLTS, CURRENT_A, opened_at_s=0),
            "not exceed the noise",
        ),
        (lambda: current_interrupt(TIMES, VOLTS, CURRENT_A, opened_at_s=-0.0095), "samples before the break"),
        (lambda: current_interrupt(TIMES, VOLTS, CURRENT_A, window_s=0.001), "widen the window"),
        (lambda: current_interrupt(TIMES**3, VOLTS, CURRENT_A), "unequal steps"),
        (lambda: current_interrupt(TIMES, np.where(TIMES > 0.01, np.inf, VOLTS), CURRENT_A), "overload"),
        (lambda: extrapolated_drops_V([1e-4], [0.04]), "needs five"),
    ],
)
def test_what_shows_no_drop_is_refused(attempt, words: str) -> None:
    with pytest.raises(Refused, match=words):
        attempt()
