"""The report of a run: a page of PDF, more where notes are many, or one HTML file that needs nothing else."""

from __future__ import annotations

from pathlib import Path

from logger.export.atomic import written_whole
from logger.export.painters import pages_painter
from logger.export.report_model import report_of
from logger.export.report_page import report_page
from logger.export.report_sheet import report_sheets
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
        if paint_pages is None:
            part.write_text(report_page(report, recording, found), "utf-8", newline="\n")
        else:
            paint_pages(report_sheets(report, recording, found), part)
        steps.reach(1.0)
