"""Sleep and a clock that is set are told apart, and a run's times never go back."""

from __future__ import annotations

import pytest

from drivers.run_clock import HostClock
from logger.clock_watch import ClockWatch


class Clocks:
    def __init__(self):
        self.steady = self.awake = self.wall = 1000.0

    def watch(self):
        return ClockWatch(lambda: self.steady, lambda: self.awake, lambda: self.wall)

    def pass_s(self, seconds, *, asleep=False, wall_step_s=0.0):
        self.steady += seconds
        self.awake += 0.0 if asleep else seconds
        self.wall += seconds + wall_step_s


@pytest.fixture
def clocks():
    return Clocks()


def codes(watch):
    return [(e.code, round(e.seconds)) for e in watch.look()]


def test_ordinary_time_is_no_event(clocks):
    watch = clocks.watch()
    for _ in range(100):
        clocks.pass_s(60.0, wall_step_s=0.1)
        assert codes(watch) == []


def test_sleep_is_seen_once(clocks):
    watch = clocks.watch()
    clocks.pass_s(600.0, asleep=True)
    assert codes(watch) == [("slept", 600)]
    clocks.pass_s(1.0)
    assert codes(watch) == []


@pytest.mark.parametrize("step_s", [3600.0, -3600.0, 3.0])
def test_a_clock_that_is_set_is_seen(clocks, step_s):
    watch = clocks.watch()
    clocks.pass_s(1.0, wall_step_s=step_s)
    assert codes(watch) == [("clock_set", step_s)]


def test_both_at_once(clocks):
    watch = clocks.watch()
    clocks.pass_s(100.0, asleep=True, wall_step_s=60.0)
    assert codes(watch) == [("slept", 100), ("clock_set", 60)]


def test_run_time_follows_the_steady_clock_only(monkeypatch):
    now = [50.0]
    monkeypatch.setattr("drivers.run_clock.steady_s", lambda: now[0])
    clock = HostClock(speed=2.0)
    now[0] += 30.0  # thirty seconds in which the computer may have slept
    assert clock.now_s() == 60.0
    clock.restart()
    assert clock.now_s() == 0.0
