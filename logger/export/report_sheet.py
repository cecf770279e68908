"""The report of a run laid out on one sheet of A4: the chart takes the room that the words leave.

What does not fit there follows in full on further pages.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any

from logger.export.drawing import Drawing, Line, Rect, Shape, Text
from logger.export.letter_widths import shortened, text_width_mm, wrapped
from logger.export.picture import describe
from logger.export.plot import INK, MOMENT, QUIET, RULE, SETTLED, Frame, Plot, numbered
from logger.export.report_model import BudgetLine, Entry, Report
from logger.export.report_more import more_sheets
from logger.recording import Recording

__all__ = ["MARGIN_MM", "PAGE_HEIGHT_MM", "PAGE_WIDTH_MM", "Column", "report_sheets"]

PAGE_WIDTH_MM, PAGE_HEIGHT_MM = 210.0, 297.0
MARGIN_MM = 15.0
GUTTER_MM = 8.0
LEAST_CHART_MM = 44.0
MOST_CHART_MM = 78.0
CONCLUSION_MM = 7.5
MOST_BUDGET = 7
MOST_VALUE_LINES, MOST_NOTE_LINES = 3, 4
LIMITS = ((18, 42.0), (18, 24.0), (10, 16.0), (6, 8.0))
"""Most moments and millimetres of warnings, tried until a chart and a line to write on have room."""

ABOVE_CHART_MM, BELOW_CHART_MM = 11.0, 13.5
"""Discs of the moments lie above the curve, time axis and phases below."""
TINT = "#5a9b82"

Block = Callable[[float], "Column"]
"""Sets a part of the page from a given height on; its column ends where the next part may begin."""


class Column:
    """Sets texts from above to below between two edges; `y_mm` is where the next one begins.

    `cut` names the parts of the report that had to be shortened.
    """

    def __init__(self, left_mm: float, width_mm: float, y_mm: float) -> None:
        self.left_mm, self.width_mm, self.y_mm = left_mm, width_mm, y_mm
        self.shapes: list[Shape] = []
        self.cut: set[str] = set()

    def heading(self, text: str) -> None:
        """Set a small heading over a rule."""
        self.shapes += [
            Text(self.left_mm, self.y_mm + 3.2, text, 8.5, INK, weight="semibold"),
            Line(self.left_mm, self.y_mm + 4.9, self.left_mm + self.width_mm, self.y_mm + 4.9, RULE, 0.2),
        ]
        self.y_mm += 6.4

    def lines(
        self, text: str, size_pt: float, colour: str = INK, *, weight: str = "regular",
        indent_mm: float = 0.0, most: int = 99, part: str = "",
    ) -> None:  # fmt: skip
        """Set a text of a part of the report in as many lines as it needs, `most` at most."""
        room_mm = self.width_mm - indent_mm
        found = wrapped(text, room_mm, size_pt, weight)
        if len(found) > most:
            self.cut.add(part)
            rest = " ".join(found[most - 1 :])
            found = [*found[: most - 1], shortened(rest, room_mm, size_pt, weight)]
        x = self.left_mm + indent_mm
        for line in found:
            self.y_mm += 0.46 * size_pt
            self.shapes.append(Text(x, self.y_mm - 0.08 * size_pt, line, size_pt, colour, weight=weight))

    def entries(self, entries: Sequence[Entry], name_mm: float) -> None:
        """Set lines of a table: name, value, and the note behind the value or, where it is long, below it."""
        for entry in entries:
            value, *rest = wrapped(entry.value, self.width_mm - name_mm, 7.8, "medium") or [""]
            if len(rest) >= MOST_VALUE_LINES:
                self.cut.add("tables")
                rest = [
                    *rest[: MOST_VALUE_LINES - 2],
                    shortened(" ".join(rest[MOST_VALUE_LINES - 2 :]), self.width_mm - name_mm, 7.8, "medium"),
                ]
            y = self.y_mm + 3.3
            self.shapes += [
                Text(self.left_mm, y, shortened(entry.name, name_mm - 1, 7.8), 7.8, QUIET),
                Text(self.left_mm + name_mm, y, value, 7.8, INK, weight="medium"),
            ]
            self.y_mm += 4.2
            for value in rest:
                y += 3.4
                self.shapes.append(Text(self.left_mm + name_mm, y, value, 7.8, INK, weight="medium"))
                self.y_mm += 3.4
            if not entry.note:
                continue
            used_mm = name_mm + text_width_mm(value, 7.8, "medium") + 2.0
            if text_width_mm(entry.note, 6.8) <= self.width_mm - used_mm:
                self.shapes.append(Text(self.left_mm + used_mm, y, entry.note, 6.8, QUIET))
                continue
            lines = wrapped(entry.note, self.width_mm - name_mm, 6.8)
            if len(lines) > MOST_NOTE_LINES:
                self.cut.add("tables")
            for line in lines[:MOST_NOTE_LINES]:
                self.y_mm += 3.0
                self.shapes.append(Text(self.left_mm + name_mm, self.y_mm - 0.6, line, 6.8, QUIET))
            self.y_mm += 0.6

    def bars(self, lines: Sequence[BudgetLine]) -> None:
        """Set an uncertainty budget as bars with their amounts."""
        self.lines("Standard uncertainties: (A) from scatter, (B) from other knowledge", 6.8, QUIET)
        name_mm = 40.0
        room_mm = self.width_mm - name_mm - 14.0
        for one in lines:
            y = self.y_mm + 2.9
            name = shortened(one.name, name_mm - 1, 6.8)
            if name != one.name:
                self.cut.add("budget")
            self.shapes += [
                Text(self.left_mm, y, name, 6.8, QUIET),
                Rect(
                    self.left_mm + name_mm, y - 1.7, max(room_mm * one.share, 0.2), 1.8, TINT, radius_mm=0.3
                ),
                Text(self.left_mm + self.width_mm, y, one.amount, 6.8, INK, "right"),
            ]
            self.y_mm += 3.5


def report_sheets(report: Report, recording: Recording, findings: dict[str, Any]) -> list[Drawing]:
    """Return the report as one page of A4, and further ones with what did not fit there, in full."""
    width = PAGE_WIDTH_MM - 2 * MARGIN_MM
    head = _head(report, width)
    foot_mm = _foot(report, width, 0.0).y_mm
    room_mm = PAGE_HEIGHT_MM - MARGIN_MM - head.y_mm - ABOVE_CHART_MM - BELOW_CHART_MM - foot_mm
    for moments, warnings_mm in LIMITS:
        blocks = _blocks(report, width, moments, warnings_mm)
        free_mm = room_mm - sum(block(0.0).y_mm for block in blocks)
        if free_mm >= LEAST_CHART_MM + _conclusions_mm(1):
            break
    lines = 4
    while lines > 1 and free_mm - _conclusions_mm(lines) < LEAST_CHART_MM:
        lines -= 1
    chart_mm = min(max(free_mm - _conclusions_mm(lines), LEAST_CHART_MM), MOST_CHART_MM)
    while free_mm - chart_mm >= _conclusions_mm(lines + 1):
        lines += 1
    top = head.y_mm + ABOVE_CHART_MM
    frame = Frame(MARGIN_MM + 12.0, PAGE_WIDTH_MM - MARGIN_MM - 1.0, top, top + chart_mm, 7.2)
    cut = set(head.cut)
    shapes = [*head.shapes, *Plot(recording, recording.channel("cell_voltage"), frame).shapes(findings)]
    y = top + chart_mm + BELOW_CHART_MM
    for block in blocks:
        column = block(y)
        shapes += column.shapes
        cut |= column.cut
        y = column.y_mm
    shapes += _conclusions(width, y, lines).shapes
    shapes += _foot(report, width, PAGE_HEIGHT_MM - MARGIN_MM + 6.0 - foot_mm).shapes
    words = describe(recording, findings)
    if cut == {"budget"}:
        cut = set()  # its smaller lines are there as their sum, which needs no page
    first = Drawing(PAGE_WIDTH_MM, PAGE_HEIGHT_MM, tuple(shapes), report.title, words)
    return [first, *more_sheets(report, sorted(cut), PAGE_WIDTH_MM, PAGE_HEIGHT_MM, MARGIN_MM)]


def _blocks(report: Report, width_mm: float, moments: int, warnings_mm: float) -> list[Block]:
    return [
        lambda y: _moments(report, width_mm, y, moments),
        lambda y: _tables(report, width_mm, y),
        lambda y: _warnings(report, width_mm, y, warnings_mm),
    ]


def _head(report: Report, width_mm: float) -> Column:
    """Title and start at the left, the voltage saved at the right, below them the lines for names."""
    right = MARGIN_MM + width_mm
    size_pt, room_mm = (20.0, width_mm - 62.0) if report.is_known else (11.0, width_mm - 66.0)
    column = Column(MARGIN_MM, room_mm, MARGIN_MM - 4.0)
    fits = (
        text_width_mm(report.title, 12.5, "semibold") <= room_mm < text_width_mm(report.title, 15, "semibold")
    )
    column.lines(report.title, 12.5 if fits else 15, weight="semibold", most=2, part="title")
    column.y_mm += 1.0
    column.lines(report.about, 7.5, QUIET, most=2, part="title")
    if report.origin:
        column.y_mm += 0.6
        column.lines(report.origin, 7.5, MOMENT, weight="semibold")
    column.shapes.append(
        Text(
            right,
            MARGIN_MM + 3.2,
            report.headline,
            size_pt,
            SETTLED if report.is_sure else INK if report.is_known else QUIET,
            "right",
            "semibold",
        )
    )
    y = MARGIN_MM + 7.6
    for line in wrapped(report.headline_note, 62.0, 7.5):
        column.shapes.append(Text(right, y, line, 7.5, QUIET, "right"))
        y += 3.4
    y = max(y, column.y_mm) + 6.0
    left, gap_mm = MARGIN_MM, 4.0
    shares = (0.5, 0.2, 0.3)
    for name, share in zip(report.blanks, shares, strict=True):
        end = left + share * (width_mm - 2 * gap_mm)
        begin = left + text_width_mm(name, 7.5) + 1.5
        column.shapes += [Text(left, y, name, 7.5, QUIET), Line(begin, y + 0.4, end, y + 0.4, QUIET, 0.15)]
        left = end + gap_mm
    column.y_mm = y
    return column


def _moments(report: Report, width_mm: float, y_mm: float, most: int) -> Column:
    """The moments by number, in two columns read downwards."""
    column = Column(MARGIN_MM, width_mm, y_mm)
    shown = report.moments if len(report.moments) <= most else report.moments[: most - 1]
    more = len(report.moments) - len(shown)
    texts = [*shown, *([f"and {more} more on a further page"] if more else [])]
    rows = -(-len(texts) // 2)
    for i, text in enumerate(texts):
        x = MARGIN_MM + i // rows * (width_mm + GUTTER_MM) / 2
        y = y_mm + 3.0 + i % rows * 3.9
        if i < len(shown):
            column.shapes += numbered(x + 1.5, y - 0.85, i + 1, 0.86)
        shorter = shortened(text, (width_mm - GUTTER_MM) / 2 - 4.6, 7.2)
        if more or shorter != text:
            column.cut.add("moments")
        column.shapes.append(Text(x + 4.4, y, shorter, 7.2, INK))
    column.y_mm = y_mm + 3.9 * rows + 2.5
    return column


def _tables(report: Report, width_mm: float, y_mm: float) -> Column:
    """Results at the left, set-up and budget at the right, data quality where there is more room."""
    half_mm = (width_mm - GUTTER_MM) / 2
    left = Column(MARGIN_MM, half_mm, y_mm)
    left.heading("Results")
    left.entries(report.results, 36.0)
    right = Column(MARGIN_MM + half_mm + GUTTER_MM, half_mm, y_mm)
    right.heading("Set-up")
    right.entries(report.setup, 24.0)
    if report.budget:
        right.y_mm += 1.6
        right.heading("What makes the voltage saved uncertain")
        right.bars(_shorter(report.budget))
        if len(report.budget) > MOST_BUDGET:
            right.cut.add("budget")
    lower = min(left, right, key=lambda one: one.y_mm)
    lower.y_mm += 1.6
    lower.heading("Data quality")
    lower.entries(report.quality, 27.0)
    both = Column(MARGIN_MM, width_mm, max(left.y_mm, right.y_mm) + 2.0)
    both.shapes = [*left.shapes, *right.shapes]
    both.cut = left.cut | right.cut
    return both


def _shorter(budget: Sequence[BudgetLine]) -> list[BudgetLine]:
    """The largest lines of a budget, and what the others come to together."""
    if len(budget) <= MOST_BUDGET:
        return list(budget)
    shown, rest = budget[: MOST_BUDGET - 1], budget[MOST_BUDGET - 1 :]
    together_mV = math.hypot(*(one.amount_mV for one in rest))
    share = together_mV / (budget[0].amount_mV or 1.0)
    return [*shown, BudgetLine(f"{len(rest)} smaller ones together", "", together_mV, share)]


def _warnings(report: Report, width_mm: float, y_mm: float, most_mm: float) -> Column:
    column = Column(MARGIN_MM, width_mm, y_mm)
    if not report.warnings:
        return column
    column.heading("To know")
    for place, text in enumerate(report.warnings):
        if column.y_mm - y_mm > most_mm:
            rest = len(report.warnings) - place
            column.lines(f"and {rest} more on a further page", 7.2, QUIET, indent_mm=3.0)
            column.cut.add("notes")
            break
        column.shapes.append(Text(MARGIN_MM, column.y_mm + 2.75, "•", 7.2, QUIET))
        column.lines(text, 7.2, indent_mm=3.0, most=3, part="notes")
        column.y_mm += 0.5
    column.y_mm += 1.5
    return column


def _conclusions_mm(lines: int) -> float:
    return 8.0 + lines * CONCLUSION_MM


def _conclusions(width_mm: float, y_mm: float, lines: int) -> Column:
    """Empty lines to write on."""
    column = Column(MARGIN_MM, width_mm, y_mm)
    column.shapes.append(Text(MARGIN_MM, y_mm + 3.2, "Our conclusions", 8.5, INK, weight="semibold"))
    column.y_mm += 4.0
    for _ in range(lines):
        column.y_mm += CONCLUSION_MM
        column.shapes.append(
            Line(MARGIN_MM, column.y_mm, MARGIN_MM + width_mm, column.y_mm, QUIET, 0.12, (0.3, 0.9))
        )
    return column


def _foot(report: Report, width_mm: float, y_mm: float) -> Column:
    """Cautions, and which file this is about."""
    column = Column(MARGIN_MM, width_mm, y_mm)
    column.shapes.append(Line(MARGIN_MM, y_mm, MARGIN_MM + width_mm, y_mm, RULE, 0.2))
    column.y_mm += 1.2
    column.lines(f"Cautions. {report.cautions}", 6.6)
    column.y_mm += 0.8
    for line in report.file_lines:
        column.lines(line, 6.2, QUIET, most=2)
    return column
