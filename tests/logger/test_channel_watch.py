"""One channel of a board falls silent while the others go on: told, and kept as a gap."""

from __future__ import annotations

import numpy as np

from drivers.samples import Delivery, Samples
from drivers.source import Channel
from logger.channel_watch import ChannelWatch
from logger.reader import read_recording
from logger.run import Run
from tests.logger.fakes import ScriptedSource


class TwoChannels(ScriptedSource):
    @property
    def channels(self) -> tuple[Channel, ...]:
        return (Channel("cell_voltage"), Channel("shunt_voltage", role="shunt_voltage"))


def second(begin_s: int, *channels: str) -> Delivery:
    times_s = begin_s + np.arange(10) / 10
    return Delivery(
        samples=tuple(Samples(name, times_s, np.ones(10), np.zeros(10, np.uint8)) for name in channels)
    )


BOTH = ("cell_voltage", "shunt_voltage")


def recorded(tmp_path, steps):
    source = TwoChannels(steps)
    source.silent_after_s = 3.0
    run = Run([source], tmp_path / "two.h5")
    run.start()
    assert source.drained.wait(10)
    notices = [notice for notice in run.status().notices if notice.code == "channel_silent"]
    run.stop()
    return read_recording(tmp_path / "two.h5").gaps, notices


def test_a_channel_that_ends_is_told_once_and_its_gap_lasts_to_the_end(tmp_path):
    steps = [second(k, *BOTH) for k in range(5)] + [second(k, "cell_voltage") for k in range(5, 40)]
    gaps, notices = recorded(tmp_path, steps)
    assert [notice.text.split(" from ")[0] for notice in notices] == ["No reading of shunt_voltage"]
    (gap,) = [gap for gap in gaps if gap.channel == "shunt_voltage"]
    assert gap.begin_s == 4.9
    assert gap.reason == "no data arrived"


def test_a_channel_that_comes_back_closes_its_gap(tmp_path):
    steps = [second(k, *BOTH) for k in range(5)] + [second(k, "cell_voltage") for k in range(5, 12)]
    gaps, notices = recorded(tmp_path, [*steps, second(12, *BOTH)])
    assert [(gap.channel, gap.begin_s, gap.end_s) for gap in gaps] == [("shunt_voltage", 4.9, 12.0)]
    assert len(notices) == 1


def test_a_channel_that_comes_back_is_told(tmp_path):
    """Nothing said so, and who was told of the silence went on looking at the cable."""
    source = TwoChannels([
        *(second(k, *BOTH) for k in range(5)), *(second(k, "cell_voltage") for k in range(5, 12)),
        *(second(k, *BOTH) for k in range(12, 15)),
    ])  # fmt: skip
    run = Run([source], tmp_path / "two.h5")
    run.start()
    assert source.drained.wait(10)
    told = [(one.level, one.code, one.channel) for one in run.status().notices if one.channel]
    run.stop()
    assert told == [("warning", "channel_silent", "shunt_voltage"), ("info", "channel_back", "shunt_voltage")]


def test_a_channel_that_never_comes(tmp_path):
    gaps, notices = recorded(tmp_path, [second(k, "cell_voltage") for k in range(8)])
    assert len(notices) == 1
    assert {gap.channel for gap in gaps} == {"shunt_voltage"}


def test_a_slow_channel_is_not_called_silent():
    watch = ChannelWatch(BOTH)
    told = []
    for k in range(200):
        watch.note("cell_voltage", float(k), float(k), 1)
        if k % 8 == 0:
            watch.note("shunt_voltage", float(k), float(k), 1)
        told += watch.newly_silent(3.0)
    assert told == []


def test_what_all_channels_share_is_no_silence_of_one():
    watch = ChannelWatch(BOTH)
    for name in BOTH:
        watch.note(name, 0.0, 10.0, 100)
    assert watch.newly_silent(3.0) == []
    watch.note("cell_voltage", 300.0, 300.0, 1)
    assert watch.newly_silent(3.0) == []  # it is only the first to come back
    for k in range(3):
        watch.note("cell_voltage", 301.0 + k, 301.0 + k, 1)
    assert watch.newly_silent(3.0) == [("shunt_voltage", 293.0)]
