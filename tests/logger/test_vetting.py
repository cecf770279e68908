"""Files of unknown origin: what could do harm is refused before it is opened."""

from __future__ import annotations

import errno
import os
import subprocess
import sys

import h5py
import numpy as np
import pytest

from drivers.samples import Samples
from logger import vetting
from logger.archive import finish
from logger.errors import RecordingError
from logger.reader import read_recording
from logger.vetting import CHUNK_LIMIT, NOT_ALLOWED, vet
from tests.logger.fakes import block
from tests.logger.test_archive import journal


@pytest.fixture
def recording(tmp_path):
    return finish(journal(tmp_path / "run.h5", [block(0, 100)]))


def refused(path, said):
    with pytest.raises(RecordingError, match=said):
        vet(path)
    with pytest.raises(RecordingError):
        read_recording(path)


def test_a_recording_passes(recording):
    vet(recording)


def test_links_out_of_the_file_are_refused(recording, tmp_path):
    secret = tmp_path / "secret.h5"
    with h5py.File(secret, "w") as file:
        file.create_dataset("x", data=[1.0], dtype="f8")
    with h5py.File(recording, "r+") as file:
        file["run/note"] = h5py.ExternalLink("secret.h5", "/x")
    refused(recording, "link to another place")


def test_soft_links_are_refused(recording):
    with h5py.File(recording, "r+") as file:
        file["run/note"] = h5py.SoftLink("/run")
    refused(recording, "link to another place")


def test_a_file_that_may_not_be_read_is_not_called_damaged(recording, monkeypatch):
    """It was said to be no recording, or not a whole one, by what had not read it."""
    monkeypatch.setattr("logger.vetting._look_apart", lambda *_: (1, NOT_ALLOWED))
    with pytest.raises(RecordingError) as told:
        vet(recording)
    assert str(told.value) == f"{recording} may not be read; check its permissions"


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="needs a user whom permissions bind")
def test_the_look_tells_a_file_that_may_not_be_read(recording):
    recording.chmod(0)
    with pytest.raises(RecordingError, match="may not be read; check its permissions"):
        vet(recording)


def test_a_name_in_any_script_stands_in_the_refusal_as_it_is(recording):
    """It stood there in escapes, which nobody finds in the file."""
    with h5py.File(recording, "r+") as file:
        file["run/Überführung-水"] = h5py.SoftLink("/run")
    refused(recording, "/run/Überführung-水 is a link to another place")


def test_a_group_that_holds_itself_is_refused(recording):
    with h5py.File(recording, "r+") as file:
        file["run/again"] = file["run"]
    refused(recording, "two names")


def test_data_kept_in_another_file_are_refused(recording, tmp_path):
    (tmp_path / "raw.bin").write_bytes(b"\0" * 800)
    with h5py.File(recording, "r+") as file:
        file["run"].create_dataset("raw", (100,), "f8", external=[(str(tmp_path / "raw.bin"), 0, 800)])
    refused(recording, "another file")


def test_virtual_data_are_refused(recording):
    layout = h5py.VirtualLayout((100,), "f8")
    layout[:] = h5py.VirtualSource("other.h5", "x", (100,))
    with h5py.File(recording, "r+") as file:
        file["run"].create_virtual_dataset("virtual", layout)
    refused(recording, "another file")


def test_plug_in_filters_are_refused(recording):
    with h5py.File(recording, "r+") as file:
        file["run"].create_dataset("packed", data=np.zeros(100), dtype="f8", chunks=(100,), compression="lzf")
    refused(recording, "plug-in")


def test_huge_claimed_sizes_are_refused(recording):
    with h5py.File(recording, "r+") as file:
        file["run"].create_dataset("huge", (10**15,), "f8", chunks=(1024,))
    refused(recording, "claims")


def looks_with(monkeypatch, code):
    """Let the child do something else than look at a file."""
    start = subprocess.Popen
    monkeypatch.setattr(
        subprocess, "Popen", lambda command, **rest: start([sys.executable, "-c", code], **rest)
    )


def test_a_reader_that_never_ends_is_stopped(recording, monkeypatch):
    monkeypatch.setattr(vetting, "TIME_LIMIT_S", 0.3)
    looks_with(monkeypatch, "import time; time.sleep(600)")
    with pytest.raises(
        RecordingError, match="takes too long; either it is damaged, or the computer"
    ) as caught:
        vet(recording)
    assert "not a recording" not in str(caught.value), "nobody knows"


def test_a_reader_that_never_ends_is_stopped_however_large_the_file_claims_to_be(recording, monkeypatch):
    """Its holes cost nothing, and each megabyte of them half a second."""
    monkeypatch.setattr(vetting, "MOST_S", 0.3)
    looks_with(monkeypatch, "import time; time.sleep(600)")
    os.truncate(recording, 2**30)
    with pytest.raises(RecordingError, match="takes too long"):
        vet(recording)


def test_a_child_that_cannot_be_started_early_is_started_when_it_is_needed(recording, monkeypatch):
    with monkeypatch.context() as patch:
        patch.setattr(vetting, "_ready", [])
        patch.setattr(vetting, "_start", _refuse_to_start)
        vetting.get_ready()
        assert not vetting._ready
    vet(recording)


def _refuse_to_start():
    raise BlockingIOError(errno.EAGAIN, "Resource temporarily unavailable")


def test_a_reader_that_dies_is_not_our_end(recording, monkeypatch):
    looks_with(monkeypatch, "import os; os.abort()")
    refused(recording, "breaks the HDF5 library")


@pytest.mark.skipif(sys.platform == "win32", reason="no process is ended by a signal there")
@pytest.mark.parametrize("name", ["SIGTERM", "SIGKILL", "SIGINT", "SIGHUP"])
def test_a_look_that_is_ended_from_outside_says_nothing_of_the_file(recording, monkeypatch, name):
    # What started the tests may have told them to ignore some of these.
    usual = "" if name == "SIGKILL" else f"signal.signal(signal.{name}, signal.SIG_DFL); "
    code = f"import os, signal; {usual}os.kill(os.getpid(), signal.{name})"
    looks_with(monkeypatch, code)
    with pytest.raises(RecordingError, match=f"could not be looked at: .*{name}") as caught:
        vet(recording)
    assert "not a recording" not in str(caught.value)


@pytest.mark.parametrize("seed", range(30))
def test_a_damaged_recording_is_refused_or_right(recording, seed):
    original = read_recording(recording)
    data = bytearray(recording.read_bytes())
    rng = np.random.default_rng(seed)
    for where in rng.integers(0, len(data), 3):
        data[where] ^= int(rng.integers(1, 256))
    recording.write_bytes(data)
    try:
        found = read_recording(recording)
    except RecordingError:
        return
    assert found.channels[0].times_s.size == original.channels[0].times_s.size


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "it is empty"),
        (b"time_s,cell_voltage_V\n0,2.2\n", "no HDF5 file"),
        (b"\x89HDF\r\n\x1a\n" + bytes(600), "inner structure is damaged"),
    ],
)
def test_what_is_no_recording_is_said_without_the_words_of_the_library(tmp_path, content, said):
    path = tmp_path / "x.h5"
    path.write_bytes(content)
    with pytest.raises(RecordingError, match=said) as refusal:
        vet(path)
    assert "synchronously" not in str(refusal.value)


def test_a_file_that_was_cut_off_is_said_to_be_and_its_journal_named(recording):
    whole = recording.read_bytes()
    recording.write_bytes(whole[:-1000])
    refused(recording, f"cut off: of {len(whole)} bytes {len(whole) - 1000} are there; name another")
    recording.with_name("run.h5.journal").touch()
    refused(recording, "its journal is there: galvanote recover")


def test_sizes_that_are_claimed_within_reason_but_not_there_are_refused(recording):
    with h5py.File(recording, "r+") as file:
        del file["run/cell_voltage/value"]
        file["run/cell_voltage"].create_dataset("value", (1_000_000,), "f8", chunks=(1024,))
    refused(recording, "claims 1000000 values")


def test_readings_stored_one_by_one_are_refused(recording):
    """Ordinary 73 MB of them, cut so, took 16 GB of memory and three minutes to open."""
    with h5py.File(recording, "r+") as file:
        settings = h5py.h5p.create(h5py.h5p.DATASET_CREATE)
        settings.set_chunk((1,))
        settings.set_alloc_time(h5py.h5d.ALLOC_TIME_EARLY)
        room = h5py.h5s.create_simple((CHUNK_LIMIT + 1,))
        h5py.h5d.create(file["run"].id, b"raw", h5py.h5t.NATIVE_UINT8, room, settings)
    refused(recording, f"/run/raw is stored in {CHUNK_LIMIT + 1} parts, far more than a recording has")


def test_texts_that_are_not_there_are_refused(recording):
    with h5py.File(recording, "r+") as file:
        del file["run/moments/label"]
        file["run/moments"].create_dataset("label", (10**6,), h5py.string_dtype(), chunks=(1000,))
    refused(recording, "claims 1000000 values")


@pytest.mark.parametrize("name", ["..", "a\nb", "a\\b", "\u202etxt", "x" * 300])
def test_names_that_no_recording_has_are_refused(recording, name):
    with h5py.File(recording, "r+") as file:
        file["run"].create_group(name)
    refused(recording, "a name that no recording has")


def test_a_name_of_any_length_leaves_a_line_that_can_be_read(tmp_path):
    """Groups in groups: a line of 400,000 characters kept the window busy for 17 s, and filled it."""
    path = tmp_path / "deep.h5"
    with h5py.File(path, "w") as file:
        group = file
        for _ in range(100):
            group = group.create_group("ä" * 250)
        group["away"] = h5py.SoftLink("/")
    with pytest.raises(RecordingError) as told:
        vet(path)
    reason = str(told.value).removeprefix(f"{path} is not a recording, or not a whole one: ")
    assert len(reason) < 1200
    assert "/away is a link to another place; name another file" in reason


def test_a_long_steady_recording_passes(tmp_path):
    n = 300_000
    steady = Samples("cell_voltage", np.arange(n) / 1000, np.full(n, 2.0), np.zeros(n, np.uint8))
    vet(finish(journal(tmp_path / "run.h5", [steady])))


@pytest.mark.skipif(sys.platform != "linux", reason="inotify")
def test_no_folder_is_searched_for_code_when_a_file_cannot_be_opened(recording, tmp_path, monkeypatch):
    from tests.campaigns.watched_folder import WatchedFolder

    (tmp_path / "plug-ins").mkdir()
    monkeypatch.setenv("HDF5_PLUGIN_PATH", str(tmp_path / "plug-ins"))
    recording.write_bytes(recording.read_bytes()[:-1000])
    watch = WatchedFolder(tmp_path / "plug-ins")
    refused(recording, "cut off")
    assert not watch.touched()
    watch.close()


def test_a_committed_type_is_refused(recording):
    with h5py.File(recording, "r+") as file:
        file["run/kind"] = np.dtype("f8")
    refused(recording, "holds nothing")


def test_a_child_that_is_ready_looks_at_the_next_file_only(tmp_path):
    whole = tmp_path / "whole.h5"
    with h5py.File(whole, "w") as file:
        file["numbers"] = [1.0, 2.0]
    (tmp_path / "text.h5").write_text("no recording")
    vetting.get_ready()
    vetting.get_ready()
    assert len(vetting._ready) == 1
    with pytest.raises(RecordingError, match="no HDF5 file"):
        vetting.vet(tmp_path / "text.h5")
    assert not vetting._ready
    vetting.vet(whole)
    vetting.get_ready()
    vetting._ready[0].kill()
    vetting._ready[0].wait()
    vetting.vet(whole)  # whatever became of the one that was ready
