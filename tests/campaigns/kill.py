"""kill -9 at random moments of the real command: python -m tests.campaigns.kill

Kills `galvanote record` while it starts, while it records and takes moments, and while it saves; half of the
kills while saving leave the archiving child alive. Some recoveries are killed too, then done again. What had
been acknowledged on stdout must be there, and nothing may be wrong. Exit status 1 otherwise.
"""

from __future__ import annotations

import argparse
import contextlib
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from drivers.simulated.cell import LessonCell
from logger.archive import damaged_of
from logger.errors import RecordingError
from logger.journal import journal_of, read_head
from logger.reader import read_recording
from logger.recording import Recording
from logger.recovery import find_journals, recover
from tests.campaigns.record_command import MAIN, ROOT, RecordCommand
from tests.campaigns.table import print_table

PHASES = ("starting", "recording", "saving")
AT_ONCE = 2
START_S, RUN_S, SAVE_S, RECOVER_S = 0.9, 1.5, 0.6, 0.9
"""How long after its beginning each phase may be hit, in seconds."""
RATES = (40, 400)
SPEED = 50


@dataclass(frozen=True)
class Outcome:
    """What one run came to: which phase was hit, whether recovery was hit too, and one of OK, LOST, WRONG."""

    phase: str
    hit: bool
    recovery_hits: int
    word: str
    detail: str
    samples: int
    moments: int


def _type_moments(command: RecordCommand) -> None:
    number = 0
    while command.type(f"note number {number}"):
        number += 1
        time.sleep(0.02)


def killed_once(number: int, top: Path) -> Outcome:
    """Record, kill, recover (perhaps killed too), and compare."""
    rng = random.Random(number)
    folder = top / str(number)
    folder.mkdir()
    out = folder / "run.h5"
    phase = PHASES[number % len(PHASES)]
    rate = rng.choice(RATES)
    command = RecordCommand(out, f"cell:bench?speed={SPEED}&rate={rate}&seed={number}")
    threading.Thread(target=_type_moments, args=(command,), daemon=True).start()
    hit = _hit(command, phase, rng)
    hits = 0
    if rng.random() < 0.3:
        hits = sum(_recovery_killed(folder, rng) for _ in range(2))
    try:
        cell = LessonCell("bench", seed=number)
        word, detail = judged(out, command.samples, command.moments, cell, rate)
    except (RecordingError, AssertionError) as error:
        word, detail = "WRONG", repr(error)
    shutil.rmtree(folder)
    return Outcome(phase, hit, hits, word, detail, command.samples, command.moments)


def _hit(command: RecordCommand, phase: str, rng: random.Random) -> bool:
    if phase == "starting":
        time.sleep(rng.uniform(0, START_S))
        return command.kill(group=True)
    command.wait_said("Recording to")
    if phase == "recording":
        time.sleep(rng.uniform(0, RUN_S))
        return command.kill(group=True)
    time.sleep(rng.uniform(0.1, 0.6))
    command.interrupt()
    command.wait_said("Saving")
    time.sleep(rng.uniform(0, SAVE_S))
    return command.kill(group=rng.random() < 0.5)


def _recovery_killed(folder: Path, rng: random.Random) -> int:
    process = subprocess.Popen(
        [sys.executable, "-c", MAIN, "recover", str(folder)],
        cwd=ROOT,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    with contextlib.suppress(subprocess.TimeoutExpired):
        process.wait(rng.uniform(0, RECOVER_S))
    hit = process.poll() is None
    with contextlib.suppress(ProcessLookupError):
        os.killpg(process.pid, signal.SIGKILL)
    process.wait(60)
    return int(hit)


def judged(
    out: Path, samples: int, moments: int, cell: LessonCell, rate: int, *, after_power_cut: bool = False
) -> tuple[str, str]:
    """Recover, read, and compare with what was acknowledged; return OK, LOST or WRONG, and what was seen.

    After a power cut, and not after a kill, whole frames may lie behind a hole: never acknowledged, and kept
    beside the recording.

    Raises
    ------
    RecordingError : it cannot be read.
    """
    for _ in range(2):  # recovering twice is harmless
        for journal in find_journals(out.parent):
            told = recover(journal)
            if told.outcome not in ("recovered", "empty") and not (
                after_power_cut and told.outcome == "partly"
            ):
                return "WRONG", told.message
    if not out.exists():
        journal = journal_of(out)
        if journal.exists() and read_head(journal) is not None:
            return "WRONG", "a journal with a head was not recovered"
        return ("OK", "") if samples == moments == 0 else ("LOST", "everything")
    kept = {out, damaged_of(journal_of(out))} if after_power_cut else {out}
    left = sorted(p.name for p in out.parent.iterdir() if p not in kept)
    if left:
        return "WRONG", f"left behind: {left}"
    return _compared(read_recording(out), samples, moments, cell, rate)


def _compared(
    found: Recording, acknowledged: int, moments: int, cell: LessonCell, rate: int
) -> tuple[str, str]:
    samples = sum(channel.values.size for channel in found.channels)
    notes = [m.label for m in found.moments if m.kind == "note"]
    if samples < acknowledged:
        return "LOST", f"{samples} of {acknowledged} samples"
    if len(found.moments) < moments:
        return "LOST", f"{len(found.moments)} of {moments} moments"
    if notes != [f"number {k}" for k in range(len(notes))]:
        return "WRONG", f"notes {notes[:5]} ..."
    for channel in found.channels:
        times_s = np.arange(samples) / rate
        if not np.array_equal(channel.times_s, times_s):
            return "WRONG", "times"
        if not np.array_equal(channel.values, cell.block(times_s)):
            return "WRONG", "values"
    return "OK", ""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the campaign; return 1 when it found something bad."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--quick", action="store_true", help="6 runs")
    parser.add_argument("--runs", type=int, default=1002)
    parser.add_argument("--seed", type=int, default=0, help="number of the first run")
    chosen = parser.parse_args(arguments)
    runs = 6 if chosen.quick else chosen.runs
    began_s = time.monotonic()
    with tempfile.TemporaryDirectory() as top, ThreadPoolExecutor(AT_ONCE) as pool:
        numbers = range(chosen.seed, chosen.seed + runs)
        found = list(pool.map(lambda number: killed_once(number, Path(top)), numbers))
    rows = []
    for phase in PHASES:
        mine = [one for one in found if one.phase == phase]
        words = Counter(one.word for one in mine)
        rows.append(
            [
                phase,
                len(mine),
                sum(one.hit for one in mine),
                sum(one.recovery_hits for one in mine),
                sum(one.samples for one in mine),
                sum(one.moments for one in mine),
                words["OK"],
                words["LOST"] or "-",
                words["WRONG"] or "-",
            ]
        )
    print_table(
        [
            "while",
            "runs",
            "killed",
            "recoveries killed",
            "samples acknowledged",
            "moments",
            "OK",
            "LOST",
            "WRONG",
        ],
        rows,
    )
    bad = [(number, one) for number, one in zip(numbers, found, strict=True) if one.word != "OK"]
    print(f"{runs} runs, {len(bad)} bad, {time.monotonic() - began_s:.0f} s")
    for number, one in bad[:10]:
        print(number, one)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
