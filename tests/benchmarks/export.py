"""How fast and in how much memory exports are written: python -m tests.benchmarks.export [--samples N]

CSV stands beside numpy.savetxt in the same run, on the same readings, with formats that lose no digit either.
The command's time and peak memory are those of a whole `galvanote export` process, reading included. Targets:
10 million samples at least 3 times as fast as the quicker savetxt and below 300 MB; a report below 1 s of
processor time.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

import numpy as np

from logger.export.report import export_report
from logger.export.table import export_csv
from logger.import_csv import Readings
from logger.imported_recording import import_recording
from logger.progress import Progress
from logger.reader import read_recording
from tests.campaigns.table import print_table
from tests.logger.simulated_run import BENCH
from tests.logger.simulated_run import lesson as simulated_lesson

LEAST_RATIO, MOST_MB, MOST_REPORT_S = 3.0, 300.0, 1.0
FORMATS = {
    "savetxt %.18e, its default": "%.18e",
    "savetxt %.17g, shorter": ["%.17g", "%.17g", "%d"],
}


def main(arguments: list[str] | None = None) -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--samples", type=int, default=10_000_000)
    parser.add_argument("--folder", type=Path, help="where to write (1 GB); otherwise the temporary folder")
    chosen = parser.parse_args(arguments)
    with tempfile.TemporaryDirectory(dir=chosen.folder) as folder:
        path = Path(folder) / "long.h5"
        in_child(lambda: make_recording(path, chosen.samples))
        whole_s, peak_MB = in_child(lambda: command(path, Path(folder) / "command.csv"))
        rows, ratio = compare(path, Path(folder), chosen.samples)
        rows.append(["galvanote export, whole process", "", "", f"{whole_s:.1f}", f"{peak_MB:.0f}"])
        print(f"{chosen.samples} samples, load of the machine {os.getloadavg()[0]:.1f}:")
        print_table(["what", "processor s", "times as long", "by the clock, s", "peak MB"], rows)
        report_s = report(Path(folder))
    is_met = ratio >= LEAST_RATIO and peak_MB < MOST_MB and report_s < MOST_REPORT_S
    print(
        f"targets {'met' if is_met else 'MISSED'}: "
        f"{ratio:.1f} times, {peak_MB:.0f} MB, report {report_s:.2f} s"
    )
    return 0 if is_met else 1


def make_recording(path: Path, samples: int) -> None:
    """Write a recording of readings with 6 decimals, at times with all digits, as a converter gives."""
    times_s = np.arange(samples) / 3001.7
    values_V = np.round(2.1 + 0.1 * np.sin(times_s / 1000), 6)
    readings = Readings(times_s, values_V, np.zeros(samples, np.uint8))
    import_recording(readings, (), path, origin=Path(__file__))


def command(path: Path, out: Path) -> None:
    from logger.commands import main as galvanote

    sys.stdout = open(os.devnull, "w")  # noqa: SIM115 - until the child ends
    if galvanote(["export", str(path), "--to", str(out)]) != 0:
        raise SystemExit("the export failed")


def compare(path: Path, folder: Path, samples: int) -> tuple[list[list[str]], float]:
    """Return rows of the table, and how much longer the quicker savetxt takes than the export."""
    recording = read_recording(path, is_own=True)
    channel = recording.channels[0]
    assert channel.times_s.size == samples
    own_s, wall_s = timed(lambda: export_csv(recording, folder / "own.csv", progress=Progress()))
    check(folder / "own.csv", channel.times_s, channel.values)
    rows = [["export_csv", f"{own_s:.1f}", "1.0", f"{wall_s:.1f}", ""]]
    ratios = []
    for name, form in FORMATS.items():

        def save(form: str | list[str] = form) -> None:
            table = np.column_stack([channel.times_s, channel.values, channel.quality])
            np.savetxt(folder / "numpy.csv", table, fmt=form, delimiter=",", newline="\r\n")

        taken_s, wall_s = timed(save)
        ratios.append(taken_s / own_s)
        rows.append([name, f"{taken_s:.1f}", f"{ratios[-1]:.1f}", f"{wall_s:.1f}", ""])
    return rows, min(ratios)


def timed(work: Callable[[], object]) -> tuple[float, float]:
    """Do work; return its seconds of processor time, which other work does not disturb, and by the clock."""
    begin_s, wall_s = time.process_time(), time.perf_counter()
    work()
    return time.process_time() - begin_s, time.perf_counter() - wall_s


def check(path: Path, times_s: np.ndarray, values: np.ndarray) -> None:
    """Read every 9973rd line back: the very same numbers."""
    with path.open() as file:
        next(file)
        count = 0
        for place, line in enumerate(file):
            count += 1
            if place % 9973 == 0:
                time_s, value, quality = line.split(",")
                assert (float(time_s), float(value), int(quality)) == (times_s[place], values[place], 0)
    assert count == times_s.size


def report(folder: Path) -> float:
    """Print how long the report of a lesson takes, findings included; return the slower one, PDF or HTML."""
    recording, _ = simulated_lesson(bench=BENCH)
    rows, slowest_s = [], 0.0
    for ending in ("html", "pdf"):
        export_report(recording, folder / f"warm.{ending}")  # libraries are loaded once a session
        times_s = []
        for _ in range(3):
            out = folder / f"report.{ending}"
            times_s.append(timed(partial(export_report, recording, out, replace=True))[0])
        slowest_s = max(slowest_s, min(times_s))
        rows.append(
            [f"report as {ending} of {recording.channels[0].times_s.size} readings", f"{min(times_s):.2f}"]
        )
    print_table(["what", "processor s, best of 3"], rows)
    return slowest_s


def in_child(work: object) -> tuple[float, float]:
    """Do work in a process of its own; return its seconds and peak memory in MB."""
    begin_s = time.perf_counter()
    sys.stdout.flush()
    pid = os.fork()
    if pid == 0:
        work()  # type: ignore[operator]
        os._exit(0)
    _, status, usage = os.wait4(pid, 0)
    if status != 0:
        raise SystemExit("the child failed")
    return time.perf_counter() - begin_s, usage.ru_maxrss / 1024


if __name__ == "__main__":
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    raise SystemExit(main())
