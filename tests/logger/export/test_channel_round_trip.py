"""Several channels out as tables with their data package, and in again by the commands."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from logger.commands import main
from logger.import_csv import Readings
from logger.import_package import Package
from logger.imported_recording import ImportedChannel, import_recording
from logger.moments import new_moment
from logger.reader import read_recording
from logger.recording import Gap
from logger.shelf_child import summary
from tests.logger.export.test_round_trip import analysed, assert_same
from tests.logger.simulated_run import BENCH
from tests.logger.simulated_run import lesson as simulated_lesson

STACK_V = 27.0
CapSys = pytest.CaptureFixture[str]


def good(times_s: Any, values: Any) -> Readings:
    return Readings(times_s, values, np.zeros(times_s.size, np.uint8))


@pytest.fixture(scope="module")
def several(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A simulated lesson with a shunt, a thermometer, one more channel, and gaps of two of them."""
    run, _ = simulated_lesson(seed=5)
    voltage = run.channels[0]
    times_s, volts = np.asarray(voltage.times_s), np.asarray(voltage.values)
    slow_s = times_s[::20]
    channels = [
        ImportedChannel("shunt", "shunt_voltage", "V", good(times_s, STACK_V - volts)),
        ImportedChannel("bath", "temperature", "degC", good(slow_s, 21.5 + slow_s / 4000)),
        ImportedChannel("lamp", "other", "lx", good(slow_s, np.sin(slow_s))),
    ]
    gaps = (Gap(600.0, 630.0, "shunt", "unplugged"), Gap(640.0, 641.0, "cell_voltage", "late"))
    folder = tmp_path_factory.mktemp("several")
    moments = tuple(new_moment(m.time_s, m.kind, m.label) for m in run.moments)
    return import_recording(
        good(times_s, volts), moments, folder / "first.h5",
        origin=folder, channels=channels, gaps=gaps, bench_toml=BENCH,
    )  # fmt: skip


def exported(recording: Path, folder: Path, *choices: str) -> Path:
    assert main(["export", str(recording), "--to", str(folder / "z.csv"), *choices]) == 0
    return folder / "z.datapackage.json"


@pytest.mark.parametrize("choices", [[], ["--decimal-comma"]], ids=["RFC 4180", "decimal comma"])
def test_the_findings_are_the_same(several: Path, tmp_path: Path, capsys: CapSys, choices: list[str]) -> None:
    package = exported(several, tmp_path, *choices)
    capsys.readouterr()
    assert main(["import", str(package), "--out", str(tmp_path / "back.h5")]) == 0
    said = capsys.readouterr()
    assert "3 further channels" in said.out
    assert said.err == ""
    one, other = read_recording(several), read_recording(tmp_path / "back.h5")
    assert [(c.name, c.role, c.unit) for c in one.channels] == [
        (c.name, c.role, c.unit) for c in other.channels
    ]
    for mine, theirs in zip(one.channels, other.channels, strict=True):
        np.testing.assert_array_equal(mine.times_s[:], theirs.times_s[:])
        np.testing.assert_array_equal(mine.values[:], theirs.values[:])
    assert one.gaps == other.gaps
    before, after = analysed(capsys, several), analysed(capsys, tmp_path / "back.h5")
    assert before["current"]["before_A"] is not None
    for document in (before, after):
        del document["file"], document["run"]["start_time"]
        document["warnings"] = [w for w in document["warnings"] if w["code"] != "start_not_known"]
    assert_same(before, after)


def with_package(package: Path, change: Any) -> None:
    document = json.loads(package.read_text("utf-8"))
    change({one["name"]: one for one in document["resources"]})
    package.write_text(json.dumps(document), "utf-8")


@pytest.mark.parametrize(
    "told",
    [
        None,
        7,
        {"name": "bath", "role": "nonsense", "unit": "degC"},
        {"name": "", "role": "temperature", "unit": "degC"},
        {"name": "cell_voltage", "role": "other", "unit": "V"},
        {"name": ["bath"], "role": ["temperature"], "unit": 5},
    ],
)
def test_a_channel_of_which_nothing_is_told_is_left_out_and_named(
    several: Path, tmp_path: Path, capsys: CapSys, told: Any
) -> None:
    package = exported(several, tmp_path)
    with_package(package, lambda resources: resources["bath"].update(channel=told))
    assert main(["import", str(package), "--out", str(tmp_path / "back.h5")]) == 0
    assert "not taken: z.bath.csv" in capsys.readouterr().err
    assert {one.name for one in read_recording(tmp_path / "back.h5").channels} == {
        "cell_voltage", "shunt", "lamp",
    }  # fmt: skip


def test_hostile_names_of_channels_do_no_harm(several: Path, tmp_path: Path, capsys: CapSys) -> None:
    package = exported(several, tmp_path)

    def change(resources: dict[str, dict[str, Any]]) -> None:
        resources["bath"]["channel"]["name"] = "../../moments\0"
        resources["lamp"]["channel"] = {"name": "moments", "role": "other", "unit": "x" * 1000}
        resources["shunt"]["channel"]["name"] = "moments"

    with_package(package, change)
    assert main(["import", str(package), "--out", str(tmp_path / "back.h5")]) == 0
    assert "says of two that they are one channel" in capsys.readouterr().err
    found = read_recording(tmp_path / "back.h5")
    assert len({one.name for one in found.channels}) == 2
    assert len(found.moments) == len(read_recording(several).moments)


def test_each_table_that_was_changed_is_named(several: Path, tmp_path: Path, capsys: CapSys) -> None:
    package = exported(several, tmp_path)
    for name in ("z.bath.csv", "z.moments.csv"):
        lines = (tmp_path / name).read_text("utf-8").splitlines()
        (tmp_path / name).write_text("\n".join(lines[:-1]), "utf-8")
    assert main(["import", str(package), "--out", str(tmp_path / "back.h5")]) == 0
    assert "z.moments.csv, z.bath.csv were changed since the export" in capsys.readouterr().err


def test_a_channel_that_never_read_anything_is_no_hindrance(several: Path, tmp_path: Path) -> None:
    package = exported(several, tmp_path)
    lamp = tmp_path / "z.lamp.csv"
    lamp.write_text(lamp.read_text("utf-8").splitlines()[0] + "\n", "utf-8")
    assert main(["import", str(package), "--out", str(tmp_path / "back.h5")]) == 0
    assert {one.role for one in read_recording(tmp_path / "back.h5").channels} == {
        "cell_voltage", "shunt_voltage", "temperature",
    }  # fmt: skip


def test_the_readings_alone_tell_which_channels_stay_behind(
    several: Path, tmp_path: Path, capsys: CapSys
) -> None:
    exported(several, tmp_path)
    assert main(["import", str(tmp_path / "z.csv"), "--out", str(tmp_path / "back.h5")]) == 0
    said = capsys.readouterr().err
    assert "only the cell voltage was taken; import the data package for" in said
    assert {"z.shunt.csv", "z.bath.csv", "z.lamp.csv"} <= set(said.replace(",", " ").split())
    assert [one.name for one in read_recording(tmp_path / "back.h5").channels] == ["cell_voltage"]


@pytest.fixture(scope="module")
def two_cells(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A run of two cells at once, neither of which is called cell_voltage."""
    run, _ = simulated_lesson(seed=5)
    times_s, volts = np.asarray(run.channels[0].times_s), np.asarray(run.channels[0].values)
    folder = tmp_path_factory.mktemp("two")
    return import_recording(
        good(times_s, volts), (), folder / "first.h5", origin=folder, bench_toml=BENCH,
        package=Package(folder, voltage_name="left"),
        channels=[ImportedChannel("right", "cell_voltage", "V", good(times_s, volts + 0.1))],
    )  # fmt: skip


def test_a_voltage_of_another_name_comes_back_under_it(
    two_cells: Path, tmp_path: Path, capsys: CapSys
) -> None:
    package = exported(two_cells, tmp_path)
    assert main(["import", str(package), "--out", str(tmp_path / "back.h5")]) == 0
    one, other = read_recording(two_cells), read_recording(tmp_path / "back.h5")
    assert [(c.name, c.role) for c in other.channels] == [("left", "cell_voltage"), ("right", "cell_voltage")]
    for mine, theirs in zip(one.channels, other.channels, strict=True):
        np.testing.assert_array_equal(mine.values[:], theirs.values[:])
    assert main(["import", str(tmp_path / "z.csv"), "--out", str(tmp_path / "alone.h5")]) == 0
    assert [c.name for c in read_recording(tmp_path / "alone.h5").channels] == ["left"]


def test_a_package_that_was_renamed_is_one_still(several: Path, tmp_path: Path) -> None:
    package = exported(several, tmp_path)
    renamed = package.rename(tmp_path / "datapackage.json")
    assert main(["import", str(renamed), "--out", str(tmp_path / "back.h5")]) == 0
    assert len(read_recording(tmp_path / "back.h5").channels) == 4


@pytest.mark.parametrize(
    "place",
    [
        "../z.bath.csv",
        "/etc/passwd",
        "http://127.0.0.1:9/z.csv",
        "C:z.csv",
        "..",
        "",
        None,
        ["z.csv", "y.csv"],
    ],
)
def test_what_does_not_lie_beside_the_package_is_not_looked_for_and_named(
    several: Path, tmp_path: Path, capsys: CapSys, place: Any
) -> None:
    package = exported(several, tmp_path)
    with_package(package, lambda resources: resources["bath"].update(path=place))
    assert main(["import", str(package), "--out", str(tmp_path / "back.h5")]) == 0
    said = capsys.readouterr().err
    assert f"not taken: {str(place) if place != '' else 'a table without a name'}; only files" in said
    assert "bath" not in {one.name for one in read_recording(tmp_path / "back.h5").channels}


def test_a_table_that_the_package_calls_otherwise_is_named(
    several: Path, tmp_path: Path, capsys: CapSys
) -> None:
    package = exported(several, tmp_path)
    with_package(package, lambda resources: resources["moments"].update(name="events"))
    assert main(["import", str(package), "--out", str(tmp_path / "back.h5")]) == 0
    assert "not taken: z.moments.csv; the data package does not say" in capsys.readouterr().err


def test_all_that_is_missing_is_named_at_once(several: Path, tmp_path: Path, capsys: CapSys) -> None:
    package = exported(several, tmp_path)
    for name in ("z.moments.csv", "z.bath.csv"):
        (tmp_path / name).rename(tmp_path / f"{name}.old")
    command = ["import", str(package), "--out", str(tmp_path / "back.h5")]
    assert main(command) == 1
    said = capsys.readouterr().err
    assert "names z.bath.csv, z.moments.csv, which are not there; put it beside" in said
    assert not (tmp_path / "back.h5").exists()
    (tmp_path / "z.bath.csv.old").rename(tmp_path / "z.bath.csv")
    assert main([*command, "--moments", str(tmp_path / "nowhere.csv")]) == 1
    assert "nowhere.csv cannot be read" in capsys.readouterr().err
    assert main([*command, "--moments", str(tmp_path / "z.moments.csv.old")]) == 0
    assert read_recording(tmp_path / "back.h5").moments


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no named pipes here")
@pytest.mark.parametrize("name", ["z.bench.toml", "z.csv", "z.bath.csv", "z.moments.csv"])
def test_a_pipe_that_never_ends_is_not_waited_for(
    several: Path, tmp_path: Path, capsys: CapSys, name: str
) -> None:
    package = exported(several, tmp_path)
    (tmp_path / name).unlink()
    os.mkfifo(tmp_path / name)
    assert main(["import", str(package), "--out", str(tmp_path / "back.h5")]) == 1
    assert f"names {name}, which is not there" in capsys.readouterr().err


def test_invented_readings_stay_marked_by_way_of_tables_and_replays(tmp_path: Path) -> None:
    """What the simulated cell made is never to pass for a measurement."""
    lesson = Path(__file__).parents[3] / "recordings" / "invented" / "good-lesson.h5"
    assert main(["export", str(lesson), "--to", str(tmp_path / "z.csv")]) == 0
    made = [lesson]
    for source in ("z.datapackage.json", "z.csv"):
        made.append(tmp_path / f"{source}.h5")
        assert main(["import", str(tmp_path / source), "--out", str(made[-1])]) == 0
    for number in (1, 2):
        made.append(tmp_path / f"replay {number}.h5")
        before = made[-2] if number == 2 else lesson
        source = f"replay:{before}?speed=10000"
        start = "import sys; from logger.commands import main; sys.exit(main())"
        command = ["-c", start, "record", "--source", source, "--out", str(made[-1])]
        subprocess.run([sys.executable, *command], stdin=subprocess.DEVNULL, check=True)
    report = tmp_path / "x.html"
    for path in made:
        assert read_recording(path).channels[0].is_simulated, path
        assert summary(path)["is_simulated"], path
        assert main(["export", str(path), "--to", str(report), "--replace"]) == 0
        assert "Simulated cell: invented data" in report.read_text("utf-8")


def test_other_readings_are_not_marked_as_invented(several: Path, tmp_path: Path) -> None:
    package = exported(several, tmp_path)
    assert "simulated" not in json.loads(package.read_text("utf-8"))["resources"][0]["channel"]
    assert not any(one.is_simulated for one in read_recording(several).channels)
