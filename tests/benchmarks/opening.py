"""How soon a long recording is seen: python -m tests.benchmarks.opening [--samples N] [--keep FILE.h5]

The real program, started as a process of its own, without a screen unless QT_QPA_PLATFORM says otherwise;
under Xvfb: `xvfb-run -a env QT_QPA_PLATFORM=xcb python -m tests.benchmarks.opening`. Once with the file on
the command line, measured from before the process is, and once in a window that stands already, measured from
the call that opens a chosen file: to the end of the first painting with the curve in it, and to the findings.
Between them the view is narrowed to a hundredth. Memory is the greatest resident size by then.
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

from tests.benchmarks.findings import TARGET_SAMPLES, write_long
from tests.campaigns.table import print_table

WANTED_S, WANTED_MB = 0.5, 300.0
PATIENCE_S = 120.0

PROGRAM = """
import resource, sys, time
from pathlib import Path
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QFileDialog
import gui.app

path, is_on_command_line = sys.argv.pop(), sys.argv.pop() == "line"
if is_on_command_line:
    sys.argv.append(path)

def tell(word):
    peak_MB = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000
    print(word, repr(time.monotonic()), repr(time.process_time()), repr(peak_MB), flush=True)

def measure():
    from gui.chart.chart import Chart
    from gui.pages.findings_page import FindingsPage
    from gui.window import Window

    told = set()
    def once(word):
        if word not in told:
            told.add(word)
            tell(word)
            return True
        return False

    show, paint = Window.showEvent, Chart.paintEvent
    open_file, show_all = Window.open_file, FindingsPage._show
    def show_and_open(window, event):
        show(window, event)
        if not is_on_command_line:
            QTimer.singleShot(700, window.recordings.choose)
    def choose(*_arguments):
        time.sleep(1.0)  # as quick as nobody chooses a file
        return [path], ""
    def tell_and_open(window, file):
        once("asked")
        open_file(window, file)
    def paint_and_note(chart, event):
        paint(chart, event)
        if len(chart._overview) and once("curve"):
            QTimer.singleShot(100, lambda: look_closer(chart))
    def look_closer(chart):
        begin_s = time.monotonic()
        extent_s = chart._overview.extent_s
        chart.window_of_time.zoom(0.01, sum(extent_s) / 2)
        chart.refresh(0.0)
        chart.repaint()
        print("closer", repr(time.monotonic() - begin_s), "0.0", "0.0", flush=True)
    def show_and_note(page):
        show_all(page)
        if not page.finished.is_pending and once("findings"):
            QTimer.singleShot(300, lambda: (tell("end"), page.window().stop_and_quit()))
    QFileDialog.getOpenFileNames = choose
    Window.showEvent, Window.open_file = show_and_open, tell_and_open
    Chart.paintEvent, FindingsPage._show = paint_and_note, show_and_note

show_program = gui.app._show
def show_measured(files, plan, *more):
    measure()
    return show_program(files, None, *more)
gui.app._show = show_measured
sys.exit(gui.app.main())
"""

Row = dict[str, tuple[float, float, float]]


def open_once(path: Path, way: str) -> Row:
    """Return when each thing was seen, in seconds since before the process was, and the peak memory."""
    with tempfile.TemporaryDirectory() as folder:
        environment = os.environ | {"XDG_CONFIG_HOME": folder, "XDG_DATA_HOME": folder}
        environment.setdefault("QT_QPA_PLATFORM", "offscreen")
        environment["PYTHONPATH"] = os.getcwd()
        begin_s = time.monotonic()
        done = subprocess.run(
            [sys.executable, "-c", PROGRAM, way, str(path)],
            env=environment, cwd=folder, capture_output=True, text=True, timeout=PATIENCE_S,
        )  # fmt: skip
    lines = [line.split() for line in done.stdout.splitlines()]
    told = {words[0]: tuple(map(float, words[1:])) for words in lines if len(words) == 4}
    if done.returncode or not {"asked", "curve", "closer", "findings", "end"} <= set(told):
        raise SystemExit(f"it was not opened (status {done.returncode}): {done.stderr.strip()}")
    return {
        word: (at_s if word == "closer" else at_s - begin_s, own_s, MB)
        for word, (at_s, own_s, MB) in told.items()
    }


def compare(path: Path, times: int) -> bool:
    """Open it both ways, print what was seen; return whether the curve is there soon, in little memory."""
    rows, curve_s, peak_MB = [], 0.0, 0.0
    for way, words in (("line", "on the command line"), ("window", "in a standing window")):
        found = [open_once(path, way) for _ in range(times)]
        begun = [0.0 if way == "line" else one["asked"][0] for one in found]
        for name in ("curve", "findings"):
            taken = [one[name][0] - begin_s for one, begin_s in zip(found, begun, strict=True)]
            own = [one[name][1] - (0.0 if way == "line" else one["asked"][1]) for one in found]
            peak_MB = max(one[name][2] for one in found)
            rows.append(
                [f"{words}: {name} seen", f"{statistics.median(taken):.2f}", f"{min(taken):.2f}",
                 f"{statistics.median(own):.2f}", f"{peak_MB:.0f}"]
            )  # fmt: skip
            if (way, name) == ("window", "curve"):
                curve_s = statistics.median(taken)
        closer_s = [one["closer"][0] for one in found]
        peak_MB = max(peak_MB, *(one["end"][2] for one in found))
        rows.append(
            [f"{words}: a hundredth of it painted", f"{statistics.median(closer_s):.3f}",
             f"{min(closer_s):.3f}", "", f"{peak_MB:.0f}"]
        )  # fmt: skip
    print_table(["what", "s, median", "least", "processor s", "peak MB"], rows)
    is_met = curve_s < WANTED_S and peak_MB < WANTED_MB
    word = "met" if is_met else "MISSED"
    print(
        f"{WANTED_S:g} s from asking to the curve and {WANTED_MB:g} MB {word}; load {os.getloadavg()[0]:.1f}"
    )
    return is_met


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--samples", type=int, default=TARGET_SAMPLES)
    parser.add_argument("--keep", type=Path, help="write the recording here, or use the one that is here")
    parser.add_argument("--times", type=int, default=3)
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        path = (chosen.keep or Path(folder) / "long.h5").resolve()
        if not path.exists():
            write_long(path, chosen.samples)
        print(f"{chosen.samples} samples, a file of {path.stat().st_size / 1e6:.0f} MB")
        return 0 if compare(path, chosen.times) else 1


if __name__ == "__main__":
    raise SystemExit(main())
