"""`recover` on what is no journal: a finished recording is said to be one, anything else is refused."""

from __future__ import annotations

from dataclasses import replace

import h5py
import pytest

from logger.archive import finish
from logger.commands import main
from logger.reader import read_recording
from tests.logger.fakes import block
from tests.logger.test_archive import journal


def test_a_finished_recording_is_said_to_be_one_however_often_it_is_asked(tmp_path, capsys):
    path = finish(journal(tmp_path / "run.h5", [block(0, 100)]))
    for name in (path, path.with_name("run.h5.journal")):
        assert main(["recover", str(name)]) == 0
        assert "Nothing to recover" in capsys.readouterr().out


@pytest.mark.parametrize("content", ["nothing", "text", "another HDF5 file", "cut off"])
def test_a_file_that_is_neither_is_refused_and_left_alone(tmp_path, capsys, content):
    path = finish(journal(tmp_path / "run.h5", [block(0, 100)]))
    if content == "another HDF5 file":
        with h5py.File(path, "w") as file:
            file["x"] = [1.0]
    else:
        path.write_bytes({"nothing": b"", "text": b"text"}.get(content, path.read_bytes()[:-1000]))
    before = path.read_bytes()
    assert main(["recover", str(path)]) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert "is not a journal" in said.err
    assert len(said.err.splitlines()) == 1
    assert path.read_bytes() == before


def test_a_speed_that_leads_beyond_the_calendar_does_not_keep_a_run_from_being_recovered(tmp_path):
    path = finish(journal(tmp_path / "run.h5", [block(0, 100)], ended=False, speed=1e-9 * 1e-9))
    assert read_recording(path).end_time is None


def test_a_run_cut_off_before_its_first_reading_can_be_exported(tmp_path, capsys):
    path = journal(tmp_path / "run.h5", [], ended=False)
    assert main(["export", str(path), "--to", str(tmp_path / "out.csv")]) == 0
    assert (tmp_path / "out.csv").read_text().splitlines()[1:] == []


@pytest.mark.parametrize(
    ("odd", "said"),
    [(1e300, "beyond all bounds"), (float("nan"), "are not numbers"), (float("inf"), "are not numbers")],
)
def test_times_beyond_all_bounds_are_refused_in_words_and_the_journal_stays(tmp_path, capsys, odd, said):
    one = block(0, 100)
    path = journal(tmp_path / "run.h5", [replace(one, times_s=one.times_s + odd)], ended=False)
    assert main(["recover", str(path)]) == 1
    assert said in capsys.readouterr().err
    assert path.exists()
