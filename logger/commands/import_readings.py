"""Make a recording from readings of other origin: a CSV with a header line naming time_s and cell_voltage_V.

The readings are taken as they are; a line that is not a reading refuses the file, nothing is repaired. Of an
export, OUT.datapackage.json in place of the CSV brings all that belongs to it: channels, moments, gaps and
more. Where it lies beside the CSV, start and title of the run are taken from it.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from logger.import_package import ListedChannel, Package
    from logger.imported_recording import ImportedChannel


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
        "--voltage",
        metavar="COLUMN",
        help="column of the voltage in volts (cell_voltage_V, or what the data package tells)",
    )
    parser.add_argument(
        "--replace", action="store_true", help="replace an existing FILE.h5, once the new one is whole"
    )


def run(arguments: argparse.Namespace) -> int:
    """Read the text files whole, then write the recording."""
    from logger.bench import read_bench
    from logger.commands.progress_bar import progress_bar
    from logger.folder import resolve_output
    from logger.import_csv import CHANNEL, read_gaps, read_moments, read_readings
    from logger.import_package import Package, package_beside, read_package
    from logger.import_pictures import ImportedPicture, read_pictures
    from logger.imported_recording import import_recording
    from logger.moments import Moment

    out = resolve_output(arguments.out)
    source: Path = arguments.readings
    is_package = source.suffix.casefold() == ".json"
    package = read_package(source) if is_package else package_beside(source)
    # Of a table of readings its package tells title and start; the other tables are not asked for.
    whole = package if is_package and package else Package(source)
    source = whole.readings
    given = {name: getattr(arguments, name) for name in ("moments", "gaps", "pictures", "bench")}
    if is_package:
        _refuse_what_is_missing(arguments.readings, whole, [name for name in given if not given[name]])
    wanted = {name: path or whole.tables.get(name) for name, path in given.items()}
    bench = read_bench(wanted["bench"]) if wanted["bench"] else None
    column = arguments.voltage or (package or whole).voltage_column
    with progress_bar(f"Reading {source.name}") as progress:
        readings = read_readings(source, time=arguments.time, voltage=column, progress=progress)
    channels = _channels(whole)
    moments: tuple[Moment, ...] = ()
    if wanted["moments"]:
        moments = read_moments(wanted["moments"], last_reading_s=float(readings.times_s[-1]))
    names = {one.listed_name: one.name for one in whole.channels}
    voltage = package or whole
    called = (column.rpartition("_")[0], voltage.voltage_name, CHANNEL)
    names |= {told: voltage.recorded_name for told in called if told and told not in names}
    gaps = read_gaps(wanted["gaps"], names) if wanted["gaps"] else ()
    pictures: tuple[ImportedPicture, ...] = ()
    if wanted["pictures"]:
        pictures = read_pictures(wanted["pictures"], moments)
    saved = import_recording(
        readings,
        moments,
        out,
        origin=source,
        channels=channels,
        gaps=gaps,
        pictures=pictures,
        bench_toml=bench.source_text if bench else "",
        title=(bench.title or "") if bench and package is None else "",
        package=package,
        replace=arguments.replace,
    )
    words = [_counted(readings.times_s.size, "reading"), _counted(len(moments), "moment")]
    words += [_counted(len(pictures), "picture")] if pictures else []
    words += [_counted(len(channels), "further channel")] if channels else []
    print(f"Saved {saved}: {', '.join(words)}.")
    if package:
        used = [source, *(path for path in wanted.values() if path), *(one.path for one in whole.channels)]
        _tell(saved, package, used, () if is_package else package.channels)
    return 0


def _refuse_what_is_missing(path: Path, package: Package, tables: Sequence[str]) -> None:
    """Refuse a package some of whose files, or of whose `tables`, are no files."""
    from logger.import_package import PackageRefused

    needed = [package.readings, *(one.path for one in package.channels)]
    needed += [package.tables[name] for name in tables if name in package.tables]
    missing = [one.name for one in needed if not one.is_file()]
    if missing:
        are = "is" if len(missing) == 1 else "are"
        raise PackageRefused(
            f"{path} names {', '.join(missing)}, which {are} not there; put it beside the data package, or "
            f"import {package.readings.name} alone, with --moments and what else is there"
        )


def _channels(package: Package) -> list[ImportedChannel]:
    from logger.import_csv import read_column
    from logger.imported_recording import ImportedChannel

    read = ((one, read_column(one.path, column=one.column)) for one in package.channels)
    return [
        ImportedChannel(one.name, one.role, one.unit, readings, one.is_simulated)
        for one, readings in read
        if readings.times_s.size
    ]


def _tell(saved: Path, package: Package, used: Iterable[Path], left_behind: Sequence[ListedChannel]) -> None:
    """Say what is not as it was exported, or was not taken."""
    if package.chosen:
        print(_with_chosen(saved, package), file=sys.stderr)
    changed = [path.name for path in used if package.is_changed(path)]
    if changed:
        were = "was" if len(changed) == 1 else "were"
        print(
            f"galvanote: {', '.join(changed)} {were} changed since the export; what stands there now was "
            "taken, title and start are those of the data package",
            file=sys.stderr,
        )
    if left_behind:
        names = ", ".join(one.path.name for one in left_behind)
        print(
            f"galvanote: only the cell voltage was taken; import the data package for {names}, too",
            file=sys.stderr,
        )
    if package.elsewhere:
        print(
            f"galvanote: not taken: {', '.join(package.elsewhere)}; only files that lie beside the data "
            "package are",
            file=sys.stderr,
        )
    if package.left_out:
        print(
            f"galvanote: not taken: {', '.join(package.left_out)}; the data package does not say what they "
            "are, or says of two that they are one channel",
            file=sys.stderr,
        )


def _with_chosen(saved: Path, package: Package) -> str:
    """Keep the settled stretches that were chosen by hand in what was imported; return what to tell."""
    from logger.errors import LoggerError
    from logger.reader import read_recording
    from logger.reanalysis import analyse_again

    names = " and ".join(sorted(package.chosen, reverse=True))
    why = "the readings were changed since"
    if not package.is_changed(package.readings):
        try:
            why = analyse_again(read_recording(saved), package.chosen).not_kept or ""
        except LoggerError as error:
            why = str(error)
    if why:
        return f"galvanote: the settled stretches chosen by hand ({names}) were not taken over: {why}"
    return f"galvanote: the settled stretches {names} were chosen by hand, and are those of the data package"


def _counted(count: int, word: str) -> str:
    return f"1 {word}" if count == 1 else f"{count} {word}s"
