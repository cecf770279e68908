"""The program stopped in the middle of a run: python -m tests.campaigns.frozen

    --quick      20 s of standstill instead of 100 s

Each kind of instrument is emulated by a process of its own and recorded by the real command, which is stopped
(SIGSTOP) after ten seconds and goes on (SIGCONT) later, while the instrument goes on all the time. Exit
status 1 unless in each recording the times never decrease, those of a board are true to 0.1 s by its
own clock, all that is missing is a gap, and neither a gap nor a message blames the instrument.
"""

from __future__ import annotations

import argparse
import signal
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

import h5py
import numpy as np

from tests.campaigns.record_command import MAIN, ROOT
from tests.campaigns.table import print_table
from tests.drivers.emulation import EmulatorProcess

KINDS = {
    "text, TCP": ("text", "--rate", "20", "--port", "0"),
    "text, pty": ("text", "--rate", "20"),
    "packet, pty": ("packet", "--rate", "860"),
    "scpi, TCP": ("scpi", "--port", "0"),
}
BEFORE_S, AFTER_S = 10.0, 20.0
STILL_S, QUICK_STILL_S = 100.0, 20.0
TICK_S = 1e-6
TRUE_WITHIN_S = 0.1
LONGEST_STEP_S = 2.0
"""Between two readings of these instruments, where none is missing."""

BLAME = ("restarted", "clock differs", "asleep", "No data from", "readings a second")
TORN_LINES = 2
"""Where a buffer was full a line is torn; its reading has no time of the board."""


@dataclass(frozen=True)
class Outcome:
    """What became of one run. `untrue` readings whose time differs from the board's; None without a board."""

    kind: str
    readings: int
    untrue: int | None
    gaps_s: float
    missing_s: float
    reasons: tuple[str, ...]
    blamed: tuple[str, ...]
    is_in_order: bool

    @property
    def is_right(self) -> bool:
        """Whether all of it is as it should be."""
        are_ours = all(reason == "the program stood still" or "lost" in reason for reason in self.reasons)
        is_true = self.untrue is None or self.untrue <= TORN_LINES
        gaps_are_known = abs(self.gaps_s - self.missing_s) < 1.0
        return self.is_in_order and is_true and gaps_are_known and are_ours and not self.blamed


class Frozen:
    """One command on one emulated instrument."""

    def __init__(self, kind: str, out: Path, still_s: float) -> None:
        self.kind, self.out = kind, out
        self._emulator = EmulatorProcess(*KINDS[kind])
        self._emulator.start()
        limit_s = BEFORE_S + still_s + AFTER_S
        command = [sys.executable, "-c", MAIN, "record", "--source", self._emulator.address]
        self._process = subprocess.Popen(
            [*command, "--out", str(out), "--for", f"{limit_s:.0f}s"],
            cwd=ROOT,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )

    def signal(self, number: int) -> None:
        """Stop the command, or let it go on."""
        self._process.send_signal(number)

    def outcome(self) -> Outcome:
        """Wait for the end of the run, and look at its recording and at what was said."""
        said, _ = self._process.communicate(timeout=120)
        self._emulator.end()
        with h5py.File(self.out) as file:
            channel = file["run/cell_voltage"]
            times_s = channel["time"][()]
            ticks = channel["board_ticks"][()] if "board_ticks" in channel else None
            gaps = file["run/gaps"]
            begins_s, ends_s = gaps["begin"][()], gaps["end"][()]
            reasons = tuple(text.decode() for text in gaps["reason"][()])
        steps_s = np.diff(times_s)
        return Outcome(
            kind=self.kind,
            readings=times_s.size,
            untrue=None if ticks is None else _untrue(times_s, ticks),
            gaps_s=float((ends_s - begins_s).sum()),
            missing_s=float(steps_s[steps_s > LONGEST_STEP_S].sum()),
            reasons=reasons,
            blamed=tuple(word for word in BLAME if word in said),
            is_in_order=bool((steps_s >= 0).all()),
        )


def _untrue(times_s: np.ndarray, ticks: np.ndarray) -> int:
    """Count the readings whose distance from the board's clock is not the usual one."""
    apart_s = times_s - ticks * TICK_S
    return int((np.abs(apart_s - np.median(apart_s)) > TRUE_WITHIN_S).sum())


def campaign(still_s: float, folder: Path) -> list[Outcome]:
    """Return what became of each run; all of them stand still at once."""
    runs = [Frozen(kind, folder / f"{number}.h5", still_s) for number, kind in enumerate(KINDS)]
    time.sleep(BEFORE_S)
    for run in runs:
        run.signal(signal.SIGSTOP)
    time.sleep(still_s)
    for run in runs:
        run.signal(signal.SIGCONT)
    return [run.outcome() for run in runs]


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--quick", action="store_true")
    still_s = QUICK_STILL_S if parser.parse_args().quick else STILL_S
    with tempfile.TemporaryDirectory() as folder:
        outcomes = campaign(still_s, Path(folder))
    print_table(
        ("instrument", "readings", "times untrue", "gaps s", "missing s", "why", "blamed"),
        [
            (
                one.kind, one.readings, "–" if one.untrue is None else one.untrue, f"{one.gaps_s:.1f}",
                f"{one.missing_s:.1f}", "; ".join(one.reasons) or "–", ", ".join(one.blamed) or "nobody",
            )
            for one in outcomes
        ],
    )  # fmt: skip
    return 0 if all(one.is_right for one in outcomes) else 1


if __name__ == "__main__":
    sys.exit(main())
