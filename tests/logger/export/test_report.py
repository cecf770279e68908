"""The report says what the findings say, fits its page, and whatever a label says nothing runs."""

from __future__ import annotations

import hashlib
import json
import re
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from logger.analysis.findings import findings
from logger.analysis.findings_text import findings_text
from logger.cautions import IN_SHORT
from logger.export.formats import export
from logger.export.letter_widths import text_width_mm, wrapped
from logger.export.page import page
from logger.export.report import export_report
from logger.export.report_model import report_of
from logger.export.report_page import report_page
from logger.export.report_sheet import PAGE_HEIGHT_MM, PAGE_WIDTH_MM, report_sheets
from logger.moments import clean_label, new_moment
from logger.recording import Gap
from tests.logger.export.hostile import FILE_NAMES, LABELS, is_harmless
from tests.logger.export.page_reader import Page
from tests.logger.export.test_picture import FINDINGS, extent, lesson, texts
from tests.logger.simulated_run import lesson as simulated_lesson


@pytest.fixture(scope="module")
def run():
    recording, _ = simulated_lesson(seed=3)
    return recording, findings(recording)


def page_of(recording: Any, found: dict[str, Any]) -> Page:
    return Page(report_page(report_of(recording, found), recording, found))


def sheet_texts(recording: Any, found: dict[str, Any]) -> str:
    """The texts of the first page."""
    return " ".join(texts(report_sheets(report_of(recording, found), recording, found)[0]))


def amounts(text: str, unit: str) -> list[float]:
    """The numbers before ± in a unit; how many decimals they have is their uncertainty's matter."""
    return [float(one) for one in re.findall(rf"([\d.]+) ± [\d.]+ {unit}\b", text)]


def assert_inside(recording: Any, found: dict[str, Any]) -> None:
    for drawing in report_sheets(report_of(recording, found), recording, found):
        assert (drawing.width_mm, drawing.height_mm) == (210, 297)  # ISO 216
        for shape in drawing.shapes:
            left, right, top, bottom = extent(shape)
            assert left >= 0, shape
            assert right <= PAGE_WIDTH_MM - 10, shape
            assert top >= 0, shape
            assert bottom <= PAGE_HEIGHT_MM - 8, shape


def test_page_and_sheet_say_what_was_found(run):
    recording, found = run
    saved_mV = 1000 * found["voltage_saved"]["value_V"]
    both = page_of(recording, found).text, sheet_texts(recording, found)
    for text in both:
        assert any(abs(one - saved_mV) <= 0.5 for one in amounts(text, "mV"))
        for name in ("before", "after"):
            level_V = found["settled"][name]["voltage_V"]
            assert any(abs(one - level_V) <= 0.005 for one in amounts(text, "V"))
            assert f"{100 * found['efficiency'][name]['higher_heating']:.1f}" in text
        current_mA = 1000 * found["current"]["before_A"]
        assert any(abs(one - current_mA) <= 0.05 for one in amounts(text, "mA"))
        for part in (
            "voltage saved, 95 % interval", "Results", "Set-up", "Data quality", "To know", "Our conclusions",
            "Names", "Class", "Place", "What makes the voltage saved uncertain", "scatter before (A)",
            "27 V, 12000 Ω in series", "Gaps none", "about 2.5 per second", "Salt added", "14 May 2024",
            "Galvanote", "run " + recording.uuid,
        ):  # fmt: skip
            assert part in text, part
    assert IN_SHORT in both[0]
    said = [one["message"].replace("\u00a0", " ") for one in found["warnings"] if one["code"][:3] != "no_"]
    assert said
    assert all(message in both[0] for message in said)


def test_the_page_runs_nothing_and_fetches_nothing_and_is_described(run):
    read = page_of(*run)
    read.assert_inert()
    svg = dict(next(attributes for name, attributes in read.elements if name == "svg"))
    assert svg["role"] == "img"
    identifiers = [attributes.get("id") for _, attributes in read.elements if attributes.get("id")]
    assert set((svg["aria-labelledby"] or "").split()) <= set(identifiers)
    assert len(identifiers) == len(set(identifiers))
    assert ("html", {"lang": "en"}) in read.elements
    assert {
        "main",
        "h1",
        "h2",
        "figure",
        "figcaption",
        "table",
        "caption",
        "header",
        "footer",
    } <= read.names()
    assert all(attributes.get("scope") for name, attributes in read.elements if name == "th")


@pytest.mark.parametrize("label", LABELS)
def test_a_hostile_label_is_shown_as_text_or_not_at_all(label):
    recording = lesson(
        title=label, moments=(new_moment(300, "note", label),),
        bench_toml=f"[cell]\nanode = {json.dumps(label)}\n",
        gaps=(Gap(600.0, 601.0, "cell_voltage", label),), time_zone=label, uuid=label, start_time=label,
    )  # fmt: skip
    found = FINDINGS | {"warnings": [{"code": "x", "message": label, "at_s": None}]}
    read = page_of(recording, found)
    read.assert_inert()
    assert is_harmless(read.text)
    cleaned = " ".join(clean_label(label).split())
    assert cleaned in read.text
    assert_inside(recording, found)
    assert is_harmless(sheet_texts(recording, found))


def test_a_label_that_had_to_be_cut_says_so_and_where_it_is_whole(run):
    recording, found = run
    labels = ("x" * 501, "y" * 500)
    recording = replace(
        recording, moments=tuple(replace(new_moment(5, "note"), label=label) for label in labels)
    )
    remark = "1 shortened end in “…”; the tables (CSV, XLSX) have them in full"
    sheets = report_sheets(report_of(recording, found), recording, found)
    on_paper = "".join("".join(texts(sheet)) for sheet in sheets)
    for text in (page_of(recording, found).text, on_paper):
        solid = "".join(text.split())
        assert "x" * 499 + "…" in solid
        assert "y" * 500 in solid
        assert "".join(remark.split()) in solid
    recording = replace(recording, moments=recording.moments[1:])
    assert "shortened" not in page_of(recording, found).text


def test_everything_at_once_fits_and_what_the_first_page_drops_follows_in_full(run):
    _, found = run
    long = "a very long word of caution, " * 12
    crowded = found | {"warnings": [{"code": f"w{i}", "message": long, "at_s": 60.0 * i} for i in range(20)]}
    crowded["tafel"] = {"slope_V_per_decade": 0.18, "standard_uncertainty": 0.01}
    crowded["growth"] = {"model": "exponential", "time_constant_s": 321.0, "settling_voltage_V": 2.0}
    moments = tuple(new_moment(300 + i, "note", long) for i in range(60))
    bench = "".join(
        f"{table}\n" + "".join(f'{key} = "{long}"\n' for key in keys)
        for table, keys in (("[cell]", ("anode", "cathode", "electrolyte", "metal_salt")),)
    )
    recording = lesson(title=long, moments=moments, bench_toml=bench, path=lesson().path.with_name("x" * 200))
    assert_inside(recording, crowded)
    text = sheet_texts(recording, crowded)
    assert re.search(r"and \d+ more on a further page", text)
    assert "Our conclusions" in text
    _, *more = report_sheets(report_of(recording, crowded), recording, crowded)
    rest = " ".join(" ".join(texts(page)) for page in more)
    words = re.sub(r"\s+", " ", rest)
    assert words.count(re.sub(r"\s+", " ", long).strip()) >= 60 + 20  # every moment, every note
    for number in range(1, 61):
        assert re.search(rf"\b{number} +\d+:\d\d", words), number
    assert all("page " + str(number) in " ".join(texts(page)) for number, page in enumerate(more, 2))


def test_an_ordinary_run_has_one_page(run):
    recording, found = run
    assert len(report_sheets(report_of(recording, found), recording, found)) == 1


def test_touching_electrodes_and_a_stretch_chosen_by_hand_are_named(run):
    recording, found = run
    touched = found | {"states": [{"state": "touching", "begin_s": 400.0, "end_s": 420.0}]}
    touched["settled"] = {
        name: level and {**level, "chosen_by_hand": True} for name, level in found["settled"].items()
    }
    for text in (page_of(recording, touched).text, sheet_texts(recording, touched)):
        text = re.sub(r"\s+", " ", text.replace("\u00a0", " "))
        assert "Electrodes touched once, 20.0 s 6:40 to 7:00" in text
        assert "chosen by hand" in text
        assert "V before, chosen by hand" in text  # in the chart
    assert "Electrodes touched" not in sheet_texts(recording, found)
    printed = findings_text(touched)
    assert "Electrodes touched, or leads were shorted: once, 20.0\u00a0s (6:40 to 7:00)" in printed
    assert "chosen by hand" in printed
    assert "degC" not in printed


def test_without_findings_nothing_is_claimed():
    recording = lesson(channels=(), moments=(), gaps=())
    for text in (page_of(recording, {}).text, sheet_texts(recording, {})):
        assert "not determined" in text
        assert "not known" in text
        assert "mV" not in text.replace("mV/min", "")
    assert_inside(recording, {})


def test_what_had_not_settled_is_called_provisional():
    after = FINDINGS["settled"]["after"] | {"is_settled": False}
    found = FINDINGS | {"settled": FINDINGS["settled"] | {"after": after}}
    assert "provisional" in page_of(lesson(), found).text


def test_data_quality_counts_gaps_and_marks():
    recording = lesson(
        gaps=(Gap(600.0, 600.5, "cell_voltage", "unplugged"), Gap(1.0, 9.0, "other", "asleep"))
    )
    recording.channels[0].quality[:3] = [1, 8, 9]
    recording.channels[0].values[[0, 2]] = np.inf
    text = page_of(recording, FINDINGS).text
    assert "Gaps 1 0.5 s missing: unplugged" in text
    assert "Marked readings 3 of 3600 overload 2, low battery 2" in text
    assert "still recording" in page_of(lesson(is_running=True), FINDINGS).text


def test_the_checksum_is_that_of_the_file(tmp_path):
    path = tmp_path / "run.h5"
    path.write_bytes(b"some bytes")
    expected = hashlib.sha256(b"some bytes").hexdigest()
    assert f"SHA-256 {expected}" in page_of(lesson(path=path), FINDINGS).text
    assert "no checksum" in page_of(lesson(path=tmp_path / "none.h5"), FINDINGS).text


@pytest.mark.parametrize("name", FILE_NAMES)
def test_awkward_file_names_are_no_trouble(tmp_path, name):
    out = (tmp_path / name).with_suffix(".html")
    assert export(lambda: lesson(path=tmp_path / name), out) == [out]
    assert clean_label(name) in Page(out.read_text("utf-8")).text


def test_the_report_takes_the_findings_of_the_recording(tmp_path, run):
    recording, found = run
    export_report(recording, tmp_path / "a.html")
    expected = report_page(report_of(recording, found), recording, found)
    assert (tmp_path / "a.html").read_text("utf-8") == expected


def test_the_page_needs_no_other_file():
    document = page("Title <b>", "<p>body</p>")
    assert "http" not in document.replace("http-equiv", "")
    assert "<title>Title &lt;b&gt;</title>" in document


@pytest.mark.parametrize("text", ["", "one", "one two three", "x" * 300, "a  b", "漢字" * 40])
def test_lines_are_no_wider_than_their_column(text):
    lines = wrapped(text, 30, 8)
    assert all(text_width_mm(line, 8) <= 30 for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


def test_what_a_current_needs_is_what_is_missing(run):
    recording, found = run
    without = {**found, "current": {}}
    assert "needs supply and resistor in the bench file" in page_of(recording, without).text
    unknown = {**without, "settled": {"before": None, "after": None}}
    assert "needs a voltage before or after" in page_of(recording, unknown).text
