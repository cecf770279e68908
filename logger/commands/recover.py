"""Finish runs that were cut off: each journal (ending in .journal) becomes the recording it was to be.

Deletes nothing it could not save. Safe to run twice, safe to be cut off itself.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence
from pathlib import Path

BAD = ("failed", "partly")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    parser.add_argument(
        "paths", nargs="+", type=Path, metavar="PATH", help="a journal, or a folder to look through"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON document")


def run(arguments: argparse.Namespace) -> int:
    """Recover every journal named or found."""
    from logger.recovery import find_journals, recover

    outcomes = [recover(journal) for path in arguments.paths for journal in find_journals(path)]
    if arguments.json:
        document = [
            {
                "journal": str(o.journal),
                "file": str(o.recording) if o.recording else None,
                "outcome": o.outcome,
                "message": o.message,
            }
            for o in outcomes
        ]
        print(json.dumps(document, ensure_ascii=False, indent=2))
    else:
        for outcome in outcomes:
            print(outcome.message, file=sys.stderr if outcome.outcome in BAD else sys.stdout)
        if not outcomes:
            print(f"Nothing to recover: {_where(arguments.paths)}.")
    return 1 if any(o.outcome in BAD for o in outcomes) else 0


def _where(paths: Sequence[Path]) -> str:
    finished = [str(path) for path in paths if path.is_file()]
    if not finished:
        return "no run was cut off here"
    return f"{', '.join(finished)} {'is a finished recording' if len(finished) == 1 else 'are finished'}"
