"""The workbook, read back by another library: numbers are numbers, texts are texts, nothing is a formula."""

from __future__ import annotations

import contextlib
import gc
import sys
import zipfile
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from logger.export import workbook
from logger.export.workbook import export_xlsx
from logger.moments import clean_label, new_moment
from logger.recording import ChannelData
from tests.logger.export.hostile import FILE_NAMES, LABELS, is_harmless
from tests.logger.export.test_picture import FINDINGS, lesson

openpyxl = pytest.importorskip("openpyxl")


def written(tmp_path, recording, findings=FINDINGS):
    out = tmp_path / "out.xlsx"
    export_xlsx(recording, out, findings)
    assert list(tmp_path.iterdir()) == [out]
    return openpyxl.load_workbook(out)


def column(sheet, number):
    return [row[0].value for row in sheet.iter_rows(min_row=2, min_col=number, max_col=number)]


def test_values_are_those_of_the_recording(tmp_path):
    run = lesson()
    run.channels[0].values[:2] = [np.inf, -np.inf]
    book = written(tmp_path, run)
    assert book.sheetnames == ["Summary", "Curve", "Findings", "Moments", "Gaps", "cell_voltage"]
    sheet = book["cell_voltage"]
    assert [cell.value for cell in sheet[1]] == ["time_s", "cell_voltage_V", "quality"]
    # The library writes 16 significant digits: half a unit of the 16th.
    np.testing.assert_allclose(column(sheet, 1), run.channels[0].times_s, rtol=5e-16, atol=0)
    values = column(sheet, 2)
    assert values[:2] == ["inf", "-inf"]
    np.testing.assert_allclose(values[2:], run.channels[0].values[2:], rtol=5e-16, atol=0)
    assert column(sheet, 3) == run.channels[0].quality.tolist()
    assert [row[0] for row in book["Moments"].iter_rows(min_row=2, values_only=True)] == [45, 285, 286]
    findings = dict(row[:2] for row in book["Findings"].iter_rows(values_only=True))
    assert findings["settled.before.voltage_V"] == 2.25
    assert findings["voltage_saved.value_V"] == 0.25
    summary = [row[:3] for row in book["Summary"].iter_rows(values_only=True)]
    assert ("Voltage saved", "250 ± 4\u00a0mV", "voltage saved, 95 % interval") in summary
    assert any(row[0] == "Voltage before" and row[1].startswith("2.250") for row in summary)


def test_no_cell_is_a_formula_whatever_the_labels_say(tmp_path):
    moments = tuple(new_moment(5 + i, "note", label) for i, label in enumerate(LABELS))
    book = written(tmp_path, lesson(moments=moments, title=LABELS[1]))
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                assert cell.data_type in ("n", "s"), (sheet.title, cell.coordinate, cell.value)
                assert cell.hyperlink is None
                assert not isinstance(cell.value, str) or is_harmless(cell.value)
    assert [value or "" for value in column(book["Moments"], 4)] == [clean_label(label) for label in LABELS]
    with zipfile.ZipFile(tmp_path / "out.xlsx") as file:
        for name in file.namelist():
            if "worksheets/" in name:
                assert b"<f>" not in file.read(name)


def test_a_long_label_of_foreign_origin_is_whole_in_its_cell_as_far_as_excel_takes_it(tmp_path):
    # Microsoft, "Excel specifications and limits": 32,767 characters in a cell.
    labels = ["y" * 700, "x" * 32_767, "z" * 40_000]
    moments = tuple(replace(new_moment(5, "note"), label=label) for label in labels)
    book = written(tmp_path, lesson(moments=moments))
    assert column(book["Moments"], 4) == [*labels[:2], "z" * 32_766 + "…"]


def test_a_native_chart_shows_the_curve(tmp_path):
    book = written(tmp_path, lesson())
    (chart,) = book["Summary"]._charts
    assert "Curve" in chart.series[0].yVal.numRef.f
    assert chart.y_axis.scaling.min == pytest.approx(1.95, abs=0.06)
    values = column(book["Curve"], 2)
    assert len(values) == 3600
    assert max(values) == 26.97


def test_of_many_readings_the_chart_takes_the_extremes_of_each_stretch(tmp_path):
    times_s = np.arange(0, 2000, 0.1)
    values = np.full(times_s.size, 2.0)
    values[[5003, 12_345]] = [2.5, 1.5]
    channel = ChannelData(
        "cell_voltage", "cell_voltage", "V", times_s, values, np.zeros(times_s.size, np.uint8)
    )
    sheet = written(tmp_path, lesson(channels=(channel,)))["Curve"]
    shown = column(sheet, 2)
    assert len(shown) == 2 * workbook.CURVE_COLUMNS
    assert (min(shown), max(shown)) == (1.5, 2.5)
    assert "For the chart only" in sheet["C1"].value


def test_readings_go_on_in_the_next_sheet_at_the_limit(tmp_path, monkeypatch):
    # 1 048 576 rows: Microsoft, "Excel specifications and limits".
    assert workbook.ROWS_PER_SHEET == 1_048_575
    monkeypatch.setattr(workbook, "ROWS_PER_SHEET", 1000)
    run = lesson()
    book = written(tmp_path, run)
    names = [name for name in book.sheetnames if name.startswith("cell_voltage")]
    assert names == ["cell_voltage", "cell_voltage 2", "cell_voltage 3", "cell_voltage 4"]
    times_s = [time_s for name in names for time_s in column(book[name], 1)]
    np.testing.assert_allclose(times_s, run.channels[0].times_s, rtol=5e-16, atol=0)
    assert all(book[name].max_row <= 1001 for name in names)


@pytest.mark.parametrize("name", ["a[b]*?/\\:c", "x" * 60, "", "Findings", "'quoted'"])
def test_channels_of_any_name_get_a_sheet_of_their_own(tmp_path, name):
    times_s = np.array([0.0, 1.0])
    channels = tuple(
        ChannelData(name, role, "V", times_s, times_s, np.zeros(2, np.uint8))
        for role in ("cell_voltage", "other")
    )
    book = written(tmp_path, lesson(channels=channels))
    assert len(set(book.sheetnames)) == 7


@pytest.mark.parametrize("name", FILE_NAMES)
def test_awkward_file_names_are_no_trouble(tmp_path, name):
    export_xlsx(lesson(path=tmp_path / name), (tmp_path / name).with_suffix(".xlsx"), {})
    openpyxl.load_workbook((tmp_path / name).with_suffix(".xlsx"))


@pytest.mark.parametrize("changes", [{"channels": ()}, {"moments": (), "gaps": ()}])
def test_little_makes_a_workbook_too(tmp_path, changes):
    assert written(tmp_path, lesson(**changes), {}).sheetnames[0] == "Summary"


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a device that is always full is Linux's")
def test_a_full_disk_is_told_once_and_without_a_traceback(tmp_path, monkeypatch):
    # full(4): every write to /dev/full fails with ENOSPC.
    late = []
    monkeypatch.setattr(sys, "unraisablehook", late.append)
    full = contextlib.nullcontext(Path("/dev/full"))
    monkeypatch.setattr(workbook, "written_whole", lambda out, replace: full)
    with pytest.raises(OSError, match="No space left"):
        export_xlsx(lesson(), tmp_path / "out.xlsx", FINDINGS)
    gc.collect()
    assert late == []
