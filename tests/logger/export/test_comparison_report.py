"""The report of a class: numbers as the comparison says, groups and outliers by name, nothing runs."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from drivers.simulated.cell import LessonCell
from drivers.simulated.lesson import LESSONS
from logger.analysis.compared_run import compared_run
from logger.analysis.findings import findings
from logger.analysis.run_comparison import RunComparison, compare_runs
from logger.export.comparison_page import comparison_page
from logger.export.comparison_report import comparison_report_of, export_comparison
from logger.export.comparison_sheets import comparison_sheets
from logger.export.overlay_picture import (
    OverlayRun,
    alignment_of,
    colour_of,
    comparison_picture,
    origin_of,
    reduced,
)
from logger.reader import read_recording
from logger.recording import ChannelData, Recording
from tests.logger.export.hostile import LABELS, is_harmless
from tests.logger.export.page_reader import Page
from tests.logger.export.test_picture import extent, texts
from tests.logger.simulated_run import channel, readings, recording


def invented(seed: int, *, salt: bool = True, lift_V: float = 0.0, title: str = "") -> Recording:
    """A simulated lesson; `lift_V` raises what is read after the swap, so that less seems saved."""
    plan = LESSONS["demo"]
    if not salt:
        plan = type(plan)(
            plan.dry_s, plan.before_s, plan.growth_s, plan.out_s, plan.after_s, lambda seconds: 0.0 * seconds
        )
    cell = LessonCell(plan, seed)
    times_s, volts = readings(cell)
    volts = np.where(times_s > plan.dry_s + plan.before_s + plan.growth_s + plan.out_s, volts + lift_V, volts)
    tags = [(m.time_s, m.kind, m.label) for m in cell.moments if salt or m.kind != "salt_added"]
    made = recording(channel(times_s, volts), moments=tags)
    name = title or f"bench {seed}"
    return replace(made, uuid=f"{seed:032x}", title=name, path=Path(f"/home/some body/run {seed}.h5"))


@pytest.fixture(scope="module")
def class_of_seven() -> tuple[RunComparison, list[OverlayRun]]:
    runs = [invented(seed) for seed in (1, 2, 3, 4)]
    runs.append(invented(5, lift_V=0.1))
    runs += [invented(seed, salt=False) for seed in (11, 12)]
    found = [findings(run) for run in runs]
    comparison = compare_runs([compared_run(*pair) for pair in zip(runs, found, strict=True)])
    return comparison, [reduced(*pair) for pair in zip(runs, found, strict=True)]


def all_texts(comparison: RunComparison, runs: list[OverlayRun]) -> tuple[str, str]:
    report = comparison_report_of(comparison, origin_of(runs))
    sheets = comparison_sheets(report, comparison, runs)
    on_paper = " ".join(text for sheet in sheets for text in texts(sheet))
    return Page(comparison_page(report, comparison, runs)).text, on_paper


def test_table_groups_interval_and_outlier_are_those_of_the_comparison(class_of_seven: Any) -> None:
    comparison, runs = class_of_seven
    statistics = comparison.with_salt.statistics
    low_mV, high_mV = (1000 * end for end in statistics.interval95)
    for text in all_texts(comparison, runs):
        for one in comparison.runs:
            saved = one.saved(comparison.at_equal_current)
            plain = [f"{1000 * abs(saved.value_V):.{decimals}f} ± " for decimals in (0, 1, 2)]
            assert any(one in text for one in plain)
            assert one.title in text
        assert f"{low_mV:.1f} to {high_mV:.1f} mV" in text
        assert "Grubbs' test" in text
        assert "ISO 5725-2" in text
        assert "outlier" in text
        assert "Salt against blanks" in text
        assert "run 5.h5 lies off the others" in text
        assert "some body" not in text  # folders stay at home
        assert "blank" in text


def test_colours_follow_the_groups_and_numbers_tell_the_runs(class_of_seven: Any) -> None:
    comparison, runs = class_of_seven
    colours = [colour_of(one) for one in comparison.runs]
    assert colours[:4] == [colours[0]] * 4
    assert len({colours[0], colours[4], colours[5]}) == 3
    drawing = comparison_picture(runs, comparison, "Class")
    for number in range(1, 8):
        assert texts(drawing).count(str(number)) == 2


def test_curves_keep_every_extreme_and_lie_at_their_alignment(class_of_seven: Any) -> None:
    _, runs = class_of_seven
    run = invented(1)
    light = runs[0]
    assert light.recording.channels == ()
    volts = run.channels[0].values
    assert light.low_V.min() == volts.min()
    assert light.high_V.max() == volts.max()
    assert alignment_of(runs)[0] == "phase:before"
    assert alignment_of([replace(light, findings={})])[0] == "start"


def test_curves_of_reversed_leads_are_drawn_as_magnitudes_and_that_is_said(class_of_seven: Any) -> None:
    comparison, runs = class_of_seven
    run = invented(1)
    turned = replace(run, channels=(replace(run.channels[0], values=-run.channels[0].values),))
    found = {**runs[0].findings, "warnings": [{"code": "leads_reversed"}]}
    light = reduced(turned, found)
    assert light.low_V == pytest.approx(runs[0].low_V)
    assert light.high_V == pytest.approx(runs[0].high_V)
    said = "readings of reversed leads as magnitudes"
    assert said in " ".join(texts(comparison_picture([light, *runs[1:]], comparison, "Class")))
    assert said not in " ".join(texts(comparison_picture(runs, comparison, "Class")))


def test_everything_lies_on_its_page_and_many_runs_go_on_on_the_next() -> None:
    run = invented(1)
    found = findings(run)
    many = [replace(run, uuid=str(i), title="a long title " * 9, path=Path(f"{i}.h5")) for i in range(60)]
    comparison = compare_runs([compared_run(one, found) for one in many])
    light = [replace(reduced(run, found), recording=replace(one, channels=())) for one in many]
    sheets = comparison_sheets(comparison_report_of(comparison), comparison, light)
    assert len(sheets) >= 3
    for sheet in sheets:
        for shape in sheet.shapes:
            left, right, top, bottom = extent(shape)
            assert left >= 0, shape
            assert right <= 202, shape
            assert top >= 0, shape
            assert bottom <= 290, shape
    names = [text for sheet in sheets for text in texts(sheet)]
    assert all(names.count(str(number)) >= 3 for number in range(1, 61))
    with_rows = [texts(sheet) for sheet in sheets if "with salt" in texts(sheet)]
    assert len(with_rows) >= 2
    assert all("note" in row for row in with_rows)  # each page has the head of the table


def test_that_a_voltage_had_not_settled_stands_there_in_full() -> None:
    early = read_recording(Path(__file__).parents[3] / "recordings" / "invented" / "salt-too-early.h5")
    runs = [invented(1, title="a long title " * 9), early]
    found = [findings(run) for run in runs]
    comparison = compare_runs([compared_run(*pair) for pair in zip(runs, found, strict=True)])
    light = [reduced(*pair) for pair in zip(runs, found, strict=True)]
    for text in all_texts(comparison, light):
        assert ", not settled" in text
        assert "not in the statistics" in text


def test_a_run_without_readings_is_shown_as_not_known() -> None:
    runs = [invented(1), replace(invented(2), channels=(), uuid="x")]
    found = [findings(run) for run in runs]
    comparison = compare_runs([compared_run(*pair) for pair in zip(runs, found, strict=True)])
    light = [reduced(*pair) for pair in zip(runs, found, strict=True)]
    for text in all_texts(comparison, light):
        assert "not known" in text
        assert "not in the statistics" in text
    assert comparison_picture(light, comparison, "Two").height_mm > 100


def test_invented_data_are_called_so() -> None:
    run = invented(1)
    one = run.channels[0]
    simulated = ChannelData(
        one.name, one.role, "V", one.times_s, one.values, one.quality, {"address": "cell:demo"}
    )
    real, made_up = reduced(run, {}), reduced(replace(run, channels=(simulated,)), {})
    assert origin_of([real]) == ""
    assert origin_of([made_up, made_up]) == "Simulated cell: invented data"
    assert origin_of([real, made_up]) == "Simulated cell: invented data (runs 2)"


@pytest.mark.parametrize("label", LABELS)
def test_hostile_titles_and_names_are_text(class_of_seven: Any, label: str, tmp_path: Path) -> None:
    comparison, runs = class_of_seven
    name = label.replace("/", "_").replace("\x00", "")[:80]
    named = [replace(one, title=label, file=f"/a/{i}{name}.h5") for i, one in enumerate(comparison.runs)]
    hostile = replace(comparison, runs=tuple(named))
    page = Page(comparison_page(comparison_report_of(hostile), hostile, runs))
    page.assert_inert()
    assert is_harmless(page.text)
    export_comparison(hostile, runs, tmp_path / "a.svg")
    ET.parse(tmp_path / "a.svg")
