"""The picture for paper says what the findings say, and shows everything that was measured."""

from __future__ import annotations

import itertools
import signal
from collections import Counter
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from logger.errors import LoggerError, OutputExists
from logger.export import painters
from logger.export.drawing import Bars, Disc, Drawing, Line, Polygon, Polyline, Rect, Text
from logger.export.label_room import Box, box_of
from logger.export.letter_widths import text_width_mm
from logger.export.picture import SIZES, PaperSize, export_picture, picture
from logger.export.plot import INK, MOMENT, QUIET, SETTLED, Frame, Plot, numbered, spread
from logger.moments import new_moment
from logger.recording import ChannelData, Gap, Recording

FINDINGS: dict[str, Any] = {
    "phases": [
        {"phase": "dry", "begin_s": 0.0, "end_s": 45.0},
        {"phase": "before", "begin_s": 45.0, "end_s": 285.0},
        {"phase": "growth", "begin_s": 285.0, "end_s": 1200.0},
    ],
    "settled": {
        "before": {"voltage_V": 2.25, "window_begin_s": 190.0, "window_end_s": 284.0, "is_settled": True},
        "after": {"voltage_V": 2.0, "window_begin_s": 1000.0, "window_end_s": 1195.0, "is_settled": True},
    },
    "voltage_saved": {"value_V": 0.2500, "standard_uncertainty_V": 0.0020, "coverage_factor": 2.0},
    "warnings": [],
}


def lesson(**changes: Any) -> Recording:
    times_s = np.arange(0, 1200, 1 / 3)
    values = np.where(times_s < 45, 26.97, 2.25)
    values = np.where(times_s > 285, 2.0 + 0.25 * np.exp(-(times_s - 285) / 200), values)
    channel = ChannelData(
        "cell_voltage", "cell_voltage", "V", times_s, values, np.zeros(times_s.size, np.uint8),
        {"address": "cell:demo?speed=20"},
    )  # fmt: skip
    fields: dict[str, Any] = {
        "path": Path("strip four.h5"),
        "uuid": "0",
        "title": "Strip 4",
        "start_time": "2026-11-25T09:10:03.123+01:00",
        "end_time": None,
        "time_zone": "Europe/Berlin",
        "duration_s": 1200.0,
        "channels": (channel,),
        "moments": (
            new_moment(45, "buffer_in", "phosphate"),
            new_moment(285, "salt_added"),
            new_moment(286, "note"),
        ),
        "gaps": (Gap(600.0, 600.5, "cell_voltage", "unplugged"),),
    }
    return Recording(**(fields | changes))


def texts(drawing: Drawing) -> list[str]:
    return [shape.text.replace("\u00a0", " ") for shape in drawing.shapes if isinstance(shape, Text)]


def test_the_picture_says_title_time_file_origin_and_result() -> None:
    found = "\n".join(texts(picture(lesson(), FINDINGS)))
    for part in (
        "Strip 4", "25 Nov 2026, 09:10:03 (UTC+01:00)", "20:00 long", "strip four.h5",
        "Simulated cell: invented data", "250 ± 4 mV", "2.250 V before", "2.000 V after",
        "0:45  Buffer in: phosphate", "4:45  Salt added", "before", "growth", "Galvanote", "V", "10 min",
    ):  # fmt: skip
        assert part in found
    assert "provisional" not in found


def test_only_simulated_data_are_called_invented() -> None:
    real = lesson()
    channel = ChannelData(
        "cell_voltage", "cell_voltage", "V", real.channels[0].times_s, real.channels[0].values,
        real.channels[0].quality, {"address": "scpi:/dev/ttyUSB0"},
    )  # fmt: skip
    assert "Simulated" not in "\n".join(texts(picture(lesson(channels=(channel,)), FINDINGS)))


def test_an_open_circuit_is_clipped_with_a_mark_and_the_curve_keeps_its_room() -> None:
    drawing = picture(lesson(), FINDINGS)
    labels = texts(drawing)
    assert "2.25" in labels
    assert "25.00" not in labels
    marks = [s for s in drawing.shapes if isinstance(s, Polygon) and s.points_mm[2, 1] < s.points_mm[0, 1]]
    assert len(marks) == 1


def test_every_gap_is_marked_however_short() -> None:
    drawing = picture(lesson(), FINDINGS)
    marks = [s for s in drawing.shapes if isinstance(s, Rect) and s.fill == QUIET]
    assert len(marks) == 1
    assert marks[0].width_mm >= 0.3


def test_crowded_moments_keep_their_numbers_apart() -> None:
    moments = tuple(new_moment(300 + i, "note", f"drop {i}") for i in range(12))
    drawing = picture(lesson(moments=moments), FINDINGS)
    top = [s for s in drawing.shapes if isinstance(s, Disc) and s.y_mm < drawing.height_mm / 3]
    assert len(top) == 12
    assert min(np.diff([s.x_mm for s in top])) >= 3.5
    assert picture(lesson(), FINDINGS).height_mm < drawing.height_mm


def test_dense_readings_become_columns_and_few_become_lines() -> None:
    few = np.arange(0, 1200, 1.0)
    channel = ChannelData("cell_voltage", "cell_voltage", "V", few, 2 + few / 1e4, np.zeros(1200, np.uint8))
    lines = [s for s in picture(lesson(channels=(channel,)), FINDINGS).shapes if isinstance(s, Polyline)]
    assert [len(s.points_mm) for s in lines] == [601, 599]  # parted by the gap
    times_s = np.arange(0, 1200, 0.01)
    values = 2 + 0.001 * np.random.default_rng(0).standard_normal(times_s.size)
    dense = ChannelData(
        "cell_voltage", "cell_voltage", "V", times_s, values, np.zeros(times_s.size, np.uint8)
    )
    bars = [s for s in picture(lesson(channels=(dense,)), FINDINGS).shapes if isinstance(s, Bars)]
    assert len(bars) == 1
    assert len(bars[0].rows_mm) > 1700


@pytest.mark.parametrize("findings", [{}, {"settled": None, "voltage_saved": None, "phases": None}])
def test_without_findings_nothing_is_claimed(findings: dict[str, Any]) -> None:
    drawing = picture(lesson(), findings)
    assert "voltage saved: not determined" in texts(drawing)
    assert "could not be determined" in drawing.description


def test_a_level_that_has_not_settled_makes_the_saving_provisional() -> None:
    after = FINDINGS["settled"]["after"] | {"is_settled": False}
    findings = FINDINGS | {"settled": FINDINGS["settled"] | {"after": after}}
    assert any("provisional" in t for t in texts(picture(lesson(), findings)))


def test_green_says_settled_on_paper_too() -> None:
    """A level that had not settled, and what was saved from it, were in the green of settled ones."""

    def colours(found: dict[str, Any], size: PaperSize) -> dict[str, str]:
        shapes = picture(lesson(), found, size).shapes
        return {one.text.replace("\u00a0", " "): one.colour for one in shapes if isinstance(one, Text)}

    after = FINDINGS["settled"]["after"] | {"is_settled": False}
    provisional = FINDINGS | {"settled": FINDINGS["settled"] | {"after": after}}
    for size in SIZES.values():
        said = colours(provisional, size)
        assert said["2.250 V before"] == SETTLED
        assert said["2.000 V after, not settled"] == QUIET
        assert {colour for text, colour in said.items() if text.startswith("250 ± 4 mV")} == {INK}
        assert any("Dashed: not settled" in text for text in said)
        shapes = picture(lesson(), provisional, size).shapes
        dashed = [one for one in shapes if isinstance(one, Line) and one.width_mm == 0.7 and one.dash_mm]
        assert [one.colour for one in dashed] == [QUIET]
        said = colours(FINDINGS, size)
        assert said["2.000 V after"] == SETTLED
        assert {colour for text, colour in said.items() if text.startswith("250 ± 4 mV")} == {SETTLED}
        assert not any("Dashed" in text for text in said)


def test_a_recording_without_samples_still_makes_a_picture() -> None:
    drawing = picture(lesson(channels=(), moments=(), gaps=()), {})
    assert drawing.width_mm > 0


class _EntryPoint:
    def __init__(self, painter: Any) -> None:
        self._painter = painter

    def load(self) -> Any:
        return self._painter


def _with_painter(monkeypatch: pytest.MonkeyPatch, *given: Any) -> None:
    found = [_EntryPoint(p) for p in given]
    monkeypatch.setattr(painters, "entry_points", lambda **_: found)


def test_the_file_appears_whole_or_not_at_all(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def paint(drawing: Drawing, path: Path, dpi: int) -> None:
        path.write_bytes(b"half")
        raise OSError("no space left")

    out = tmp_path / "run.png"
    out.write_bytes(b"earlier")
    _with_painter(monkeypatch, paint)
    with pytest.raises(LoggerError, match="no space left"):
        export_picture(lesson(), FINDINGS, out, replace=True)
    assert out.read_bytes() == b"earlier"
    assert list(tmp_path.iterdir()) == [out]

    _with_painter(monkeypatch, lambda drawing, path, dpi: path.write_bytes(b"whole"))
    with pytest.raises(OutputExists):
        export_picture(lesson(), FINDINGS, out)
    assert out.read_bytes() == b"earlier"
    export_picture(lesson(), FINDINGS, out, replace=True)
    assert out.read_bytes() == b"whole"
    assert list(tmp_path.iterdir()) == [out]


@pytest.mark.parametrize("size", SIZES.values(), ids=lambda size: size.name)
def test_a_shortened_label_ends_in_an_ellipsis_and_the_foot_says_where_it_is_whole(size: Any) -> None:
    for label, is_cut in (("a word " * 40, True), ("short", False)):
        drawing = picture(lesson(moments=(new_moment(300, "note", label),)), FINDINGS, size)
        found = texts(drawing)
        assert any(text.startswith("5:00") and text.endswith("…") for text in found) == is_cut
        assert any("“…”: in full in the tables" in text for text in found) == is_cut


def test_without_a_painter_the_remedy_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    _with_painter(monkeypatch)
    with pytest.raises(LoggerError, match="install"):
        export_picture(lesson(), FINDINGS, tmp_path / "run.png")
    assert list(tmp_path.iterdir()) == []


def test_an_interrupt_waits_until_the_painter_is_loaded(monkeypatch: pytest.MonkeyPatch) -> None:
    """Interrupted in the midst of its import the binding of Qt ends the process with an abort."""
    loaded: list[str] = []

    class Loading(_EntryPoint):
        def load(self) -> Any:
            signal.raise_signal(signal.SIGINT)
            loaded.append("whole")
            return super().load()

    monkeypatch.setattr(painters, "entry_points", lambda **_: [Loading(lambda *_: None)])
    handler = signal.getsignal(signal.SIGINT)
    with pytest.raises(KeyboardInterrupt):
        painters.painter("png")
    assert loaded == ["whole"]
    assert signal.getsignal(signal.SIGINT) is handler


@pytest.mark.parametrize("count", [0, 1, 6, 90, 1000])
@pytest.mark.parametrize("size", SIZES.values(), ids=lambda size: size.name)
def test_nothing_leaves_the_paper_whatever_the_number_of_moments(size: Any, count: int) -> None:
    moments = tuple(new_moment(300 + 0.5 * i, "note", "a word " * 30) for i in range(count))
    drawing = picture(lesson(title="Strip " * 60, moments=moments), FINDINGS, size)
    for shape in drawing.shapes:
        left, right, top, bottom = extent(shape)
        assert left >= 0, shape
        assert right <= drawing.width_mm, shape
        assert top >= 0, shape
        assert bottom <= drawing.height_mm, shape
    if size.height_mm is None:
        assert drawing.height_mm < 300
    else:
        assert drawing.height_mm == size.height_mm
        assert any("more moments" in t for t in texts(drawing)) == (count > 30)


def extent(shape: Any) -> tuple[float, float, float, float]:
    """Left, right, top and bottom of a shape."""
    if isinstance(shape, Text):
        width = text_width_mm(shape.text, shape.size_pt, shape.weight)
        left = shape.x_mm - {"left": 0.0, "middle": width / 2, "right": width}[shape.anchor]
        return left, left + width, shape.y_mm - 0.25 * shape.size_pt, shape.y_mm
    if isinstance(shape, Disc):
        r = shape.radius_mm
        return shape.x_mm - r, shape.x_mm + r, shape.y_mm - r, shape.y_mm + r
    if isinstance(shape, Rect):
        return shape.x_mm, shape.x_mm + shape.width_mm, shape.y_mm, shape.y_mm + shape.height_mm
    if isinstance(shape, Line):
        (left, right), (top, bottom) = sorted((shape.x1_mm, shape.x2_mm)), sorted((shape.y1_mm, shape.y2_mm))
        return left, right, top, bottom
    corners = np.concatenate(shape.outlines_mm()) if isinstance(shape, Bars) else shape.points_mm
    (left, top), (right, bottom) = corners.min(axis=0), corners.max(axis=0)
    return left, right, top, bottom


def test_the_sizes_are_those_of_paper_and_slide() -> None:
    # ISO 216: A4 is 210 by 297 mm. A wide slide is 13.333 in by 7.5 in (from memory).
    found = {}
    for name in ("a4", "slide", "column"):
        drawing = picture(lesson(), FINDINGS, SIZES[name])
        found[name] = drawing.width_mm * drawing.magnification, drawing.height_mm * drawing.magnification
    assert found["a4"] == pytest.approx((297, 210))
    assert found["slide"] == pytest.approx((13.3333 * 25.4, 7.5 * 25.4), abs=0.01)
    assert found["column"][0] == 85


def test_moments_are_spread_over_the_room_there_is() -> None:
    assert spread([1.0, 5.0], 2, 0, 10) == [1.0, 5.0]
    assert spread([1.0, 1.5, 5.0], 2, 0, 10) == [1.0, 3.0, 5.0]
    assert spread([9.0, 9.5, 9.9], 2, 0, 10) == [6.0, 8.0, 10.0]
    assert spread([3.0] * 11, 2, 0, 10) == pytest.approx(list(range(11)))
    assert spread([], 2, 0, 10) == []


def test_columns_become_outlines_without_holes_between_neighbours() -> None:
    bars = Bars(np.array([[0.0, 5.0, 1.0], [0.1, 4.0, 2.0], [0.5, 1.0, 1.0]]), 0.1, "#000000")
    first, second = bars.outlines_mm()
    assert first.tolist() == [[0, 5], [0.1, 5], [0.1, 4], [0.2, 4], [0.2, 6], [0.1, 6], [0.1, 6], [0, 6]]
    assert second.tolist() == [[0.5, 1], [0.6, 1], [0.6, 2], [0.5, 2]]


def test_labels_of_a_blank_lie_neither_over_its_curve_nor_over_the_arrow() -> None:
    times_s = np.arange(0, 1200, 1 / 3)
    noise = np.random.default_rng(4).normal(0, 0.002, times_s.size)
    values = np.where(times_s < 45, 26.97, 2.25 + 0.08 * np.exp(-(times_s - 45) / 40) + noise)
    channel = ChannelData(
        "cell_voltage", "cell_voltage", "V", times_s, values, np.zeros(times_s.size, np.uint8), {}
    )
    level = {"voltage_V": 2.25, "is_settled": True, "chosen_by_hand": True}
    found = {
        "settled": {
            "before": {**level, "window_begin_s": 150.0, "window_end_s": 700.0},
            "after": {**level, "window_begin_s": 900.0, "window_end_s": 1195.0},
        },
        "voltage_saved": {"value_V": 0.0003, "standard_uncertainty_V": 0.001, "coverage_factor": 2.0},
    }
    for size in SIZES.values():
        drawing = picture(lesson(channels=(channel,), moments=()), found, size)
        bars = next(shape for shape in drawing.shapes if isinstance(shape, Bars))
        labels = [s for s in drawing.shapes if isinstance(s, Text) and s.text.endswith("chosen by hand")]
        assert len(labels) == 2
        for label in labels:
            width = text_width_mm(label.text, label.size_pt, label.weight)
            left = label.x_mm - (width if label.anchor == "right" else 0)
            below = bars.rows_mm[(bars.rows_mm[:, 0] > left) & (bars.rows_mm[:, 0] < left + width)]
            tall = 0.72 * label.size_pt * 25.4 / 72
            over = (below[:, 1] < label.y_mm) & (below[:, 1] + below[:, 2] > label.y_mm - tall)
            assert not over.any(), (size.name, label.text)
            arrow = next(s for s in drawing.shapes if isinstance(s, Polygon) and s.fill == INK)  # 0.3 ± 2 mV
            assert (
                left + width <= arrow.points_mm[:, 0].min() + 1e-6
                or label.y_mm - tall > arrow.points_mm[:, 1].max()
            )
    assert "chosen by hand" in drawing.description


def with_moments(count: int) -> Recording:
    return lesson(moments=tuple(new_moment(1200 * i / count, "note", f"label {i}") for i in range(count)))


@pytest.mark.parametrize("size", SIZES.values(), ids=list(SIZES))
def test_thousands_of_moments_leave_the_picture_a_picture(size: PaperSize) -> None:
    drawing = picture(with_moments(5000), FINDINGS, size)
    assert drawing.height_mm <= 300.0
    said = texts(drawing)
    (more,) = [text for text in said if "more moments" in text]
    shown = sum("Note: label" in text for text in said)
    assert more == f"and {5000 - shown} more moments, in the tables (CSV, XLSX)"
    assert shown >= 10


def test_every_number_lies_inside_its_mark() -> None:
    """Digits of the font are as wide as `letter_widths` measured them, whatever the mark is drawn as."""
    for number in (1, 9, 10, 99, 100, 999, 1000, 9999, 12345):
        ground, text = numbered(50.0, 50.0, number)
        assert isinstance(text, Text)
        half_mm = text_width_mm(text.text, text.size_pt, text.weight) / 2
        if isinstance(ground, Disc):
            assert number < 100
            assert half_mm < ground.radius_mm
        else:
            assert isinstance(ground, Rect)
            assert ground.x_mm + 0.3 < 50.0 - half_mm
            assert 50.0 + half_mm < ground.x_mm + ground.width_mm - 0.3


def test_wide_marks_do_not_lie_over_one_another() -> None:
    shapes = Plot(with_moments(5000), None, Frame(20.0, 240.0, 40.0, 120.0)).moments()
    marks = sorted(
        (one.x_mm, one.x_mm + one.width_mm) for one in shapes if isinstance(one, Rect)
    )  # fmt: skip
    assert len(marks) > 10
    assert all(before[1] <= after[0] + 1e-9 for before, after in itertools.pairwise(marks))


@pytest.mark.parametrize(("count", "lines"), [(30, 31), (200, 2)])
def test_where_lines_would_hide_the_curve_notes_have_none(count: int, lines: int) -> None:
    notes = [new_moment(300 + 5 * i, "note", f"bubble {i}") for i in range(count)]
    salt = new_moment(299, "salt_added", "2 drops")
    moved = [new_moment(401, "electrodes_out")] if count == 200 else []
    drawing = picture(lesson(moments=(salt, *notes[:20], *moved, *notes[20:])), FINDINGS)
    assert len({line.x1_mm for line in dotted(drawing)}) == lines


def dotted(drawing: Drawing) -> list[Line]:
    return [s for s in drawing.shapes if isinstance(s, Line) and s.colour == MOMENT and s.dash_mm]


def test_lines_of_moments_run_through_no_label() -> None:
    notes = [new_moment(20 * i, "note", f"bubble {i}") for i in range(1, 26)]
    drawing = picture(lesson(moments=notes), FINDINGS)
    labels = [box_of(s) for s in drawing.shapes if isinstance(s, Text) and s.colour == SETTLED]
    assert len(labels) == 5  # the headline, before, after, "saved" and how much
    for line in dotted(drawing):
        assert not any(box.meets(Box(line.x1_mm, line.x1_mm, line.y1_mm, line.y2_mm)) for box in labels)
    pieces = Counter(line.x1_mm for line in dotted(drawing))
    assert any(count > 1 for count in pieces.values())  # some would have met one
    lowest = {line.x1_mm: line.y2_mm for line in dotted(drawing)}
    assert set(lowest) == set(pieces)
    assert len(set(lowest.values())) == 1  # and go on below it


@pytest.mark.parametrize("sign", [1, -1], ids=["as usual", "leads reversed"])
def test_settled_levels_lie_on_the_curve_also_of_reversed_leads(sign: int) -> None:
    usual = lesson()
    channel = replace(usual.channels[0], values=sign * usual.channels[0].values)
    drawing = picture(replace(usual, channels=(channel,)), FINDINGS)
    before, after = (s.y1_mm for s in drawing.shapes if isinstance(s, Line) and s.width_mm == 0.7)
    assert sign * (after - before) > 20  # of a frame of 80 mm and more
    assert "2.250 V before" in texts(drawing)
