"""The window for an hour with everything on: python -m tests.campaigns.window_soak

    --minutes M   how long (default 60, at least 12)
    --hands-off   press no key: what the run alone takes

The real program on a virtual screen (Xvfb) records a simulated cell at 50 readings a second, not hurried,
with the live file and a second copy. Real keys (xdotool) tag a moment with words each half minute, show every
page and the view for the wall. Memory of the window and of the process of its live file, descriptors, threads
and processor time are sampled from outside, each 10 s.

"No growth" is judged in the second half: a line is fitted to the memory, and the whole 90 % interval of its
slope, the slow wandering of memory included, has to lie below what is allowed (the equivalence test that also
calls a voltage settled). The first half is for what is met once: pages made, libraries loaded, caches filled,
free lists of Python. So every part of a lesson has to be met there. In an hour it is: salt, growth, swap and
the saving come within 26 minutes. Code of a library that is read from its file at its first use counts as
memory of the window too; beside it is said how much is the window's own, and no page of a file, which the
system takes back as it likes. Allowed are 2 MB an hour, of which

* 0.8 MB are the moments: 7 kB each, some 110 of them, with words, flag, row in the list and undoing;
* the rest is the grain of the allocators: Python takes memory by the megabyte, and what is small and stays
  lies among what is let go.

The readings kept for the curve and the cells of the live judgement are not in it: their memory is there from
the first of them on.
Exit status 1 when the window or its live file grows by more, descriptors or threads grow, the program ends
badly, or a moment is missing in the file.
"""

from __future__ import annotations

import argparse
import os
import signal
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from logger.analysis.drift import drift
from logger.reader import read_recording
from tests.campaigns.process_figures import ProcessFigures
from tests.gui.virtual_screen import virtual_screen

COMMAND = [sys.executable, "-c", "import sys; from gui.app import main; sys.exit(main())"]
SOURCE = "cell:stability?speed=1&rate=50"
SAMPLE_EVERY_S = 10.0
MOMENT_EVERY_S = 30.0
PAGE_KEYS = ("F3", "F5", "F1", "F2", "F11", "F11")
PATIENCE_S = 60.0
LIVE = "logger.live"
"""What stands in the command of the process that writes the live file."""
SAID = {"window_MB": "window", "own_MB": "no file's pages", "live_MB": "live file"}
WARM_UP = 0.5
SHORTEST_MIN = 12.0
GROWTH_LIMIT_MB_PER_H = 2.0


class Hands:
    """Presses keys in the window, as a user does."""

    def __init__(self, environment: dict[str, str]) -> None:
        self._environment = environment
        self.moments = 0

    def do(self, *words: str) -> str:
        """Give `xdotool` one command."""
        done = subprocess.run(
            ["xdotool", *words], env=self._environment, capture_output=True, text=True, timeout=PATIENCE_S
        )
        if done.returncode:
            raise RuntimeError(f"xdotool {' '.join(words)}: {done.stderr.strip()}")
        return done.stdout

    def tag(self) -> None:
        """Tag a moment with words, then look at every page."""
        self.moments += 1
        self.do("key", "m")
        self.do("type", "--delay", "5", f"moment {self.moments}")
        self.do("key", "Return")
        for key in PAGE_KEYS:
            self.do("key", key)
            time.sleep(1.0)


@dataclass(frozen=True, slots=True)
class Row:
    """What the window uses at one time, and how much memory the process of its live file."""

    at_s: float
    window_MB: float
    own_MB: float
    live_MB: float
    descriptors: int
    threads: int
    cpu_s: float


@dataclass(frozen=True, slots=True)
class Soaked:
    """What was seen, how many moments were tagged, and how the program ended."""

    rows: list[Row]
    moments: int
    status: int

    def late(self, name: str) -> tuple[np.ndarray, np.ndarray]:
        """Return times and one figure of the rows after the warm-up."""
        rows = [row for row in self.rows if row.at_s >= WARM_UP * self.rows[-1].at_s]
        return np.array([row.at_s for row in rows]), np.array([float(getattr(row, name)) for row in rows])

    def rise(self, name: str) -> float:
        """Return by how much more of something there is in the second half of the late rows."""
        first, second = np.array_split(self.late(name)[1], 2)
        return float(np.median(second) - np.median(first))


def soak(minutes: float, folder: Path, *, hands_off: bool = False) -> Soaked:
    """Let the program run in `folder` and record to ``run.h5`` there."""
    second = folder / "second"
    second.mkdir()
    arguments = ["--source", SOURCE, "--out", str(folder / "run.h5"), "--live", str(folder / "live.h5")]
    arguments += ["--second-copy", str(second)]
    with virtual_screen() as (display, _server):
        environment = os.environ | {"DISPLAY": display, "QT_QPA_PLATFORM": "xcb"}
        environment |= {"XDG_CONFIG_HOME": str(folder / "config"), "XDG_DATA_HOME": str(folder / "data")}
        environment["HOME"] = str(folder)
        environment["PYTHONPATH"] = os.getcwd()
        hands = Hands(environment)
        window = subprocess.Popen([*COMMAND, *arguments], cwd=folder, env=environment)
        try:
            found = hands.do("search", "--sync", "--onlyvisible", "--name", "Galvanote")
            hands.do("windowfocus", "--sync", found.split()[0])
            time.sleep(3.0)
            rows = _watch(window, None if hands_off else hands, 60 * minutes)
            window.send_signal(signal.SIGTERM)  # saves without asking
            status = window.wait(PATIENCE_S)
        finally:
            if window.poll() is None:
                window.kill()
            window.wait(10)
    return Soaked(rows, hands.moments, status)


def _watch(window: subprocess.Popen[bytes], hands: Hands | None, seconds: float) -> list[Row]:
    figures = ProcessFigures(window.pid)
    begin_s = time.monotonic()
    rows: list[Row] = []
    tagged_s = 0.0
    while (at_s := time.monotonic() - begin_s) < seconds and window.poll() is None:
        if hands is not None and at_s - tagged_s >= MOMENT_EVERY_S:
            tagged_s = at_s
            hands.tag()
        try:
            rows.append(_row(at_s, figures))
        except ProcessLookupError:
            break  # it has ended by itself: its status tells
        if len(rows) % 30 == 0:
            last = rows[-1]
            print(
                f"{at_s / 60:6.1f} min: window {last.window_MB:.1f} MB, live file {last.live_MB:.1f} MB, "
                f"{last.descriptors} descriptors, {last.threads} threads",
                flush=True,
            )
        time.sleep(max(0.0, begin_s + len(rows) * SAMPLE_EVERY_S - time.monotonic()))
    return rows


def _row(at_s: float, figures: ProcessFigures) -> Row:
    live_MB = sum(ProcessFigures(pid).rss_MB() for pid, words in figures.children().items() if LIVE in words)
    others = live_MB, figures.descriptors(), figures.threads(), figures.cpu_s()
    return Row(at_s, figures.rss_MB(), figures.own_MB(), *others)


def grows(soaked: Soaked, name: str) -> bool:
    """Say how much memory one of the processes takes and whether it grows; tell whether that is too much."""
    times_s, MB = soaked.late(name)
    found = drift(times_s, MB)
    low, high = (3600 * end for end in found.interval(0.90))
    print(
        f"{SAID[name]}: {MB[0]:.1f} MB after {times_s[0] / 60:.0f} min, {MB[-1]:.1f} MB at the "
        f"end; {3600 * found.slope:+.2f} MB an hour in the second half (90 %: {low:+.2f} to {high:+.2f})"
    )
    return bool(high > GROWTH_LIMIT_MB_PER_H)


def main() -> int:
    """Soak and judge."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--minutes", type=float, default=60.0)
    parser.add_argument("--hands-off", action="store_true")
    arguments = parser.parse_args()
    minutes = arguments.minutes
    if minutes < SHORTEST_MIN:
        parser.error(f"--minutes {minutes:g} tells no slope: {SHORTEST_MIN:g} or more")
    with tempfile.TemporaryDirectory() as folder:
        soaked = soak(minutes, Path(folder), hands_off=arguments.hands_off)
        recording = read_recording(Path(folder) / "run.h5", is_own=True)
        labels = {moment.label for moment in recording.moments}
        count = recording.channels[0].values.size
    missing = [k for k in range(1, soaked.moments + 1) if f"moment {k}" not in labels]
    first, last = soaked.rows[0], soaked.rows[-1]
    share = (last.cpu_s - first.cpu_s) / (last.at_s - first.at_s)
    print(
        f"{last.at_s / 60:.1f} min, {count} readings, {soaked.moments} moments by key, "
        f"{len(missing)} missing; exit status {soaked.status}"
    )
    if soaked.status:
        return 1  # cut short: of its memory nothing can be told
    grown = [grows(soaked, name) for name in ("window_MB", "own_MB", "live_MB")]
    more = soaked.rise("descriptors"), soaked.rise("threads")
    print(
        f"descriptors {more[0]:+.0f}, threads {more[1]:+.0f} in the second half; "
        f"{100 * share:.0f} % of a core; load {os.getloadavg()[0]:.1f}"
    )
    is_good = not missing and not any(grown) and max(more) <= 0
    return 0 if is_good else 1


if __name__ == "__main__":
    raise SystemExit(main())
