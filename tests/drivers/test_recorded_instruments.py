"""Every emulated instrument recorded by the real command, all in one run, over pseudo-terminals and TCP."""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import h5py
import numpy as np
import pytest

from drivers.simulated.emulated import EMULATED
from tests.drivers.emulation import ROOT, EmulatorProcess

pytestmark = pytest.mark.skipif(os.name != "posix", reason="uses POSIX signals and pseudo-terminals")

SLOPE = 0.05  # volts per second of the emulated cell: a reading tells when it was taken
TIME_OFF_S = 0.35  # what a meter without a clock leaves open, and one step of its display
RECORD = "import sys; from logger.commands import main; sys.exit(main())"
LIMIT_S = 90


@contextlib.contextmanager
def emulators(*arguments: str) -> Iterator[dict[str, EmulatorProcess]]:
    """One of each kind, started at the same time."""
    running = {
        kind: EmulatorProcess(kind, *arguments, "--ramp", str(SLOPE), "--speed", "1") for kind in EMULATED
    }
    try:
        with ThreadPoolExecutor(len(running)) as starter:
            list(starter.map(lambda one: one.start(), running.values()))
        yield running
    finally:
        for one in running.values():
            one.end()


def record(out: Path, duration: str, *addresses: str) -> subprocess.CompletedProcess[str]:
    sources = [part for address in addresses for part in ("--source", address)]
    return subprocess.run(
        [sys.executable, "-c", RECORD, "record", *sources, "--out", str(out), "--for", duration],
        cwd=ROOT,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=LIMIT_S,
        check=False,
    )


@pytest.mark.parametrize("line", [(), ("--port", "0")], ids=["pseudo-terminal", "tcp"])
def test_all_kinds_in_one_run(tmp_path: Path, line: tuple[str, ...]):
    out = tmp_path / "run.h5"
    with emulators(*line) as running:
        addresses = [f"{one.address}?channel=of_{kind}" for kind, one in running.items()]
        done = record(out, "6s", *addresses)
    assert done.returncode == 0, done.stderr
    with h5py.File(out) as file:
        for kind in EMULATED:
            times_s = file[f"run/of_{kind}/time"][:]
            volts = file[f"run/of_{kind}/value"][:]
            assert times_s.size >= 4, kind
            apart_s = times_s - volts / SLOPE  # the same for all readings of one emulator
            off_s = np.abs(apart_s - np.median(apart_s))
            assert np.quantile(off_s, 0.75) < TIME_OFF_S, kind  # a busy computer may be late now and then


def test_the_command_serves_what_it_says(tmp_path: Path):
    """`galvanote emulate` itself: READY, a fault, and a clean end; the recording holds what the cell gave."""
    process = subprocess.Popen(
        [sys.executable, "-c", RECORD, "emulate", "lcd14", "--speed", "100", "--fault", "stall_at=5"],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    try:
        ready = process.stdout.readline().split()
        assert ready[0] == "READY"
        done = record(tmp_path / "run.h5", "4s", ready[1])
        assert done.returncode == 0, done.stderr
        process.send_signal(signal.SIGTERM)
        assert process.wait(20) == 0
    finally:
        process.kill()
        process.communicate()
    with h5py.File(tmp_path / "run.h5") as file:
        volts = file["run/cell_voltage/value"][:]
    assert volts.size >= 5
    assert np.isfinite(volts).all()
    assert ((volts > 0) & (volts < 40)).all()  # the demonstration cell; its stack has 27 V


def test_a_fault_that_is_none_is_wrong_use():
    done = subprocess.run(
        [sys.executable, "-c", RECORD, "emulate", "text", "--fault", "drp=1"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=LIMIT_S,
        check=False,
    )
    assert done.returncode == 2
    assert "did you mean drop" in done.stderr
