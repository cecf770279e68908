"""Compare several runs: what each saved, mean and scatter, blanks, and a run that lies off the others.

A run without salt counts as a blank. Runs that cannot be compared are shown and left out of the statistics.
With --to a report for the class is written too: .html or .pdf, or its picture as .svg or .png. The recordings
stay as they are.
"""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from logger.commands.output_name import output_name

if TYPE_CHECKING:
    from logger.analysis.compared_run import ComparedRun
    from logger.export.overlay_picture import OverlayRun
    from logger.progress import Progress


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE.h5")
    parser.add_argument("--json", action="store_true", help="print one JSON document")
    parser.add_argument(
        "--to", type=output_name, metavar="OUT",
        help="write a report: OUT.html or .pdf; or the picture: .svg, .png",
    )  # fmt: skip
    parser.add_argument("--replace", action="store_true", help="replace what has that name already")


def run(arguments: argparse.Namespace) -> int:
    """Analyse every file and compare; nothing is printed or written when one cannot be read."""
    from logger.analysis.findings import json_safe
    from logger.analysis.run_comparison import compare_runs
    from logger.analysis.run_comparison_text import comparison_text
    from logger.commands.progress_bar import progress_bar

    if len(arguments.files) < 2:
        print("galvanote: compare needs two recordings or more; for one take analyse", file=sys.stderr)
        return 2
    if arguments.to is not None:
        from logger.export.comparison_report import ENDINGS, export_comparison
        from logger.export.formats import check_output

        check_output(arguments.to, ENDINGS, replace=arguments.replace)
    runs: list[ComparedRun] = []
    curves: list[OverlayRun] = []
    with progress_bar("Comparing") as progress:
        for place, path in enumerate(arguments.files):
            part = progress.part(place / len(arguments.files), (place + 1) / len(arguments.files))
            _read(path, runs, curves if arguments.to is not None else None, part)
    comparison = compare_runs(runs)
    if arguments.to is not None:
        export_comparison(comparison, curves, arguments.to, replace=arguments.replace)
    if arguments.json:
        print(json.dumps(json_safe(comparison.document), ensure_ascii=False, indent=2, allow_nan=False))
        return 0
    print(comparison_text(comparison))
    if arguments.to is not None:
        print(f"\nWrote {arguments.to}")
    return 0


def _read(path: Path, runs: list[ComparedRun], curves: list[OverlayRun] | None, progress: Progress) -> None:
    """Analyse one file; its readings are not kept, so that many long runs fit into memory."""
    from logger.analysis.compared_run import compared_run
    from logger.analysis.findings import findings
    from logger.reader import read_recording

    progress.reach(0.0)
    recording = read_recording(path)
    found = findings(recording, progress=progress.part(0.5, 1.0))
    runs.append(compared_run(recording, found))
    if curves is not None:
        from logger.export.overlay_picture import reduced

        curves.append(reduced(recording, found))
