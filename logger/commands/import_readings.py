"""Make a recording from readings of other origin: a CSV with a header line naming time_s and cell_voltage_V.

The readings are taken as they are; a line that is not a reading refuses the file, nothing is repaired. Of an
export, OUT.datapackage.json in place of the CSV brings everything that belongs to it: moments, gaps, bench,
pictures. Where it lies beside the CSV, start and title of the run are taken from it.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from logger.import_package import Package


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    parser.add_argument(
        "readings", type=Path, metavar="READINGS.csv", help="or OUT.datapackage.json, of an export"
    )
    parser.add_argument("--moments", type=Path, metavar="M.csv", help="a CSV with time_s,kind,label")
    parser.add_argument(
        "--gaps", type=Path, metavar="G.csv", help="a CSV with begin_s,end_s,channel,reason, as exported"
    )
    parser.add_argument(
        "--pictures", type=Path, metavar="P.csv", help="a CSV with file,moment,sha256, as exported"
    )
    parser.add_argument("--bench", type=Path, metavar="B.toml", help="the bench file")
    parser.add_argument("--out", required=True, type=Path, metavar="FILE.h5", help="the recording to make")
    parser.add_argument("--time", default="time_s", metavar="COLUMN", help="column of the time in seconds")
    parser.add_argument(
        "--voltage", default="cell_voltage_V", metavar="COLUMN", help="column of the voltage in volts"
    )
    parser.add_argument(
        "--replace", action="store_true", help="replace an existing FILE.h5, once the new one is whole"
    )


def run(arguments: argparse.Namespace) -> int:
    """Read the text files whole, then write the recording."""
    from logger.bench import read_bench
    from logger.folder import resolve_output
    from logger.import_csv import read_gaps, read_moments, read_readings
    from logger.import_package import PACKAGE_ENDING, package_beside, read_package
    from logger.import_pictures import ImportedPicture, read_pictures
    from logger.imported_recording import import_recording
    from logger.moments import Moment

    out = resolve_output(arguments.out)
    tables: dict[str, Path] = {}
    source: Path = arguments.readings
    package: Package | None
    if source.name.endswith(PACKAGE_ENDING):
        package = read_package(source)
        source, tables = package.readings, package.tables
    else:
        package = package_beside(source)
    wanted = {
        name: getattr(arguments, name) or tables.get(name)
        for name in ("moments", "gaps", "pictures", "bench")
    }
    bench = read_bench(wanted["bench"]) if wanted["bench"] else None
    readings = read_readings(source, time=arguments.time, voltage=arguments.voltage)
    moments: tuple[Moment, ...] = ()
    if wanted["moments"]:
        moments = read_moments(wanted["moments"], last_reading_s=float(readings.times_s[-1]))
    gaps = read_gaps(wanted["gaps"], arguments.voltage.rpartition("_")[0]) if wanted["gaps"] else ()
    pictures: tuple[ImportedPicture, ...] = ()
    if wanted["pictures"]:
        pictures = read_pictures(wanted["pictures"], moments)
    saved = import_recording(
        readings,
        moments,
        out,
        origin=source,
        gaps=gaps,
        pictures=pictures,
        bench_toml=bench.source_text if bench else "",
        title=(bench.title or "") if bench and package is None else "",
        package=package,
        replace=arguments.replace,
    )
    count = readings.times_s.size
    words = [_counted(count, "reading"), _counted(len(moments), "moment")]
    words += [_counted(len(pictures), "picture")] if pictures else []
    print(f"Saved {saved}: {', '.join(words)}.")
    if package and package.chosen:
        print(_with_chosen(saved, package), file=sys.stderr)
    if package and package.start_time and package.is_changed():
        print(
            f"galvanote: {source} was changed since it was exported; title and start are still those of its "
            "data package",
            file=sys.stderr,
        )
    if package and package.left_out:
        names = ", ".join(package.left_out)
        print(f"galvanote: only the cell voltage is imported; not taken: {names}", file=sys.stderr)
    return 0


def _with_chosen(saved: Path, package: Package) -> str:
    """Keep the settled stretches that were chosen by hand in what was imported; return what to tell."""
    from logger.errors import LoggerError
    from logger.reader import read_recording
    from logger.reanalysis import analyse_again

    names = " and ".join(sorted(package.chosen, reverse=True))
    why = "the readings were changed since"
    if not package.is_changed():
        try:
            why = analyse_again(read_recording(saved), package.chosen).not_kept or ""
        except LoggerError as error:
            why = str(error)
    if why:
        return f"galvanote: the settled stretches chosen by hand ({names}) were not taken over: {why}"
    return f"galvanote: the settled stretches {names} were chosen by hand, and are those of the data package"


def _counted(count: int, word: str) -> str:
    return f"1 {word}" if count == 1 else f"{count} {word}s"
