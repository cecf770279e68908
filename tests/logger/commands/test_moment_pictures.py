"""Pictures by the command line: taken out byte for byte, given to another moment, told of when left alone."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

import h5py
import numpy as np
import pytest

from logger.commands import main
from logger.inspection import inspect
from logger.reader import read_recording
from tests.logger.shelf_files import write_recording
from tests.logger.test_attachments import png

CapSys = pytest.CaptureFixture[str]


@pytest.fixture
def run(tmp_path: Path) -> Path:
    """A recording with two moments, and a picture with the first."""
    times_s = np.arange(100.0)
    moments = [(10.0, "photo", "anode"), (20.0, "note", "later")]
    path = write_recording(tmp_path / "a b.h5", times_s, 2 + times_s / 100, moments)
    (tmp_path / "anode ü.png").write_bytes(png(9, 7))
    first = read_recording(path).moments[0].id
    assert main(["moment", str(path), "attach", first, str(tmp_path / "anode ü.png")]) == 0
    return path


def the_picture(run: Path) -> str:
    (one,) = read_recording(run).attachments
    return one.id


def test_a_picture_is_written_byte_for_byte(
    run: Path, tmp_path: Path, capsys: CapSys, monkeypatch: pytest.MonkeyPatch
) -> None:
    identity = the_picture(run)
    expected = hashlib.sha256(png(9, 7)).hexdigest()
    folder = tmp_path / "out"
    folder.mkdir()
    monkeypatch.chdir(folder)
    for options, out in (
        (["--to", str(tmp_path / "x.png")], tmp_path / "x.png"),
        (["--to", str(tmp_path / "out")], folder / "anode ü.png"),
        (["--replace"], folder / "anode ü.png"),
    ):
        assert main(["moment", str(run), "extract", identity[:8], *options]) == 0
        assert hashlib.sha256(out.read_bytes()).hexdigest() == expected
    assert main(["moment", str(run), "extract", identity]) == 1
    assert "anode ü.png exists; choose another name, or add --replace" in capsys.readouterr().err
    assert main(["moment", str(run), "extract", identity, "--to", str(tmp_path / "no" / "x.png")]) == 1
    assert "make it first" in capsys.readouterr().err
    assert main(["moment", str(run), "extract", "f00d"]) == 1
    assert "list shows their ids" in capsys.readouterr().err


def test_a_damaged_picture_is_not_written(run: Path, tmp_path: Path, capsys: CapSys) -> None:
    identity = the_picture(run)
    with h5py.File(run, "r+") as file:
        file[f"run/attachments/{identity}/data"][50] ^= 255
    assert main(["moment", str(run), "extract", identity, "--to", str(tmp_path / "x.png")]) == 1
    assert "anode ü.png is damaged" in capsys.readouterr().err
    assert not (tmp_path / "x.png").exists()


def test_pictures_of_a_removed_moment_are_told_and_can_be_moved_or_dropped(run: Path, capsys: CapSys) -> None:
    identity = the_picture(run)
    first, second = read_recording(run).moments
    assert inspect(run).findings[-1].what == "moments"
    assert main(["moment", str(run), "remove", first.id]) == 0
    capsys.readouterr()
    assert main(["moment", str(run), "list"]) == 0
    said = capsys.readouterr()
    assert "Pictures whose moment was removed:\n" in said.out
    assert f"{identity[:8]}  picture anode ü.png" in said.out
    assert "1 picture stays in the file though its moment was removed" in said.err
    assert main(["moment", str(run), "list", "--json"]) == 0
    said = capsys.readouterr()
    assert [one["id"] for one in json.loads(said.out)] == [second.id]
    assert "1 picture stays" in said.err
    last = inspect(run).findings[-1]
    assert (last.what, last.is_whole) == ("pictures of no moment", None)
    assert inspect(run).is_whole

    assert main(["moment", str(run), "reattach", identity, "--to", second.id[:8]]) == 0
    (moved,) = read_recording(run).attachments
    assert (moved.moment_id, moved.file_name) == (second.id, "anode ü.png")
    assert main(["moment", str(run), "extract", moved.id, "--to", str(run.with_name("y.png"))]) == 0
    assert run.with_name("y.png").read_bytes() == png(9, 7)
    assert inspect(run).findings[-1].what == "moments"
    capsys.readouterr()
    assert main(["moment", str(run), "list"]) == 0
    assert capsys.readouterr().err == ""

    assert main(["moment", str(run), "detach", moved.id]) == 0
    assert read_recording(run).attachments == ()


@pytest.mark.parametrize(
    ("text", "time_s"),
    [("75", 75.0), ("1:15", 75.0), ("0:01:15.5", 75.5), ("1:00", 60.0), ("00:01:00", 60.0)],
)
def test_times_are_taken_in_seconds_minutes_and_hours(run: Path, text: str, time_s: float) -> None:
    assert main(["moment", str(run), "add", "--at", text, "note", "x"]) == 0
    assert time_s in [moment.time_s for moment in read_recording(run).moments]


@pytest.mark.parametrize("text", ["1:00:00:00", "1:-5", "a:b", "", ":", "-1:00"])
def test_other_times_are_refused(run: Path, text: str, capsys: CapSys) -> None:
    assert main(["moment", str(run), "add", f"--at={text}", "note", "x"]) == 1
    assert "time" in capsys.readouterr().err


def test_an_hour_is_understood_though_it_lies_behind_this_run(run: Path, capsys: CapSys) -> None:
    assert main(["moment", str(run), "add", "--at", "1:00:00", "note", "x"]) == 1
    assert "3600 s is after the end of the run" in capsys.readouterr().err


def test_how_a_label_with_a_sign_is_given_is_said(run: Path, capsys: CapSys) -> None:
    add = ["moment", str(run), "add", "--at", "5", "note"]
    assert main([*add, "-2+3"]) == 2
    assert "goes behind --" in capsys.readouterr().err
    assert main([*add, "--", "-2+3"]) == 0
    added = read_recording(run).moments[0]
    assert added.label == "-2+3"
    rename = ["moment", str(run), "rename", added.id]
    assert main([*rename, "--label", "-4"]) in (0, 2)
    assert main([*rename, "--label=-5 mV"]) == 0
    assert read_recording(run).moments[0].label == "-5 mV"
    assert main(["moment", str(run), "list", "--nonsense"]) == 2
    assert "goes behind" not in capsys.readouterr().err.splitlines()[-1]


def renamed(run: Path, identity: str, name: str) -> None:
    """Give the picture a name that this program would not have given it."""
    with h5py.File(run, "r+") as file:
        del file[f"run/attachments/{identity}/file_name"]
        file[f"run/attachments/{identity}/file_name"] = name


@pytest.mark.parametrize("name", ["../x.png", "{folder}/x.png", "inner/x.png"])
def test_a_picture_whose_name_leads_elsewhere_is_not_written_there(
    run: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: CapSys, name: str
) -> None:
    identity = the_picture(run)
    renamed(run, identity, name.format(folder=tmp_path))
    folder = tmp_path / "inner"
    (folder / "inner").mkdir(parents=True)
    before = sorted(tmp_path.rglob("*"))
    monkeypatch.chdir(folder)
    assert main(["moment", str(run), "extract", identity]) == 1
    assert "galvanote:" in capsys.readouterr().err
    assert sorted(tmp_path.rglob("*")) == before


def test_a_picture_gets_a_name_that_every_system_takes(
    run: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    identity = the_picture(run)
    renamed(run, identity, "CON: anode?.png")
    monkeypatch.chdir(tmp_path)
    assert main(["moment", str(run), "extract", identity]) == 0
    assert (tmp_path / "CON_ anode_.png").exists()
