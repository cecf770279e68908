"""A recording whose file is not as it was written: whoever uses it is told, not only who asks `check`."""

from __future__ import annotations

import csv
import json
import shutil
from pathlib import Path
from typing import Any

import h5py
import numpy as np
import pytest

from logger.analysis.findings import findings
from logger.checksum import part_digests
from logger.commands import main
from logger.inspection import inspect
from logger.picture_edits import attach_file, load_picture
from logger.reader import read_recording
from tests.logger.test_attachments import png

LESSON = Path(__file__).parents[2] / "recordings" / "invented" / "good-lesson.h5"


@pytest.fixture
def lesson(tmp_path: Path) -> Path:
    return Path(shutil.copy(LESSON, tmp_path / "lesson.h5"))


def alter(path: Path, part: str) -> None:
    """Change one part with another program that knows nothing of our checksums."""
    with h5py.File(path, "r+") as file:
        run = file["run"]
        if part == "moments":
            run["moments/time"][1] += 40.0
        elif part == "bench":
            run["bench"].attrs["toml"] = run["bench"].attrs["toml"].replace("1", "2", 1)
        elif part == "run":
            run["title"][()] = "Strip 5"
        elif part == "cell_voltage/value":
            run["cell_voltage/value"][1000] += 0.5
        elif part == "cell_voltage":
            run["cell_voltage"].attrs["role"] = "cell_voltage"
            run["cell_voltage"].attrs["title"] = "another"


def warned(document: dict[str, Any]) -> str:
    return " ".join(one["message"] for one in document["warnings"] if one["code"] == "damaged_file")


def test_a_recording_that_is_whole_says_nothing(lesson: Path) -> None:
    recording = read_recording(lesson)
    assert recording.damaged == ()
    assert warned(findings(recording)) == ""


@pytest.mark.parametrize("part", ["moments", "bench", "run", "cell_voltage/value", "cell_voltage"])
def test_findings_name_what_check_names(lesson: Path, part: str) -> None:
    alter(lesson, part)
    assert not inspect(lesson).is_whole
    recording = read_recording(lesson)
    assert recording.damaged == (part,)
    said = warned(findings(recording))
    assert f"(SHA-256 differs): {part}. " in said
    assert "another copy" in said
    assert "galvanote check" in said


def test_the_commands_and_the_exports_say_it(lesson: Path, capsys: pytest.CaptureFixture[str]) -> None:
    alter(lesson, "moments")
    assert main(["analyse", str(lesson)]) == 0
    assert "(SHA-256 differs): moments" in " ".join(capsys.readouterr().out.split())
    for ending in ("csv", "html", "svg", "xlsx"):
        assert main(["export", str(lesson), "--to", str(lesson.with_name(f"a.{ending}"))]) == 0
        assert "(SHA-256 differs): moments" in capsys.readouterr().err
    with lesson.with_name("a.findings.csv").open(newline="") as file:
        found = {row["quantity"]: row["text"] for row in csv.DictReader(file)}
    assert "moments" in found["warning.damaged_file"]
    assert "(SHA-256 differs): moments" in lesson.with_name("a.html").read_text("utf-8")


def test_a_comparison_leaves_it_out(lesson: Path, capsys: pytest.CaptureFixture[str]) -> None:
    others = [shutil.copy(path, lesson.parent) for path in sorted(LESSON.parent.glob("class/*.h5"))[:2]]
    alter(lesson, "moments")
    assert main(["compare", "--json", str(lesson), *map(str, others)]) == 0
    document = capsys.readouterr().out
    assert "parts of its file are damaged (moments)" in document


def test_an_edit_does_not_declare_a_damaged_part_whole(lesson: Path) -> None:
    alter(lesson, "moments")
    assert main(["moment", str(lesson), "add", "--at", "12", "note", "later"]) == 0
    assert read_recording(lesson).damaged == ("moments",)


def picture_of(path: Path) -> str:
    moment = read_recording(path).moments[0]
    file = path.with_name("anode.png")
    file.write_bytes(png(40, 30))
    return attach_file(path, moment.id, file).id


def test_a_damaged_picture_is_told_and_not_handed_out(lesson: Path) -> None:
    identity = picture_of(lesson)
    recording = read_recording(lesson)
    assert load_picture(recording, identity) == png(40, 30)
    assert inspect(lesson).is_whole
    with h5py.File(lesson, "r+") as file:
        file[f"run/attachments/{identity}/data"][60] ^= 1
    (wrong,) = [one for one in inspect(lesson).findings if one.is_whole is False]
    assert wrong.what == "pictures"
    assert identity[:8] in wrong.text
    with pytest.raises(Exception, match=r"anode\.png is damaged: .* another copy"):
        load_picture(recording, identity)


@pytest.mark.parametrize("spoilt", ["level", "level attribute", "file attribute", "list of checksums"])
def test_check_sees_what_lies_beside_the_run(tmp_path: Path, spoilt: str) -> None:
    from tests.logger.shelf_files import write_recording

    times_s = np.arange(1000.0)
    path = write_recording(tmp_path / "run.h5", times_s, 2 + 0.1 * np.sin(times_s))
    assert inspect(path).is_whole
    assert any(one.what == "cell_voltage/overview" and one.is_whole for one in inspect(path).findings)
    with h5py.File(path, "r+") as file:
        if spoilt == "level":
            file["run/cell_voltage/overview/level_64"][1, 3] = 9.0
        elif spoilt == "level attribute":
            file["run/cell_voltage/overview/level_64"].attrs["samples_covered"] = 7
        elif spoilt == "file attribute":
            file.attrs["creator"] = "somebody"
        else:
            kept = file["run"].attrs["sha256_parts"]
            file["run"].attrs["sha256_parts"] = kept.replace("{", "[", 1)
    wrong = [one for one in inspect(path).findings if one.is_whole is False]
    what = "cell_voltage/overview" if spoilt == "level" else "texts and moments"
    assert [one.what for one in wrong] == [what]


def test_check_holds_recordings_from_before_by_what_they_have(lesson: Path) -> None:
    with h5py.File(lesson, "r+") as file:
        for level in file["run/cell_voltage/overview"].values():
            level.attrs.pop("sha256", None)
        kept = part_digests(file["run"])
        kept.pop("/")
        file["run"].attrs["sha256_parts"] = json.dumps(kept)
    assert inspect(lesson).is_whole


@pytest.mark.parametrize("is_altered", [False, True])
def test_a_recording_from_before_levels_had_covered_attributes_is_as_it_was(
    tmp_path: Path, is_altered: bool
) -> None:
    from tests.logger.shelf_files import write_recording

    times_s = np.arange(1000.0)
    path = write_recording(tmp_path / "run.h5", times_s, 2 + 0.1 * np.sin(times_s))
    bare = Path(shutil.copy(path, tmp_path / "bare.h5"))
    with h5py.File(bare, "r+") as file:  # its digests are those that were kept then
        del file["run/cell_voltage/overview"]
        earlier = json.dumps(part_digests(file["run"]))
    with h5py.File(path, "r+") as file:
        assert "sha256" in file["run/cell_voltage/overview/level_64"].attrs
        file["run"].attrs["sha256_parts"] = earlier
        if is_altered:
            file["run/cell_voltage"].attrs["title"] = "another"
    assert inspect(path).is_whole is not is_altered
    assert (read_recording(path).damaged == ()) is not is_altered
