"""Hand a recording over: the ending of OUT says as what (.csv table with data package, .png picture)."""

from __future__ import annotations

import argparse
from pathlib import Path


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    parser.add_argument("file", type=Path, metavar="FILE.h5")
    parser.add_argument("--to", required=True, type=Path, metavar="OUT", help="OUT.csv or OUT.png")
    parser.add_argument("--replace", action="store_true", help="replace what has that name already")


def run(arguments: argparse.Namespace) -> int:
    """Write one export."""
    from logger.export.formats import export
    from logger.reader import read_recording

    written = export(lambda: read_recording(arguments.file), arguments.to, replace=arguments.replace)
    for path in written:
        print(f"Wrote {path}")
    return 0
