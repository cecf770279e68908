"""Packets that are missing by their numbers: stretches of the right length, up to the recording."""

from __future__ import annotations

import os
from pathlib import Path

import h5py
import numpy as np
import pytest

from drivers.formats.packet import Flag
from drivers.registry import make_source
from drivers.samples import MissingStretch
from drivers.simulated.emulated_packet_board import EmulatedPacketBoard
from drivers.testing import FakeClock, FakeWire
from tests.drivers.emulation import EmulatorProcess
from tests.drivers.test_recorded_instruments import record

RATE = 100.0
INSTANTS = 10  # a packet leaves after 100 ms at the latest


def ramp(times_s):
    return 0.001 * times_s


def missing_of(until_s: float = 12.0, **orders) -> tuple[list[MissingStretch], np.ndarray]:
    """The stretches that a source tells, and the times of its samples."""
    clock = FakeClock()
    board = EmulatedPacketBoard([ramp], rate=RATE, most_instants=INSTANTS, **orders)
    wire = FakeWire(board, clock)
    source = make_source("packet:/dev/ttyFAKE0", opener=wire.open_port)
    source.open(clock)
    missing: list[MissingStretch] = []
    times_s: list[float] = []
    while clock.now_s() < until_s:
        delivery = source.read(0.2)
        missing += delivery.missing
        times_s += [float(t) for block in delivery.samples for t in block.times_s]
    source.close()
    return missing, np.array(times_s)


@pytest.mark.parametrize("lost", [[50], [50, 51, 52], [50, 70]])
def test_lost_packets_are_stretches_of_their_length(lost: list[int]):
    missing, times_s = missing_of(lose=lost)
    groups = 2 if lost == [50, 70] else 1
    assert len(missing) == groups
    for one in missing:
        packets = len(lost) // groups
        # from the last sample before to the first after: one sample period more than what is missing
        assert one.end_s - one.begin_s == pytest.approx((packets * INSTANTS + 1) / RATE, abs=1e-3)
        assert one.reason == f"{packets} packets of the board were lost ({packets * INSTANTS} samples)"
        assert one.channel == "cell_voltage"
        assert one.begin_s in times_s
        assert one.end_s in times_s
        assert not ((times_s > one.begin_s) & (times_s < one.end_s)).any()


def test_nothing_lost_nothing_missing():
    assert missing_of()[0] == []


def test_a_restart_is_a_stretch():
    missing, _ = missing_of(restart_at=50)
    assert [one.reason for one in missing] == ["the board restarted"]
    # the packet that was being filled is lost, then the board boots for 0.1 s
    expected_s = (INSTANTS + 1) / RATE + 0.1
    assert missing[0].end_s - missing[0].begin_s == pytest.approx(expected_s, abs=0.01)


def test_a_full_buffer_without_a_hole_is_none():
    assert missing_of(flags={50: Flag.OVERFLOW})[0] == []


@pytest.mark.skipif(os.name != "posix", reason="pseudo-terminals")
def test_a_lost_packet_is_a_gap_of_the_recording(tmp_path: Path):
    out = tmp_path / "run.h5"
    with EmulatorProcess("packet", "--ramp", "0.01", "--rate", "200", "--fault", "lost_every=40") as board:
        done = record(out, "8s", board.address)
    assert done.returncode == 0, done.stderr
    with h5py.File(out) as file:
        times_s = file["run/cell_voltage/time"][:]
        gaps = file["run/gaps"]
        begin_s, end_s = gaps["begin"][:], gaps["end"][:]
        reasons = [one.decode() if isinstance(one, bytes) else str(one) for one in gaps["reason"][:]]
    told = [k for k, reason in enumerate(reasons) if "packets of the board were lost" in reason]
    assert told
    for k in told:
        # 20 samples a packet at 200/s; every 40th message, at times an info packet, is never sent
        assert end_s[k] - begin_s[k] == pytest.approx(21 / 200, abs=0.02)
        assert not ((times_s > begin_s[k]) & (times_s < end_s[k])).any()
