"""A thousand times unplugged and back: python -m tests.campaigns.replug

One run with three boards, each pulled out and put back again and again while the run goes on: over TCP, on a
pseudo-terminal with a stable name, and on one that comes back under another name each time and is known by
its adapter's serial number. Exit status 1 unless each return brought readings, each absence is a gap of the
recording, and threads and descriptors are as many at the end as at the beginning. The pauses before the port
is opened again are shortened to a twentieth of a second.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import threading
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from types import SimpleNamespace
from unittest import mock

import h5py
import numpy as np
from serial.tools import list_ports

from drivers.registry import make_source
from drivers.simulated.emulated import Emulation, make_device
from drivers.simulated.endpoint import Endpoint, PseudoTerminal, TcpPort
from drivers.simulated.faults import Faults
from logger.run import Run
from tests.campaigns.process_figures import ProcessFigures
from tests.campaigns.table import print_table

CYCLES, QUICK_CYCLES = 1000, 8
PAUSE_S = 0.05
AWAY_S = 0.03
WARM_UP = 5
"""Cycles after which all lines wait, connected, while threads and descriptors are counted."""
READINGS_A_CYCLE = 3
RATE = 200.0
PATIENCE_S = 60.0
SETTLE_S = 2.0
SLACK = 2
"""Descriptors by which the count may differ: the journal and its folder are opened now and then."""


class Plug(threading.Thread):
    """A board on a line, unplugged each time the run has had some readings, and put back."""

    def __init__(self, kind: str, endpoint: Endpoint, cycles: int) -> None:
        super().__init__(name=f"plug {kind}", daemon=True)
        self.kind, self.endpoint, self.cycles = kind, endpoint, cycles
        self.done = 0
        self.is_there = True
        self.may_go_on = threading.Event()  # beyond the first few cycles
        self.readings = 0  # set from outside: how many readings of it the run has
        self._ending = threading.Event()
        self._device = make_device(
            Emulation(kind, lambda t: 2.0 + 0.001 * t, rate=RATE, form="volts"), Faults()
        )

    def run(self) -> None:
        begin_s = time.monotonic()
        seen = 0
        while not self._ending.is_set():
            self._serve(begin_s)
            has_leave = self.done < WARM_UP or self.may_go_on.is_set()
            if has_leave and self.done < self.cycles and self.readings >= seen + READINGS_A_CYCLE:
                self.is_there = False
                self.endpoint.unplug()
                time.sleep(AWAY_S)
                self.endpoint.replug()
                self.is_there = True
                seen = self.readings
                self.done += 1

    def _serve(self, begin_s: float) -> None:
        has_opened, data = self.endpoint.poll(0.01)
        now_s = time.monotonic() - begin_s
        out = self._device.take(now_s)
        if has_opened:
            self._device.attach(now_s)
        elif self.endpoint.is_open:
            self.endpoint.send(out)
        if data:
            self._device.receive(data, now_s)

    def stop(self) -> None:
        self._ending.set()
        self.join(10)
        self.endpoint.close()


class Counter:
    """Counts the readings of each channel as they are recorded."""

    def __init__(self, plugs: dict[str, Plug]) -> None:
        self._plugs = plugs

    def add(self, samples: object) -> None:
        plug = self._plugs.get(samples.channel)
        if plug is not None:
            plug.readings += len(samples)


@dataclass(frozen=True)
class Outcome:
    """What one line went through. `gaps` of the recording, `with_readings` returns that brought some."""

    line: str
    cycles: int
    gaps: int
    returns: int
    readings: int


def campaign(cycles: int, folder: Path) -> tuple[list[Outcome], list[tuple[int, int]], float]:
    """Return what each line went through, threads and descriptors near begin and end, and seconds."""
    renamed = PseudoTerminal()
    plugs = {
        "over_tcp": Plug("packet", TcpPort(0), cycles),
        "stable_name": Plug("text", PseudoTerminal(folder / "board"), cycles),
        "other_name": Plug("text", renamed, cycles),
    }
    addresses = [
        f"{plug.kind}:{plug.endpoint.port}?channel={name}&role=other" for name, plug in plugs.items()
    ]

    def comports() -> list[SimpleNamespace]:
        if not plugs["other_name"].is_there:
            return []  # its old name may be another's by now
        return [
            SimpleNamespace(
                device=renamed.port, vid=1, pid=2, serial_number="S1", location="", hwid="", description=""
            )
        ]

    with (
        mock.patch("logger.feed.RETRY_AFTER_S", (PAUSE_S,)),
        mock.patch.object(list_ports, "comports", comports),
    ):
        return _record(addresses, plugs, folder / "run.h5")


def _record(
    addresses: Sequence[str], plugs: dict[str, Plug], out: Path
) -> tuple[list[Outcome], list[tuple[int, int]], float]:
    figures = ProcessFigures()
    for plug in plugs.values():
        plug.start()
    session = Run([make_source(address) for address in addresses], out)
    session.add_listener(Counter(plugs))
    began_s = moved_s = time.monotonic()
    session.start()
    counts: list[tuple[int, int]] = []
    before = -1
    try:
        while any(plug.done < plug.cycles for plug in plugs.values()):
            time.sleep(0.1)
            done = sum(plug.done for plug in plugs.values())
            if done != before:
                before, moved_s = done, time.monotonic()
            if time.monotonic() - moved_s > PATIENCE_S:
                raise SystemExit(f"no return for {PATIENCE_S:g} s: {[one.done for one in plugs.values()]}")
            if not counts and all(plug.done == WARM_UP for plug in plugs.values()):
                time.sleep(SETTLE_S)
                counts.append(_steady(figures))
                for plug in plugs.values():
                    plug.may_go_on.set()
        time.sleep(SETTLE_S)  # let the last return bring its readings
        counts.append(_steady(figures))
    finally:
        saved = session.stop()
        for plug in plugs.values():
            plug.stop()
    return _outcomes(saved, plugs), counts, time.monotonic() - began_s


def _steady(figures: ProcessFigures) -> tuple[int, int]:
    """Return threads and descriptors; the fewest of a second, since lines come and go meanwhile."""
    found = []
    for _ in range(50):
        found.append((figures.threads(), figures.descriptors()))
        time.sleep(0.02)
    return min(one[0] for one in found), min(one[1] for one in found)


def _outcomes(saved: Path, plugs: dict[str, Plug]) -> list[Outcome]:
    outcomes = []
    with h5py.File(saved) as file:
        gaps = file["run/gaps"]
        channels = np.array(
            [str(one, "utf-8") if isinstance(one, bytes) else one for one in gaps["channel"][:]]
        )
        for name, plug in plugs.items():
            mine = channels == name
            times_s = file[f"run/{name}/time"][:]
            ends_s = np.sort(gaps["end"][:][mine])
            after = np.searchsorted(times_s, ends_s)
            outcomes.append(
                Outcome(name, plug.done, int(mine.sum()), int((after < times_s.size).sum()), times_s.size)
            )
    return outcomes


def main(arguments: list[str]) -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--cycles", type=int, default=CYCLES)
    parser.add_argument("--quick", action="store_true", help=f"{QUICK_CYCLES} cycles")
    options = parser.parse_args(arguments)
    cycles = QUICK_CYCLES if options.quick else options.cycles
    with tempfile.TemporaryDirectory() as folder:
        outcomes, counts, seconds = campaign(cycles, Path(folder))
    print_table(
        ["line", "cycles", "gaps", "returns with readings", "readings"],
        [[one.line, one.cycles, one.gaps, one.returns, one.readings] for one in outcomes],
    )
    (threads_0, files_0), (threads_1, files_1) = counts
    print(f"{seconds:.0f} s; threads {threads_0} -> {threads_1}, descriptors {files_0} -> {files_1}")
    is_whole = all(one.cycles == one.gaps == one.returns for one in outcomes)
    is_tight = threads_1 <= threads_0 and files_1 <= files_0 + SLACK
    return 0 if is_whole and is_tight else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
