"""Out as CSV and in again by the commands: analysing gives the same findings."""

from __future__ import annotations

import json
import math
import shutil
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from logger.analysis.chosen_windows import ChosenWindow
from logger.commands import main
from logger.import_csv import Readings
from logger.imported_recording import import_recording
from logger.moments import new_moment
from logger.reader import read_recording
from logger.reanalysis import analyse_again
from logger.recording import Gap
from tests.logger.shelf_files import write_recording
from tests.logger.simulated_run import BENCH
from tests.logger.simulated_run import lesson as simulated_lesson

PRINTED_DIGITS = 1e-9
"""Relative. CSV holds every digit of the readings; what differs can only be the last bits of a sum."""


GAP_S = (700.0, 790.0)


def with_gap(folder: Any, times_s: Any, values_V: Any, tags: list[tuple[float, str, str]]) -> Any:
    """Write a recording with a gap as the import makes it from tables of other origin."""
    moments = tuple(new_moment(*tag) for tag in tags)
    quality = np.where(np.isinf(values_V), 1, 0).astype(np.uint8)
    gap = Gap(*GAP_S, "cell_voltage", "=unplugged, twice")
    return import_recording(
        Readings(times_s, values_V, quality), moments, folder / "Gerät 1.h5",
        origin=folder, gaps=(gap,), bench_toml=BENCH,
    )  # fmt: skip


def analysed(capsys: Any, path: Any) -> dict[str, Any]:
    capsys.readouterr()
    assert main(["analyse", "--json", str(path)]) == 0
    return json.loads(capsys.readouterr().out)[0]


def assert_same(one: Any, other: Any, where: str = "") -> None:
    if isinstance(one, dict):
        assert one.keys() == other.keys(), where
        for key in one:
            assert_same(one[key], other[key], f"{where}.{key}")
    elif isinstance(one, list):
        assert len(one) == len(other), where
        for place, (a, b) in enumerate(zip(one, other, strict=True)):
            assert_same(a, b, f"{where}.{place}")
    elif isinstance(one, float):
        assert math.isclose(one, other, rel_tol=PRINTED_DIGITS, abs_tol=1e-15), (where, one, other)
    else:
        assert one == other, where


@pytest.mark.parametrize("choices", [[], ["--decimal-comma"]], ids=["RFC 4180", "decimal comma"])
def test_the_findings_are_the_same(tmp_path: Any, capsys: Any, choices: list[str]) -> None:
    recording, _ = simulated_lesson(seed=7)
    channel = recording.channels[0]
    values_V = channel.values.copy()
    values_V[:3] = np.inf  # an open meter overloads
    tags = [(m.time_s, m.kind, m.label) for m in recording.moments]
    tags.append((300.0, "note", "=1+1; '2,5' “µ”"))
    kept = (channel.times_s < GAP_S[0]) | (channel.times_s > GAP_S[1])
    values_V, times_s = values_V[kept], channel.times_s[kept]
    first = with_gap(tmp_path, times_s, values_V, tags)
    out = tmp_path / "aus führung.csv"
    assert main(["export", str(first), "--to", str(out), *choices]) == 0
    second = tmp_path / "wieder.h5"
    assert main([
        "import", str(out), "--moments", str(tmp_path / "aus führung.moments.csv"),
        "--gaps", str(tmp_path / "aus führung.gaps.csv"),
        "--bench", str(tmp_path / "aus führung.bench.toml"), "--out", str(second),
    ]) == 0  # fmt: skip
    before, after = analysed(capsys, first), analysed(capsys, second)
    assert before["voltage_saved"] is not None
    assert len(before["phases"]) == 4
    assert [gap["reason"] for gap in before["run"]["gaps"]] == ["=unplugged, twice"]
    assert before["charge_C"]["high"] > before["charge_C"]["low"]
    # The run has another file, title and start; its length was that of the last reading.
    for document in (before, after):
        del document["file"], document["run"]["title"], document["run"]["start_time"]
    assert_same(before, after)


def test_labels_come_back_as_they_were(tmp_path: Any, capsys: Any) -> None:
    labels = ["=1+1", "'=1+1", "a;b,c", 'say "x"', "plain", ""]
    times_s = np.arange(100.0)
    moments = [(float(i), "note", label) for i, label in enumerate(labels)]
    first = write_recording(tmp_path / "a.h5", times_s, 2 + times_s / 1e3, moments)
    assert main(["export", str(first), "--to", str(tmp_path / "b.csv")]) == 0
    arguments = [str(tmp_path / "b.csv"), "--moments", str(tmp_path / "b.moments.csv")]
    assert main(["import", *arguments, "--out", str(tmp_path / "c.h5")]) == 0
    capsys.readouterr()
    assert main(["moment", str(tmp_path / "c.h5"), "list", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert [one["label"] for one in found] == [new_moment(0, "note", label).label for label in labels]


INVENTED = Path(__file__).parents[3] / "recordings" / "invented"
RECORDINGS = [*sorted(INVENTED.glob("*.h5")), *sorted(INVENTED.glob("class/*.h5"))[:1]]
"""One of the class stands for it: the others differ in the seed only, and analysing takes its time."""


def test_there_are_invented_recordings() -> None:
    assert len(RECORDINGS) >= 5


@pytest.mark.parametrize("path", RECORDINGS, ids=lambda path: path.stem)
def test_every_invented_recording_comes_back_with_its_findings(
    path: Path, tmp_path: Path, capsys: Any
) -> None:
    path = Path(shutil.copy(path, tmp_path))  # analysing keeps the findings in the file
    assert main(["export", str(path), "--to", str(tmp_path / "out.csv")]) == 0
    assert main([
        "import", str(tmp_path / "out.csv"), "--moments", str(tmp_path / "out.moments.csv"),
        "--gaps", str(tmp_path / "out.gaps.csv"), "--bench", str(tmp_path / "out.bench.toml"),
        "--out", str(tmp_path / "back.h5"),
    ]) == 0  # fmt: skip
    before, after = analysed(capsys, path), analysed(capsys, tmp_path / "back.h5")
    for document in (before, after):
        del document["file"], document["run"]["title"], document["run"]["start_time"]
        del document["run"]["duration_s"]  # CSV ends with the last reading, the run a moment later
    assert_same(before, after)


@pytest.mark.parametrize("is_changed", [False, True])
def test_stretches_chosen_by_hand_come_back(tmp_path: Path, capsys: Any, is_changed: bool) -> None:
    path = Path(shutil.copy(INVENTED / "good-lesson.h5", tmp_path))
    chosen = {"before": ChosenWindow(150.0, 220.0), "after": ChosenWindow(1400.0, 1600.0)}
    analyse_again(read_recording(path), chosen)
    assert main(["export", str(path), "--to", str(tmp_path / "out.csv")]) == 0
    if is_changed:
        table = tmp_path / "out.csv"
        table.write_text("".join(table.read_text("utf-8").splitlines(keepends=True)[:-5]), "utf-8")
    capsys.readouterr()
    back = tmp_path / "back.h5"
    assert main(["import", str(tmp_path / "out.datapackage.json"), "--out", str(back)]) == 0
    assert ("chosen by hand (before and after) were not taken" in capsys.readouterr().err) is is_changed
    before, after = analysed(capsys, path), analysed(capsys, back)
    assert before["settled"]["before"]["chosen_by_hand"]
    assert after["settled"]["after"].get("chosen_by_hand", False) is not is_changed
    if not is_changed:
        assert_same(before["settled"], after["settled"])
        assert_same(before["voltage_saved"], after["voltage_saved"])
