"""How soon the window is there: python -m tests.benchmarks.start

    --times N    starts to measure (default 9)

The real program, started as a process of its own, without a screen unless QT_QPA_PLATFORM says otherwise.
Measured from before the process exists to the end of the window's first painting, and to the end of the first
painting of the curve with a reading in it. Python's compiled files are there, as after the first start ever:
an unmeasured start makes them, also where the environment says that none are to be written.
"""

from __future__ import annotations

import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

WANTED_S = 1.0
PATIENCE_S = 60.0

PROGRAM = """
import sys, time
from gui.app import main

def measure():
    from PySide6.QtCore import QTimer
    from gui.chart.chart import Chart
    from gui.window import Window

    told = set()
    def tell(word):
        if word not in told:
            told.add(word)
            print(word, repr(time.monotonic()), repr(time.process_time()), flush=True)

    show, paint = Window.showEvent, Chart.paintEvent
    def show_and_note(window, event):
        show(window, event)
        QTimer.singleShot(0, lambda: (window.repaint(), tell("window")))
    def paint_and_note(chart, event):
        paint(chart, event)
        if len(chart._overview):
            tell("curve")
            QTimer.singleShot(0, chart.window().stop_and_quit)
    Window.showEvent, Chart.paintEvent = show_and_note, paint_and_note

import gui.app
show_program = gui.app._show
def show_measured(*shown):
    measure()
    return show_program(*shown)
gui.app._show = show_measured
sys.exit(main())
"""


def start_once(folder: Path, compiled: Path) -> tuple[float, float, float, float]:
    """Return seconds and processor seconds to the window, and to a curve with a reading in it.

    Parameters
    ----------
    folder : for the settings and the run of this start.
    compiled : where Python's compiled files are, or are put.
    """
    environment = os.environ | {"XDG_CONFIG_HOME": str(folder), "XDG_DATA_HOME": str(folder)}
    environment.setdefault("QT_QPA_PLATFORM", "offscreen")
    environment["PYTHONPATH"] = os.getcwd()
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    environment["PYTHONPYCACHEPREFIX"] = str(compiled)
    command = [sys.executable, "-c", PROGRAM, "--out", str(folder / "run.h5")]
    begin_s = time.monotonic()
    done = subprocess.run(
        command, env=environment, cwd=folder, capture_output=True, text=True, timeout=PATIENCE_S
    )
    lines = [line.split() for line in done.stdout.splitlines()]
    told = {words[0]: (float(words[1]) - begin_s, float(words[2])) for words in lines if len(words) == 3}
    if done.returncode or not {"window", "curve"} <= set(told):
        raise SystemExit(f"the program did not start (status {done.returncode}): {done.stderr.strip()}")
    return *told["window"], *told["curve"]


def main() -> int:
    """Measure; return 1 when the median to the window is not what is wanted."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--times", type=int, default=9)
    times, rows = parser.parse_args().times, []
    with tempfile.TemporaryDirectory() as compiled:
        for _ in range(times + 1):
            with tempfile.TemporaryDirectory() as folder:
                rows.append(start_once(Path(folder), Path(compiled)))
    rows = rows[1:]
    for name, column in (("window painted", 0), ("first reading painted", 2)):
        times_s, own_s = ([row[k] for row in rows] for k in (column, column + 1))
        print(
            f"{name}: median {statistics.median(times_s):.2f} s, least {min(times_s):.2f} s, "
            f"most {max(times_s):.2f} s of {len(times_s)} starts; "
            f"its own processor time {statistics.median(own_s):.2f} s"
        )
    is_met = statistics.median(row[0] for row in rows) < WANTED_S
    print(f"{WANTED_S:g} s to the window {'met' if is_met else 'MISSED'}; load {os.getloadavg()[0]:.1f}")
    return 0 if is_met else 1


if __name__ == "__main__":
    raise SystemExit(main())
