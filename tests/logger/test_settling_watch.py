"""The settling rule while a run goes on, on simulated noise of 9.5 s correlation and 2 mV."""

import numpy as np
import pytest

from logger.bench_tables import Settling
from logger.settling_watch import SettlingWatch


def bubbles(random, count, interval_s, sd=0.002):
    phi = np.exp(-interval_s / 9.5)
    noise = np.empty(count)
    noise[0] = random.normal()
    for k, step in enumerate(np.sqrt(1 - phi * phi) * random.normal(size=count - 1), start=1):
        noise[k] = phi * noise[k - 1] + step
    return sd * noise


def settled_at(times, volts, settling=Settling(), every_s=10.0):  # noqa: B008
    """When the watch first says settled, or None."""
    watch = SettlingWatch(settling)
    for now in np.arange(every_s, times[-1], every_s):
        part = slice(*np.searchsorted(times, [now - watch.longest_s, now]))
        watch.look(times[part], volts[part], float(times[0]), float(now))
        if watch.verdict.word == "settled":
            return float(now)
    return None


def runs(count, length_s, voltage, rate=1.5, settling=Settling()):  # noqa: B008
    random = np.random.default_rng(11)
    times = np.arange(int(length_s * rate)) / rate
    found = []
    for _ in range(count):
        noise = bubbles(random, times.size, 1 / rate) + 0.0003 * random.normal(size=times.size)
        found.append(settled_at(times, np.round(voltage(times) + noise, 3), settling))
    return found


def test_a_lesson_settles_within_minutes():
    """After the buffer: +80 mV falling with 30 s. Typical is about 250 s."""
    found = runs(12, 500, lambda t: 2.25 + 0.08 * np.exp(-t / 30.0))
    assert all(found)
    assert 120 <= np.median(found) <= 330


def test_a_ramp_beyond_the_limit_does_not_settle():
    """Half an hour, limit 5 mV/min; nearer to it the hold only makes it rare (tests/campaigns)."""
    assert runs(8, 1800, lambda t: 2.25 - 10e-3 * t / 60.0) == [None] * 8


def test_the_hold_keeps_most_slow_ramps_from_being_called_settled():
    """6 mV/min for as long as a lesson waits: a single look would pass in every second one."""
    found = runs(12, 240, lambda t: 2.25 - 6e-3 * t / 60.0)
    assert sum(one is not None for one in found) <= 5


def test_a_laboratory_holds_for_nearly_another_window():
    assert SettlingWatch(Settling(0.5, 300.0)).hold_s(600.0) == 250.0
    assert SettlingWatch(Settling()).hold_s(240.0) == 10.0
    assert SettlingWatch(Settling()).hold_s(600.0) == 60.0
    assert SettlingWatch(Settling(5.0, 5.0)).hold_s(10.0) == 5.0


def test_a_laboratory_limit_needs_longer():
    found = runs(3, 3600, lambda t: 2.25 + 0 * t, settling=Settling(0.5, 300.0), rate=1.0)
    assert all(one is None or one >= 600 for one in found)
    assert sum(one is not None for one in found) >= 2


def test_first_it_says_that_it_has_just_begun():
    watch = SettlingWatch(Settling())
    times = np.arange(0, 30, 0.4)
    watch.look(times, np.full(times.size, 2.25), 0.0, 30.0)
    assert watch.verdict.word == "not_yet"
    assert watch.verdict.seconds_needed == pytest.approx(40.0, abs=1.0)


def test_the_hold_counts_down():
    watch = SettlingWatch(Settling())
    times = np.arange(0, 400, 0.4)
    volts = np.full(times.size, 2.25)
    words = []
    for now in range(60, 200, 10):
        part = times < now
        watch.look(times[part], volts[part], 0.0, float(now))
        words.append((watch.verdict.word, watch.verdict.seconds_needed))
    assert words[0][0] == "not_yet"
    needed = [one for word, one in words if word == "not_yet"]
    assert needed == sorted(needed, reverse=True)
    assert words[-1] == ("settled", 0.0)


@pytest.mark.parametrize(("noise_mV", "told"), [(0.1, "still drifts"), (3.0, "may still drift")])
def test_a_drift_is_called_too_fast_only_where_its_interval_lies_beyond_the_limit(noise_mV, told):
    """With 0 to 20 mV/min in its interval a voltage was said to drift faster than 5."""
    watch = SettlingWatch(Settling())
    times = np.arange(0, 70, 0.5)
    volts = 2.25 - 10e-3 * times / 60.0 + bubbles(np.random.default_rng(3), times.size, 0.5, 1e-3 * noise_mV)
    watch.look(times, volts, 0.0, 70.0)
    assert watch.drift is not None
    low, high = watch.drift.drift.interval()
    assert low < high
    assert watch.verdict.word == "not_yet"
    assert told in watch.verdict.reason
    assert (min(abs(low), abs(high)) >= 5e-3 / 60.0 and low * high > 0.0) == (told == "still drifts")


def test_a_new_stretch_starts_anew():
    watch = SettlingWatch(Settling())
    times = np.arange(0, 400, 0.4)
    for now in range(60, 200, 10):
        watch.look(times[times < now], np.full(int((times < now).sum()), 2.25), 0.0, float(now))
    assert watch.verdict.word == "settled"
    later = times[(times > 100) & (times < 200)]
    watch.look(later, np.full(later.size, 2.25), 100.0, 200.0)
    assert watch.verdict.word == "not_yet"


def test_rare_readings_cannot_tell():
    watch = SettlingWatch(Settling())
    times = np.arange(0, 100, 10.0)
    watch.look(times, np.full(times.size, 2.25), 0.0, 100.0)
    assert watch.verdict.word == "cannot_tell"


def test_a_gap_cannot_be_looked_through():
    watch = SettlingWatch(Settling())
    times = np.r_[np.arange(0, 50, 0.4), np.arange(75, 90, 0.4)]
    watch.look(times, np.full(times.size, 2.25), 0.0, 90.0)
    assert watch.verdict.word == "cannot_tell"
