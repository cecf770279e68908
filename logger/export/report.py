"""The report of a run: pages of PDF, one where notes and pictures are none, or one HTML file."""

from __future__ import annotations

from pathlib import Path

from logger.export.atomic import written_whole
from logger.export.painters import pages_painter
from logger.export.report_model import report_of
from logger.export.report_page import report_page
from logger.export.report_pictures import picture_sheets
from logger.export.report_sheet import MARGIN_MM, PAGE_HEIGHT_MM, PAGE_WIDTH_MM, report_sheets
from logger.export.small_pictures import small_pictures
from logger.progress import Progress
from logger.recording import Recording

__all__ = ["export_report"]


def export_report(
    recording: Recording, out: Path, progress: Progress | None = None, *, replace: bool = False
) -> None:
    """Write the report as ``.pdf`` or ``.html``, by the ending of `out`; it appears whole or not at all.

    Raises
    ------
    OutputExists : `out` exists and may not be replaced.
    Cancelled : `progress` was told to stop.
    LoggerError : there is no painter for PDF, or the file cannot be written.
    """
    from logger.analysis.findings import findings

    steps = progress or Progress()
    paint_pages = pages_painter("pdf") if out.suffix.lower() == ".pdf" else None
    found = findings(recording, progress=steps.part(0.0, 0.5))
    report = report_of(recording, found, steps.part(0.5, 0.8))
    with written_whole(out, replace=replace) as part:
        pictures = small_pictures(recording, part, steps.part(0.8, 0.95))
        if paint_pages is None:
            part.write_text(report_page(report, recording, found, pictures), "utf-8", newline="\n")
        else:
            sheets = report_sheets(report, recording, found)
            paper = (PAGE_WIDTH_MM, PAGE_HEIGHT_MM, MARGIN_MM)
            paint_pages([*sheets, *picture_sheets(report, pictures, len(sheets) + 1, *paper)], part)
        steps.reach(1.0)
