"""Tables that replace older ones: what the older set had besides goes, and nothing that is anybody else's."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from logger.commands import main
from logger.errors import LoggerError
from logger.export.formats import Choices, export
from logger.export.overwriting import overwriting
from logger.recording import ChannelData, Recording
from tests.logger.export.test_picture import lesson

BENCH = '[cell]\nanode = "nickel"\n'


def fuller_run() -> Recording:
    """A run with a bench file and a second channel."""
    times_s = np.array([0.0, 1.0])
    warm = ChannelData("temperature", "temperature", "degC", times_s, 22 + times_s, np.zeros(2, np.uint8))
    run: Recording = lesson(bench_toml=BENCH)
    return replace(run, channels=(*run.channels, warm))


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def write(run: Recording, out: Path) -> list[Path]:
    return export(lambda: run, out, Choices(replace=True))


def test_what_only_the_older_set_had_goes_with_it(tmp_path: Path) -> None:
    out = tmp_path / "z.csv"
    write(fuller_run(), out)
    assert {"z.bench.toml", "z.temperature.csv"} <= set(names(tmp_path))
    plain = lesson(bench_toml="")
    told = overwriting(plain, out)
    assert sorted(path.name for path in told.removed) == ["z.bench.toml", "z.temperature.csv"]
    assert {path.name for path in told.replaced} == {
        "z.csv", "z.moments.csv", "z.gaps.csv", "z.findings.csv", "z.datapackage.json",
    }  # fmt: skip
    written = write(plain, out)
    assert names(tmp_path) == sorted(path.name for path in written)
    assert not overwriting(plain, tmp_path / "new.csv")


def test_a_file_of_that_name_that_the_package_does_not_name_stays(tmp_path: Path) -> None:
    write(lesson(bench_toml=""), tmp_path / "z.csv")
    (tmp_path / "z.bench.toml").write_text(BENCH)
    write(lesson(bench_toml=""), tmp_path / "z.csv")
    assert (tmp_path / "z.bench.toml").read_text() == BENCH


def test_a_file_that_was_changed_since_is_neither_removed_nor_mixed_with_others(tmp_path: Path) -> None:
    out = tmp_path / "z.csv"
    write(fuller_run(), out)
    (tmp_path / "z.bench.toml").write_text("# my notes\n")
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    for attempt in (write, overwriting):
        run, place = lesson(bench_toml=""), out
        with pytest.raises(LoggerError, match=r"z\.bench\.toml belongs to .* changed since .* move it"):
            attempt(run, place)
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before


def test_one_that_is_changed_while_the_new_ones_are_written_stays_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "z.csv"
    write(fuller_run(), out)
    before = (tmp_path / "z.csv").read_bytes()
    from logger.export import table

    def edits_meanwhile(*arguments: object, **options: object) -> object:
        (tmp_path / "z.bench.toml").write_text("# my notes\n")
        return rows_of(*arguments, **options)

    rows_of = table.findings_rows
    monkeypatch.setattr(table, "findings_rows", edits_meanwhile)
    with pytest.raises(LoggerError, match="changed since"):
        write(lesson(bench_toml=""), out)
    assert (tmp_path / "z.csv").read_bytes() == before
    assert (tmp_path / "z.bench.toml").read_text() == "# my notes\n"


@pytest.mark.parametrize("spoilt", ["foreign", "outside", "folder", "link", "no JSON", "list", "odd"])
def test_packages_of_others_and_odd_ones_remove_nothing(tmp_path: Path, spoilt: str) -> None:
    folder = tmp_path / "in"
    folder.mkdir()
    out = folder / "z.csv"
    write(fuller_run(), out)
    package = folder / "z.datapackage.json"
    document = json.loads(package.read_text("utf-8"))
    victim = folder / "z.bench.toml"
    if spoilt == "foreign":
        document["name"] = "other-data"
    elif spoilt == "outside":
        victim = tmp_path / "z.bench.toml"
        victim.write_bytes((folder / "z.bench.toml").read_bytes())
        (folder / "z.bench.toml").unlink()
        for one in document["resources"]:
            one["path"] = f"../{one['path']}" if one["name"] == "bench" else one["path"]
    elif spoilt == "folder":
        victim.unlink()
        victim.mkdir()
    elif spoilt == "link":
        kept = tmp_path / "elsewhere.toml"
        victim.rename(kept)
        victim.symlink_to(kept)
    elif spoilt == "list":
        document = [document]
    elif spoilt == "odd":
        document["resources"] = [3, {"path": 7}, {"path": None}, {}]
    package.write_text("{" if spoilt == "no JSON" else json.dumps(document), "utf-8")
    write(lesson(bench_toml=""), out)
    assert victim.exists()


def test_the_command_says_what_it_removed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    from tests.logger.shelf_files import write_recording

    out = tmp_path / "z.csv"
    write(fuller_run(), out)
    recording = write_recording(tmp_path / "plain.h5", np.arange(50.0), 2 + np.arange(50.0) / 100)
    assert main(["export", str(recording), "--to", str(out)]) == 1
    assert "z.csv exists" in capsys.readouterr().err
    assert main(["export", str(recording), "--to", str(out), "--replace"]) == 0
    printed = capsys.readouterr().out
    assert f"Removed {tmp_path / 'z.temperature.csv'}, of the tables that were there before" in printed
    assert not (tmp_path / "z.temperature.csv").exists()
