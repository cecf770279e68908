"""The CSV export: every digit, every moment, nothing that a spreadsheet would run."""

from __future__ import annotations

import csv
import hashlib
import json
import random
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra import numpy as numpy_st

from logger.archive import finish
from logger.clean_text import clean_text
from logger.errors import LoggerError, OutputExists
from logger.export.findings_rows import findings_rows
from logger.export.formats import Choices, export, with_ending
from logger.export.reading_lines import reading_lines
from logger.export.spreadsheet_text import guard_formula, unguard_formula
from logger.export.table import export_csv
from logger.import_csv import read_moments, read_readings
from logger.imported_recording import import_recording
from logger.moments import clean_label, new_moment
from logger.progress import Cancelled, Progress
from logger.reader import read_recording
from logger.recording import ChannelData
from tests.logger.export.hostile import FILE_NAMES, LABELS, is_harmless
from tests.logger.export.test_picture import FINDINGS, lesson
from tests.logger.fakes import block
from tests.logger.test_archive import journal


@pytest.fixture
def recording(tmp_path):
    path = tmp_path / "run.h5"
    awkward = block(0, 100)
    awkward.values[:3] = [np.inf, -np.inf, 1 / 3]
    awkward.quality[:2] = 1
    return finish(journal(path, [awkward]))


def rows(path, delimiter=","):
    with path.open(newline="", encoding="utf-8-sig") as file:
        return list(csv.DictReader(file, delimiter=delimiter))


def test_what_is_exported_can_be_imported_again(recording, tmp_path):
    out = tmp_path / "out.csv"
    export_csv(read_recording(recording), out)
    readings = read_readings(out)
    original = read_recording(recording)
    np.testing.assert_array_equal(readings.times_s, original.channels[0].times_s)
    np.testing.assert_array_equal(readings.values, original.channels[0].values)
    np.testing.assert_array_equal(readings.quality, original.channels[0].quality)
    moments = read_moments(tmp_path / "out.moments.csv")
    assert [(m.time_s, m.kind, m.label) for m in moments] == [(0.2, "salt_added", "2 Tropfen µ")]
    again = import_recording(readings, moments, tmp_path / "again.h5", origin=out)
    np.testing.assert_array_equal(read_recording(again).channels[0].values, original.channels[0].values)


def test_the_form_is_rfc_4180(recording, tmp_path):
    export_csv(read_recording(recording), tmp_path / "out.csv")
    data = (tmp_path / "out.csv").read_bytes()
    assert data.startswith(b"time_s,cell_voltage_V,quality\r\n0.0,inf,1\r\n")
    assert data.count(b"\n") == data.count(b"\r\n") == 101
    assert b"0.3333333333333333" in data


@given(
    numpy_st.arrays(np.float64, st.integers(1, 200), elements=st.floats(allow_nan=False)),
    st.lists(st.integers(0, 255), min_size=1, max_size=8),
)
def test_every_number_comes_back_as_it_was(values, bits):
    quality = np.resize(np.array(bits, np.uint8), values.size)
    times_s = np.sort(np.abs(values[np.isfinite(values)]))
    times_s = np.resize(times_s, values.size) if times_s.size else np.zeros(values.size)
    channel = ChannelData("cell_voltage", "cell_voltage", "V", times_s, values, quality)
    text = b"".join(reading_lines(channel)).decode()
    assert text.endswith("\r\n")
    fields = [line.split(",") for line in text.removesuffix("\r\n").split("\r\n")]
    assert [float(field[0]) for field in fields] == times_s.tolist()
    assert [float(field[1]) for field in fields] == values.tolist()
    assert [int(field[2]) for field in fields] == quality.tolist()
    with_comma = b"".join(reading_lines(channel, decimal_comma=True)).decode()
    assert with_comma.replace(",", ".").replace(";", ",") == text


@pytest.mark.parametrize("label", LABELS)
def test_labels_are_never_formulas_nor_misleading(tmp_path, label):
    run = lesson(moments=(new_moment(5, "note", label),), bench_toml="")
    export_csv(run, tmp_path / "out.csv", FINDINGS)
    (row,) = rows(tmp_path / "out.moments.csv")
    assert not row["label"].lstrip(" ").startswith(("=", "+", "-", "@", "＝"))
    assert is_harmless(row["label"])
    assert unguard_formula(row["label"]) == clean_label(label)


def test_a_long_label_of_foreign_origin_is_whole_in_the_table(tmp_path):
    long = "3 drops, " * 10_000
    export_csv(lesson(moments=(replace(new_moment(5, "note"), label=long),)), tmp_path / "out.csv", FINDINGS)
    (row,) = rows(tmp_path / "out.moments.csv")
    assert row["label"] == long.strip()


@given(st.text())
def test_a_guarded_text_can_be_unguarded(text):
    assert unguard_formula(guard_formula(text)) == clean_text(text)


@pytest.mark.parametrize("name", FILE_NAMES)
def test_awkward_file_names_are_no_trouble(tmp_path, name):
    out = (tmp_path / name).with_suffix(".csv")
    written = export_csv(lesson(path=tmp_path / name), out, FINDINGS)
    assert all(path.exists() for path in written)
    package = json.loads(written[-1].read_text("utf-8"))
    assert package["sources"] == [{"title": clean_text(name)}]


def test_the_package_describes_every_table(recording, tmp_path):
    written = export_csv(read_recording(recording), tmp_path / "out.csv", FINDINGS)
    package = json.loads((tmp_path / "out.datapackage.json").read_text("utf-8"))
    assert {r["path"] for r in package["resources"]} == {p.name for p in written[:-1]}
    for resource in package["resources"]:
        data = (tmp_path / resource["path"]).read_bytes()
        assert resource["hash"] == "sha256:" + hashlib.sha256(data).hexdigest()
        assert resource["bytes"] == len(data)
        if resource["profile"] == "tabular-data-resource":
            header = data.split(b"\r\n")[0].decode().split(",")
            assert [f["name"] for f in resource["schema"]["fields"]] == header


@pytest.mark.parametrize("decimal_comma", [False, True])
def test_a_validator_finds_the_package_valid(tmp_path, decimal_comma):
    frictionless = pytest.importorskip("frictionless")
    quality = np.zeros(3600, np.uint8)
    moments = tuple(new_moment(5 + i, "note", label) for i, label in enumerate(LABELS))
    run = lesson(moments=moments, bench_toml='title = "x"\n')
    run.channels[0].values[:2] = [np.inf, -np.inf]
    run.channels[0].quality[:2] = 1
    assert quality.size == run.channels[0].times_s.size
    export_csv(run, tmp_path / "grün 1.csv", FINDINGS, decimal_comma=decimal_comma)
    report = frictionless.validate(str(tmp_path / "grün 1.datapackage.json"))
    assert report.valid, report.flatten(["title", "message"])
    assert report.stats["tasks"] >= 4
    (tmp_path / "grün 1.gaps.csv").write_bytes(b"begin_s,end_s,channel,reason\r\nx,y,z,\r\n")
    assert not frictionless.validate(str(tmp_path / "grün 1.datapackage.json")).valid


def test_with_decimal_comma_a_spreadsheet_of_that_country_reads_it(tmp_path):
    export_csv(lesson(), tmp_path / "out.csv", FINDINGS, decimal_comma=True)
    data = (tmp_path / "out.csv").read_bytes()
    assert data.startswith("\ufefftime_s;cell_voltage_V;quality\r\n0,0;26,97;0\r\n".encode())
    assert b"." not in data
    table = rows(tmp_path / "out.csv", ";")
    values = np.array([float(row["cell_voltage_V"].replace(",", ".")) for row in table])
    np.testing.assert_array_equal(values, lesson().channels[0].values)
    readings = read_readings(tmp_path / "out.csv")
    np.testing.assert_array_equal(readings.values, values)
    moments = read_moments(tmp_path / "out.moments.csv")
    assert [m.label for m in moments] == [m.label for m in lesson().moments]


def test_findings_are_a_table_in_which_what_is_missing_is_empty():
    found = {name: (value, text) for name, value, text in findings_rows(FINDINGS | {
        "growth": None, "efficiency": {"before": {"reversible": 0.5}},
        "voltage_saved": {"value_V": 0.25, "interval95_V": [0.2, 0.3],
                          "budget": [{"source": "drift", "type": "B", "standard_uncertainty_V": 0.001}]},
        "warnings": [{"code": "no_blank", "message": "Make one.", "at_s": None}],
    })}  # fmt: skip
    assert found["settled.before.voltage_V"] == (2.25, "")
    assert found["settled.before.is_settled"] == (None, "yes")
    assert found["voltage_saved.interval95_V.1"] == (0.3, "")
    assert found["voltage_saved.budget.drift"] == (0.001, "type B")
    assert found["efficiency.before.reversible"] == (0.5, "")
    assert found["growth"] == (None, "")
    assert found["phase.growth.end_s"] == (1200.0, "")
    assert found["warning.no_blank"] == (None, "Make one.")


def test_an_unknown_ending_is_refused(tmp_path):
    with pytest.raises(LoggerError, match=r"known: \.csv, \.xlsx, \.png"):
        export(lambda: pytest.fail("not to be read"), tmp_path / "x.doc")


def test_what_exists_is_kept_unless_asked(recording, tmp_path):
    for name in ("out.csv", "out.moments.csv", "out.datapackage.json"):
        (tmp_path / name).write_text("mine")
        with pytest.raises(OutputExists):
            export(lambda: read_recording(recording), tmp_path / "out.csv")
        assert (tmp_path / name).read_text() == "mine"
        if name != "out.csv":
            assert not (tmp_path / "out.csv").exists()
        (tmp_path / name).unlink()
    (tmp_path / "out.csv").write_text("mine")
    export(lambda: read_recording(recording), tmp_path / "out.csv", Choices(replace=True))
    assert (tmp_path / "out.csv").read_text() != "mine"


def test_a_folder_in_the_place_of_one_table_leaves_all_as_they_were(recording, tmp_path):
    """Tables of two recordings beside each other would pass for one."""
    out = tmp_path / "run.csv"
    out.write_text("what was there", "utf-8")
    (tmp_path / "run.moments.csv").mkdir()
    with pytest.raises(
        LoggerError, match=r"run\.moments\.csv is a folder and is not replaced; choose another"
    ):
        export_csv(read_recording(recording), out, replace=True)
    assert out.read_text("utf-8") == "what was there"
    assert sorted(path.name for path in tmp_path.iterdir() if path.suffix != ".h5") == [
        "run.csv", "run.moments.csv",
    ]  # fmt: skip


def test_a_folder_that_is_not_there_is_said(recording, tmp_path):
    with pytest.raises(LoggerError, match="make it first"):
        export(lambda: read_recording(recording), tmp_path / "no" / "out.csv")


class _Interrupting(Progress):
    """Raises at the n-th step, as Ctrl-C would, or cancels, as the window does."""

    def __init__(self, after, error):
        super().__init__()
        self._left, self._error = after, error

    def part(self, begin, end):
        return self

    def reach(self, share):
        self._left -= 1
        if self._left < 0:
            raise self._error
        super().reach(share)


def long_run():
    """A run of several blocks in every format."""
    times_s = np.arange(0, 40_000, 0.2)
    values = 2 + 0.01 * np.random.default_rng(0).standard_normal(times_s.size)
    channel = ChannelData(
        "cell_voltage", "cell_voltage", "V", times_s, values, np.zeros(times_s.size, np.uint8)
    )
    return lesson(channels=(channel,), duration_s=40_000.0)


@pytest.mark.parametrize("ending", ["csv", "xlsx", "svg", "html", "parquet"])
@pytest.mark.parametrize("error", [KeyboardInterrupt(), Cancelled("cancelled")], ids=["Ctrl-C", "cancel"])
def test_work_that_is_stopped_leaves_nothing(tmp_path, ending, error):
    if ending == "parquet":
        pytest.importorskip("pyarrow")
    steps = random.Random(ending).randint(0, 2) if ending in ("csv", "xlsx") else 0
    with pytest.raises(type(error)):
        export(long_run, tmp_path / f"out.{ending}", progress=_Interrupting(steps, error))
    assert list(tmp_path.iterdir()) == []


def test_progress_rises_to_the_end_and_a_cancel_from_elsewhere_stops_it(tmp_path):
    shares = []
    export(long_run, tmp_path / "out.csv", progress=Progress(shares.append))
    assert shares == sorted(shares)
    assert len(shares) > 3
    assert shares[-1] == pytest.approx(1, abs=0.4)
    progress = Progress()
    progress.part(0.2, 0.7).cancel()
    with pytest.raises(Cancelled):
        export(long_run, tmp_path / "two.csv", progress=progress)
    assert not (tmp_path / "two.csv").exists()


def test_a_channel_without_readings_is_an_empty_table(tmp_path):
    none = np.empty(0)
    channel = ChannelData("cell_voltage", "cell_voltage", "V", none, none, np.empty(0, np.uint8))
    export_csv(lesson(channels=(channel,)), tmp_path / "a.csv")
    assert (tmp_path / "a.csv").read_bytes() == b"time_s,cell_voltage_V,quality\r\n"
    export_csv(lesson(channels=()), tmp_path / "b.csv")
    assert not (tmp_path / "b.csv").exists()
    assert (tmp_path / "b.datapackage.json").exists()


@pytest.mark.parametrize("ending", ["csv", "parquet"])
@pytest.mark.parametrize(
    "name", ["../../out", "a/b", "moments", "=1+1,x", "", "<b>\x00", "cell_voltage", "Ä" * 300]
)
def test_channels_of_any_name_get_a_file_of_their_own_in_this_folder(tmp_path, name, ending):
    if ending == "parquet":
        pytest.importorskip("pyarrow")
    times_s = np.array([0.0, 1.0])
    channels = tuple(
        ChannelData(named, role, "V", times_s, times_s, np.zeros(2, np.uint8))
        for named, role in (("cell_voltage", "cell_voltage"), (name, "other"), (name, "other"))
    )
    folder = tmp_path / "inner"
    folder.mkdir()
    written = export(lambda: lesson(channels=channels), folder / f"a.{ending}")
    assert len(set(written)) == len(written)
    assert {path.parent for path in written} == {folder}
    assert sorted(written) == sorted(folder.iterdir())
    if ending == "csv":
        frictionless = pytest.importorskip("frictionless")
        report = frictionless.validate(str(folder / "a.datapackage.json"))
        assert report.valid, report.flatten(["title", "message"])
        header = written[1].read_text("utf-8").splitlines()[0].split(",")
        assert len(header) == 3
        assert not header[1].startswith("=")


def test_a_bench_text_that_was_damaged_is_exported_as_far_as_it_can_be_read(tmp_path):
    run = lesson(bench_toml='title = "x"\n# \udcff\ud800\n')
    export_csv(run, tmp_path / "a.csv", FINDINGS)
    assert (tmp_path / "a.bench.toml").read_bytes() == b'title = "x"\n# ??\n'


@pytest.mark.parametrize(
    ("name", "ending", "made"),
    [
        ("noend", ".csv", "noend.csv"),
        ("noend.", ".csv", "noend.csv"),
        ("noend. .", ".pdf", "noend.pdf"),
        (".csv", ".csv", "run.csv"),
        ("a.b", ".csv", "a.b.csv"),
        ("...", ".csv", "run.csv"),
    ],
)
def test_a_name_without_ending_gets_one_without_dots_in_between(tmp_path, name, ending, made):
    assert with_ending(tmp_path / name, ending) == tmp_path / made
