"""`check`: what is whole is said to be whole, and what is not is found."""

from __future__ import annotations

import h5py
import pytest

from logger.archive import finish
from logger.commands import main
from logger.inspection import inspect
from logger.moment_edits import add
from tests.logger.fakes import block
from tests.logger.test_archive import journal


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
    assert wrong(recording) == []
    assert any("no checksum" in f.text for f in inspect(recording).findings)


def test_a_moment_outside_the_run_is_found(recording):
    with h5py.File(recording, "r+") as file:
        file["run/moments/time"][0] = 1e6
    assert wrong(recording) == ["moments"]


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
