"""The window for an hour with everything on: python -m tests.campaigns.window_soak

    --minutes M   how long (default 60)

The real program on a virtual screen (Xvfb) records a simulated cell at 50 readings a second, not hurried,
with the live file and a second copy. Real keys (xdotool) tag a moment with words each half minute, show every
page and the view for the wall. Memory, descriptors, threads and processor time are sampled from outside, each
10 s. Exit status 1 when memory grows by more than 6 MB an hour after the first fifth, descriptors or threads
grow, the program ends badly, or a moment is missing in the file.
"""

from __future__ import annotations

import argparse
import os
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np

from logger.reader import read_recording
from tests.campaigns.process_figures import ProcessFigures

COMMAND = [sys.executable, "-c", "import sys; from gui.app import main; sys.exit(main())"]
SOURCE = "cell:bench?speed=1&rate=50"
SAMPLE_EVERY_S = 10.0
MOMENT_EVERY_S = 30.0
PAGE_KEYS = ("F3", "F5", "F1", "F2", "F11", "F11")
PATIENCE_S = 60.0
WARM_UP = 0.2
GROWTH_LIMIT_MB_PER_H = 6.0


@contextmanager
def virtual_screen() -> Iterator[str]:
    """Start a virtual screen; yield its name."""
    read, write = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(write), "-screen", "0", "1366x768x24", "-nolisten", "tcp"],
        pass_fds=(write,),
        stderr=subprocess.DEVNULL,
    )
    os.close(write)
    try:
        with os.fdopen(read) as told:
            yield f":{told.readline().strip()}"
    finally:
        server.terminate()
        server.wait(10)


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


def soak(minutes: float, folder: Path) -> tuple[np.ndarray, Hands, Path, int]:
    """Return rows of (s, MB, descriptors, threads, processor s), the hands, the file, the exit status."""
    out = folder / "run.h5"
    second = folder / "second"
    second.mkdir()
    arguments = ["--source", SOURCE, "--out", str(out), "--live", str(folder / "live.h5")]
    arguments += ["--second-copy", str(second)]
    with virtual_screen() as display:
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
            rows = _watch(window, hands, 60 * minutes)
            window.send_signal(signal.SIGTERM)  # saves without asking
            status = window.wait(PATIENCE_S)
        finally:
            if window.poll() is None:
                window.kill()
            window.wait(10)
    return np.array(rows), hands, out, status


def _watch(window: subprocess.Popen[bytes], hands: Hands, seconds: float) -> list[tuple[float, ...]]:
    figures = ProcessFigures(window.pid)
    begin_s = time.monotonic()
    rows: list[tuple[float, ...]] = []
    tagged_s = 0.0
    while (at_s := time.monotonic() - begin_s) < seconds and window.poll() is None:
        if at_s - tagged_s >= MOMENT_EVERY_S:
            tagged_s = at_s
            hands.tag()
        row = (figures.rss_MB(), float(figures.descriptors()), float(figures.threads()), figures.cpu_s())
        rows.append((at_s, *row))
        if len(rows) % 30 == 0:
            print(f"{at_s / 60:6.1f} min: {row[0]:.1f} MB, {row[1]:.0f} descriptors, {row[2]:.0f} threads")
            sys.stdout.flush()
        time.sleep(max(0.0, begin_s + len(rows) * SAMPLE_EVERY_S - time.monotonic()))
    return rows


def main() -> int:
    """Soak and judge."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--minutes", type=float, default=60.0)
    minutes = parser.parse_args().minutes
    with tempfile.TemporaryDirectory() as folder:
        rows, hands, out, status = soak(minutes, Path(folder))
        recording = read_recording(out, is_own=True)
        labels = {moment.label for moment in recording.moments}
        count = recording.channels[0].values.size
    late = rows[rows[:, 0] >= WARM_UP * rows[-1, 0]]
    slope = float(np.polyfit(late[:, 0] / 3600, late[:, 1], 1)[0])
    halves = np.array_split(late, 2)
    more = [float(np.median(halves[1][:, k]) - np.median(halves[0][:, k])) for k in (2, 3)]
    missing = [k for k in range(1, hands.moments + 1) if f"moment {k}" not in labels]
    share = (rows[-1, 4] - rows[0, 4]) / (rows[-1, 0] - rows[0, 0])
    print(
        f"{rows[-1, 0] / 60:.1f} min, {count} readings, {hands.moments} moments by key, "
        f"{len(missing)} missing; exit status {status}\n"
        f"memory {late[0, 1]:.1f} MB after the warm-up, {late[-1, 1]:.1f} MB at the end, "
        f"{slope:+.1f} MB an hour; largest {rows[:, 1].max():.1f} MB\n"
        f"descriptors {more[0]:+.0f}, threads {more[1]:+.0f} from the first half to the second; "
        f"{100 * share:.0f} % of a core; load {os.getloadavg()[0]:.1f}"
    )
    is_good = status == 0 and not missing and slope <= GROWTH_LIMIT_MB_PER_H and max(more) <= 0
    return 0 if is_good else 1


if __name__ == "__main__":
    raise SystemExit(main())
