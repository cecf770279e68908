"""A comparison of runs laid out on pages of A4; long tables and many words go on on the next page."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from logger.analysis.run_comparison import RunComparison
from logger.cautions import DEFERENCE, IN_SHORT
from logger.export.comparison_report import RULE_OF_OUTLIERS, ComparisonReport
from logger.export.drawing import Drawing, Line, Shape, Text
from logger.export.letter_widths import shortened, text_width_mm
from logger.export.overlay_picture import (
    OverlayRun,
    colour_of,
    describe_comparison,
    key_words,
    number_disc,
    overlay,
    savings,
)
from logger.export.plot import INK, MOMENT, QUIET, RULE, Frame
from logger.export.report_sheet import MARGIN_MM, PAGE_HEIGHT_MM, PAGE_WIDTH_MM, Column

__all__ = ["comparison_sheets"]

Columns = Sequence[tuple[float, str]]
"""Where each column of a table begins (mm), and what it is called."""

WIDTH_MM = PAGE_WIDTH_MM - 2 * MARGIN_MM
BOTTOM_MM = PAGE_HEIGHT_MM - MARGIN_MM - 6.0
ROW_MM = 4.6
GROUP_COLUMNS = ((0.0, "group"), (22.0, "runs"), (32.0, "mean (95 %)"), (60.0, "95 % interval of the mean"),
                 (100.0, "scatter (s)"), (122.0, "Grubbs' test"))  # fmt: skip
RUN_HEADS = ("run", "kind", "before", "after", "saved (95 %)", "note")
CELL_PT, APART_MM = 7.2, 3.0
LEAST_NAME_MM = 25.0


def comparison_sheets(
    report: ComparisonReport, comparison: RunComparison, runs: Sequence[OverlayRun]
) -> list[Drawing]:
    """Return the report of a comparison as pages."""
    pages = _Pages(report, describe_comparison(comparison))
    pages.words(report.title, 15, weight="semibold")
    pages.words(report.about, 7.5, QUIET)
    pages.words(report.origin, 7.5, MOMENT, weight="semibold")
    pages.heading(f"Groups: voltage saved, {report.quantity}")
    pages.table_head(GROUP_COLUMNS)
    for one in report.groups:
        pages.row([one.name, one.count, one.mean, one.interval, one.scatter, one.test])
    pages.space(1.0)
    pages.words(RULE_OF_OUTLIERS, 6.8, QUIET)
    pages.space(1.0)
    for line in report.statements:
        pages.words(line, 7.8)
    pages.picture(94.0, lambda y: overlay(runs, comparison, _frame(y + 9.0, 74.0)))
    ladder_mm = min(max(14.0, 4.2 * len(runs)), 150.0)
    pages.picture(ladder_mm + 12.0, lambda y: savings(comparison, _frame(y + 2.0, ladder_mm)))
    pages.words(
        key_words(comparison) + " Dots: each run with its 95 % interval; band and line: mean of the group.",
        6.8, QUIET,
    )  # fmt: skip
    pages.heading("Runs")
    rows = [(row.name, row.kind, row.before, row.after, row.saved, row.note) for row in report.runs]
    pages.table_head(_run_columns(rows), indent_mm=5.0)
    for number, (cells, run) in enumerate(zip(rows, comparison.runs, strict=True), 1):
        pages.row(cells, disc=(number, colour_of(run)))
    if report.cautions:
        pages.heading("To know")
        for text in report.cautions:
            pages.words(f"• {text}", 7.2)
    pages.heading("Cautions")
    pages.words(f"{IN_SHORT} {DEFERENCE}", 6.6)
    pages.space(1.0)
    for text in report.file_lines:
        pages.words(text, 6.2, QUIET)
    return pages.finished()


def _run_columns(rows: Sequence[Sequence[str]]) -> Columns:
    """Give each column the room of its longest cell, and the names of the runs what is left."""
    columns = list[tuple[float, str]]()
    left_mm = WIDTH_MM
    for place in range(len(RUN_HEADS) - 1, 0, -1):
        cells = [RUN_HEADS[place], *(row[place] for row in rows)]
        width_mm = max(text_width_mm(cell, CELL_PT) for cell in cells) + APART_MM
        left_mm = max(left_mm - width_mm, LEAST_NAME_MM)
        columns.insert(0, (left_mm, RUN_HEADS[place]))
    return ((0.0, RUN_HEADS[0]), *columns)


def _frame(top_mm: float, height_mm: float) -> Frame:
    return Frame(MARGIN_MM + 12.0, PAGE_WIDTH_MM - MARGIN_MM - 8.0, top_mm, top_mm + height_mm, 7.2)


class _Pages:
    """Sets parts below one another and begins a page where one has no room."""

    def __init__(self, report: ComparisonReport, description: str) -> None:
        self._report, self._description = report, description
        self._pages: list[list[Shape]] = [[]]
        self._column = self._fresh()
        self._columns: Columns = ()
        self._indent_mm = 0.0

    def _fresh(self) -> Column:
        return Column(MARGIN_MM, WIDTH_MM, MARGIN_MM - 4.0)

    def _need(self, height_mm: float) -> bool:
        """Begin a page where so much has no room; tell whether one was begun."""
        is_full = self._column.y_mm + height_mm > BOTTOM_MM and bool(self._column.shapes)
        if is_full:
            self._pages[-1] += self._column.shapes
            self._pages.append([])
            self._column = self._fresh()
        return is_full

    def space(self, height_mm: float) -> None:
        """Leave room."""
        self._column.y_mm += height_mm

    def words(self, text: str, size_pt: float, colour: str = INK, weight: str = "regular") -> None:
        """Set a text over the whole width."""
        self._need(8.0)
        self._column.lines(text, size_pt, colour, weight=weight, most=8)

    def heading(self, text: str) -> None:
        """Set a heading; what follows begins on the same page."""
        self._need(20.0)
        self._column.y_mm += 3.0
        self._column.heading(text)

    def table_head(self, columns: Columns, indent_mm: float = 0.0) -> None:
        """Begin a table: its columns, and how far the first one is set in."""
        self._columns, self._indent_mm = columns, indent_mm
        self._need(2 * ROW_MM)
        self._set_row([name for _, name in columns], QUIET)

    def row(self, cells: Sequence[str], disc: tuple[int, str] | None = None) -> None:
        """Set one row of the table, with the number of a run before it; a new page has the head again."""
        if self._need(ROW_MM):
            self._set_row([name for _, name in self._columns], QUIET)
        self._set_row(cells, INK, disc)

    def _set_row(self, cells: Sequence[str], colour: str, disc: tuple[int, str] | None = None) -> None:
        column = self._column
        y = column.y_mm + 3.1
        lefts = [left + (self._indent_mm if left == 0.0 else 0.0) for left, _ in self._columns]
        for left, right, text in zip(lefts, [*lefts[1:], WIDTH_MM], cells, strict=True):
            shown = shortened(text, right - left - 1.0, CELL_PT)
            column.shapes.append(Text(MARGIN_MM + left, y, shown, CELL_PT, colour))
        if disc is not None:
            column.shapes += number_disc(MARGIN_MM + 1.6, y - 0.85, *disc, 0.86)
        column.y_mm += ROW_MM
        rule = column.y_mm - 0.3
        column.shapes.append(Line(MARGIN_MM, rule, MARGIN_MM + WIDTH_MM, rule, RULE, 0.1))

    def picture(self, height_mm: float, shapes: Callable[[float], list[Shape]]) -> None:
        """Set a picture of that height."""
        self._need(height_mm)
        self._column.shapes += shapes(self._column.y_mm)
        self._column.y_mm += height_mm

    def finished(self) -> list[Drawing]:
        """Return the pages, numbered where they are several."""
        self._pages[-1] += self._column.shapes
        count = len(self._pages)
        drawings = []
        for number, shapes in enumerate(self._pages, 1):
            text = f"page {number} of {count}"
            if count > 1:
                y = PAGE_HEIGHT_MM - 9.0
                shapes.append(Text(PAGE_WIDTH_MM - MARGIN_MM, y, text, 6.8, QUIET, "right"))
            drawings.append(
                Drawing(PAGE_WIDTH_MM, PAGE_HEIGHT_MM, tuple(shapes), self._report.title, self._description)
            )
        return drawings
