"""`check`: what is whole is said to be whole, and what is not is found."""

from __future__ import annotations

import json
import os

import h5py
import pytest

from logger.archive import finish
from logger.commands import main
from logger.inspection import inspect
from logger.journal import FrameType, JournalWriter
from logger.moment_edits import add
from logger.moments import new_moment
from logger.payload import encode_json, encode_samples
from logger.recovery import cut_off_runs, recover
from tests.logger.fakes import block
from tests.logger.test_archive import head, journal


@pytest.fixture
def recording(tmp_path):
    return finish(journal(tmp_path / "run.h5", [block(0, 100)]))


def wrong(path):
    return [f.what for f in inspect(path).findings if f.is_whole is False]


def test_a_recording_is_whole_also_after_an_edit(recording, capsys):
    assert wrong(recording) == []
    add(recording, 0.5, "note")
    assert wrong(recording) == []
    assert main(["check", str(recording)]) == 0
    assert "100 values, as they were recorded" in capsys.readouterr().out


@pytest.mark.parametrize("column", ["time", "value", "quality"])
def test_a_changed_value_is_found(recording, column):
    with h5py.File(recording, "r+") as file:
        file[f"run/cell_voltage/{column}"][50] += 1
    assert f"cell_voltage/{column}" in wrong(recording)


def test_times_that_go_backwards_are_found(recording):
    with h5py.File(recording, "r+") as file:
        file["run/cell_voltage/time"][50] = 0.0
    assert "cell_voltage/time" in wrong(recording)


def test_a_missing_checksum_is_said_and_no_fault(recording):
    with h5py.File(recording, "r+") as file:
        del file["run/cell_voltage/value"].attrs["sha256"]
    assert wrong(recording) == ["texts and moments"]  # it was there when the rest was sealed
    with h5py.File(recording, "r+") as file:
        del file["run"].attrs["sha256_parts"]
    assert wrong(recording) == []
    assert any("no checksum" in f.text for f in inspect(recording).findings)


def test_a_moment_outside_the_run_is_found(recording):
    with h5py.File(recording, "r+") as file:
        file["run/moments/time"][0] = 1e6
    assert wrong(recording) == ["texts and moments", "moments"]


@pytest.mark.parametrize(
    ("where", "value"),
    [
        ("title", "Strip 5"),
        ("moments/time", [0.3]),
        ("moments/label", ["3 Tropfen"]),
        ("instrument/cell_voltage/identity", "another meter"),
        ("clock/utc", ["2026-03-06T09:00:00.000+00:00"]),
    ],
)
def test_changed_texts_and_moments_are_found_with_the_part_they_are_in(recording, where, value):
    with h5py.File(recording, "r+") as file:
        file[f"run/{where}"][...] = value
    (finding,) = (f for f in inspect(recording).findings if f.is_whole is False)
    assert (where.split("/")[0] if "/" in where else "run") + ": not as written" in finding.text


@pytest.mark.parametrize(
    ("where", "name"), [("cell_voltage/value", "units"), ("bench", "toml"), ("", "default")]
)
def test_changed_attributes_are_found(recording, where, name):
    with h5py.File(recording, "r+") as file:
        file[f"run/{where}"].attrs[name] = "mV"
    assert "texts and moments" in wrong(recording)


def test_what_is_missing_is_named_and_what_others_added_is_no_fault(recording):
    with h5py.File(recording, "r+") as file:
        file["run"].create_group("mine")
    assert wrong(recording) == []
    assert any("mine: added by others" in f.text for f in inspect(recording).findings)
    with h5py.File(recording, "r+") as file:
        del file["run/gaps"]
    assert any("gaps: missing" in f.text for f in inspect(recording).findings)


def test_an_edit_does_not_declare_damage_whole(recording):
    with h5py.File(recording, "r+") as file:
        file["run/moments/time"][0] = 0.9
        file["run/title"][...] = "other"
    add(recording, 0.5, "note")
    (finding,) = (f for f in inspect(recording).findings if f.is_whole is False)
    assert finding.text.startswith("moments, run: not as written")


def test_a_damaged_file_is_said_to_be(recording, capsys):
    recording.write_bytes(recording.read_bytes()[:1000])
    assert main(["check", str(recording)]) == 1
    assert "NOT WHOLE" in capsys.readouterr().out


def test_a_journal_is_read_too(tmp_path):
    path = journal(tmp_path / "run.h5", [block(0, 100)], ended=False)
    path.write_bytes(path.read_bytes() + b"GJ half a frame")
    texts = " ".join(f.text for f in inspect(path).findings)
    assert "100 readings" in texts
    assert "15 bytes behind" in texts
    assert inspect(tmp_path / "run.h5").path == path


def test_a_journal_whose_times_go_backwards_is_not_whole(tmp_path):
    assert wrong(journal(tmp_path / "run.h5", [block(100, 100), block(0, 100)])) == ["time order"]


def test_readings_of_a_channel_that_is_not_described_are_no_whole_journal(tmp_path):
    writer = JournalWriter(tmp_path / "run.h5.journal", head())
    writer.append(FrameType.SAMPLES, encode_samples(3, block(0, 10)))
    writer.close()
    assert wrong(writer.path) == ["frames"]


def test_edits_that_lie_beside_a_recording_are_read_as_such(tmp_path):
    path = tmp_path / "run.h5.edits"
    writer = JournalWriter(path, {"uuid": "1"})
    writer.append(FrameType.MOMENT, encode_json(new_moment(0.2, "note", "x").as_dict()))
    writer.close()
    texts = " ".join(f.text for f in inspect(path).findings)
    assert "1 entries of moments" in texts
    assert "folds them in" in texts
    assert wrong(path) == []


def test_each_file_is_told_also_when_another_is_not_there(recording, tmp_path, capsys):
    (tmp_path / "text.h5").write_text("no recording")
    names = ["gone.h5", ".", "text.h5", "run.h5"]
    assert main(["check", *(str(tmp_path / name) for name in names)]) == 1
    said = capsys.readouterr()
    assert "it is not there" in said.out
    assert "it is a folder" in said.out
    assert "no HDF5 file" in said.out
    assert "run.h5: whole" in said.out
    assert said.err.startswith("galvanote: 3 of 4 not whole: ")
    assert main(["check", "--json", *(str(tmp_path / name) for name in names)]) == 1
    assert [one["whole"] for one in json.loads(capsys.readouterr().out)] == [False, False, False, True]


def test_a_recording_from_before_there_were_checksums_is_said_to_be_unknown_in_part(recording):
    with h5py.File(recording, "r+") as file:
        del file["run"].attrs["sha256_parts"]
    add(recording, 0.5, "note")
    assert wrong(recording) == []
    assert any(f.is_whole is None and "no checksum was kept" in f.text for f in inspect(recording).findings)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
@pytest.mark.timeout(30)
@pytest.mark.parametrize("name", ["run.h5.journal", "run.h5.edits", "run.h5.journal.begun"])
def test_a_pipe_with_the_name_of_a_journal_is_refused_and_never_waited_for(tmp_path, name):
    pipe = tmp_path / name
    os.mkfifo(pipe)
    assert cut_off_runs(tmp_path) == []
    assert recover(pipe).outcome == "failed"
    if not name.endswith(".begun"):
        assert "pipe" in inspect(pipe).findings[0].text
    assert pipe.is_fifo()
