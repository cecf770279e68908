"""Say what recordings show: settled voltage before and after, the voltage saved, current, efficiency, gas.

Also on a run that is still recording, and on one that was cut off. The findings of a finished recording
are kept in it; the readings stay as they are. A note such as "hydrogen 4.30 mL" (one gas alone) adds the
Faradaic efficiency, a moment lead_lifted among 5000 readings a second or more the ohmic drop.
"""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE.h5")
    parser.add_argument(
        "--json", action="store_true", help="print one JSON document: a list, one object a file"
    )


def run(arguments: argparse.Namespace) -> int:
    """Analyse every file; nothing is printed when one cannot be read."""
    from logger.analysis.chosen_windows import chosen_windows
    from logger.analysis.findings import document
    from logger.analysis.run_analysis import RunAnalysis, analyse_run
    from logger.commands.progress_bar import progress_bar
    from logger.kept_findings import keep
    from logger.reader import read_recording

    recordings = [read_recording(path) for path in arguments.files]
    analyses: list[RunAnalysis] = []
    for one in recordings:
        with progress_bar(f"Analysing {one.path.name}") as progress:
            analyses.append(analyse_run(one, chosen_windows(one.findings_json), progress))
    documents = [document(*pair) for pair in zip(recordings, analyses, strict=True)]
    if arguments.json:
        print(json.dumps(documents, ensure_ascii=False, indent=2, allow_nan=False))
    else:
        from logger.analysis.findings_text import findings_text

        pairs = zip(documents, analyses, strict=True)
        print("\n\n".join(findings_text(found, analysis.averaging_words) for found, analysis in pairs))
    for recording, found in zip(recordings, documents, strict=True):
        reason = None if recording.is_running else keep(recording, found)
        if reason is not None:
            print(f"Not kept in {recording.path}: {reason}.", file=sys.stderr)
    return 0
