"""kill -9 at any moment of a recording: nothing that was acknowledged is missing, nothing is wrong."""

from __future__ import annotations

import contextlib
import os
import random
import re
import signal
import subprocess
import sys
import threading
from pathlib import Path

import numpy as np
import pytest

from drivers.simulated.cell import LessonCell
from logger.journal import journal_of
from logger.reader import read_recording
from logger.recovery import recover

RUNS = 25
ROOT = Path(__file__).resolve().parents[2]
SOURCE = "cell:bench?speed=50&rate=40&seed={seed}"

pytestmark = pytest.mark.skipif(os.name == "nt", reason="SIGKILL")


def record_and_kill(out: Path, seed: int, after_s: float) -> tuple[int, int]:
    """Record, tag moments all the while, kill; return samples and moments acknowledged by then."""
    process = subprocess.Popen(
        [sys.executable, "-m", "tests.logger.record_command", SOURCE.format(seed=seed), str(out)],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        bufsize=1,
    )
    assert process.stdout is not None
    assert process.stdin is not None
    samples = moments = 0
    first = process.stdout.readline()
    killer = threading.Timer(after_s, process.send_signal, [signal.SIGKILL])
    killer.start()
    feeder = threading.Thread(target=_type_moments, args=(process,), daemon=True)
    feeder.start()
    for line in (first, *process.stdout):
        found = re.fullmatch(r"ACK samples=(\d+) moments=(\d+)\n", line)
        if found:
            samples, moments = int(found[1]), int(found[2])
    assert process.wait(10) == -signal.SIGKILL
    feeder.join(5)
    process.stdout.close()
    with contextlib.suppress(BrokenPipeError):
        process.stdin.close()
    return samples, moments


def _type_moments(process: subprocess.Popen[str]) -> None:
    number = 0
    pause = threading.Event()
    while process.poll() is None:
        try:
            process.stdin.write(f"note number {number}\n")
        except (BrokenPipeError, ValueError):
            return
        number += 1
        pause.wait(0.02)


@pytest.mark.parametrize("number", range(RUNS))
def test_nothing_acknowledged_is_missing(tmp_path, number):
    out = tmp_path / "run.h5"
    after_s = random.Random(number).uniform(0.0, 1.6)
    samples, moments = record_and_kill(out, number, after_s)
    for _ in range(2):  # recovering twice is harmless
        if journal_of(out).exists():
            assert recover(journal_of(out)).outcome == "recovered"
    recording = read_recording(out)
    (channel,) = recording.channels
    assert channel.values.size >= samples
    notes = [m.label for m in recording.moments if m.kind == "note"]
    assert len(recording.moments) >= moments
    assert notes == [f"number {k}" for k in range(len(notes))]
    np.testing.assert_array_equal(channel.times_s, np.arange(channel.values.size) / 40)
    np.testing.assert_array_equal(channel.values, LessonCell("bench", seed=number).block(channel.times_s))
