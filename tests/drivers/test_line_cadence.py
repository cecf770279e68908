"""When the board's own clock proves that readings are missing, and when it does not."""

from __future__ import annotations

import random

import numpy as np
import pytest

from drivers.line_cadence import LineCadence, MissingReadings
from drivers.registry import make_source
from drivers.simulated.emulated import Emulation, make_device
from drivers.simulated.faults import Faults
from drivers.testing import FakeClock, FakeWire
from tests.drivers.simulated.test_emulated import ramp

PERIOD = 100  # ticks of 1 ms


def followed(ticks: list[int | None], segments: list[int] | None = None) -> list[MissingReadings]:
    cadence = LineCadence()
    found = []
    time_s = 0.0
    for place, one in enumerate(ticks):
        time_s = time_s + PERIOD / 1000 if one is None else one / 1000
        found += cadence.follow(time_s, one, segments[place] if segments else 1)
    return found


def steady(count: int, period: int = PERIOD, begin: int = 0) -> list[int]:
    return [begin + period * place for place in range(count)]


def test_a_lost_line_is_missing_from_the_one_before_to_the_one_after():
    ticks = steady(60)
    del ticks[40]
    assert followed(ticks) == [MissingReadings(3.9, 4.1, 1)]


@pytest.mark.parametrize("lost", [1, 2, 3, 7, 150])
def test_so_many_as_are_lost(lost: int):
    ticks = steady(300)
    del ticks[100 : 100 + lost]
    assert followed(ticks) == [MissingReadings(9.9, 10.0 + lost / 10, lost)]


def test_two_apart_by_one_line():
    ticks = steady(60)
    del ticks[40], ticks[41]
    assert [one.readings for one in followed(ticks)] == [1, 1]


@pytest.mark.parametrize("seed", range(5))
def test_a_rhythm_that_trembles_loses_nothing(seed: int):
    chance = random.Random(seed)
    ticks = np.cumsum([PERIOD + chance.randint(-20, 20) for _ in range(500)]).tolist()
    assert followed(ticks) == []


def test_a_hesitation_is_no_loss():
    """The board was busy for half a period: what came later was taken later."""
    ticks = steady(40) + steady(40, begin=4050)
    assert followed(ticks) == []


@pytest.mark.parametrize("period", [10, 50, 200, 300, 1000])
def test_another_pace_is_no_loss(period: int):
    ticks = steady(40) + steady(100, period, begin=3900 + period)
    assert followed(ticks) == []


def test_a_loss_after_another_pace_is_seen_again():
    ticks = steady(40) + steady(100, 200, begin=4100)
    del ticks[100]
    assert [one.readings for one in followed(ticks)] == [1]


def test_a_board_that_prints_when_it_likes_proves_nothing():
    chance = random.Random(3)
    ticks = np.cumsum([chance.choice([30, 100, 250, 700]) for _ in range(400)]).tolist()
    assert followed(ticks) == []


def test_a_counter_too_coarse_proves_nothing():
    """500 lines a second by a counter of milliseconds: steps of 1, 2 and 3 are all usual."""
    ticks = [place * 2 + place % 2 for place in range(400)]
    del ticks[200]
    assert followed(ticks) == []


def test_before_there_is_a_rhythm_nothing_is_missing():
    assert followed([0, 100, 400, 500, 600, 900]) == []


def test_a_line_whose_own_time_is_damaged_has_a_reading():
    ticks: list[int | None] = [*steady(60)]
    ticks[40] = None
    assert followed(ticks) == []


def test_a_restart_is_a_gap():
    ticks: list[int | None] = [*steady(40), None, *steady(40)]
    found = followed(ticks, [1] * 41 + [2] * 40)
    assert found == [MissingReadings(3.9, 4.0, 0)]


def test_what_lies_between_two_openings_is_not_judged():
    cadence = LineCadence()
    found = [one for tick in steady(40) for one in cadence.follow(tick / 1000, tick, 1)]
    cadence.begin_again()
    for tick in [*steady(3, begin=9000), *steady(3, begin=9400)]:
        found += cadence.follow(tick / 1000, tick, 2)  # counted anew
    assert found == [MissingReadings(9.2, 9.4, 1)]


class TestOfASource:
    """A board at 20 lines a second, read over a line that loses some."""

    def read(self, query: str = "", span_s: float = 30.0, options: dict | None = None, **faults):
        clock = FakeClock()
        device = make_device(Emulation("text", ramp, rate=20.0, **(options or {})), Faults(**faults))
        source = make_source(
            f"text:/dev/ttyS9{query}", opener=FakeWire(device, clock, line_baud=115200).open_port
        )
        source.open(clock)
        deliveries = []
        while clock.now_s() < span_s:
            deliveries.append(source.read(0.2))
        source.close()
        return deliveries

    def missing(self, deliveries):
        return [one for delivery in deliveries for one in delivery.missing]

    def test_a_line_that_never_came(self):
        """Every fiftieth line; what is before the rhythm is known is not claimed."""
        deliveries = self.read(lost_every=50)
        missing = self.missing(deliveries)
        times_s = np.concatenate([block.times_s for one in deliveries for block in one.samples])
        assert 10 <= len(missing) <= 12
        for one in missing:
            assert one.reason == "one reading is missing by the board's clock"
            assert one.end_s - one.begin_s == pytest.approx(0.1, abs=1e-3)
            assert not ((times_s > one.begin_s + 1e-3) & (times_s < one.end_s - 1e-3)).any()
        assert "readings_missing" in {notice.code for one in deliveries for notice in one.notices}

    def test_damaged_lines_are_missing_too(self):
        deliveries = self.read(drop=0.002)
        steps_s = np.diff(np.concatenate([block.times_s for one in deliveries for block in one.samples]))
        long = (steps_s > 0.075).sum()
        assert long > 3
        assert abs(len(self.missing(deliveries)) - long) <= 2

    def test_what_the_board_itself_leaves_empty_is_said_so(self):
        def volts(times_s):  # nothing from 5 s to 6 s
            return np.where((times_s > 5.02) & (times_s < 6.02), np.nan, ramp(times_s))

        clock = FakeClock()
        device = make_device(Emulation("text", volts, rate=20.0), Faults())
        source = make_source("text:/dev/ttyS9", opener=FakeWire(device, clock).open_port)
        source.open(clock)
        missing = []
        while clock.now_s() < 10.0:
            missing += source.read(0.2).missing
        source.close()
        assert [one.reason for one in missing] == ["the board says that it has no value"]
        assert missing[0].end_s - missing[0].begin_s == pytest.approx(1.05, abs=0.01)

    def test_all_columns_of_a_board(self):
        options = {
            "columns": ("time_ms", "cell_voltage", "shunt_voltage"),
            "others": {"shunt_voltage": ramp},
        }
        query = "?column=2,3&role=cell_voltage,shunt_voltage"
        missing = self.missing(self.read(query, lost_every=100, options=options))
        spans = {name: [] for name in ("cell_voltage", "shunt_voltage")}
        for one in missing:
            spans[one.channel].append((one.begin_s, one.end_s))
        assert spans["cell_voltage"] == spans["shunt_voltage"]
        assert len(spans["cell_voltage"]) >= 5

    @pytest.mark.parametrize(
        "faults", [{}, {"late_every": 100}, {"stall_at": 100, "stall_s": 2.0}, {"flip": 0.0}]
    )
    def test_late_lines_are_not_missing(self, faults):
        assert self.missing(self.read(**faults)) == []

    def test_a_board_without_a_clock_claims_nothing(self):
        assert self.missing(self.read(options={"form": "volts"}, lost_every=50)) == []

    def test_a_restarted_board(self):
        missing = self.missing(self.read(reboot_after=100))
        assert [one.reason for one in missing] == ["the board restarted"]
        assert missing[0].end_s - missing[0].begin_s == pytest.approx(0.1 + 0.05, abs=0.02)  # boot and a line


def test_lines_that_come_twice_do_not_hide_a_loss():
    ticks = [tick for tick in steady(60) for _ in range(2)]
    del ticks[80:82]
    assert [one.readings for one in followed(ticks)] == [1]
