"""A whole run on a scripted source: threads, gaps, moments, a full disk, the order of saving."""

from __future__ import annotations

import errno
import threading
from types import SimpleNamespace

import numpy as np
import pytest

from drivers.errors import CannotOpen
from drivers.samples import Delivery, Notice, Samples, TaggedMoment
from drivers.source import Channel
from logger.archive import ArchiveFailed
from logger.clock_watch import ClockEvent
from logger.errors import LoggerError, OutputExists, RecordingBusy
from logger.journal import journal_of
from logger.moments import MomentError
from logger.payload import encode_samples
from logger.reader import read_recording
from logger.recovery import recover
from logger.run import Run
from tests.logger.fakes import GONE, LOST, OVER, FaultyDisk, ScriptedSource, block, delivered

WAIT_S = 10.0


@pytest.fixture(autouse=True)
def _no_thread_stays():
    before = set(threading.enumerate())
    yield
    for thread in set(threading.enumerate()) - before:
        thread.join(5)
        assert not thread.is_alive(), f"{thread.name} stayed"


@pytest.fixture(autouse=True)
def _quick_retry(monkeypatch):
    monkeypatch.setattr("logger.feed.RETRY_AFTER_S", (0.01,))
    monkeypatch.setattr("logger.recorder.RETRY_EVERY_S", 0.01)


def recorded(tmp_path, *sources, **keys):
    run = Run(sources, tmp_path / "run.h5", **keys)
    run.start()
    for source in sources:
        assert source.drained.wait(WAIT_S) or run.wait_ended(0.0)
    return run


def test_every_sample_is_in_the_finished_file(tmp_path):
    run = recorded(
        tmp_path, ScriptedSource([delivered(block(10 * k, 10)) for k in range(50)]), title="Strip 4"
    )
    saved = run.stop()
    recording = read_recording(saved)
    np.testing.assert_array_equal(recording.channels[0].values, 2.0 + np.arange(500) * 1e-6)
    np.testing.assert_array_equal(recording.channels[0].times_s, np.arange(500) / 100)
    assert recording.title == "Strip 4"
    assert recording.channels[0].instrument["details"] == {"counts": 4000.0}
    assert recording.gaps == ()
    assert [p.name for p in tmp_path.iterdir()] == ["run.h5"]
    assert run.status().phase == "finished"
    assert run.status().durable_samples == 500


def test_one_thread_touches_the_source(tmp_path):
    source = ScriptedSource([delivered(block(0, 10)), LOST, delivered(block(10, 10))])
    recorded(tmp_path, source).stop()
    assert len(source.threads) == 1
    assert source.closed == 2


def test_stop_may_be_called_twice_and_from_any_thread(tmp_path):
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))
    found = []
    threads = [threading.Thread(target=lambda: found.append(run.stop())) for _ in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(WAIT_S)
    assert found == [tmp_path / "run.h5"] * 3


def test_a_lost_source_leaves_a_gap_and_the_run_goes_on(tmp_path):
    steps = [delivered(block(0, 10)), LOST, delivered(block(500, 10))]
    source = ScriptedSource(steps, open_errors=[None, GONE, GONE, None])
    run = recorded(tmp_path, source)
    codes = [n.code for n in run.status().notices]
    assert codes == ["lost", "back"]
    recording = read_recording(run.stop())
    assert recording.channels[0].values.size == 20
    (gap,) = recording.gaps
    assert (gap.begin_s, gap.end_s, gap.channel) == (0.09, 5.0, "cell_voltage")
    assert "cable was pulled" in gap.reason


def test_a_source_that_never_comes_back_leaves_a_gap_to_the_end(tmp_path):
    source = ScriptedSource([delivered(block(0, 1)), LOST], open_errors=[None, *[GONE] * 10_000])
    run = Run([source], tmp_path / "run.h5")
    run.start()
    while run.status().sources[0].state != "lost":
        threading.Event().wait(0.001)
    recording = read_recording(run.stop())
    (gap,) = recording.gaps
    assert gap.end_s == recording.duration_s


def test_a_fault_in_a_driver_does_not_end_the_run(tmp_path):
    run = recorded(
        tmp_path, ScriptedSource([delivered(block(0, 10)), KeyError("oops"), delivered(block(10, 10))])
    )
    assert "internal fault" in run.status().notices[0].text
    assert read_recording(run.stop()).channels[0].values.size == 20


def test_silence_is_said_and_becomes_a_gap(tmp_path):
    source = ScriptedSource([delivered(block(0, 10)), *[None] * 40, delivered(block(900, 10))])
    run = Run([source], tmp_path / "run.h5")
    run.start()
    while run.status().sample_count < 20:
        threading.Event().wait(0.001)
    assert "silent" in [n.code for n in run.status().notices]
    (gap,) = read_recording(run.stop()).gaps
    assert (gap.begin_s, gap.end_s) == (0.09, 9.0)


def test_a_source_that_ends_is_told(tmp_path):
    run = Run([ScriptedSource([delivered(block(0, 10)), OVER])], tmp_path / "run.h5")
    run.start()
    assert run.wait_ended(WAIT_S)
    assert run.status().sources[0].state == "ended"
    run.stop()


def test_an_instrument_that_is_not_there_leaves_no_file(tmp_path):
    source = ScriptedSource([], open_errors=[CannotOpen("/dev/ttyUSB9 is not there")])
    run = Run([source], tmp_path / "run.h5")
    with pytest.raises(CannotOpen, match="ttyUSB9"):
        run.start()
    assert list(tmp_path.iterdir()) == []
    assert source.closed == 1


def test_one_missing_instrument_of_two_closes_the_other(tmp_path):
    good = ScriptedSource([])
    bad = ScriptedSource([], open_errors=[GONE], channel=Channel("shunt_voltage", "shunt_voltage"))
    with pytest.raises(CannotOpen):
        Run([good, bad], tmp_path / "run.h5").start()
    assert good.closed == 1


def test_two_sources_keep_their_own_clocks_and_names(tmp_path):
    cell = ScriptedSource([delivered(block(10 * k, 10)) for k in range(5)])
    shunt = ScriptedSource(
        [delivered(block(0, 3, rate=1.0, channel="shunt_voltage"))],
        channel=Channel("shunt_voltage", "shunt_voltage"),
    )
    recording = read_recording(recorded(tmp_path, cell, shunt).stop())
    assert [(c.name, c.role, c.values.size) for c in recording.channels] == [
        ("cell_voltage", "cell_voltage", 50),
        ("shunt_voltage", "shunt_voltage", 3),
    ]


def test_two_channels_of_one_name_are_refused(tmp_path):
    with pytest.raises(LoggerError, match="channel="):
        Run([ScriptedSource([]), ScriptedSource([])], tmp_path / "run.h5").start()


def test_moments_keep_the_time_they_were_stamped_at(tmp_path):
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))
    first = run.add_moment("salt_added", "2 drops", time_s=1.25)
    run.add_moment("note", time_s=0.5)
    run.edit_moment(first.id, label="3 drops")
    assert [m.label for m in run.moments] == ["", "3 drops"]
    with pytest.raises(MomentError, match="salt_added"):
        run.add_moment("salt_add")
    recording = read_recording(run.stop())
    assert [(m.time_s, m.kind, m.label, m.revision) for m in recording.moments] == [
        (0.5, "note", "", 0),
        (1.25, "salt_added", "3 drops", 1),
    ]
    ((old, changed_at),) = recording.moments_history
    assert (old.label, changed_at) == ("2 drops", recording.moments[1].noted_at)


def test_a_removed_moment_stays_in_the_history(tmp_path):
    run = recorded(tmp_path, ScriptedSource([]))
    moment = run.add_moment("note", "by mistake", time_s=0.0)
    run.edit_moment(moment.id, removed=True)
    assert run.moments == ()
    recording = read_recording(run.stop())
    assert recording.moments == ()
    assert recording.moments_history[0][0].label == "by mistake"


def test_a_moment_is_durable_at_once(tmp_path):
    acknowledged = []
    done = threading.Event()

    def on_durable(samples, moments):
        acknowledged.append((samples, moments))
        if moments:
            done.set()

    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]), on_durable=on_durable)
    run.add_moment("note")
    assert done.wait(0.9)  # not only with the next second's sync
    run.stop()
    assert acknowledged[-1] == (10, 1)


def test_moments_and_notices_of_a_source_are_taken(tmp_path):
    tagged = Delivery(
        samples=(block(0, 10),),
        notices=(Notice("echo", "The adapter echoes."),),
        moments=(TaggedMoment(0.05, "buffer_in", "(simulated)"),),
    )
    run = recorded(tmp_path, ScriptedSource([tagged]))
    assert run.moments[0].kind == "buffer_in"
    assert run.status().notices[0].text == "The adapter echoes."
    run.stop()


def test_a_listener_that_fails_does_not_end_the_recording(tmp_path):
    class Broken:
        def add(self, samples):
            raise RuntimeError("no picture")

    source = ScriptedSource([delivered(block(0, 10)), delivered(block(10, 10))])
    run = Run([source], tmp_path / "run.h5")
    run.add_listener(Broken())
    run.start()
    assert source.drained.wait(WAIT_S)
    assert read_recording(run.stop()).channels[0].values.size == 20
    assert "listener" in [n.code for n in run.status().notices]


def test_an_existing_recording_is_not_touched(tmp_path):
    (tmp_path / "run.h5").write_text("mine")
    with pytest.raises(OutputExists, match="--replace"):
        Run([ScriptedSource([])], tmp_path / "run.h5").start()
    assert (tmp_path / "run.h5").read_text() == "mine"


def test_an_unfinished_run_of_that_name_must_be_recovered_first(tmp_path):
    journal_of(tmp_path / "run.h5").write_bytes(b"precious")
    with pytest.raises(OutputExists, match="galvanote recover"):
        Run([ScriptedSource([])], tmp_path / "run.h5").start()
    assert journal_of(tmp_path / "run.h5").read_bytes() == b"precious"


def test_replace_keeps_the_old_file_until_the_new_one_is_whole(tmp_path):
    out = tmp_path / "run.h5"
    recorded(tmp_path, ScriptedSource([delivered(block(0, 10))])).stop()
    first = read_recording(out).uuid
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 30))]), replace=True)
    assert read_recording(out).uuid == first
    run.stop()
    assert read_recording(out).channels[0].values.size == 30


def test_a_running_recording_can_be_read(tmp_path):
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))
    while run.status().durable_samples < 10:
        threading.Event().wait(0.01)
    recording = read_recording(tmp_path / "run.h5")
    assert recording.is_running
    assert recording.channels[0].values.size == 10
    assert recover(journal_of(tmp_path / "run.h5")).outcome == "running"
    run.stop()


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
    assert most <= 100 + 200 + 200, "beyond what waits, what the recorder takes at once and the intake hold"
    disk.free()
    recording = read_recording(run.stop())
    (channel,) = recording.channels
    numbers = np.rint((channel.values - 2.0) * 1e6).astype(int)
    np.testing.assert_array_equal(numbers, np.arange(numbers.size))
    assert 0 < numbers.size < 1000
    (gap,) = recording.gaps
    assert gap.reason == "the recorder could not keep up"
    assert gap.begin_s == channel.times_s[-1]
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


def test_a_run_without_a_reading_is_saved_too(tmp_path):
    recording = read_recording(recorded(tmp_path, ScriptedSource([])).stop())
    assert recording.channels[0].values.size == 0


def test_a_jump_in_the_times_is_a_gap_however_quickly_it_passed(tmp_path):
    source = ScriptedSource(
        [delivered(block(0, 100)), delivered(block(1000, 50)), delivered(block(1050, 50))]
    )
    source.silent_after_s = 3.0
    recording = read_recording(recorded(tmp_path, source).stop())
    assert [(g.begin_s, g.end_s) for g in recording.gaps] == [(0.99, 10.0)]


def test_no_recording_holds_a_backward_time(tmp_path):
    """A driver whose clock jumps back, or gives no number: those readings are left out, the rest stands."""
    wrong = Samples(
        "cell_voltage",
        np.array([0.20, 0.21, 0.05, np.nan, 0.215, 0.22]),
        2.0 + 1e-6 * np.arange(20, 26),
        np.zeros(6, np.uint8),
    )
    source = ScriptedSource([delivered(block(0, 20)), delivered(wrong), delivered(block(5, 3)), OVER])
    run = recorded(tmp_path, source)
    recording = read_recording(run.stop())
    (channel,) = recording.channels
    np.testing.assert_allclose(channel.times_s, [*np.arange(22) / 100, 0.215, 0.22])
    np.testing.assert_allclose(channel.values, 2.0 + 1e-6 * np.array([*range(22), 24, 25]))
    assert [(g.begin_s, g.end_s) for g in recording.gaps] == [(0.21, 0.215), (0.22, 0.22)]
    assert [n.code for n in run.status().notices].count("backwards") == 1


def test_sleep_and_a_clock_that_is_set_are_anchored_and_told(tmp_path, monkeypatch):
    events = [[], [ClockEvent("slept", 60.0, "The computer slept for 60 s.")]]

    class Watch:
        def look(self):
            return events.pop() if len(events) > 1 else []

    monkeypatch.setattr("logger.recorder.ClockWatch", Watch)
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))
    recording = read_recording(run.stop())
    assert [n.code for n in run.status().notices] == ["slept"]
    assert len(recording.anchors) == 3, "at the begin, at the event, at the end"
    times_s = [anchor.time_s for anchor in recording.anchors]
    assert times_s == sorted(times_s)


def test_a_slow_rhythm_is_no_gap(tmp_path):
    source = ScriptedSource([delivered(block(k, 1, rate=0.2)) for k in range(20)])
    source.silent_after_s = 3.0
    recording = read_recording(recorded(tmp_path, source).stop())
    assert recording.gaps == ()


def test_the_simulated_operator_signs_as_the_logger_expects():
    from drivers.simulated.lesson import SIMULATED as DRIVER
    from logger.moments import SIMULATED as LOGGER

    assert DRIVER == LOGGER


class DiskBelow(FaultyDisk):
    """Faulty only below one folder."""

    def __init__(self, folder):
        super().__init__()
        self.folder = folder
        self.bad: set[int] = set()
        self.is_full = False

    def create(self, path):
        fd = super().create(path)
        if self.folder in path.parents:
            self.bad.add(fd)
        return fd

    def write_at(self, fd, parts, offset):
        if fd in self.bad and self.is_full:
            raise OSError(errno.ENOSPC, "No space left on device")
        super().write_at(fd, parts, offset)

    def sync_data(self, fd):
        error, self.sync_error = self.sync_error, self.sync_error if fd in self.bad else None
        try:
            super().sync_data(fd)
        finally:
            self.sync_error = error


def two_folders(tmp_path):
    for name in ("first", "second"):
        (tmp_path / name).mkdir()
    return tmp_path / "first", tmp_path / "second"


def wait_until(true):
    for _ in range(10_000):
        if true():
            return
        threading.Event().wait(0.001)
    raise AssertionError("it never came true")


def test_a_second_copy_is_whole_too(tmp_path):
    first, second = two_folders(tmp_path)
    source = ScriptedSource([delivered(block(10 * k, 10)) for k in range(20)])
    run = Run([source], first / "run.h5", second_folder=second)
    run.start()
    assert source.drained.wait(WAIT_S)
    assert run.stop() == first / "run.h5"
    for folder in (first, second):
        assert [p.name for p in folder.iterdir()] == ["run.h5"]
        assert read_recording(folder / "run.h5").channels[0].values.size == 200


def test_acknowledging_goes_on_from_the_second_copy(tmp_path):
    first, second = two_folders(tmp_path)
    disk = DiskBelow(first)
    source = ScriptedSource([delivered(block(10 * k, 10)) for k in range(20)])
    run = Run([source], first / "run.h5", second_folder=second, disk=disk)
    disk.sync_error = None
    run.start()
    disk.sync_error = OSError(errno.EIO, "Input/output error")
    assert source.drained.wait(WAIT_S)
    run.add_moment("note")
    wait_until(lambda: run.status().durable_samples == 200 and run.status().error is not None)
    assert run.stop() == second / "run.h5"
    assert read_recording(second / "run.h5").channels[0].values.size == 200
    assert journal_of(first / "run.h5").exists()  # nothing is deleted that was not saved from there


def test_a_second_place_named_after_the_disk_failed_gets_everything(tmp_path):
    first, second = two_folders(tmp_path)
    disk = DiskBelow(first)
    source = ScriptedSource([delivered(block(10 * k, 10)) for k in range(20)])
    run = Run([source], first / "run.h5", disk=disk)
    run.start()
    wait_until(lambda: run.status().durable_samples > 0)
    assert source.drained.wait(WAIT_S)
    disk.sync_error = OSError(errno.EIO, "Input/output error")
    run.add_moment("salt_added", "2 drops")
    wait_until(lambda: run.status().error is not None)
    before = run.status().durable_samples
    run.keep_second_copy(second)
    wait_until(lambda: run.status().durable_samples == 200)
    assert before <= 200
    assert run.stop() == second / "run.h5"
    recording = read_recording(second / "run.h5")
    np.testing.assert_array_equal(recording.channels[0].values, 2.0 + np.arange(200) * 1e-6)
    assert [m.label for m in recording.moments] == ["2 drops"]


def test_a_full_second_disk_does_not_hold_up_the_first(tmp_path, monkeypatch):
    monkeypatch.setattr("logger.track.PENDING_LIMIT_BYTES", 5000)
    first, second = two_folders(tmp_path)
    disk = DiskBelow(second)
    source = ScriptedSource([delivered(block(100 * k, 100)) for k in range(50)])
    run = Run([source], first / "run.h5", second_folder=second, disk=disk)
    run.start()
    disk.is_full = True
    assert source.drained.wait(WAIT_S)
    assert run.stop() == first / "run.h5"
    assert read_recording(first / "run.h5").channels[0].values.size == 5000
    codes = [n.code for n in run.status().notices]
    assert "copy_stopped" in codes or "disk_full" in codes


def test_a_copy_whose_disk_is_full_at_the_end_is_not_taken_for_the_whole_run(tmp_path, monkeypatch):
    monkeypatch.setattr("logger.recorder.STOP_PATIENCE_S", 0.05)
    first, second = two_folders(tmp_path)
    disk = DiskBelow(first)
    source = ScriptedSource([delivered(block(0, 10)), delivered(block(10, 10)), OVER])
    run = Run([source], first / "run.h5", disk=disk, second_folder=second)
    run.add_listener(SimpleNamespace(add=lambda samples: setattr(disk, "is_full", True)))
    run.start()
    assert run.wait_ended(WAIT_S)
    saved = run.stop()
    assert saved == second / "run.h5"
    assert read_recording(saved).channels[0].values.size == 20
    assert run.unsaved_samples == 0
    assert "copy_not_whole" in [notice.code for notice in run.status().notices]
    assert [path.name for path in first.iterdir()] == ["run.h5.journal"], "what it has stays"


def test_the_second_copy_must_be_elsewhere_and_free(tmp_path):
    first, second = two_folders(tmp_path)
    with pytest.raises(LoggerError, match="another folder"):
        Run([ScriptedSource([])], first / "run.h5", second_folder=first).start()
    (second / "run.h5").write_text("mine")
    with pytest.raises(OutputExists):
        Run([ScriptedSource([])], first / "run.h5", second_folder=second).start()
    assert list(first.iterdir()) == []


def test_a_second_recorder_of_one_file_is_told_that_the_first_goes_on(tmp_path):
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))
    with pytest.raises(RecordingBusy, match="being recorded by another process"):
        Run([ScriptedSource([])], tmp_path / "run.h5").start()
    assert read_recording(run.stop()).channels[0].values.size == 10


def test_a_reader_of_acknowledgements_that_goes_away_does_not_end_the_recording(tmp_path):
    def gone(samples, moments):
        raise BrokenPipeError

    run = recorded(
        tmp_path, ScriptedSource([delivered(block(10 * k, 10)) for k in range(20)]), on_durable=gone
    )
    wait_until(lambda: "acks" in [n.code for n in run.status().notices])
    run.add_moment("note")
    assert read_recording(run.stop()).channels[0].values.size == 200


def test_a_moment_tagged_while_the_run_ends_belongs_to_it(tmp_path):
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))
    run.add_moment("note", time_s=run.clock.now_s() + 5.0)
    recording = read_recording(run.stop())
    assert recording.moments[0].time_s <= recording.duration_s


def test_a_second_place_named_too_late_is_refused(tmp_path):
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10)), OVER]))
    (tmp_path / "second").mkdir()
    recorder = run._recorder
    run.stop()
    with pytest.raises(OSError, match="the run has ended"):
        recorder.add_second_place(tmp_path / "second" / "run.h5.journal", FaultyDisk())


def test_a_second_place_is_named_by_a_typed_line(tmp_path, capsys):
    from logger.commands.record import _take_line

    second = tmp_path / "second"
    second.mkdir()
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))
    _take_line(run, 0.0, f":second-copy {second}")
    _take_line(run, 0.0, f":second-copy {tmp_path / 'nowhere'}")
    said = capsys.readouterr().err
    assert f"a second copy is kept in {second}" in said
    assert "nowhere is not there" in said
    run.stop()
    assert read_recording(second / "run.h5").channels[0].values.size == 10
    assert run.moments == ()


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


def test_a_run_lasts_until_its_last_reading(tmp_path):
    """Readings that come while the run ends, as from a simulated cell at high speed, lie within it."""
    is_late, may_return = threading.Event(), threading.Event()

    class Late(ScriptedSource):
        def read(self, timeout_s):
            if self.drained.is_set() and not is_late.is_set():
                is_late.set()
                may_return.wait(WAIT_S)
                return delivered(block(5000, 10))  # 50 s, long after the moment of stopping
            return super().read(timeout_s)

    run = recorded(tmp_path, Late([delivered(block(0, 10))]))
    assert is_late.wait(WAIT_S)
    threading.Timer(0.2, may_return.set).start()
    recording = read_recording(run.stop())
    assert recording.channels[0].values.size == 20
    assert recording.duration_s >= recording.channels[0].times_s[-1]
