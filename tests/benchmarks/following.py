"""How far the live file lags, and whether the recorder waits: python -m tests.benchmarks.following

    --quick      a few seconds
    --seconds S  length of each scene (default 40)

A run of 100,000 readings a second with a live file, which another process follows as any program would, in
SWMR mode. The lag is the age of the newest reading that can be read: the run's clock against the reading's
time, so that everything between the source and the reader is in it. Scenes: nothing happens; the process that
writes the live file is killed; it is stopped for a while (SIGSTOP), which must not touch the recording. Lags
count from 10 s after that. Exit status 1 when their median reaches 1 s, a killed process is not started
again, or a reading is missing in the recording.
"""

from __future__ import annotations

import argparse
import os
import signal
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

from logger.reader import read_recording
from logger.run import Run
from tests.campaigns.record_command import ROOT
from tests.campaigns.slow_disk import Flow, FlowSource
from tests.campaigns.table import print_table

RATE = 100_000.0
MOST_LAG_S = 1.0
LOOK_EVERY_S = 0.05
SETTLE_S = 10.0
"""After a kill: noticing, starting Python, and reading the journal from its beginning."""

READER = f"""
import os, sys, time, h5py
path = sys.argv[1]
while True:
    try:
        with h5py.File(path, "r", swmr=True) as file:
            times, number = file["run/cell_voltage/time"], os.stat(path).st_ino
            while os.stat(path).st_ino == number:
                times.refresh()
                if times.shape[0]:
                    print(time.monotonic(), times[-1], flush=True)
                time.sleep({LOOK_EVERY_S})
    except (OSError, KeyError):
        time.sleep({LOOK_EVERY_S})
"""


@dataclass
class Follower:
    """Another program that follows the live file, and what it saw."""

    path: Path
    seen: list[tuple[float, float]] = field(default_factory=list)
    """Monotonic time of looking, run time of the newest reading."""

    def __post_init__(self) -> None:
        self._process = subprocess.Popen(
            [sys.executable, "-c", READER, str(self.path)], cwd=ROOT, stdout=subprocess.PIPE, text=True
        )
        self._thread = threading.Thread(target=self._listen, daemon=True)
        self._thread.start()

    def _listen(self) -> None:
        assert self._process.stdout is not None
        for line in self._process.stdout:
            looked_s, newest_s = line.split()
            self.seen.append((float(looked_s), float(newest_s)))

    def close(self) -> None:
        self._process.kill()
        self._process.wait()
        self._thread.join()
        assert self._process.stdout is not None
        self._process.stdout.close()


@dataclass(frozen=True)
class Scene:
    """Something that happens to the process that writes the live file, and when it has to be well again."""

    name: str
    signals: tuple[tuple[float, signal.Signals], ...] = ()
    """Share of the run, signal sent then."""
    restarts: int = 0


SCENES = (
    Scene("nothing happens"),
    Scene("killed", ((0.4, signal.SIGKILL),), restarts=1),
    Scene("stopped for a while", ((0.3, signal.SIGSTOP), (0.6, signal.SIGCONT))),
)


def played(scene: Scene, folder: Path, seconds: float) -> tuple[list[object], bool]:
    """Record with a live file while the scene happens; return a row of figures, and whether they are good."""
    live, out = folder / "live.h5", folder / "run.h5"
    run = Run([FlowSource(Flow("cell_voltage", RATE, seconds))], out, live=live)
    run.start()
    follower = Follower(live)
    most_waiting, oldest_sync_s, pending = 0, 0.0, list(scene.signals)
    pause = threading.Event()
    began_s = time.monotonic()
    while (since_s := time.monotonic() - began_s) < seconds:
        if pending and since_s > pending[0][0] * seconds:
            os.kill(run._live.process_id, pending.pop(0)[1])
        status = run.status()
        most_waiting = max(most_waiting, status.waiting_samples)
        oldest_sync_s = max(oldest_sync_s, status.synced_age_s or 0.0)
        pause.wait(0.01)
    status = run.status()
    zero_s = time.monotonic() - status.now_s
    restarts = run._live.restarts
    follower.close()
    saved = run.stop()
    values = read_recording(saved, is_own=True).channels[0].values
    is_whole = values.size >= status.sample_count and np.array_equal(values, np.arange(values.size) * 1e-6)
    saved.unlink()
    lags_s = [(looked_s - began_s, looked_s - zero_s - newest_s) for looked_s, newest_s in follower.seen]
    well_s = min(seconds - 2.0, scene.signals[-1][0] * seconds + SETTLE_S) if scene.signals else 2.0
    well = [lag_s for at_s, lag_s in lags_s if at_s > well_s]
    is_good = bool(well) and statistics.median(well) < MOST_LAG_S and restarts == scene.restarts and is_whole
    median = f"{statistics.median(well):.2f}" if well else "-"
    most = f"{max(well):.2f}" if well else "-"
    row = [scene.name, len(lags_s), median, most, restarts, most_waiting, f"{oldest_sync_s:.1f}", "right"]
    return row if is_whole else [*row[:-1], f"WRONG ({values.size})"], is_good


def main(arguments: Sequence[str] | None = None) -> int:
    """Measure; return 1 when something is not good enough."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--quick", action="store_true")
    parser.add_argument("--seconds", type=float)
    chosen = parser.parse_args(arguments)
    seconds = chosen.seconds or (8.0 if chosen.quick else 40.0)
    rows, all_good = [], True
    with tempfile.TemporaryDirectory() as name:
        for scene in SCENES:
            row, is_good = played(scene, Path(name), seconds)
            rows.append(row)
            all_good &= is_good
    print_table(
        [
            "live process",
            "looks",
            "median lag s",
            "most lag s",
            "restarts",
            "most waiting",
            "oldest sync s",
            "file",
        ],
        rows,
    )
    print(f"lag below {MOST_LAG_S:g} s and every reading recorded: {'met' if all_good else 'MISSED'}")
    return 0 if all_good else 1


if __name__ == "__main__":
    raise SystemExit(main())
