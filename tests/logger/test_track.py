"""One copy of a run: what it keeps, and what becomes of it when a disk fails."""

from __future__ import annotations

import errno
from itertools import pairwise

import numpy as np
import pytest

from logger import track as module
from logger.disk import Disk
from logger.journal import FrameType, read_frames
from logger.notices import Notices
from logger.payload import decode_samples, encode_samples
from logger.track import FrameToWrite, Track
from tests.logger.fakes import FaultyDisk, block
from tests.logger.test_archive import head

SIZE = 10


class ForgetfulDisk(FaultyDisk):
    """A sync that fails loses what it should have written, as a page cache that drops it does."""

    def __init__(self):
        super().__init__()
        self.written_since_sync = []

    def write_at(self, fd, parts, offset):
        super().write_at(fd, parts, offset)
        self.written_since_sync.append((offset, sum(map(len, parts))))

    def sync_data(self, fd):
        if self.sync_error is not None:
            for offset, length in self.written_since_sync:
                super().write_at(fd, [bytes(length)], offset)
            self.written_since_sync.clear()
        super().sync_data(fd)
        self.written_since_sync.clear()


@pytest.fixture
def notices():
    return Notices(lambda: 0.0)


@pytest.fixture
def disk():
    return ForgetfulDisk()


@pytest.fixture
def track(tmp_path, notices, disk):
    found = Track(tmp_path / "run.h5.journal", {"uuid": "one"}, notices, disk)
    yield found
    found.close()


def add(track, first, count):
    for number in range(first, first + count):
        payload = encode_samples(0, block(SIZE * number, SIZE))
        track.push(FrameToWrite(FrameType.SAMPLES, payload, SIZE))
        track.write()


def numbers_in(path):
    """The numbers of the readings in a journal: their values tell them."""
    found = [decode_samples(f.payload)[1].values for f in read_frames(path) if f.type == FrameType.SAMPLES]
    return np.rint((np.concatenate(found) - 2.0) * 1e6).astype(int) if found else np.zeros(0, int)


def fail(track, disk):
    disk.sync_error = OSError(errno.EIO, "Input/output error")
    assert not track.sync()
    disk.sync_error = None


def test_what_a_failed_sync_lost_is_written_again_from_memory(track, disk):
    add(track, 0, 3)
    assert track.sync()
    add(track, 3, 2)
    fail(track, disk)
    assert numbers_in(track.path).size == 30, "the disk lost nothing: the test tests nothing"
    add(track, 5, 1)
    track.restore()
    np.testing.assert_array_equal(numbers_in(track.path), np.arange(60))
    assert not track.sync(), "acknowledged after a sync had failed"
    assert track.durable_samples == 30


def test_a_second_place_gets_what_the_first_disk_lost(track, disk, tmp_path):
    add(track, 0, 3)
    assert track.sync()
    add(track, 3, 2)
    fail(track, disk)
    second = track.copy_to(tmp_path / "second.journal", FaultyDisk())
    np.testing.assert_array_equal(numbers_in(second.path), np.arange(50))
    assert second.durable_samples == 50
    second.close()


def test_memory_is_bounded_after_a_failed_sync_and_keeps_no_hole(track, disk, tmp_path, notices, monkeypatch):
    """Frames beyond the limit stay on the failed disk alone; a second place gets them from there."""
    one = len(encode_samples(0, block(0, SIZE)))
    monkeypatch.setattr(module, "PENDING_LIMIT_BYTES", 4 * one)
    fail(track, disk)
    for number in range(20):
        add(track, number, 1)
        assert track._kept_bytes <= 4 * one
    assert track.has_room, "the recorder would take nothing more"
    second = track.copy_to(tmp_path / "second.journal", FaultyDisk())
    np.testing.assert_array_equal(numbers_in(second.path), np.arange(200))
    assert [notice.code for notice in notices.all()] == ["disk_error"]
    second.close()


def test_what_neither_memory_nor_disk_has_is_counted_in_words(track, disk, tmp_path, notices, monkeypatch):
    one = len(encode_samples(0, block(0, SIZE)))
    monkeypatch.setattr(module, "PENDING_LIMIT_BYTES", 4 * one)
    fail(track, disk)
    add(track, 0, 10)
    content = track.path.read_bytes()
    track.path.write_bytes(content[: track.writer.end.offset * 2 // 3])
    second = track.copy_to(tmp_path / "second.journal", FaultyDisk())
    found = numbers_in(second.path)
    assert all(b == a + 1 for a, b in pairwise(found.tolist()))
    assert 30 <= found.size < 100
    assert f"{100 - found.size} readings could not be copied" in notices.all()[-1].text
    second.close()


def test_a_second_place_without_room_is_refused_and_left_empty(track, tmp_path):
    add(track, 0, 50)
    with pytest.raises(OSError, match="no room"):
        track.copy_to(tmp_path / "second.journal", FaultyDisk(room=2000))
    assert not (tmp_path / "second.journal").exists()
    add(track, 50, 1)
    assert track.sync()
    assert track.durable_samples == 510


class CountingDisk(Disk):
    """Counts writes; takes of one that is longer than `longest` bytes only so much."""

    def __init__(self) -> None:
        self.writes: list[int] = []
        self.longest: int | None = None

    def write_at(self, fd, parts, offset) -> None:
        data = b"".join(parts)
        if self.longest is not None and len(data) > self.longest:
            super().write_at(fd, [data[: self.longest]], offset)
            raise OSError(errno.ENOSPC, "No space left on device")
        self.writes.append(len(data))
        super().write_at(fd, parts, offset)


def test_short_frames_that_wait_together_are_written_together_and_read_one_by_one(tmp_path):
    disk = CountingDisk()
    one = Track(tmp_path / "run.h5.journal", head(), Notices(lambda: 0.0), disk)
    disk.writes.clear()
    frames = [FrameToWrite(FrameType.SAMPLES, encode_samples(0, block(k, 1)), 1) for k in range(50)]
    for frame in frames:
        one.push(frame)
    one.write()
    assert len(disk.writes) == 1
    assert one.written_samples == 50
    one.close()
    assert [frame.payload for frame in read_frames(one.path)][1:] == [frame.payload for frame in frames]


def test_where_not_all_of_them_fit_those_that_do_are_written(tmp_path):
    disk = CountingDisk()
    one = Track(tmp_path / "run.h5.journal", head(), Notices(lambda: 0.0), disk)
    for k in range(10):
        one.push(FrameToWrite(FrameType.SAMPLES, encode_samples(0, block(10 * k, 10 if k != 6 else 200)), 10))
    disk.longest = 1000
    one.write()
    assert one.written_samples == 60
    assert one.waiting == 40
    disk.longest = None
    one.write()
    assert one.waiting == 0
    one.close()
    assert len(list(read_frames(one.path))) == 11


def test_a_journal_that_was_removed_is_written_anew_with_everything(track, notices, tmp_path):
    add(track, 0, 3)
    assert track.sync()
    add(track, 3, 2)
    track.path.unlink()
    anew = track.with_its_name()
    try:
        add(anew, 5, 1)
        assert anew.sync()
        assert numbers_in(tmp_path / "run.h5.journal").tolist() == list(range(6 * SIZE))
        assert anew.durable_samples == 6 * SIZE
        assert "was removed" in notices.all()[-1].text
    finally:
        anew.close()


def test_a_journal_whose_folder_was_renamed_acknowledges_nothing_more_and_goes_to_a_second_place(
    notices, tmp_path
):
    (tmp_path / "away").mkdir()
    track = Track(tmp_path / "away" / "run.h5.journal", {"uuid": "one"}, notices, FaultyDisk())
    add(track, 0, 3)
    assert track.sync()
    (tmp_path / "away").rename(tmp_path / "elsewhere")
    add(track, 3, 1)
    assert track.with_its_name() is track
    assert not track.sync()
    assert track.durable_samples == 3 * SIZE
    assert "no longer there" in track.trouble
    second = track.copy_to(tmp_path / "second.journal", FaultyDisk())
    try:
        assert numbers_in(second.path).tolist() == list(range(4 * SIZE))
    finally:
        second.close()
        track.close()


def test_a_journal_of_another_who_took_the_name_is_left_alone(track, tmp_path):
    add(track, 0, 3)
    track.path.unlink()
    track.path.write_bytes(b"another's")
    assert track.with_its_name() is track
    assert track.is_failed
    assert track.path.read_bytes() == b"another's"


def test_a_copy_that_cannot_be_read_to_its_end_leaves_nothing_at_the_second_place(
    track, tmp_path, monkeypatch
):
    add(track, 0, 3)
    assert track.sync()

    def broken(self):
        raise OSError(errno.EIO, "Input/output error")

    monkeypatch.setattr(module.JournalWriter, "frames", broken)
    with pytest.raises(OSError, match="Input/output"):
        track.copy_to(tmp_path / "second.journal", FaultyDisk())
    assert [path.name for path in tmp_path.iterdir()] == ["run.h5.journal"]
