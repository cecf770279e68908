"""One recording taken from the shelf: readings, findings and curve, loaded together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from logger.analysis.compared_run import ComparedRun, compared_run
from logger.analysis.findings import findings
from logger.analysis.refusal import Refused
from logger.analysis.run_comparison import RunComparison, compare_runs
from logger.channel_overview import overview_of
from logger.errors import LoggerError
from logger.overview import Overview
from logger.progress import Progress
from logger.reader import read_recording
from logger.recording import Recording

__all__ = ["ShelfRun", "compare_shelf_runs", "load_run", "write_class_report"]


@dataclass(frozen=True, slots=True, eq=False)
class ShelfRun:
    """A loaded recording. `compared` is None where it cannot be analysed; `trouble` then says why."""

    recording: Recording
    findings: dict[str, Any]
    overview: Overview
    compared: ComparedRun | None
    trouble: str = ""


def load_run(path: Path, progress: Progress | None = None) -> ShelfRun:
    """Read a recording, find what it shows, and prepare its curve.

    Raises
    ------
    RecordingError : it cannot be read.
    Cancelled : `progress` was told to stop.
    """
    recording = read_recording(path)
    channel = recording.channel("cell_voltage")
    overview = Overview() if channel is None else overview_of(channel, recording.gaps)
    try:
        found = findings(recording, progress=progress)
        return ShelfRun(recording, found, overview, compared_run(recording, found))
    except LoggerError as error:
        return ShelfRun(recording, {}, overview, None, str(error))


def compare_shelf_runs(runs: Sequence[ShelfRun]) -> tuple[RunComparison | None, str]:
    """Return the comparison of those that can be compared, or None and why there is none."""
    usable = [run.compared for run in runs if run.compared is not None]
    try:
        return compare_runs(usable), ""
    except Refused as refusal:
        return None, f"{refusal.reason}; {refusal.accepted}"


def write_class_report(
    runs: Sequence[ShelfRun], out: Path, progress: Progress, *, replace: bool = False
) -> list[Path]:
    """Write the comparison of those that can be compared, as the ending of `out` says; return `out`.

    Raises
    ------
    LoggerError : fewer than two can be compared, an ending that is not known, or a folder that takes no file.
    OutputExists : `out` exists and may not be replaced.
    Cancelled : `progress` was told to stop; nothing was written.
    """
    from logger.export.comparison_report import ENDINGS, export_comparison
    from logger.export.formats import check_output
    from logger.export.overlay_picture import reduced

    check_output(out, ENDINGS, replace=replace)
    usable = [run for run in runs if run.compared is not None]
    comparison, why_not = compare_shelf_runs(usable)
    if comparison is None:
        raise LoggerError(f"{out} was not written: {why_not}")
    curves = []
    for place, run in enumerate(usable, 1):
        curves.append(reduced(run.recording, run.findings))
        progress.reach(0.8 * place / len(usable))
    export_comparison(comparison, curves, out, progress.part(0.8, 1.0), replace=replace)
    return [out]
