"""The CSV export: every digit, every moment, nothing that a spreadsheet would run."""

from __future__ import annotations

import csv
import hashlib
import json

import numpy as np
import pytest

from logger.archive import finish
from logger.errors import LoggerError, OutputExists
from logger.export.formats import export
from logger.export.table import export_csv, guard_formula, unguard_formula
from logger.import_csv import import_recording, read_moments, read_readings
from logger.moment_edits import add
from logger.reader import read_recording
from tests.logger.fakes import block
from tests.logger.test_archive import journal


@pytest.fixture
def recording(tmp_path):
    path = tmp_path / "run.h5"
    awkward = block(0, 100)
    awkward.values[:3] = [np.inf, -np.inf, 1 / 3]
    awkward.quality[:2] = 1
    return finish(journal(path, [awkward]))


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


@pytest.mark.parametrize("label", ["=1+1", "+cmd", "-2", "@SUM(A1)", 'say "hi", now', "=HYPERLINK(1)", ""])
def test_labels_are_never_formulas(recording, tmp_path, label):
    add(recording, 0.5, "note", label)
    export_csv(read_recording(recording), tmp_path / "out.csv")
    with (tmp_path / "out.moments.csv").open(newline="") as file:
        row = list(csv.DictReader(file))[-1]
    assert not row["label"].startswith(("=", "+", "-", "@"))
    assert unguard_formula(row["label"]) == label
    assert guard_formula(label).lstrip("'") == label


def test_the_package_describes_every_table(recording, tmp_path):
    written = export_csv(read_recording(recording), tmp_path / "out.csv")
    package = json.loads((tmp_path / "out.datapackage.json").read_text("utf-8"))
    assert {r["path"] for r in package["resources"]} == {p.name for p in written[:-1]}
    for resource in package["resources"]:
        data = (tmp_path / resource["path"]).read_bytes()
        assert resource["hash"] == "sha256:" + hashlib.sha256(data).hexdigest()
        assert resource["bytes"] == len(data)
        header = data.split(b"\r\n")[0].decode().split(",")
        assert [f["name"] for f in resource["schema"]["fields"]] == header


def test_an_unknown_ending_is_refused(tmp_path):
    with pytest.raises(LoggerError, match=r"known: \.csv, \.png"):
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
    export(lambda: read_recording(recording), tmp_path / "out.csv", replace=True)
    assert (tmp_path / "out.csv").read_text() != "mine"


def test_a_folder_that_is_not_there_is_said(recording, tmp_path):
    with pytest.raises(LoggerError, match="make it first"):
        export(lambda: read_recording(recording), tmp_path / "no" / "out.csv")
