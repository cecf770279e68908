"""What is no recording is refused in one clear line, never half read."""

from __future__ import annotations

import h5py
import numpy as np
import pytest

from logger.archive import finish
from logger.errors import RecordingError
from logger.reader import read_recording
from tests.logger.fakes import block
from tests.logger.test_archive import journal


@pytest.fixture
def recording(tmp_path):
    return finish(journal(tmp_path / "run.h5", [block(0, 100)]))


def test_journal_and_finished_file_say_the_same(tmp_path):
    one = journal(tmp_path / "run.h5", [block(0, 100)])
    before = read_recording(one)
    after = read_recording(finish(one))
    np.testing.assert_array_equal(before.channels[0].values, after.channels[0].values)
    for name in (
        "uuid",
        "title",
        "start_time",
        "end_time",
        "duration_s",
        "moments",
        "gaps",
        "anchors",
        "bench_toml",
    ):
        assert getattr(before, name) == getattr(after, name), name
    assert before.channels[0].instrument == after.channels[0].instrument
    assert not before.is_running


@pytest.mark.parametrize(
    "content",
    [b"", b"time_s,v\n1,2\n", b"\x89HDF\r\n\x1a\n" + b"\0" * 500, b"GJ" * 100],
    ids=["empty", "text", "torn hdf5", "noise"],
)
def test_what_is_no_recording_is_refused(tmp_path, content):
    path = tmp_path / "x.h5"
    path.write_bytes(content)
    with pytest.raises(RecordingError, match="not a recording"):
        read_recording(path)


def test_an_hdf5_file_of_another_program_is_refused_with_what_to_choose(tmp_path):
    path = tmp_path / "x.h5"
    with h5py.File(path, "w") as file:
        file["x"] = 1
    with pytest.raises(RecordingError, match="choose a file that galvanote recorded or imported"):
        read_recording(path)


def test_a_missing_file_is_said_to_be_missing(tmp_path):
    with pytest.raises(RecordingError, match="is not there"):
        read_recording(tmp_path / "x.h5")
    with pytest.raises(RecordingError, match="is a folder"):
        read_recording(tmp_path)
    with pytest.raises(RecordingError, match="cannot be read"):
        read_recording(tmp_path / "x.h5.journal")


def test_another_hdf5_file_is_refused(tmp_path):
    with h5py.File(tmp_path / "x.h5", "w") as file:
        file.create_dataset("data", data=[1.0], dtype="f8")
    with pytest.raises(RecordingError, match="/run/start_time"):
        read_recording(tmp_path / "x.h5")


@pytest.mark.parametrize(
    "missing", ["cell_voltage/time", "moments/kind", "clock/time", "duration", "gaps/end"]
)
def test_a_recording_with_a_part_missing_is_refused(recording, missing):
    with h5py.File(recording, "r+") as file:
        del file[f"run/{missing}"]
    with pytest.raises(RecordingError, match="not a whole recording"):
        read_recording(recording)


def test_arrays_of_different_length_are_refused(recording):
    with h5py.File(recording, "r+") as file:
        file["run/cell_voltage/value"].resize((50,))
    with pytest.raises(RecordingError, match="differ in length"):
        read_recording(recording)


def test_a_truncated_recording_is_refused(recording):
    data = recording.read_bytes()
    for share in (0.1, 0.5, 0.9):
        recording.write_bytes(data[: int(len(data) * share)])
        with pytest.raises(RecordingError):
            read_recording(recording)


@pytest.mark.parametrize(
    ("where", "said"),
    [
        ("moments/time", "a moment"),
        ("gaps/begin", "a gap"),
        ("clock/time", "an anchor"),
        ("duration", "duration"),
    ],
)
@pytest.mark.parametrize("odd", [np.nan, np.inf, 1e300])
def test_times_that_no_run_can_have_are_refused(tmp_path, where, said, odd):
    path = finish(journal(tmp_path / "run.h5", [block(0, 100)]))
    with h5py.File(path, "r+") as file:
        if where == "duration":
            file["run/duration"].attrs["exact"] = odd
        else:
            file[f"run/{where}"][0] = odd
    with pytest.raises(RecordingError, match=f"not a whole recording: .*{said}"):
        read_recording(path, is_own=True)


def test_what_is_missing_is_named_in_plain_words(tmp_path):
    path = finish(journal(tmp_path / "run.h5", [block(0, 100)]))
    with h5py.File(path, "r+") as file:
        del file["run/duration"]
    with pytest.raises(RecordingError, match="not a whole recording: duration is missing"):
        read_recording(path, is_own=True)


def test_a_file_by_hand_needs_no_clock(recording):
    """The clock only shows sleep and steps; whoever writes the file with another library has none."""
    with h5py.File(recording, "r+") as file:
        del file["run/clock"]
    found = read_recording(recording)
    assert found.anchors == ()
    assert found.channels[0].times_s.size == 100


@pytest.mark.parametrize(("column", "unit"), [("time", "ms"), ("value", "mV")])
def test_other_units_than_seconds_and_volts_are_refused(recording, column, unit):
    with h5py.File(recording, "r+") as file:
        file[f"run/cell_voltage/{column}"].attrs["units"] = unit
    with pytest.raises(RecordingError, match=f"of channel cell_voltage are in {unit}"):
        read_recording(recording)
