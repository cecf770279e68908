"""A run on a disk that is full, or fails: what is kept, what is said, and the order of saving."""

from __future__ import annotations

import errno
import threading

import numpy as np
import pytest

from logger.archive import ArchiveFailed
from logger.journal import journal_of
from logger.payload import encode_samples
from logger.reader import read_recording
from logger.recovery import recover
from logger.run import Run
from tests.logger.fakes import FaultyDisk, ScriptedSource, block, delivered
from tests.logger.running import WAIT_S, recorded

pytestmark = pytest.mark.usefixtures("no_thread_stays", "quick_retry")


def test_a_full_disk_keeps_the_readings_in_memory_and_says_so(tmp_path):
    disk = FaultyDisk()
    source = ScriptedSource([delivered(block(10 * k, 10)) for k in range(100)])
    source.silent_after_s = 60.0
    run = Run([source], tmp_path / "run.h5", disk=disk)
    disk.room = 6000
    run.start()
    assert source.drained.wait(WAIT_S)
    assert disk.full_seen.wait(WAIT_S)
    while run.status().error is None:
        threading.Event().wait(0.001)
    status = run.status()
    assert "takes no more data" in status.error
    assert status.waiting_samples > 0
    assert status.durable_samples < 1000
    disk.free()
    while run.status().durable_samples < 1000:
        threading.Event().wait(0.01)
    assert run.status().error is None
    assert [n.code for n in run.status().notices] == ["disk_full", "disk_back"]
    np.testing.assert_array_equal(read_recording(run.stop()).channels[0].values, 2.0 + np.arange(1000) * 1e-6)


def test_what_memory_has_no_room_for_on_a_full_disk_becomes_a_gap(tmp_path, monkeypatch):
    """Memory is bounded: some 100 readings wait for the disk, 200 for the recorder; losses are told."""
    one = len(encode_samples(0, block(0, 10)))
    monkeypatch.setattr("logger.track.PENDING_LIMIT_BYTES", 10 * one)
    monkeypatch.setattr("logger.intake.SAMPLE_LIMIT", 200)
    disk = FaultyDisk()
    source = ScriptedSource([delivered(block(10 * k, 10)) for k in range(100)])
    source.silent_after_s = 60.0
    run = Run([source], tmp_path / "run.h5", disk=disk)
    disk.room = 2000
    most = 0

    def watched(deliver):
        def read(timeout_s):
            nonlocal most
            most = max(most, run.status().waiting_samples)
            return deliver(timeout_s)

        return read

    monkeypatch.setattr(source, "read", watched(source.read))
    run.start()
    assert source.drained.wait(WAIT_S)
    assert most <= 110 + 200 + 200, "beyond what waits, what the recorder takes at once and the intake hold"
    disk.free()
    recording = read_recording(run.stop())
    (channel,) = recording.channels
    numbers = np.rint((channel.values - 2.0) * 1e6).astype(int)
    assert 0 < numbers.size < 1000
    assert (np.diff(numbers) > 0).all()
    assert {gap.reason for gap in recording.gaps} == {"the recorder could not keep up"}
    missing_s = np.setdiff1d(np.arange(1000), numbers) / 100
    # The last gap ends with the run, by its clock, which the times of this source do not keep to.
    ends_s = [*(gap.end_s for gap in recording.gaps[:-1]), np.inf]
    gaps_s = [(gap.begin_s, end_s) for gap, end_s in zip(recording.gaps, ends_s, strict=True)]
    is_told = [any(begin_s < at_s < end_s for begin_s, end_s in gaps_s) for at_s in missing_s]
    assert all(is_told), "what is missing lies in a gap"
    assert "too_slow" in [notice.code for notice in run.status().notices]


def test_a_disk_that_stays_full_loses_nothing_that_was_written(tmp_path, monkeypatch):
    monkeypatch.setattr("logger.recorder.STOP_PATIENCE_S", 0.05)
    monkeypatch.setattr("logger.framing.TOGETHER_LIMIT", 10)  # a frame for each block: some find room
    disk = FaultyDisk()
    source = ScriptedSource([delivered(block(10 * k, 10)) for k in range(100)])
    run = Run([source], tmp_path / "run.h5", disk=disk)
    disk.room = 6000
    run.start()
    assert source.drained.wait(WAIT_S)
    saved = run.stop()
    values = read_recording(saved).channels[0].values
    assert 0 < values.size < 1000
    np.testing.assert_array_equal(values, 2.0 + np.arange(values.size) * 1e-6)
    assert f"{1000 - values.size} readings could not be written" in run.status().notices[-1].text
    assert run.unsaved_samples == 1000 - values.size
    assert run.status().saved_samples == values.size


def test_what_was_acknowledged_survives_a_disk_that_is_still_full_at_the_end(tmp_path, monkeypatch):
    """Neither what waits nor the finished file finds room: the journal keeps what it had, and it is said."""
    monkeypatch.setattr("logger.recorder.STOP_PATIENCE_S", 0.05)
    monkeypatch.setattr("logger.framing.TOGETHER_LIMIT", 10)  # a frame for each block: some find room

    def no_room(journal, part):
        raise ArchiveFailed(f"no room for {part.name}")

    monkeypatch.setattr("logger.archive._assemble_in_child", no_room)
    acknowledged = []
    disk = FaultyDisk()
    source = ScriptedSource([delivered(block(10 * k, 10)) for k in range(100)])
    run = Run([source], tmp_path / "run.h5", disk=disk, on_durable=lambda n, m: acknowledged.append(n))
    disk.room = 6000
    run.start()
    assert source.drained.wait(WAIT_S)
    with pytest.raises(ArchiveFailed, match="no room") as caught:
        run.stop()
    assert 0 < run.unsaved_samples < 1000
    assert f"The last {run.unsaved_samples} readings are lost" in str(caught.value)
    monkeypatch.undo()
    assert recover(journal_of(tmp_path / "run.h5")).outcome == "recovered"
    values = read_recording(tmp_path / "run.h5").channels[0].values
    assert values.size == 1000 - run.unsaved_samples >= acknowledged[-1] > 0
    np.testing.assert_array_equal(values, 2.0 + np.arange(values.size) * 1e-6)


def test_nothing_is_acknowledged_after_a_failed_sync(tmp_path):
    acknowledged = []
    disk = FaultyDisk()
    source = ScriptedSource([delivered(block(0, 10))])
    run = Run([source], tmp_path / "run.h5", disk=disk, on_durable=lambda n, m: acknowledged.append(n))
    run.start()
    while not acknowledged:
        threading.Event().wait(0.001)
    disk.sync_error = OSError(errno.EIO, "Input/output error")
    run.add_moment("note")
    while run.status().error is None:
        threading.Event().wait(0.001)
    count = len(acknowledged)
    disk.sync_error = None
    run.add_moment("note")
    threading.Event().wait(0.05)
    assert len(acknowledged) == count
    assert "reports an error" in run.status().error
    run.stop()


def test_an_archive_that_cannot_be_made_leaves_the_journal(tmp_path, monkeypatch):
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))

    def fail(journal, part):
        raise ArchiveFailed("no room")

    monkeypatch.setattr("logger.archive._assemble_in_child", fail)
    with pytest.raises(ArchiveFailed):
        run.stop()
    assert run.status().phase == "failed"
    monkeypatch.undo()
    assert recover(journal_of(tmp_path / "run.h5")).outcome == "recovered"
    assert read_recording(tmp_path / "run.h5").channels[0].values.size == 10


def test_the_order_of_saving_is_the_one_that_was_measured(tmp_path):
    disk = FaultyDisk()
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]), disk=disk)
    run.stop()
    assert disk.operations[-6:] == [
        "sync_data",
        "sync_file run.h5.part",
        "replace run.h5.part run.h5",
        "sync_folder",
        "remove run.h5.journal",
        "sync_folder",
    ]


def test_what_comes_after_the_end_is_not_counted_as_lost(tmp_path, monkeypatch):
    """A source whose driver does not return in time delivers once more when the run is over."""
    monkeypatch.setattr("logger.run.STOP_LIMIT_S", 0.01)
    is_stuck, may_return = threading.Event(), threading.Event()

    class Stuck(ScriptedSource):
        def read(self, timeout_s):
            if self.drained.is_set():
                is_stuck.set()
                may_return.wait(WAIT_S)
                return delivered(block(10, 10))
            return super().read(timeout_s)

    run = recorded(tmp_path, Stuck([delivered(block(0, 10))]))
    assert is_stuck.wait(WAIT_S)
    saved = run.stop()
    may_return.set()
    for feed in run._feeds:
        assert feed.join(WAIT_S)
    assert run.unsaved_samples == 0
    assert "thread_stays" in [notice.code for notice in run.status().notices]
    assert read_recording(saved).channels[0].values.size == 10
