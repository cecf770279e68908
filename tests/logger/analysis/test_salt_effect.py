"""Finding when the voltage began to fall, on simulated lessons whose truth is known."""

import numpy as np
import pytest

from drivers.simulated.cell import LessonCell
from drivers.simulated.lesson import Plan
from logger.analysis.salt_effect import find_fall

RULE = {"limit_V_per_s": 5.0 / 60e3, "window_s": 60.0}


def electrolysis(cell, rate=2.5):
    truth = cell.truth
    times = np.arange(truth["buffer_in_s"] + 0.2, truth["electrodes_out_s"] - 0.5, 1 / rate)
    return times, cell.block(times)


@pytest.mark.parametrize("noise", ["lesson", "rough", "quiet"])
def test_the_salt_is_found_within_a_minute_or_five_millivolts(noise):
    """The accuracy asked of a recogniser: within 60 s, or before the voltage has fallen by 5 mV."""
    for seed in range(8):
        cell = LessonCell("demo", seed, noise, ("rounded_1mV",))
        quiet = LessonCell("demo", seed, "quiet")
        fall = find_fall(*electrolysis(cell), **RULE)
        assert fall.was_settled
        salt_s = cell.truth["salt_added_s"]
        fallen_V = quiet.voltage_V(salt_s - 1.0) - quiet.voltage_V(max(salt_s, fall.begin_s))
        assert abs(fall.begin_s - salt_s) <= 60.0 or (fall.begin_s > salt_s and fallen_V < 0.005)
        assert fall.total_V == pytest.approx(0.25, abs=0.02)


def test_a_blank_has_no_fall():
    plan = Plan(dry_s=20.0, before_s=1200.0, growth_s=10.0, out_s=60.0, after_s=60.0)
    for seed in range(10):
        cell = LessonCell(plan, seed, "lesson")
        times, volts = electrolysis(cell)
        early = times < cell.truth["salt_added_s"]
        assert find_fall(times[early], volts[early], **RULE) is None


def test_salt_added_at_once_is_a_fall_that_never_settled():
    plan = Plan(dry_s=20.0, before_s=1.0, growth_s=600.0, out_s=60.0, after_s=60.0)
    cell = LessonCell(plan, 1, "lesson")
    fall = find_fall(*electrolysis(cell), **RULE)
    assert fall is not None
    assert not fall.was_settled


@pytest.mark.parametrize("count", [0, 1, 5, 40])
def test_few_readings_show_nothing(count):
    assert find_fall(0.4 * np.arange(count), np.full(count, 2.25), **RULE) is None
