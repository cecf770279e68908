"""Run times of packets that arrive together, late, or from a board that has restarted."""

from __future__ import annotations

import numpy as np
import pytest

from drivers.formats.packet import encode_data
from drivers.formats.packet_stream import PacketDecoder, PacketRun
from drivers.packet_times import PacketTimes


def packets(ticks: list[int], *, begin: int = 0, instants: int = 10) -> PacketRun:
    """Packets numbered from `begin`, with the counter at their first samples."""
    wire = [
        encode_data(begin + k, counter, [0] * instants, mask=1, range_code=2)
        for k, counter in enumerate(ticks)
    ]
    return PacketDecoder().feed(b"".join(wire)).runs[0]


def test_packets_that_waited_together_keep_the_boards_pace():
    """The board's clock is 0.5 % slow; 40 s of packets arrive at once when the computer was busy."""
    times = PacketTimes()
    truth_s = [0.1 * k for k in range(2000)]
    counter = [round(t / 1.005 * 1e6) for t in truth_s]
    for k in range(1500):
        times.stamp(packets([counter[k]], begin=k), np.array([truth_s[k] + 0.1]))
    backlog = times.stamp(packets(counter[1500:1900], begin=1500), np.full(400, truth_s[1899] + 0.1))
    assert len(backlog) == 1
    assert backlog[0].times_s[:, 0] == pytest.approx(np.array(truth_s[1500:1900]), abs=0.02)


def test_a_restart_that_looks_like_a_late_packet_does_not_shift_the_times():
    """The board is away for 10 s and starts again with a counter half a second further on."""
    times = PacketTimes()
    for k in range(1000):
        times.stamp(packets([100_000 * k], begin=k), np.array([0.1 * k + 0.1]))
    back_s = 99.9 + 10.0
    again = [times.stamp(packets([100_400_000 + 100_000 * k], begin=k), np.array([back_s + 0.1 * k]))[0]
             for k in range(5)]  # fmt: skip
    assert [float(one.times_s[0, -1]) for one in again] == pytest.approx([back_s + 0.1 * k for k in range(5)])
    assert times.losses.restarts == 1
    assert times.losses.packets == 0
    assert again[0].ticks[0, 0] == 100_400_000


def test_a_restart_among_packets_that_arrive_together_parts_them():
    times = PacketTimes()
    times.stamp(packets([100_000 * k for k in range(20)]), np.full(20, 2.0))
    first = packets([100_000 * k for k in range(20, 23)], begin=20)
    second = packets([0, 100_000], begin=0)
    run = PacketRun(
        1,
        *(
            np.concatenate([getattr(first, name), getattr(second, name)])
            for name in ("sequence", "ticks", "codes", "range_code", "flags", "bytes_after")
        ),
    )
    pieces = times.stamp(run, np.full(5, 4.0))
    assert [len(piece.run) for piece in pieces] == [3, 2]
    assert all((np.diff(piece.times_s.ravel()) >= 0).all() for piece in pieces)
    assert pieces[0].times_s[-1, -1] <= pieces[1].times_s[0, 0]
    assert times.facts["method"] == "arrival"


def test_another_tick_begins_anew():
    times = PacketTimes()
    times.stamp(packets([0, 100]), np.array([0.1, 0.2]))
    assert times.rate_per_s == pytest.approx(1e5)
    times.declare_tick(1000)
    assert times.rate_per_s is None
    times.declare_spacing(10.0)
    assert times.rate_per_s == pytest.approx(100)


def test_after_another_opening_no_time_lies_before_what_was_delivered():
    times = PacketTimes()
    times.stamp(packets([0, 100_000]), np.array([4.9, 5.0]))
    times.begin(times.last_s)
    (again,) = times.stamp(packets([200_000], begin=2), np.array([5.02]))
    assert again.times_s.min() == 5.0
    assert again.times_s.max() == pytest.approx(5.02)
