"""The journal: what was written comes back, and what is wrong in any way ends the reading."""

from __future__ import annotations

import struct

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drivers.samples import Samples
from logger.disk import Disk
from logger.errors import RecordingBusy
from logger.journal import (
    AHEAD_BYTES,
    FrameType,
    JournalWriter,
    begun_of,
    has_frames_behind_damage,
    is_laid_out_ahead,
    read_frames,
    read_head,
)
from logger.payload import decode_samples, encode_json, encode_samples
from tests.logger.fakes import FaultyDisk, block

HEAD = {"uuid": "a-b-c", "title": "Strip 4"}


def write(path, blocks=3, head=HEAD):
    journal = JournalWriter(path, head)
    for number in range(blocks):
        journal.append(FrameType.SAMPLES, encode_samples(0, block(10 * number, 10)))
    journal.close()
    return path


def samples_in(path):
    frames = [f for f in read_frames(path) if f.type == FrameType.SAMPLES]
    return np.concatenate([decode_samples(f.payload)[1].values for f in frames]) if frames else np.empty(0)


def test_what_was_written_comes_back(tmp_path):
    path = write(tmp_path / "a.h5.journal")
    assert read_head(path) == HEAD
    np.testing.assert_array_equal(samples_in(path), 2.0 + np.arange(30) * 1e-6)


@given(
    st.lists(
        st.tuples(st.floats(), st.floats(0, 1e9), st.integers(0, 255), st.integers(-(2**63), 2**63 - 1)),
        max_size=50,
    ),
    st.booleans(),
    st.integers(0, 65535),
)
def test_any_block_round_trips(rows, with_ticks, index):
    values, times, quality, ticks = (np.array([r[i] for r in rows]) for i in range(4))
    given_block = Samples(
        "",
        times.astype(np.float64),
        values.astype(np.float64),
        quality.astype(np.uint8),
        ticks.astype(np.int64) if with_ticks else None,
    )
    back_index, back = decode_samples(encode_samples(index, given_block))
    assert back_index == index
    np.testing.assert_array_equal(back.times_s, given_block.times_s)
    np.testing.assert_array_equal(back.values, given_block.values)
    np.testing.assert_array_equal(back.quality, given_block.quality)
    if with_ticks:
        np.testing.assert_array_equal(back.board_ticks, given_block.board_ticks)
    else:
        assert back.board_ticks is None


def test_cut_at_every_byte_gives_a_prefix_of_whole_blocks(tmp_path):
    whole = write(tmp_path / "whole.journal").read_bytes()
    cut = tmp_path / "cut.journal"
    seen = set()
    for length in range(len(whole)):
        cut.write_bytes(whole[:length])
        found = samples_in(cut)
        assert found.size % 10 == 0
        np.testing.assert_array_equal(found, 2.0 + np.arange(found.size) * 1e-6)
        seen.add(found.size)
    assert seen == {0, 10, 20}  # the last whole block needs the last byte


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=200)
@given(st.integers(0, 10_000), st.integers(1, 255))
def test_a_changed_byte_is_never_read_as_data(tmp_path, where, change):
    path = tmp_path / "changed.journal"
    path.unlink(missing_ok=True)
    data = bytearray(write(path).read_bytes())
    data[where % len(data)] ^= change
    path.write_bytes(data)
    found = samples_in(path)
    assert found.size < 30
    np.testing.assert_array_equal(found, 2.0 + np.arange(found.size) * 1e-6)


def test_bytes_of_an_old_journal_behind_are_not_taken_for_its_continuation(tmp_path):
    old = write(tmp_path / "old.journal", blocks=6).read_bytes()
    new = write(tmp_path / "new.journal", blocks=2).read_bytes()
    assert len(old) > len(new)
    stale = tmp_path / "stale.journal"
    # Same lengths and sequence numbers: only the salt tells the runs apart.
    stale.write_bytes(new + old[len(new) :])
    assert samples_in(stale).size == 20


def test_a_damaged_head_means_that_nothing_was_acknowledged(tmp_path):
    path = write(tmp_path / "a.journal")
    data = bytearray(path.read_bytes())
    data[25] ^= 1
    path.write_bytes(data)
    assert read_head(path) is None
    assert list(read_frames(path)) == []


def test_a_huge_claimed_length_is_refused_without_reading_it(tmp_path):
    path = write(tmp_path / "a.journal")
    data = bytearray(path.read_bytes())
    struct.pack_into("<I", data, 4, 2**31)
    path.write_bytes(data)
    assert list(read_frames(path)) == []


def test_a_frame_refused_by_a_full_disk_goes_to_the_same_place_later(tmp_path):
    disk = FaultyDisk()
    journal = JournalWriter(tmp_path / "a.journal", HEAD, disk)
    journal.append(FrameType.SAMPLES, encode_samples(0, block(0, 10)))
    disk.room = journal.end.offset + 50  # the next frame is torn
    payload = encode_samples(0, block(10, 10))
    for _ in range(3):
        with pytest.raises(OSError, match="space"):
            journal.append(FrameType.SAMPLES, payload)
    assert samples_in(journal.path).size == 10
    disk.free()
    journal.append(FrameType.SAMPLES, payload)
    journal.append(FrameType.SAMPLES, encode_samples(0, block(20, 10)))
    journal.close()
    np.testing.assert_array_equal(samples_in(journal.path), 2.0 + np.arange(30) * 1e-6)


def test_a_journal_that_is_there_is_left_as_it_is(tmp_path):
    path = write(tmp_path / "a.journal")
    before = path.read_bytes()
    with pytest.raises(FileExistsError):
        JournalWriter(path, HEAD)
    assert path.read_bytes() == before


def test_only_one_writer_holds_a_journal(tmp_path):
    journal = JournalWriter(tmp_path / "a.journal", HEAD)
    assert Disk().is_locked(journal.path)
    other = Disk()
    fd = other.create(tmp_path / "b.journal")
    other.lock(fd, tmp_path / "b.journal")
    with pytest.raises(RecordingBusy):
        other.lock(__import__("os").open(tmp_path / "b.journal", 2), tmp_path / "b.journal")
    journal.close()
    journal.close()
    assert not Disk().is_locked(journal.path)
    other.close(fd)


def test_the_head_and_the_name_are_durable_before_anything_else(tmp_path):
    disk = FaultyDisk()
    JournalWriter(tmp_path / "a.journal", HEAD, disk).close()
    assert disk.operations == ["write", "sync_data", "give_name", "sync_folder"]


def test_a_beginning_that_was_cut_off_is_in_nobodys_way(tmp_path):
    path = tmp_path / "a.journal"
    begun_of(path).write_bytes(b"half a head")
    JournalWriter(path, HEAD).close()
    assert read_head(path) == HEAD
    assert [p.name for p in tmp_path.iterdir()] == ["a.journal"]


def test_two_that_begin_the_same_journal_do_not_meet(tmp_path):
    """The other holds its lock on the beginning: it will have the name in a moment."""
    path = tmp_path / "a.journal"
    other = Disk()
    fd = other.create(begun_of(path))
    other.lock(fd, begun_of(path))
    with pytest.raises(FileExistsError):
        JournalWriter(path, HEAD)
    assert other.has_name(fd, begun_of(path))
    other.give_name(fd, begun_of(path), path)
    with pytest.raises(FileExistsError):
        JournalWriter(path, HEAD)
    other.close(fd)


def test_a_beginning_removed_under_its_writer_is_given_up(tmp_path):
    """The other took it for a stale one, between its creation and its lock."""
    path = tmp_path / "a.journal"

    class Overtaken(Disk):
        def lock(self, fd, locked):
            locked.unlink(missing_ok=True)
            Disk().create(locked)  # the other's
            super().lock(fd, locked)

    with pytest.raises(FileExistsError):
        JournalWriter(path, HEAD, Overtaken())
    assert begun_of(path).exists(), "the other's beginning is not ours to remove"
    assert not path.exists()


def test_a_folder_that_cannot_be_written_leaves_nothing(tmp_path):
    disk = FaultyDisk(room=5)
    with pytest.raises(OSError, match="space"):
        JournalWriter(tmp_path / "a.journal", HEAD, disk)
    assert list(tmp_path.iterdir()) == []


def test_json_frames_refuse_what_is_no_json():
    with pytest.raises(ValueError, match="JSON"):
        encode_json({"time_s": float("nan")})


def test_a_slow_journal_is_laid_out_ahead_and_reads_as_if_it_were_not(tmp_path):
    disk = FaultyDisk()
    journal = JournalWriter(tmp_path / "a.journal", HEAD, disk)
    sizes = []
    for number in range(40):
        journal.append(FrameType.SAMPLES, encode_samples(0, block(500 * number, 500)))
        journal.lay_out_ahead()
        journal.sync()
        sizes.append(journal.path.stat().st_size)
    assert len(set(sizes)) <= 1 + journal.end.offset // AHEAD_BYTES + 1, "seldom grown"
    assert min(sizes) > AHEAD_BYTES
    np.testing.assert_array_equal(samples_in(journal.path), 2.0 + np.arange(20_000) * 1e-6)
    assert is_laid_out_ahead(journal.path, journal.end.offset)
    assert not has_frames_behind_damage(journal.path)
    journal.append(FrameType.SAMPLES, encode_samples(0, block(20_000, 10)))
    assert not is_laid_out_ahead(journal.path, journal.end.offset - 100)
    journal.close()


def test_a_fast_journal_is_not_written_twice(tmp_path):
    journal = JournalWriter(tmp_path / "a.journal", HEAD)
    for number in range(3):
        journal.append(FrameType.SAMPLES, encode_samples(0, block(5000 * number, 5000)))
        journal.lay_out_ahead()
        journal.sync()
        assert journal.path.stat().st_size == journal.end.offset
    journal.close()


def test_a_disk_without_room_for_zeros_still_takes_frames(tmp_path):
    disk = FaultyDisk()
    journal = JournalWriter(tmp_path / "a.journal", HEAD, disk)
    disk.room = journal.end.offset + 1000
    journal.append(FrameType.SAMPLES, encode_samples(0, block(0, 10)))
    journal.lay_out_ahead()
    journal.sync()
    journal.append(FrameType.SAMPLES, encode_samples(0, block(10, 10)))
    journal.sync()
    journal.close()
    np.testing.assert_array_equal(samples_in(journal.path), 2.0 + np.arange(20) * 1e-6)
