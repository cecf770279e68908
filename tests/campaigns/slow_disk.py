"""Slow disks and flooding sources: python -m tests.campaigns.slow_disk

A disk whose syncs take 30 ms and sometimes stall for 5 s; a source of 100 kHz that stalls and floods; two
sources at different rates at once. Every reading must be in the file, and memory must stay bounded. Exit
status 1 otherwise.
"""

from __future__ import annotations

import argparse
import itertools
import multiprocessing
import sys
import tempfile
import threading
import time
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from drivers.address import parse_address
from drivers.errors import SourceEnded
from drivers.run_clock import RunClock
from drivers.samples import Delivery, Samples
from drivers.source import Channel, Instrument, Source
from logger.disk import Disk
from logger.reader import read_recording
from logger.run import Run
from tests.campaigns.process_figures import ProcessFigures
from tests.campaigns.table import print_table

MEMORY_LIMIT_MB = 250.0
"""The intake and the track may hold some 200 MB for a disk that takes nothing; a slow one needs far less."""


class SlowDisk(Disk):
    """A sync takes `sync_s`; every `stall_every`-th one stalls for `stall_s`."""

    def __init__(self, sync_s: float, stall_s: float, stall_every: int) -> None:
        self._sync_s = sync_s
        self._stall_s = stall_s
        self._stall_every = stall_every
        self._counts = itertools.count(1)
        self._pause = threading.Event()

    def sync_data(self, fd: int) -> None:
        stalls = next(self._counts) % self._stall_every == 0
        self._pause.wait(self._stall_s if stalls else self._sync_s)
        super().sync_data(fd)


@dataclass(frozen=True)
class Flow:
    """A source of `rate` readings a second for `duration_s`, silent for `stall_s` every `every_s`.

    What was not sent while silent comes all at once afterwards, as from a driver that buffers.
    """

    name: str
    rate: float
    duration_s: float
    every_s: float = 1e9
    stall_s: float = 0.0


class FlowSource(Source):
    """Delivers a `Flow`: the value of a reading tells its number."""

    silent_after_s = 1e9

    def __init__(self, flow: Flow) -> None:
        super().__init__(parse_address(f"flow:{flow.name}"))
        self._flow = flow
        self._next = 0

    @property
    def channels(self) -> tuple[Channel, ...]:
        return (Channel(self._flow.name, "cell_voltage" if self._flow.name == "cell_voltage" else "other"),)

    @property
    def instrument(self) -> Instrument:
        return Instrument(self.address.text)

    def open(self, clock: RunClock) -> None:
        self._clock = clock

    def read(self, timeout_s: float) -> Delivery:
        self._clock.sleep_s(0.01)
        flow, now_s = self._flow, self._clock.now_s()
        if self._next >= flow.rate * flow.duration_s:
            raise SourceEnded("over")
        if flow.stall_s and now_s % flow.every_s > flow.every_s - flow.stall_s:
            return Delivery()
        last = min(int(now_s * flow.rate), int(flow.rate * flow.duration_s), self._next + 50_000)
        number = np.arange(self._next, max(last, self._next))
        self._next += number.size
        if not number.size:
            return Delivery()
        samples = Samples(flow.name, number / flow.rate, number * 1e-6, np.zeros(number.size, np.uint8))
        return Delivery((samples,))

    def close(self) -> None:
        pass


@dataclass(frozen=True)
class Case:
    name: str
    flows: tuple[Flow, ...]
    sync_s: float = 0.0
    stall_s: float = 0.0
    stall_every: int = 10**9


FLOOD = Flow("cell_voltage", 100_000, 30, every_s=8, stall_s=4)
STEADY = Flow("cell_voltage", 10_000, 30)
CASES = (
    Case("sync 30 ms, stalls of 5 s; 10 kHz", (STEADY,), 0.03, 5.0, 4),
    Case("sync 30 ms, stalls of 5 s; 100 kHz", (replace(STEADY, rate=100_000),), 0.03, 5.0, 4),
    Case("100 kHz that stalls 4 s and floods", (FLOOD,)),
    Case("the same on the slow disk", (FLOOD,), 0.03, 5.0, 4),
    Case("10 kHz and 3 Hz at once, slow disk", (STEADY, Flow("other", 3, 30)), 0.03, 5.0, 4),
)


@dataclass(frozen=True)
class Figures:
    sent: int
    recorded: int
    is_right: bool
    most_waiting: int
    refused: bool
    base_MB: float
    peak_MB: float
    seconds: float


def recorded(case: Case, folder: str) -> Figures:
    """Record a case in this process and read it back."""
    out = Path(folder) / "run.h5"
    figures = ProcessFigures()
    base_MB = figures.rss_MB()
    disk = SlowDisk(case.sync_s, case.stall_s, case.stall_every)
    run = Run([FlowSource(flow) for flow in case.flows], out, disk=disk)
    began_s = time.monotonic()
    run.start()
    most = 0
    peak_MB = base_MB
    while not run.wait_ended(0.05):
        most = max(most, run.status().waiting_samples)
        peak_MB = max(peak_MB, figures.rss_MB())
    run.stop()
    peak_MB = max(peak_MB, figures.rss_MB())
    seconds = time.monotonic() - began_s
    channels = {channel.name: channel for channel in read_recording(out).channels}
    is_right = True
    for flow in case.flows:
        number = np.arange(int(flow.rate * flow.duration_s))
        channel = channels[flow.name]
        is_right &= np.array_equal(channel.values, number * 1e-6)
        is_right &= np.array_equal(channel.times_s, number / flow.rate)
    refused = any(notice.code == "too_slow" for notice in run.status().notices)
    return Figures(
        sum(int(flow.rate * flow.duration_s) for flow in case.flows),
        sum(channel.values.size for channel in channels.values()),
        is_right,
        most,
        refused,
        base_MB,
        peak_MB,
        seconds,
    )


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the campaign; return 1 when it found something bad."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--quick", action="store_true", help="runs of 2 s with stalls of 0.5 s")
    chosen = parser.parse_args(arguments)
    rows = []
    bad = 0
    for case in CASES:
        if chosen.quick:
            case = shortened(case)
        with tempfile.TemporaryDirectory() as folder, multiprocessing.get_context("spawn").Pool(1) as pool:
            found = pool.apply(recorded, (case, folder))
        is_good = found.is_right and not found.refused and found.peak_MB - found.base_MB < MEMORY_LIMIT_MB
        bad += not is_good
        rows.append(
            [
                case.name,
                f"{found.seconds:.0f} s",
                found.sent,
                found.recorded,
                found.most_waiting,
                f"{found.base_MB:.0f}",
                f"{found.peak_MB:.0f}",
                "all right" if is_good else "BAD",
            ]
        )
    print_table(["what", "took", "sent", "recorded", "most waiting", "MB before", "MB at most", "so"], rows)
    return 1 if bad else 0


def shortened(case: Case) -> Case:
    """The same in two seconds."""
    flows = tuple(
        replace(flow, duration_s=2, every_s=1, stall_s=0.5 if flow.stall_s else 0) for flow in case.flows
    )
    return replace(case, flows=flows, stall_s=min(case.stall_s, 0.5), stall_every=2)


if __name__ == "__main__":
    sys.exit(main())
