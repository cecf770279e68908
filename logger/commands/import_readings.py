"""Make a recording from readings of other origin: a CSV with a header line naming time_s and cell_voltage_V.

The readings are taken as they are; a line that is not a reading refuses the file, nothing is repaired.
"""

from __future__ import annotations

import argparse
from pathlib import Path


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    parser.add_argument("readings", type=Path, metavar="READINGS.csv")
    parser.add_argument("--moments", type=Path, metavar="M.csv", help="a CSV with time_s,kind,label")
    parser.add_argument(
        "--gaps", type=Path, metavar="G.csv", help="a CSV with begin_s,end_s,channel,reason, as exported"
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
    from logger.import_csv import import_recording, read_gaps, read_moments, read_readings
    from logger.moments import Moment

    out = resolve_output(arguments.out)
    bench = read_bench(arguments.bench) if arguments.bench else None
    readings = read_readings(arguments.readings, time=arguments.time, voltage=arguments.voltage)
    moments: tuple[Moment, ...] = ()
    if arguments.moments:
        moments = read_moments(arguments.moments, last_reading_s=float(readings.times_s[-1]))
    gaps = read_gaps(arguments.gaps, arguments.voltage.rpartition("_")[0]) if arguments.gaps else ()
    saved = import_recording(
        readings,
        moments,
        out,
        origin=arguments.readings,
        gaps=gaps,
        bench_toml=bench.source_text if bench else "",
        title=(bench.title or "") if bench else "",
        replace=arguments.replace,
    )
    count, tagged = readings.times_s.size, len(moments)
    words = "1 reading" if count == 1 else f"{count} readings"
    print(f"Saved {saved}: {words}, {'1 moment' if tagged == 1 else f'{tagged} moments'}.")
    return 0
