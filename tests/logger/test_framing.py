"""Frames made of what has come: together where it waited together, never out of order."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from drivers.samples import Samples
from logger import framing
from logger.framing import frames_of, gathered
from logger.intake import Entry
from logger.journal import FrameType
from logger.payload import BLOCK_LIMIT, decode_samples, parts_of
from tests.logger.fakes import block

MOMENT = Entry(FrameType.MOMENT, content={"id": "a"})


def entry(index, first, count, *, has_ticks=False):
    samples = block(first, count)
    if has_ticks:
        samples = Samples(
            samples.channel, samples.times_s, samples.values, samples.quality, np.arange(first, first + count)
        )
    return Entry(FrameType.SAMPLES, index, samples)


def frames(entries):
    return [frame for group in gathered(entries) for frame in frames_of(group)]


def decoded(frame):
    return decode_samples(b"".join(parts_of(frame.payload)))


def test_blocks_that_wait_together_become_one_frame():
    (frame,) = frames([entry(0, 0, 3), entry(0, 3, 1), entry(0, 4, 2)])
    assert frame.samples == 6
    index, samples = decoded(frame)
    assert index == 0
    np.testing.assert_array_equal(samples.values, block(0, 6).values)
    np.testing.assert_array_equal(samples.times_s, block(0, 6).times_s)
    assert samples.board_ticks is None


def test_two_sources_that_take_turns_become_one_frame_each():
    found = frames([entry(index, 10 * turn, 10) for turn in range(5) for index in (0, 1)])
    assert [decoded(frame)[0] for frame in found] == [0, 1]
    assert [frame.samples for frame in found] == [50, 50]


def test_no_reading_passes_a_moment():
    found = frames([entry(0, 0, 1), MOMENT, entry(0, 1, 1), entry(0, 2, 1)])
    assert [frame.type for frame in found] == [FrameType.SAMPLES, FrameType.MOMENT, FrameType.SAMPLES]
    assert [frame.samples for frame in found] == [1, 0, 2]


def test_blocks_with_and_without_a_board_clock_stay_apart_and_in_order():
    found = frames([entry(0, 0, 2), entry(0, 2, 2, has_ticks=True), entry(0, 4, 2)])
    assert [decoded(frame)[1].board_ticks is None for frame in found] == [True, False, True]


def test_a_long_block_is_a_frame_of_its_own_and_is_not_copied():
    samples = block(0, framing.TOGETHER_LIMIT + 1)
    found = frames([entry(0, 0, 1), Entry(FrameType.SAMPLES, 0, samples), entry(0, 9, 1)])
    assert [frame.samples for frame in found] == [1, framing.TOGETHER_LIMIT + 1, 1]
    assert np.shares_memory(np.frombuffer(found[1].payload[1], "<f8"), samples.times_s)


def test_a_block_longer_than_a_frame_may_be_is_parted():
    count = BLOCK_LIMIT + 7
    times_s = np.arange(count, dtype=float)
    samples = Samples("a", times_s, -times_s, np.zeros(count, np.uint8), np.arange(count))
    found = frames([Entry(FrameType.SAMPLES, 2, samples)])
    assert [frame.samples for frame in found] == [BLOCK_LIMIT, 7]
    np.testing.assert_array_equal(decoded(found[1])[1].board_ticks, np.arange(BLOCK_LIMIT, count))


@given(st.lists(st.tuples(st.sampled_from(["moment", 0, 1, 2]), st.integers(0, 700), st.booleans())))
def test_every_channel_reads_back_as_it_came(steps):
    came, read = {}, {}
    entries = []
    for number, (what, count, has_ticks) in enumerate(steps):
        if what == "moment":
            entries.append(MOMENT)
        else:
            entries.append(entry(what, 1000 * number, count, has_ticks=has_ticks))
            came.setdefault(what, []).append(entries[-1].samples.times_s)
    found = frames(entries)
    for frame in found:
        if frame.type == FrameType.SAMPLES:
            index, samples = decoded(frame)
            read.setdefault(index, []).append(samples.times_s)
    assert sum(frame.type == FrameType.MOMENT for frame in found) == entries.count(MOMENT)
    assert read.keys() == came.keys()
    for index, blocks in came.items():
        np.testing.assert_array_equal(np.concatenate(read[index]), np.concatenate(blocks))
