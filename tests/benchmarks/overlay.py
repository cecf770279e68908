"""How fast runs over one another are drawn: python -m tests.benchmarks.overlay

    --quick      two runs of ten minutes

Eight runs of the simulated cell, an hour each at 50 readings a second, recorded by the real recorder at high
speed and read back from their files. A frame is the time from the change of the view to the end of the
painting; the second figure is the processor time of the thread, which others on the machine do not lengthen.
Without a screen unless QT_QPA_PLATFORM says otherwise.

Exit status 1 when a reading of a run is not covered by what is painted of its curve.
"""

from __future__ import annotations

import argparse
import itertools
import os
import platform
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import numpy as np
import PySide6
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication

from drivers.registry import make_source
from gui.fonts import load_fonts
from gui.shelf.overlay_chart import OverlayChart
from gui.shelf.overlay_view import OverlayRun
from gui.theme import Theme
from logger.channel_overview import overview_of
from logger.reader import read_recording
from logger.run import Run

__all__ = ["frames_ms", "make_chart", "readings_not_covered", "record", "run"]

RATE_PER_S = 50
SPEED = 1000
SIZES = ((816, 355), (1366, 640))
"""Pixels of the chart in a window of 1366x768, and of one of 1920x1080."""

FRAMES = 120
NEAREST_S = 20.0
SPANS_S = (60.0, 600.0)


def record(folder: Path, seed: int, length_s: float, noise: str = "lesson") -> Path:
    """Record a run of the simulated cell that lasts `length_s` on its own clock; return the file."""
    address = f"cell:bench?seed={seed}&noise={noise}&rate={RATE_PER_S}&speed={SPEED}"
    recorded = Run([make_source(address)], folder / f"run-{seed}.h5", title=f"Invented: run {seed}")
    recorded.start()
    try:
        recorded.wait_ended(length_s / SPEED)
    finally:
        saved = recorded.stop()
    return saved


def make_chart(theme: Theme, files: list[Path]) -> tuple[OverlayChart, int]:
    """Return a chart of these recordings, and how many readings they have."""
    runs = []
    for number, path in enumerate(files):
        recording = read_recording(path)
        channel = recording.channel("cell_voltage")
        assert channel is not None
        runs.append(OverlayRun(overview_of(channel, recording.gaps), 5.0 * number, path.stem, number))
    chart = OverlayChart(theme)
    chart.show_runs(runs, "Start")
    return chart, sum(len(run.overview) for run in runs)


def zooms(end_s: float) -> Iterator[tuple[float, float]]:
    """From the whole down to some seconds and back."""
    spans_s = np.geomspace(end_s, NEAREST_S, 30)
    for span_s in itertools.cycle((*spans_s, *spans_s[::-1])):
        yield 0.4 * (end_s - span_s), 0.4 * (end_s - span_s) + span_s


def frames_ms(chart: OverlayChart, count: int) -> tuple[np.ndarray, np.ndarray]:
    """Zoom through `count` frames; return how long each took, by the clock and in processor time."""
    looks = zooms(chart.view.whole[1])
    took, own = [], []
    for left_s, right_s in itertools.islice(looks, count):
        before_s, own_before_s = time.perf_counter(), time.thread_time()
        chart.view._stretch = left_s, right_s
        chart._draw()
        QApplication.processEvents()  # paints
        took.append(time.perf_counter() - before_s)
        own.append(time.thread_time() - own_before_s)
    return 1000 * np.array(took), 1000 * np.array(own)


def readings_not_covered(chart: OverlayChart, stretch_s: tuple[float, float]) -> tuple[int, int]:
    """Paint each curve alone; return how many readings were looked at, and beside how many it passes.

    A reading is covered where a pixel of the curve's colour lies at its time and voltage, or next to it:
    every single-sample spike is.
    """
    chart.view._stretch = stretch_s
    chart._draw()
    picture = chart._picture
    assert picture is not None
    looked_at = missed = 0
    for run, found in zip(picture.runs, picture.traces, strict=True):
        alone = replace(picture, runs=(run,), traces=(found,), colours=chart._theme.colours)
        image = QImage(chart.size(), QImage.Format.Format_RGB32)
        image.fill(QColor(chart._theme.colours.paper))
        painter = QPainter(image)
        alone._paint_curves(painter)
        painter.end()
        is_painted = pixels_of(image) != QColor(chart._theme.colours.paper).rgb()
        near = is_painted.copy()
        for axis, by in itertools.product((0, 1), (-1, 1)):
            near |= np.roll(is_painted, by, axis)
        readings = run.overview.samples_between(stretch_s[0] + run.zero_s, stretch_s[1] + run.zero_s)
        assert readings is not None
        times_s, voltages_V = readings
        x = picture.place.left() + picture.frame.x(times_s - run.zero_s)
        y = picture.place.top() + picture.frame.y(voltages_V)
        inside = (x >= picture.place.left()) & (x < picture.place.right())
        inside &= (y >= picture.place.top()) & (y < picture.place.bottom())
        looked_at += int(inside.sum())
        missed += int((~near[y[inside].astype(int), x[inside].astype(int)]).sum())
    return looked_at, missed


def pixels_of(image: QImage) -> np.ndarray:
    """Return the pixels as numbers 0xffRRGGBB, shape (height, width)."""
    rows = np.frombuffer(image.constBits(), np.uint32).reshape(image.height(), image.bytesPerLine() // 4)
    return rows[:, : image.width()]


def run(count: int, length_s: float, frames: int) -> int:
    """Record, draw and print; return the exit status."""
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    load_fonts()
    theme = Theme(app)
    theme.choose("light")
    print(f"{platform.platform()}, Python {platform.python_version()}, PySide6 {PySide6.__version__}")
    with tempfile.TemporaryDirectory() as place:
        files = [record(Path(place), seed, length_s) for seed in range(1, count + 1)]
        chart, readings = make_chart(theme, files)
    print(f"{count} runs, {readings} readings, zooming; ms a frame by the clock | of processor time")
    lost = 0
    for width, height in SIZES:
        chart.resize(width, height)
        chart.show()
        QApplication.processEvents()
        took_ms, own_ms = frames_ms(chart, frames)
        print(
            f"{width}x{height}: median {np.median(took_ms):.1f}, p99 {np.quantile(took_ms, 0.99):.1f}, "
            f"worst {took_ms.max():.1f} | median {np.median(own_ms):.1f}, worst {own_ms.max():.1f}",
            flush=True,
        )
        for span_s in SPANS_S:
            looked_at, missed = readings_not_covered(
                chart, (0.4 * (length_s - span_s), 0.4 * length_s + 0.6 * span_s)
            )
            print(f"  {span_s:g} s shown: {looked_at} readings looked at, {missed} not covered", flush=True)
            lost += missed
    chart.close()
    return 1 if lost else 0


def main() -> int:
    """Read the command line."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--quick", action="store_true")
    arguments = parser.parse_args()
    app = QApplication([])
    status = run(2, 600.0, 30) if arguments.quick else run(8, 3600.0, FRAMES)
    app.quit()
    return status


if __name__ == "__main__":
    sys.exit(main())
