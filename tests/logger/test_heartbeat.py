"""A pause of the whole program is told from an instrument that says nothing."""

from __future__ import annotations

import time

import pytest

from drivers import run_clock
from drivers.samples import Delivery
from logger.heartbeat import STOOD_STILL_S, Heartbeat
from logger.reader import read_recording
from tests.logger.fakes import ScriptedSource, block, delivered
from tests.logger.running import recorded

STILL_S = 100.0


class Clock:
    """Real seconds, and what a test adds to them."""

    def __init__(self, *, stands_still_asleep: bool = False) -> None:
        self.added_s = 0.0
        self._counts = not stands_still_asleep

    def monotonic(self) -> float:
        return time.monotonic() + self.added_s * self._counts


def stopped(clock):
    """A source in whose second read `STILL_S` pass, and readings that far apart."""

    class Stopped(ScriptedSource):
        silent_after_s = 3.0
        is_second = False

        def read(self, timeout_s):
            if not clock.added_s and self.is_second:
                clock.added_s = STILL_S
            self.is_second = True
            return super().read(timeout_s)

    return Stopped([delivered(block(0, 10)), Delivery(), delivered(block(10_000, 10))])


def test_beats_tell_the_longest_pause_since_a_time():
    now = [0.0]
    heart = Heartbeat(lambda: now[0])
    for now[0] in (1.0, 2.0):
        heart.beat()
    now[0] = 2.0 + STILL_S  # looked at before the other thread has gone on
    assert heart.longest_pause_s(2.0) == STILL_S
    heart.beat()  # and after
    now[0] += 0.5
    assert heart.longest_pause_s(2.0) == STILL_S
    assert heart.longest_pause_s(2.0 + STILL_S + 0.1) == 0.5


def test_a_short_pause_is_none():
    now = [0.0]
    heart = Heartbeat(lambda: now[0])
    now[0] = STOOD_STILL_S - 1
    heart.beat()
    assert heart.longest_pause_s(0.0) == 0.0


@pytest.mark.usefixtures("no_thread_stays", "quick_retry")
def test_a_computer_that_slept_is_no_silent_meter(tmp_path, monkeypatch):
    """Of the sleep itself the recorder tells (`ClockWatch`)."""
    clock = Clock(stands_still_asleep=True)
    real_s = run_clock.steady_s
    monkeypatch.setattr("drivers.run_clock.steady_s", lambda: real_s() + clock.added_s)
    monkeypatch.setattr("logger.feed.time", clock)
    run = recorded(tmp_path, stopped(clock))
    codes = {one.code for one in run.status().notices}
    (gap,) = read_recording(run.stop()).gaps
    assert (gap.begin_s, gap.end_s, gap.reason) == (0.09, STILL_S, "the computer slept")
    assert not codes & {"silent", "stood_still"}


@pytest.mark.usefixtures("no_thread_stays", "quick_retry")
@pytest.mark.parametrize("others_paused_too", [True, False])
def test_a_program_that_stood_still_says_so_and_does_not_blame_the_meter(
    tmp_path, monkeypatch, others_paused_too
):
    clock = Clock()
    real_s = run_clock.steady_s
    monkeypatch.setattr("drivers.run_clock.steady_s", lambda: real_s() + clock.added_s)
    monkeypatch.setattr("logger.feed.time", clock)
    monkeypatch.setattr(
        Heartbeat, "longest_pause_s", lambda _self, _since_s: STILL_S if others_paused_too else 0.0
    )

    run = recorded(tmp_path, stopped(clock))
    told = {one.code: one.text for one in run.status().notices}
    (gap,) = read_recording(run.stop()).gaps
    assert (gap.begin_s, gap.end_s) == (0.09, STILL_S)
    if others_paused_too:
        assert gap.reason == "the program stood still"
        assert "for 100 s: the program was stopped" in told["stood_still"]
        assert "silent" not in told
    else:
        assert "stood_still" not in told
        assert gap.reason == "no data arrived"
        assert "No data from" in told["silent"]
