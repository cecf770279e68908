"""Read everything in recordings and journals, verify the checksums, say what is whole and what is not."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path

MARKS = {True: "whole", False: "NOT WHOLE", None: "unknown"}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE")
    parser.add_argument("--json", action="store_true", help="print one JSON document")


def run(arguments: argparse.Namespace) -> int:
    """Inspect every file; status 1 when something is not whole."""
    from logger.inspection import inspect

    inspections = [inspect(path) for path in arguments.files]
    if arguments.json:
        document = [
            {
                "file": str(i.path),
                "whole": i.is_whole,
                "findings": [{"what": f.what, "whole": f.is_whole, "text": f.text} for f in i.findings],
            }
            for i in inspections
        ]
        print(json.dumps(document, ensure_ascii=False, indent=2))
    else:
        for inspection in inspections:
            print(f"{inspection.path}: {MARKS[inspection.is_whole]}")
            for finding in inspection.findings:
                print(f"  {MARKS[finding.is_whole]:<10} {finding.what:<24} {finding.text}")
    bad = [str(i.path) for i in inspections if not i.is_whole]
    if bad:
        print(f"galvanote: {len(bad)} of {len(inspections)} not whole: {', '.join(bad)}", file=sys.stderr)
    return 1 if bad else 0
