"""Pictures, start and everything else of a run: out as a set of tables, and in again by its data package."""

from __future__ import annotations

import csv
import hashlib
import json
import shutil
from pathlib import Path

import h5py
import numpy as np
import pytest

from logger.attachments import entry_of, new_attachment
from logger.commands import main
from logger.export.table import export_csv
from logger.inspection import inspect
from logger.moment_pictures import moment_pictures, reading_pictures
from logger.picture_edits import attach_file
from logger.progress import Cancelled, Progress
from logger.reader import read_recording
from logger.recording import Recording
from tests.logger.export.test_round_trip import analysed, assert_same
from tests.logger.fakes import block
from tests.logger.shelf_files import write_recording
from tests.logger.test_archive import journal
from tests.logger.test_attachments import add_entries, jpeg, png

LESSON = Path(__file__).parents[3] / "recordings" / "invented" / "good-lesson.h5"
NAMES = ("=1+1, 'ü'.png", "anode.jpg", "anode.jpg")
PICTURES = (png(30, 20), jpeg(b"one"), jpeg(b"two"))

CapSys = pytest.CaptureFixture[str]


@pytest.fixture
def lesson(tmp_path: Path) -> Path:
    """A lesson with a picture at its second moment and two at the fourth."""
    path = Path(shutil.copy(LESSON, tmp_path / "Stück 1.h5"))
    moments = read_recording(path).moments
    for place, name, data in zip((1, 3, 3), NAMES, PICTURES, strict=True):
        file = tmp_path / "in" / name
        file.parent.mkdir(exist_ok=True)
        file.write_bytes(data)
        attach_file(path, moments[place].id, file)
    return path


def bytes_of(recording: Recording) -> list[tuple[int, str, bytes]]:
    """Number of the moment, name and bytes of each picture."""
    with reading_pictures(recording) as read:
        found = moment_pictures(recording)
        return [(one.number, one.attachment.file_name, read(one.attachment)) for one in found]


EXPECTED = list(zip((2, 4, 4), NAMES, PICTURES, strict=True))


def test_pictures_count_for_how_far_it_is_and_can_be_cancelled(lesson: Path, tmp_path: Path) -> None:
    run, shares = read_recording(lesson), list[float]()
    folder = tmp_path / "out"
    folder.mkdir()
    export_csv(run, folder / "z.csv", progress=Progress(shares.append))
    assert shares == sorted(shares)
    assert len([one for one in shares if one < 1]) >= len(PICTURES)  # the readings, and all but the last
    progress = Progress(lambda share: progress.cancel() if 0.5 < share < 1 else None)
    with pytest.raises(Cancelled):
        export_csv(run, folder / "y.csv", progress=progress)
    assert not list(folder.glob("y*"))


@pytest.mark.parametrize("choices", [[], ["--decimal-comma"]], ids=["RFC 4180", "decimal comma"])
def test_everything_comes_back_by_the_package(
    lesson: Path, tmp_path: Path, capsys: CapSys, choices: list[str]
) -> None:
    out = tmp_path / "aus.csv"
    assert main(["export", str(lesson), "--to", str(out), *choices]) == 0
    assert (tmp_path / "aus.picture-1.png").read_bytes() == PICTURES[0]
    assert (tmp_path / "aus.picture-3.jpg").read_bytes() == PICTURES[2]
    back = tmp_path / "back.h5"
    assert main(["import", str(tmp_path / "aus.datapackage.json"), "--out", str(back)]) == 0
    assert "3 pictures" in capsys.readouterr().out
    before, after = read_recording(lesson), read_recording(back)
    assert bytes_of(before) == bytes_of(after) == EXPECTED
    assert inspect(back).is_whole
    for name in ("start_time", "time_zone", "title", "bench_toml", "gaps", "duration_s"):
        assert getattr(before, name) == getattr(after, name), name
    same = [[(m.id, m.time_s, m.kind, m.label, m.noted_at) for m in one.moments] for one in (before, after)]
    assert same[0] == same[1]
    assert [a.added_at for a in before.attachments] == [a.added_at for a in after.attachments]
    assert after.has_known_start
    documents = [analysed(capsys, path) for path in (lesson, back)]
    for document in documents:
        del document["file"]
    assert_same(*documents)


def test_a_validator_finds_the_package_with_pictures_valid(lesson: Path, tmp_path: Path) -> None:
    frictionless = pytest.importorskip("frictionless")
    assert main(["export", str(lesson), "--to", str(tmp_path / "aus.csv")]) == 0
    report = frictionless.validate(str(tmp_path / "aus.datapackage.json"))
    assert report.valid, report.flatten(["title", "message"])
    package = json.loads((tmp_path / "aus.datapackage.json").read_text("utf-8"))
    named = {one["path"]: one for one in package["resources"]}
    for place, data in enumerate(PICTURES, 1):
        ending = "png" if place == 1 else "jpg"
        one = named[f"aus.picture-{place}.{ending}"]
        assert one["hash"] == f"sha256:{hashlib.sha256(data).hexdigest()}"
        assert one["bytes"] == len(data)
    (tmp_path / "aus.picture-1.png").write_bytes(png(31, 20))
    assert not frictionless.validate(str(tmp_path / "aus.datapackage.json")).valid


def test_tables_alone_bring_pictures_too(lesson: Path, tmp_path: Path) -> None:
    assert main(["export", str(lesson), "--to", str(tmp_path / "a.csv")]) == 0
    (tmp_path / "a.datapackage.json").unlink()
    options = ["--moments", str(tmp_path / "a.moments.csv"), "--pictures", str(tmp_path / "a.pictures.csv")]
    assert main(["import", str(tmp_path / "a.csv"), *options, "--out", str(tmp_path / "b.h5")]) == 0
    back = read_recording(tmp_path / "b.h5")
    assert bytes_of(back) == EXPECTED
    assert not back.has_known_start


@pytest.mark.parametrize(
    ("spoilt", "said"),
    [
        ("changed", "is not the picture that was exported"),
        ("gone", "cannot be read"),
        ("elsewhere", "is no file beside this table"),
        ("no moments", "there is no moment '2'"),
        ("text", "no picture that can be attached"),
    ],
)
def test_pictures_that_are_not_those_that_were_exported_refuse_the_import(
    lesson: Path, tmp_path: Path, capsys: CapSys, spoilt: str, said: str
) -> None:
    assert main(["export", str(lesson), "--to", str(tmp_path / "a.csv")]) == 0
    picture, table = tmp_path / "a.picture-1.png", tmp_path / "a.pictures.csv"
    if spoilt == "changed":
        picture.write_bytes(png(30, 21))
    elif spoilt == "gone":
        picture.unlink()
    elif spoilt == "elsewhere":
        table.write_text(table.read_text("utf-8").replace("a.picture-1.png", "../a.picture-1.png"), "utf-8")
    elif spoilt == "text":
        text = table.read_text("utf-8").replace(hashlib.sha256(PICTURES[0]).hexdigest(), "")
        table.write_text(text, "utf-8")
        picture.write_text("no picture")
    options = [] if spoilt == "no moments" else ["--moments", str(tmp_path / "a.moments.csv")]
    arguments = ["import", str(tmp_path / "a.csv"), *options, "--pictures", str(table)]
    assert main([*arguments, "--out", str(tmp_path / "b.h5")]) == 1
    assert said in capsys.readouterr().err
    assert not (tmp_path / "b.h5").exists()


def test_a_damaged_picture_is_left_out_of_the_tables_with_the_reason(lesson: Path, tmp_path: Path) -> None:
    identity = moment_pictures(read_recording(lesson))[1].attachment.id
    with h5py.File(lesson, "r+") as file:
        file[f"run/attachments/{identity}/data"][8] ^= 1
    assert main(["export", str(lesson), "--to", str(tmp_path / "a.csv")]) == 0
    assert not (tmp_path / "a.picture-2.jpg").exists()
    with (tmp_path / "a.pictures.csv").open(encoding="utf-8", newline="") as table:
        rows = list(csv.DictReader(table))
    assert [row["file"] for row in rows] == ["a.picture-1.png", "", "a.picture-3.jpg"]
    assert "is damaged" in rows[1]["note"]
    back = tmp_path / "b.h5"
    assert main(["import", str(tmp_path / "a.datapackage.json"), "--out", str(back)]) == 0
    assert bytes_of(read_recording(back)) == [EXPECTED[0], EXPECTED[2]]


def test_pictures_of_a_replaced_set_go_with_it(lesson: Path, tmp_path: Path) -> None:
    out = tmp_path / "a.csv"
    assert main(["export", str(lesson), "--to", str(out)]) == 0
    assert main(["export", str(LESSON), "--to", str(out), "--replace"]) == 0
    assert not [path.name for path in tmp_path.iterdir() if "picture" in path.name]


# ---------------------------------------------------------------- when the run began


def plain_csv(folder: Path) -> Path:
    path = folder / "plain.csv"
    path.write_text("time_s,cell_voltage_V\n" + "".join(f"{i},2.{i:03d}\n" for i in range(100)))
    return path


def report_text(path: Path, folder: Path) -> str:
    out = folder / f"{path.stem}.html"
    assert main(["export", str(path), "--to", str(out)]) == 0
    return out.read_text("utf-8")


def test_the_report_of_text_readings_says_that_the_start_is_not_known(tmp_path: Path, capsys: CapSys) -> None:
    path = tmp_path / "a.h5"
    assert main(["import", str(plain_csv(tmp_path)), "--out", str(path)]) == 0
    assert "Start not known   ·   1:39" in report_text(path, tmp_path)
    assert main(["analyse", str(path)]) == 0
    assert "Start not known, " in capsys.readouterr().out
    document = analysed(capsys, path)
    assert document["run"]["start_time"] is None
    assert "start_not_known" in [one["code"] for one in document["warnings"]]
    assert main(["export", str(path), "--to", str(tmp_path / "b.csv")]) == 0
    assert "created" not in json.loads((tmp_path / "b.datapackage.json").read_text("utf-8"))
    again = tmp_path / "c.h5"
    assert main(["import", str(tmp_path / "b.csv"), "--out", str(again)]) == 0
    assert not read_recording(again).has_known_start


def test_with_its_package_beside_it_a_table_has_the_start_of_its_run(tmp_path: Path, capsys: CapSys) -> None:
    times_s = np.arange(100.0)
    first = write_recording(tmp_path / "a.h5", times_s, 2 + times_s / 1000, title="Strip 4")
    assert main(["export", str(first), "--to", str(tmp_path / "b.csv")]) == 0
    second = tmp_path / "c.h5"
    assert main(["import", str(tmp_path / "b.csv"), "--out", str(second)]) == 0
    made = read_recording(second)
    assert made.start_time == "2026-03-05T10:00:00.000+01:00"
    assert made.end_time is not None
    assert made.end_time.startswith("2026-03-05T10:01:39")
    assert (made.title, made.time_zone) == ("Strip 4", "Europe/Berlin")
    assert "05 Mar 2026, 10:00:00 (UTC+01:00)" in report_text(second, tmp_path)


def test_a_table_that_was_changed_since_keeps_the_start_and_that_is_told(
    tmp_path: Path, capsys: CapSys
) -> None:
    times_s = np.arange(100.0)
    first = write_recording(tmp_path / "a.h5", times_s, 2 + times_s / 1000)
    assert main(["export", str(first), "--to", str(tmp_path / "b.csv")]) == 0
    assert main(["import", str(tmp_path / "b.csv"), "--out", str(tmp_path / "c.h5")]) == 0
    assert capsys.readouterr().err == ""
    lines = (tmp_path / "b.csv").read_text("utf-8").splitlines()[:-20]
    (tmp_path / "b.csv").write_text("\n".join(lines))
    assert main(["import", str(tmp_path / "b.csv"), "--out", str(tmp_path / "d.h5")]) == 0
    assert "b.csv was changed since the export" in capsys.readouterr().err
    assert read_recording(tmp_path / "d.h5").has_known_start


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("{", "it is not JSON"),
        ("[]", "no data package of an exported run"),
        ('{"name": "other"}', "no data package of an exported run"),
        ('{"name": "galvanote-run"}', "names no readings of a cell voltage;"),
        ('{"name": "galvanote-run", "resources": [{"path": "../x.csv"}, 5]}', "names no readings"),
        ('{"name": "galvanote-run", "resources": 5}', "names no readings"),
        (
            '{"name": "galvanote-run", "resources": [{"path": "x.csv", "schema": {"fields": 5}}]}',
            "no readings",
        ),
    ],
)
def test_other_packages_are_refused(tmp_path: Path, capsys: CapSys, content: str, said: str) -> None:
    (tmp_path / "x.datapackage.json").write_text(content)
    assert main(["import", str(tmp_path / "x.datapackage.json"), "--out", str(tmp_path / "y.h5")]) == 1
    assert said in capsys.readouterr().err


def test_a_package_of_others_beside_readings_does_not_matter(tmp_path: Path) -> None:
    readings = plain_csv(tmp_path)
    (tmp_path / "plain.datapackage.json").write_text('{"name": "other", "created": "2001-01-01T00:00:00Z"}')
    assert main(["import", str(readings), "--out", str(tmp_path / "y.h5")]) == 0
    assert not read_recording(tmp_path / "y.h5").has_known_start


def test_pictures_of_a_run_that_was_cut_off_are_carried_too(tmp_path: Path) -> None:
    path = journal(tmp_path / "run.h5", [block(0, 100)], ended=False)
    moment = read_recording(path).moments[0]
    one = new_attachment(moment.id, "anode.png", png(5, 4))
    add_entries(path, [entry_of(one, png(5, 4))])
    assert main(["export", str(tmp_path / "run.h5"), "--to", str(tmp_path / "a.csv")]) == 0
    assert (tmp_path / "a.picture-1.png").read_bytes() == png(5, 4)
    assert main(["export", str(tmp_path / "run.h5"), "--to", str(tmp_path / "a.html")]) == 0
    assert "data:image/png" in (tmp_path / "a.html").read_text("utf-8")


def test_an_ending_in_capitals_comes_back_too(tmp_path: Path) -> None:
    times_s = np.arange(100.0)
    first = write_recording(tmp_path / "a.h5", times_s, 2 + times_s / 1000, title="Strip 4")
    assert main(["export", str(first), "--to", str(tmp_path / "B.CSV")]) == 0
    assert main(["import", str(tmp_path / "B.datapackage.json"), "--out", str(tmp_path / "c.h5")]) == 0
    assert read_recording(tmp_path / "c.h5").title == "Strip 4"


@pytest.mark.parametrize("start", ["9999-12-31T23:59:59+00:00", "0001-01-01T00:00:00+23:59"])
def test_a_start_at_an_end_of_the_calendar_is_not_known(tmp_path: Path, start: str) -> None:
    times_s = np.arange(100.0)
    first = write_recording(tmp_path / "a.h5", times_s, 2 + times_s / 1000)
    assert main(["export", str(first), "--to", str(tmp_path / "b.csv")]) == 0
    package = tmp_path / "b.datapackage.json"
    package.write_text(package.read_text("utf-8").replace("2026-03-05T10:00:00.000+01:00", start), "utf-8")
    assert main(["import", str(package), "--out", str(tmp_path / "c.h5")]) == 0
    assert not read_recording(tmp_path / "c.h5").has_known_start


@pytest.mark.parametrize(
    ("row", "said"), [("a\0.png,1,", "no file beside"), (f"a.png,{'9' * 5000},", "there is no moment")]
)
def test_a_line_of_pictures_that_cannot_be_is_refused(
    tmp_path: Path, capsys: CapSys, row: str, said: str
) -> None:
    (tmp_path / "r.csv").write_text("time_s,cell_voltage_V\n0,2\n1,2\n")
    (tmp_path / "p.csv").write_text(f"file,moment,sha256\n{row}\n")
    arguments = [str(tmp_path / "r.csv"), "--pictures", str(tmp_path / "p.csv")]
    assert main(["import", *arguments, "--out", str(tmp_path / "c.h5")]) == 1
    assert said in capsys.readouterr().err


def test_a_picture_that_stays_behind_is_told(lesson: Path, tmp_path: Path, capsys: CapSys) -> None:
    moment = read_recording(lesson).attachments[0].moment_id
    assert main(["moment", str(lesson), "remove", moment]) == 0
    capsys.readouterr()
    assert main(["export", str(lesson), "--to", str(tmp_path / "left.csv")]) == 0
    assert "not among the tables, since the moment was removed" in capsys.readouterr().err
