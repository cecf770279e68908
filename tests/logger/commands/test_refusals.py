"""Wrong input to every command: one clear line with the remedy, the right status, files left as they were."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path

import h5py
import pytest

from logger.archive import finish
from logger.commands import main
from tests.logger.fakes import block
from tests.logger.test_archive import journal

BENCH = "[supply]\nstack_voltage_V = 27.0\nresistor_ohm = 12000\n"


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """A folder with one recording and one of each kind of file that is none."""
    monkeypatch.chdir(tmp_path)
    finish(journal(tmp_path / "good.h5", [block(0, 100)]))
    (tmp_path / "good.csv").write_text("time_s,cell_voltage_V\n0,2.2\n1,2.2\n")
    (tmp_path / "good.toml").write_text(BENCH)
    (tmp_path / "text.h5").write_text("not a recording")
    with h5py.File(tmp_path / "other.h5", "w") as file:
        file.create_dataset("x", data=[1.0], dtype="f8")
    (tmp_path / "empty.csv").write_text("")
    (tmp_path / "broken.csv").write_text("time_s,cell_voltage_V\n0,2.2\n1\n")
    (tmp_path / "back.csv").write_text("time_s,cell_voltage_V\n1,2.2\n0,2.2\n")
    (tmp_path / "nan.csv").write_text("time_s,cell_voltage_V\n0,nan\n")
    (tmp_path / "header.csv").write_text("t,v\n0,2.2\n")
    (tmp_path / "moments.csv").write_text("time_s,kind,label\n0,sugar_added,\n")
    (tmp_path / "syntax.toml").write_text('title = "x"\n[supply\ncells = 3\n')
    (tmp_path / "unknown.toml").write_text("[supply]\n\nresistor_ohms = 12000\n")
    (tmp_path / "slip.toml").write_text("[cell]\ntemperature_C = 295\n")
    (tmp_path / "taken.csv").write_text("mine")
    (tmp_path / "taken.png").write_text("mine")
    (tmp_path / "cut.h5.journal").write_bytes(b"precious")
    return tmp_path


def state(folder: Path) -> dict[str, str]:
    return {p.name: hashlib.sha256(p.read_bytes()).hexdigest() for p in folder.iterdir() if p.is_file()}


RECORD = ["record", "--source", "cell:demo?speed=100", "--for", "1"]
IMPORT = ["import", "good.csv", "--out", "new.h5"]

REFUSED = [
    # command, status, what the line must say
    (["analyse", "missing.h5"], 1, "missing.h5 is not there"),
    (["analyse", "text.h5"], 1, "not a recording"),
    (["analyse", "other.h5"], 1, "not a recording"),
    (["analyse", "."], 1, "is a folder"),
    (["moment", "good.h5", "attach", "zz", "good.csv"], 1, "not one of the moments"),
    (["moment", "good.h5", "attach", "", "good.csv"], 1, "not one of the moments"),
    (["moment", "good.h5", "detach", "zz"], 1, "not one of the pictures"),
    (["moment", "good.h5", "detach", ""], 1, "not one of the pictures"),
    (["moment", "good.h5", "attach"], 2, "required"),
    (["analyse", "good.h5", "missing.h5"], 1, "missing.h5 is not there"),
    (["analyse"], 2, "FILE.h5"),
    (["analyse", "--jsn", "good.h5"], 2, "--jsn"),
    (["export", "missing.h5", "--to", "out.csv"], 1, "is not there"),
    (["export", "text.h5", "--to", "out.csv"], 1, "not a recording"),
    (["export", "good.h5", "--to", "out.doc"], 1, ".csv, .xlsx, .png"),
    (["export", "good.h5", "--to", "out"], 1, ".csv, .xlsx, .png"),
    (["export", "good.h5", "--to", "taken.csv"], 1, "--replace"),
    (["export", "good.h5", "--to", "taken.png"], 1, "--replace"),
    (["export", "good.h5", "--to", "no/out.csv"], 1, "make it first"),
    (["export", "good.h5"], 2, "--to"),
    (["import", "missing.csv", "--out", "new.h5"], 1, "cannot be read"),
    (["import", "empty.csv", "--out", "new.h5"], 1, "is empty"),
    (["import", "broken.csv", "--out", "new.h5"], 1, "line 3"),
    (["import", "back.csv", "--out", "new.h5"], 1, "time runs backwards"),
    (["import", "nan.csv", "--out", "new.h5"], 1, "not a finite number"),
    (["import", "header.csv", "--out", "new.h5"], 1, "--time"),
    (["import", "good.h5", "--out", "new.h5"], 1, "is a recording already"),
    (["import", "good.csv", "--out", "good.h5"], 1, "--replace"),
    (["import", "good.csv", "--out", "new.txt"], 1, "ends in .h5"),
    (["import", "good.csv", "--out", "cut.h5"], 1, "galvanote recover"),
    ([*IMPORT, "--moments", "moments.csv"], 1, "line 2"),
    ([*IMPORT, "--bench", "syntax.toml"], 1, "syntax.toml"),
    ([*IMPORT, "--bench", "unknown.toml"], 1, "resistor_ohm"),
    ([*IMPORT, "--bench", "slip.toml"], 1, "temperature_C"),
    ([*IMPORT, "--bench", "missing.toml"], 1, "missing.toml"),
    (["import", "good.csv"], 2, "--out"),
    (["moment", "missing.h5", "list"], 1, "is not there"),
    (["moment", "text.h5", "list"], 1, "not a recording"),
    (["moment", "good.h5", "add", "--at", "soon", "note"], 1, "run time"),
    (["moment", "good.h5", "add", "--at", "-5", "note"], 1, "zero or more"),
    (["moment", "good.h5", "add", "--at", "1e9", "note"], 1, "after the end"),
    (["moment", "good.h5", "add", "--at", "nan", "note"], 1, "zero or more"),
    (["moment", "good.h5", "add", "--at", "1", "salt"], 1, "salt_added"),
    (["moment", "good.h5", "move", "0000", "--to", "1"], 1, "not one of the moments"),
    (["moment", "good.h5", "rename", "0000"], 2, "--kind"),
    (["moment", "good.h5", "remove", "0000"], 1, "not one of the moments"),
    (["moment", "good.h5", "paint"], 2, "paint"),
    (["recover", "missing"], 1, "is not there"),
    (["recover", "good.csv"], 1, "not a journal"),
    (["record", "--source", "cell"], 2, "KIND:PORT"),
    (["record", "--source", "sell:demo"], 2, "did you mean cell"),
    (["record", "--source", "cell:demo?sped=3"], 2, "did you mean speed"),
    (["record", "--source", "cell:demo?speed=fast"], 2, "not a number"),
    (["record", "--source", "cell:sea"], 2, "demo"),
    (["record", "--source", "scpi:/dev/not-there"], 1, "/dev/not-there"),
    (["record", "--source", "text:/dev/null"], 1, "/dev/null"),
    (["record", "--source", "scpi:socket://127.0.0.1:1"], 1, "127.0.0.1:1"),
    (["record", "--source", "replay:missing.h5"], 1, "missing.h5"),
    (["record", "--source", "replay:text.h5"], 1, "text.h5"),
    (["record", "--source", "text:/dev/null?role=other", "--source", "text:/dev/null"], 1, "column=2,3"),
    (["record", "--source", "text:/dev/null?scale=0,5"], 2, "scale=0.5"),
    (["record", "--source", "auto:/dev/null?column=2"], 2, "kind auto has no key"),
    (["record", "--source", "text:/dev/null?baud=1"], 2, "50 to 12000000"),
    (["sources", "--ask", "/dev/null", "--optical", "/dev/null"], 2, "one port"),
    (["sources", "--ask", "/dev/null", "/dev/null"], 2, "one port"),
    (["sources", "--ask", ""], 2, "without a name"),
    (["sources", " "], 2, "without a name"),
    ([*RECORD, "--out", "good.h5"], 1, "--replace"),
    ([*RECORD, "--out", "cut.h5"], 1, "galvanote recover"),
    ([*RECORD, "--out", "new.txt"], 1, "ends in .h5"),
    ([*RECORD, "--out", "no/new.h5"], 1, "make it first"),
    ([*RECORD, "--out", "new.h5", "--bench", "syntax.toml"], 1, "line 2"),
    ([*RECORD, "--out", "new.h5", "--bench", "unknown.toml"], 1, "line 3"),
    ([*RECORD, "--out", "new.h5", "--bench", "slip.toml"], 1, "line 2"),
    ([*RECORD, "--out", "new.h5", "--acks", "--json"], 2, "--acks"),
    (["record", "--source", "cell:demo", "--for", "soon"], 2, "15m"),
    (["record"], 2, "--source"),
    (["emulate", "toaster"], 2, "scpi"),
    (["emulate", "scpi", "--port", "x"], 2, "--port"),
    (["emulate", "scpi", "--port", "99999"], 2, "99999"),
    (["emulate", "scpi", "--speed", "0"], 2, "speed"),
    (["paint"], 2, "paint"),
]


@pytest.mark.parametrize(("arguments", "status", "said"), REFUSED, ids=[" ".join(c[0]) for c in REFUSED])
def test_refused(folder, capfd, monkeypatch, arguments, status, said):
    before = state(folder)
    with open(os.devnull) as nothing:
        monkeypatch.setattr("sys.stdin", nothing)
        assert main(arguments) == status
    out, err = capfd.readouterr()
    assert out == ""
    assert said in err
    assert "Traceback" not in err
    assert "internal fault" not in err
    assert err.strip().splitlines()[-1].startswith("galvanote")
    if status == 1:
        assert len(err.strip().splitlines()) == 1
    assert state(folder) == before


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="needs a user whom permissions bind")
def test_a_folder_without_permission(folder, capfd):
    locked = folder / "locked"
    locked.mkdir(mode=0o500)
    assert main([*RECORD, "--out", "locked/new.h5"]) == 1
    assert "locked" in capfd.readouterr().err


def test_help_and_version(capsys):
    assert main(["--help"]) == 0
    assert "record" in capsys.readouterr().out
    assert main(["--version"]) == 0
    assert main([]) == 0
    for command in ("record", "recover", "import", "moment", "analyse", "export", "emulate"):
        assert main([command, "--help"]) == 0


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs /dev/full")
def test_an_output_that_takes_nothing_is_said(folder):
    code = "import sys; from logger.commands import main; sys.exit(main())"
    with open("/dev/full", "w") as full:
        result = subprocess.run(
            [sys.executable, "-c", code, "moment", str(folder / "good.h5"), "list"],
            cwd=Path(__file__).resolve().parents[3],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    assert result.returncode == 1
    assert len(result.stderr.strip().splitlines()) == 1
    assert "could not be written" in result.stderr


def test_a_name_that_is_too_long_is_said_with_the_remedy(folder, capfd, monkeypatch):
    assert main([*RECORD, "--out", "x" * 300 + ".h5"]) == 1
    assert "choose a shorter name" in capfd.readouterr().err
