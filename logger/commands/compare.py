"""Compare several runs: what each saved, mean and scatter, blanks, and a run that lies off the others.

A run without salt counts as a blank. Runs that cannot be compared are shown and left out of the statistics.
The recordings stay as they are.
"""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from logger.analysis.compared_run import ComparedRun


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE.h5")
    parser.add_argument("--json", action="store_true", help="print one JSON document")


def run(arguments: argparse.Namespace) -> int:
    """Analyse every file and compare; nothing is printed when one cannot be read."""
    from logger.analysis.findings import json_safe
    from logger.analysis.run_comparison import compare_runs
    from logger.analysis.run_comparison_text import comparison_text

    if len(arguments.files) < 2:
        print("galvanote: compare needs two recordings or more; for one take analyse", file=sys.stderr)
        return 2
    runs = [_read(path) for path in arguments.files]
    comparison = compare_runs(runs)
    if arguments.json:
        print(json.dumps(json_safe(comparison.document), ensure_ascii=False, indent=2, allow_nan=False))
    else:
        print(comparison_text(comparison))
    return 0


def _read(path: Path) -> ComparedRun:
    """Analyse one file; its readings are not kept, so that many long runs fit into memory."""
    from logger.analysis.compared_run import compared_run
    from logger.analysis.findings import findings
    from logger.reader import read_recording

    recording = read_recording(path)
    return compared_run(recording, findings(recording))
