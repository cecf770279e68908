"""Two copies of a run: from the beginning, or once the first disk has failed."""

from __future__ import annotations

import errno
import threading
from types import SimpleNamespace

import numpy as np
import pytest

from logger.errors import LoggerError, OutputExists
from logger.journal import journal_of
from logger.reader import read_recording
from logger.run import Run
from tests.logger.fakes import OVER, FaultyDisk, ScriptedSource, block, delivered
from tests.logger.running import WAIT_S, recorded, wait_until

pytestmark = pytest.mark.usefixtures("no_thread_stays", "quick_retry")


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


def test_a_second_place_named_while_the_end_waits_for_a_full_disk_gets_everything(tmp_path):
    """The offer stands beside the disk that is full: refused then, what memory holds would be lost."""
    first, second = two_folders(tmp_path)
    disk = DiskBelow(first)
    source = ScriptedSource([delivered(block(0, 10)), delivered(block(10, 10)), OVER])
    run = Run([source], first / "run.h5", disk=disk)
    run.add_listener(SimpleNamespace(add=lambda samples: setattr(disk, "is_full", True)))
    run.start()
    assert run.wait_ended(WAIT_S)
    saved = []
    ending = threading.Thread(target=lambda: saved.append(run.stop()), name="ending")
    ending.start()
    wait_until(lambda: run.status().phase == "stopping")
    run.keep_second_copy(second)
    ending.join(WAIT_S)
    assert saved == [second / "run.h5"]
    assert read_recording(second / "run.h5").channels[0].values.size == 20
    assert run.unsaved_samples == 0


def test_the_second_copy_must_be_elsewhere_and_free(tmp_path):
    first, second = two_folders(tmp_path)
    with pytest.raises(LoggerError, match="another folder"):
        Run([ScriptedSource([])], first / "run.h5", second_folder=first).start()
    (second / "run.h5").write_text("mine")
    with pytest.raises(OutputExists):
        Run([ScriptedSource([])], first / "run.h5", second_folder=second).start()
    assert list(first.iterdir()) == []


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
