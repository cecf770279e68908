"""Hand a recording over: the ending of OUT says as what.

.csv: tables with every digit, and a data package that describes them. .xlsx: an Excel workbook with a chart.
.png, .svg: a picture. .pdf, .html: the report, of one page; what has no room on it follows on a further page.
.parquet: for analysts, when pyarrow is installed.
The recording stays as it is.
"""

from __future__ import annotations

import argparse
import shlex
import sys
from pathlib import Path

from logger.commands.output_name import output_name

_SIZES = ("screen", "slide", "a4", "column")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    parser.add_argument("file", type=Path, metavar="FILE.h5")
    parser.add_argument(
        "--to", required=True, type=output_name, metavar="OUT",
        help="OUT.csv, .xlsx, .png, .svg, .pdf, .html or .parquet",
    )  # fmt: skip
    parser.add_argument(
        "--size", choices=_SIZES,
        help="size of the picture: screen, slide (16:9), a4, or column (of a journal, 85 mm); with .pdf it "
        "asks for the picture instead of the report",
    )  # fmt: skip
    parser.add_argument(
        "--decimal-comma", action="store_true",
        help="CSV for spreadsheets of countries that write 2,25: semicolons, decimal commas",
    )  # fmt: skip
    parser.add_argument(
        "--replace", action="store_true",
        help="replace what has that name already; with .csv and .parquet all the files of the set (OUT.csv, "
        "OUT.moments.csv, …), and files of an older set that the new one has not are removed",
    )  # fmt: skip


def run(arguments: argparse.Namespace) -> int:
    """Write one export."""
    from logger.analysis.caution import Caution
    from logger.analysis.damage import cautions_of_damage
    from logger.commands.progress_bar import progress_bar
    from logger.export.formats import Choices, export
    from logger.export.overwriting import Overwriting, overwriting
    from logger.moment_pictures import orphans
    from logger.reader import read_recording
    from logger.recording import Recording

    choices = Choices(arguments.replace, arguments.size, arguments.decimal_comma)
    before = Overwriting()
    cautions: tuple[Caution, ...] = ()
    left_out = 0

    def read() -> Recording:
        nonlocal before, cautions, left_out
        recording = read_recording(arguments.file)
        left_out = len(orphans(recording)) if arguments.to.suffix.lower() == ".csv" else 0
        cautions = cautions_of_damage(recording)
        before = overwriting(recording, arguments.to) if arguments.replace else before
        return recording

    with progress_bar(f"Writing {arguments.to.name}") as progress:
        written = export(read, arguments.to, choices, progress)
    for path in written:
        print(f"Wrote {path}")
    for path in before.removed:
        print(f"Removed {path}, of the tables that were there before")
    if left_out:
        are = "1 picture is" if left_out == 1 else f"{left_out} pictures are"
        print(
            f"galvanote: {are} not among the tables, since the moment was removed; extract writes one to a "
            f"file, its ID says: galvanote moment {shlex.quote(str(arguments.file))} list",
            file=sys.stderr,
        )
    for caution in cautions:
        print(f"galvanote: {caution.message}", file=sys.stderr)
    return 0
