"""Packets on the board's own clock: spacing, losses, wraps and restarts."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drivers.formats.packet import Flag
from drivers.packet_ticks import Losses, PacketTicks, PlacedPacket

TICK_S = 1e-6


def follow(
    ticks: PacketTicks, packets: list[tuple[int, int]], *, instants: int = 32, late_s: float = 0.01
) -> list[PlacedPacket | None]:
    """Follow packets of (sequence, counter as it would be without wrap), arriving right after their time."""
    return [
        ticks.follow(sequence % 65536, counter % 2**32, instants, 0, counter * TICK_S + late_s)
        for sequence, counter in packets
    ]


def test_the_spacing_is_measured_from_packet_to_packet():
    placed = follow(PacketTicks(TICK_S), [(k, 37216 * k) for k in range(5)])
    assert [one.spacing for one in placed if one] == [0.0, 1163.0, 1163.0, 1163.0, 1163.0]
    assert [one.is_measured for one in placed if one] == [False, True, True, True, True]
    assert [one.ticks for one in placed if one] == [37216 * k for k in range(5)]


def test_the_boards_word_counts_until_it_is_measured():
    ticks = PacketTicks(TICK_S)
    ticks.declare(1000.0)
    placed = follow(ticks, [(0, 0), (1, 37216)])
    assert [one.spacing for one in placed if one] == [1000.0, 1163.0]
    ticks.declare(5.0)
    assert ticks.spacing == 1163.0


def test_a_lost_packet_is_counted_by_number_and_by_time():
    """Reference, 3.2: d = (seq - prev - 1) mod 65536; missing = round(dt / period) - n_prev."""
    ticks = PacketTicks(TICK_S)
    placed = follow(ticks, [(k, 32000 * k) for k in (0, 1, 2, 5, 6)])
    assert placed[3] == PlacedPacket(160000, 1000.0, False, 1, lost_packets=2, lost_samples=64)
    assert ticks.losses == Losses(packets=2, samples=64)
    assert placed[4] == PlacedPacket(192000, 1000.0, True, 1)


def test_numbers_that_skip_while_no_time_is_missing():
    ticks = PacketTicks(TICK_S)
    placed = follow(ticks, [(0, 0), (1, 32000), (3, 64000)])
    assert placed[2] is not None
    assert (placed[2].lost_packets, placed[2].lost_samples) == (1, 0)


def test_time_that_is_missing_without_a_number():
    ticks = PacketTicks(TICK_S)
    follow(ticks, [(k, 32000 * k) for k in range(10)])
    placed = follow(ticks, [(10, 32000 * 10 + 50_000)])
    assert placed[0] is not None
    assert (placed[0].lost_packets, placed[0].lost_samples, placed[0].spacing) == (0, 50, 1000.0)
    assert not placed[0].is_measured


def test_an_overflow_is_a_loss_and_does_not_spoil_the_spacing():
    ticks = PacketTicks(TICK_S)
    follow(ticks, [(k, 32000 * k) for k in range(5)])
    placed = ticks.follow(5, 32000 * 5 + 3000, 32, int(Flag.OVERFLOW), 0.2)
    assert placed is not None
    assert (placed.spacing, placed.lost_samples) == (1000.0, 3)


def test_another_rate_is_believed_after_some_packets():
    ticks = PacketTicks(TICK_S)
    follow(ticks, [(k, 32000 * k) for k in range(20)])
    placed = follow(ticks, [(20 + k, 32000 * 20 + 320_000 * k) for k in range(1, 20)])
    assert placed[-1] is not None
    assert (placed[-1].spacing, placed[-1].is_measured) == (10_000.0, True)


@pytest.mark.parametrize("tick_s", [1e-6, 1e-3])
def test_counter_and_number_wrap_without_a_trace(tick_s: float):
    ticks = PacketTicks(tick_s)
    start = 2**32 - 100_000
    placed = [
        ticks.follow((65530 + k) % 65536, (start + 32000 * k) % 2**32, 32, 0, 32000 * k * tick_s)
        for k in range(20)
    ]
    assert [one.ticks for one in placed if one] == [start + 32000 * k for k in range(20)]
    assert {one.segment for one in placed if one} == {1}
    assert ticks.losses == Losses()


def test_a_packet_that_comes_twice_counts_once():
    ticks = PacketTicks(TICK_S)
    placed = follow(ticks, [(0, 0), (1, 32000), (1, 32000), (2, 64000)])
    assert [one is None for one in placed] == [False, False, True, False]
    assert ticks.losses == Losses(duplicates=1)


@pytest.mark.parametrize(
    ("sequence", "counter", "after_s"),
    [
        (0, 500, 1.0),  # both went back
        (4000, 500, 1.0),  # the number by less than half, the time back
        (0, 2_400_500_000, 1.0),  # the time forward, but further than it can have gone
        (1001, 33_032_000, 3000.0),  # longer silence than half a turn of the counter
    ],
)
def test_a_restart_begins_a_new_segment(sequence: int, counter: int, after_s: float):
    ticks = PacketTicks(TICK_S)
    placed = follow(ticks, [(k, 32000 * k) for k in range(1000)])
    last_s = 999 * 32000 * TICK_S
    begun = ticks.follow(sequence, counter, 32, 0, last_s + after_s)
    assert begun == PlacedPacket(counter, 1000.0, False, 2)
    assert ticks.losses.restarts == 1
    assert ticks.losses.packets == 0
    assert placed[-1] is not None


def test_a_restart_after_forty_minutes_is_seen_by_the_computers_clock():
    """Then the counter, back at 0, looks like one that went on by half an hour (reference, 3.3)."""
    ticks = PacketTicks(TICK_S)
    begin = 2_400_000_000
    for k in range(50):
        ticks.follow(k, begin + 100_000 * k, 100, 0, 2400.0 + 0.1 * k)
    again = ticks.follow(50, 100, 100, 0, 2407.0)
    assert again is not None
    assert again.segment == 2


def test_a_computer_that_was_busy_is_no_restart():
    """Packets wait for 20 s, some are lost, then all come at once."""
    ticks = PacketTicks(TICK_S)
    follow(ticks, [(k, 32000 * k) for k in range(100)])
    waiting = [k for k in range(100, 700) if not 300 < k < 420]
    placed = [ticks.follow(k, 32000 * k, 32, 0, 25.0) for k in waiting]
    assert {one.segment for one in placed if one} == {1}
    assert ticks.losses == Losses(packets=119, samples=119 * 32)


@given(st.lists(st.integers(1, 40), min_size=2, max_size=60), st.integers(0, 2**32 - 1))
def test_unwrapped_time_is_that_of_the_board(steps: list[int], start: int):
    """Any packets lost, any place in the counter's turn."""
    ticks = PacketTicks(TICK_S)
    ticks.declare(1000.0)
    sequence = total = 0
    offsets = set()
    for step in steps:
        sequence, total = sequence + step, total + 32000 * step
        placed = ticks.follow(sequence % 65536, (start + total) % 2**32, 32, 0, total * TICK_S)
        assert placed is not None
        assert placed.segment == 1
        offsets.add(placed.ticks - total)
    assert len(offsets) == 1
    assert ticks.losses.packets == sum(steps[1:]) - len(steps[1:])
    assert ticks.losses.samples == 32 * ticks.losses.packets
