"""Further pages of a report: in full, whatever the one page had no room for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logger.export.drawing import Drawing, Line, Shape, Text
from logger.export.letter_widths import text_width_mm, wrapped
from logger.export.plot import INK, QUIET, RULE
from logger.export.report_model import Entry, Report

__all__ = ["further_head", "more_sheets"]

SIZE_PT, HEADING_PT = 8.0, 10.0
LINE_MM, HEADING_MM = 4.0, 9.0


def more_sheets(
    report: Report, cut: Sequence[str], width_mm: float, height_mm: float, margin_mm: float
) -> list[Drawing]:
    """Return pages with the parts named in `cut` (title, moments, tables, budget, notes) in full."""
    room_mm = width_mm - 2 * margin_mm
    pages: list[list[Shape]] = []
    y = height_mm
    for size_pt, text in _lines(report, cut, room_mm):
        step = HEADING_MM if size_pt == HEADING_PT else LINE_MM
        if y + step > height_mm - margin_mm:
            pages.append(further_head(report, len(pages) + 2, width_mm, margin_mm))
            y = margin_mm + 6.0
        y += step
        weight = "semibold" if size_pt == HEADING_PT else "regular"
        pages[-1].append(Text(margin_mm, y, text, size_pt, INK, weight=weight))
        if size_pt == HEADING_PT:
            y += 1.5
            pages[-1].append(Line(margin_mm, y, width_mm - margin_mm, y, RULE, 0.2))
    words = "What the first page of the report had no room for, as text."
    return [Drawing(width_mm, height_mm, tuple(page), report.title, words) for page in pages]


def further_head(report: Report, number: int, width_mm: float, margin_mm: float) -> list[Shape]:
    """Return the head of a further page: title and start of the run, and the page's number."""
    page = f"page {number}"
    room_mm = width_mm - 2 * margin_mm - text_width_mm(page, 7.5) - 4.0
    title = wrapped(f"{report.title}   ·   {report.about}", room_mm, 7.5)[0]
    return [
        Text(margin_mm, margin_mm, title, 7.5, QUIET),
        Text(width_mm - margin_mm, margin_mm, page, 7.5, QUIET, "right"),
    ]


def _lines(report: Report, cut: Sequence[str], room_mm: float) -> Iterator[tuple[float, str]]:
    """Yield each line with the size of its type, which tells headings."""
    for heading, texts in _parts(report, cut):
        yield HEADING_PT, heading
        for text in texts:
            for line in wrapped(text, room_mm, SIZE_PT) or [""]:
                yield SIZE_PT, line


def _parts(report: Report, cut: Sequence[str]) -> Iterator[tuple[str, list[str]]]:
    if "title" in cut:
        yield "Title", [report.title, report.about]
    if "moments" in cut:
        yield "Moments", [f"{number}   {text}" for number, text in enumerate(report.moments, 1)]
    if "tables" in cut:
        yield "Results", _entry_texts(report.results)
        yield "Set-up", _entry_texts(report.setup)
        yield "Data quality", _entry_texts(report.quality)
    if "budget" in cut:
        yield (
            "What makes the voltage saved uncertain",
            [f"{one.name}: {one.amount}" for one in report.budget],
        )
    if "notes" in cut:
        yield "To know", [f"• {text}" for text in report.warnings]


def _entry_texts(entries: Sequence[Entry]) -> list[str]:
    return [f"{one.name}: {one.value}" + (f" ({one.note})" if one.note else "") for one in entries]
