"""How fast readings get to the disk, and what archiving takes: python -m tests.benchmarks.recording

    --quick      a tenth of everything
    --hours H    length of the run whose archiving is measured (default 24)

Speed: blocks of readings through the recorder's track (encoding, journal, checksum, sync), as fast as they
go, beside a plain sequential write of the same 17 bytes a reading with the same syncs. The blocks are those
of a meter (10 readings a second, one a block), of a slow and of a fast board (1 kHz in 50, 100 kHz in 5000),
with a sync for each second of the run. Both are done in turn, second by second, so that both meet the same
disturbances; the ratio is that of the median times, and the median over the repetitions counts. On a file
system in memory (tmpfs) a sync costs nothing: name a folder on a disk with --folder.

Memory: the process that makes the recording out of a journal of 24 h at 1 kHz, watched from outside.

Exit status 1 when a ratio is below 0.8, or the memory reaches 120 MB.
"""

from __future__ import annotations

import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from drivers.samples import Samples
from logger.disk import Disk
from logger.framing import frames_of, gathered
from logger.intake import Entry
from logger.journal import FrameType, JournalWriter, journal_of
from logger.notices import Notices
from logger.orphan import my_id
from logger.payload import encode_json, encode_samples
from logger.track import Track
from tests.campaigns.process_figures import ProcessFigures
from tests.campaigns.record_command import ROOT
from tests.campaigns.table import print_table
from tests.logger.test_archive import CHANNEL, INSTRUMENT, head

LEAST_RATIO = 0.8
MOST_MB = 120.0
REPETITIONS = 7
WARM_UP = 1
POLL_S = 0.02
RATE = 1000
BLOCK = 50


@dataclass(frozen=True)
class Pace:
    """How readings come: how many a block, how many a sync, and how many seconds of the run are written."""

    name: str
    block: int
    per_sync: int
    seconds: int


PACES = (
    Pace("10 Hz", 1, 10, 1000),
    Pace("1 kHz", 50, 1000, 1000),
    Pace("100 kHz", 5000, 100_000, 200),
)


def _samples(first: int, count: int, rate: float) -> Samples:
    number = np.arange(first, first + count)
    # A drift and the last digits of a converter of 16 bits: as well to be packed as real readings.
    values = np.round(2.0 + 1e-9 * number + 3e-5 * np.sin(number * 12.9898), 5)
    return Samples("cell_voltage", number / rate, values, np.zeros(count, np.uint8))


class PlainFile:
    """Writes the bytes of readings one block after the other."""

    def __init__(self, path: Path, blocks: Sequence[Samples]) -> None:
        self._fd = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL)
        self._raw = [b.times_s.tobytes() + b.values.tobytes() + b.quality.tobytes() for b in blocks]

    def second(self) -> None:
        for block in self._raw:
            os.write(self._fd, block)
        os.fdatasync(self._fd)

    def close(self) -> None:
        os.close(self._fd)


class RecordedFile:
    """Does the same as a round of the recorder: it takes all that has come, writes it, and syncs."""

    def __init__(self, path: Path, blocks: Sequence[Samples]) -> None:
        self._track = Track(path, head(), Notices(lambda: 0.0), Disk())
        self._entries = [Entry(FrameType.SAMPLES, 0, block) for block in blocks]
        self._count = sum(map(len, blocks))

    def second(self) -> None:
        before = self._track.durable_samples
        for group in gathered(self._entries):
            for frame in frames_of(group):
                self._track.push(frame)
        self._track.write()
        self._track.sync()
        assert self._track.durable_samples == before + self._count

    def close(self) -> None:
        self._track.close()


def seconds_of_a_run(pace: Pace, folder: Path, count: int) -> tuple[list[float], list[float]]:
    """Return how long each second of the run takes, written plainly and recorded, in turn."""
    blocks = [_samples(first, pace.block, 1.0) for first in range(0, pace.per_sync, pace.block)]
    files = PlainFile(folder / "plain", blocks), RecordedFile(folder / "run.h5.journal", blocks)
    took_s: tuple[list[float], list[float]] = ([], [])
    for number in range(WARM_UP + count):
        for which in (0, 1) if number % 2 else (1, 0):
            begin_s = time.perf_counter()
            files[which].second()
            took_s[which].append(time.perf_counter() - begin_s)
    for file in files:
        file.close()
    for path in (folder / "plain", folder / "run.h5.journal"):
        path.unlink()
    return took_s[0][WARM_UP:], took_s[1][WARM_UP:]


def speed(folder: Path, repetitions: int, share: float) -> bool:
    """Print the ratios; return whether all are good enough."""
    rows, is_met = [], True
    for pace in PACES:
        count = max(10, round(pace.seconds * share))
        found, plain, recorded = [], [], []
        for _ in range(repetitions):
            one = seconds_of_a_run(pace, folder, count)
            found.append(statistics.median(one[0]) / statistics.median(one[1]))
            plain += one[0]
            recorded += one[1]
        ratio = statistics.median(found)
        is_met &= ratio >= LEAST_RATIO
        rates = [pace.per_sync / statistics.median(took_s) / 1e3 for took_s in (plain, recorded)]
        spread = f"{min(found):.2f} to {max(found):.2f}"
        whole = f"{sum(plain) / sum(recorded):.2f}"
        rows.append([pace.name, pace.block, repetitions * count, *(f"{r:.0f}" for r in rates), f"{ratio:.2f}",
                     spread, whole])  # fmt: skip
    print_table(
        [
            "blocks as at",
            "a block",
            "syncs",
            "plain k/s",
            "recorded k/s",
            "ratio",
            "of repetitions",
            "of totals",
        ],
        rows,
    )
    return is_met


# ---------------------------------------------------------------- archiving


def write_journal(recording: Path, readings: int) -> Path:
    """Write the journal of a run at 1 kHz, in blocks of 50."""
    writer = JournalWriter(journal_of(recording), head())
    writer.append(FrameType.CHANNEL, encode_json({**CHANNEL, "instrument": INSTRUMENT}))
    for first in range(0, readings, BLOCK):
        writer.append(FrameType.SAMPLES, encode_samples(0, _samples(first, BLOCK, RATE)))
    writer.sync()
    writer.close()
    return journal_of(recording)


def archiving(folder: Path, hours: float) -> bool:
    """Print what archiving takes; return whether its memory is small enough."""
    readings = int(hours * 3600 * RATE)
    recording = folder / "day.h5"
    journal = write_journal(recording, readings)
    begin_s = time.perf_counter()
    child = subprocess.Popen(
        [sys.executable, "-m", "logger.archive", str(journal), str(recording), my_id()], cwd=ROOT
    )
    peak_MB = max(_peaks(child), default=0.0)
    took_s = time.perf_counter() - begin_s
    journal_MB = journal.stat().st_size / 1e6
    size_MB = recording.stat().st_size / 1e6 if recording.exists() else 0.0
    is_met = child.returncode == 0 and 0 < peak_MB < MOST_MB
    print_table(
        ["run", "readings", "journal MB", "recording MB", "seconds", "peak memory MB"],
        [[f"{hours:g} h at 1 kHz", readings, f"{journal_MB:.0f}", f"{size_MB:.0f}", f"{took_s:.0f}",
          f"{peak_MB:.0f}"]],
    )  # fmt: skip
    return is_met


def _peaks(child: subprocess.Popen[bytes]) -> Iterator[float]:
    """Yield the most memory that a process has used so far, until it ends."""
    figures = ProcessFigures(child.pid)
    pause = threading.Event()
    while child.poll() is None:
        try:
            yield figures.peak_MB()
        except (OSError, ProcessLookupError):
            continue  # it is just ending
        pause.wait(POLL_S)


def main(arguments: Sequence[str] | None = None) -> int:
    """Measure; return 1 when something is not good enough."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--quick", action="store_true")
    parser.add_argument("--hours", type=float)
    parser.add_argument("--folder", type=Path, help="on the disk to be measured")
    chosen = parser.parse_args(arguments)
    hours = chosen.hours if chosen.hours is not None else (1.0 if chosen.quick else 24.0)
    with tempfile.TemporaryDirectory(dir=chosen.folder) as name:
        is_fast = speed(Path(name), 3 if chosen.quick else REPETITIONS, 0.1 if chosen.quick else 1.0)
        print()
        is_small = archiving(Path(name), hours)
    print(
        f"ratio of at least {LEAST_RATIO:g} {'met' if is_fast else 'MISSED'}, "
        f"memory below {MOST_MB:g} MB {'met' if is_small else 'MISSED'}"
    )
    return 0 if is_fast and is_small else 1


if __name__ == "__main__":
    raise SystemExit(main())
