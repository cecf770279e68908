"""Wrong input to plan and compare: one clear line with the remedy, the right status, files untouched."""

from __future__ import annotations

import hashlib
import shutil
from pathlib import Path

import pytest

from logger.archive import finish
from logger.commands import main
from tests.logger.fakes import block
from tests.logger.test_archive import journal


@pytest.fixture(scope="module")
def recordings(tmp_path_factory):
    """Two recordings, made once."""
    made = tmp_path_factory.mktemp("recordings")
    for name in ("one.h5", "two.h5"):
        finish(journal(made / name, [block(0, 100)]))
    return made


@pytest.fixture
def folder(tmp_path, monkeypatch, recordings):
    """A folder with two recordings, a copy, what is none, and bench files of all kinds."""
    monkeypatch.chdir(tmp_path)
    for name in ("one.h5", "two.h5"):
        shutil.copy(recordings / name, tmp_path / name)
    shutil.copy(tmp_path / "one.h5", tmp_path / "copy.h5")
    (tmp_path / "text.h5").write_text("not a recording")
    benches = {
        "good": "[supply]\nstack_voltage_V = 27.0\nresistor_ohm = 12000\n",
        "area": "[supply]\nstack_voltage_V = 27.0\n[cell]\nanode_area_cm2 = 2.0\n",
        "empty": "",
        "low": "[supply]\nstack_voltage_V = 2.0\nresistor_ohm = 12000\n",
        "reversed": "[supply]\nstack_voltage_V = -27.0\nresistor_ohm = 12000\n",
        "high": "[supply]\nstack_voltage_V = 72.0\nresistor_ohm = 12000\n",
        "hot": "[supply]\nstack_voltage_V = 27.0\nresistor_ohm = 1000\nresistor_rating_W = 0.25\n",
        "kilo": "[supply]\nstack_voltage_V = 27.0\nresistor_ohm = 12\n",
        "boil": "[cell]\ntemperature_C = 100.0\npressure_kPa = 90.0\n",
        "syntax": "[supply\n",
    }
    for name, text in benches.items():
        (tmp_path / f"{name}.toml").write_text(text)
    return tmp_path


def state(folder: Path) -> dict[str, str]:
    return {p.name: hashlib.sha256(p.read_bytes()).hexdigest() for p in folder.iterdir() if p.is_file()}


REFUSED = [
    # command, status, what the line must say
    (["plan"], 2, "--current or --bench"),
    (["plan", "--current-density", "5"], 2, "needs the area of the anode"),
    (["plan", "--current", "much"], 2, "--current"),
    (["plan", "--current"], 2, "--current"),
    (["plan", "--curent", "0.002"], 2, "--curent"),
    (["plan", "--current", "0.002", "--current-density", "1"], 2, "not allowed"),
    (["plan", "now"], 2, "now"),
    (["plan", "--current", "2"], 1, "write 0.002"),
    (["plan", "--current", "2000"], 1, "write 0.002"),
    (["plan", "--current", "0"], 1, "0.1 microampere"),
    (["plan", "--current", "-0.002"], 1, "0.1 microampere"),
    (["plan", "--current", "nan"], 1, "not a finite number"),
    (["plan", "--current", "inf"], 1, "not a finite number"),
    (["plan", "--current", "0.5"], 1, "100 ohm to 10 Mohm"),
    (["plan", "--current", "1e-6"], 1, "100 ohm to 10 Mohm"),
    (["plan", "--bench", "missing.toml"], 1, "missing.toml"),
    (["plan", "--bench", "."], 1, "folder"),
    (["plan", "--bench", "one.h5"], 1, "UTF-8"),
    (["plan", "--bench", "syntax.toml"], 1, "line 1"),
    (["plan", "--bench", "empty.toml"], 1, "nothing says how large"),
    (["plan", "--bench", "area.toml"], 1, "nothing says how large"),
    (["plan", "--bench", "good.toml", "--current-density", "1"], 1, "anode_area_cm2"),
    (["plan", "--bench", "area.toml", "--current-density", "1e4"], 1, "500"),
    (["plan", "--bench", "area.toml", "--current-density", "-1"], 1, "0.0001"),
    (["plan", "--bench", "area.toml", "--current-density", "nan"], 1, "not a finite number"),
    (["plan", "--bench", "low.toml"], 1, "no current flows"),
    (["plan", "--bench", "low.toml", "--current", "0.002"], 1, "take more cells"),
    (["plan", "--bench", "reversed.toml"], 1, "swapped leads"),
    (["plan", "--bench", "high.toml"], 1, "extra-low"),
    (["plan", "--bench", "hot.toml"], 1, "touching electrodes"),
    (["plan", "--bench", "kilo.toml"], 1, "kilo-ohm"),
    (["plan", "--bench", "boil.toml", "--current", "0.002"], 1, "pressure"),
    (["compare"], 2, "FILE.h5"),
    (["compare", "one.h5"], 2, "two recordings or more"),
    (["compare", "one.h5", "--jsn"], 2, "--jsn"),
    (["compare", "one.h5", "missing.h5"], 1, "missing.h5 is not there"),
    (["compare", "one.h5", "text.h5"], 1, "not a recording"),
    (["compare", "one.h5", "."], 1, "is a folder"),
    (["compare", "one.h5", "good.toml"], 1, "not a recording"),
    (["compare", "one.h5", "one.h5"], 1, "the same run"),
    (["compare", "one.h5", "two.h5", "copy.h5"], 1, "the same run as one.h5"),
]


@pytest.mark.parametrize(("arguments", "status", "said"), REFUSED, ids=[" ".join(c[0]) for c in REFUSED])
def test_refused(folder, capfd, arguments, status, said):
    before = state(folder)
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


def test_runs_without_anything_to_compare_are_said(folder, capsys):
    # Readings of two volts for a second: no saving, no statistics, and no number.
    assert main(["compare", "one.h5", "two.h5"]) == 0
    out = capsys.readouterr().out
    assert "one.h5 is not in the statistics" in out
    assert "No run with salt is in the statistics" in out


def test_help(capsys):
    for command in ("plan", "compare"):
        assert main([command, "--help"]) == 0
        assert "--json" in capsys.readouterr().out
