"""How fast the curve is drawn, beside the plotting library's own: python -m tests.benchmarks.chart

    --quick      up to a million samples, and a second of each live rate
    --full       up to fifty million samples

In one process and in turns, some frames each: our chart, the curve of the library as it comes ("stock"), and
the same with its peak downsampling and clipping to the view ("peak"). A machine that slows down for a while
meets all three alike. They show the same stretch of time and of voltage, the one to which our chart has
fitted its axis. A frame is the time from the change of the view to the end of the painting. The window is
1600 x 900 without a screen unless QT_QPA_PLATFORM says otherwise.

Exit status 1 when one column differs from brute force, or one single-sample spike is not shown.
"""

from __future__ import annotations

import argparse
import gc
import itertools
import os
import platform
import statistics
import sys
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import numpy as np
import pyqtgraph as pg
import PySide6
from PySide6.QtCore import QEventLoop, QTimer
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QApplication, QWidget

from drivers.samples import Samples
from gui.app import SWITCH_INTERVAL_S
from gui.chart.chart import Chart
from gui.chart.notes import Notes
from gui.fonts import load_fonts
from gui.frame_clock import FrameClock
from gui.theme import Theme
from logger.moments import new_moment
from logger.overview import Overview
from logger.trace import trace

WIDTH, HEIGHT = 1600, 900
RATE_PER_S = 1000.0
COUNTS = {"quick": (10_000, 1_000_000), "usual": (10_000, 100_000, 1_000_000, 10_000_000)}
LIVE_RATES = (100, 10_000, 100_000)
IN_VIEW_S = 600.0
BLOCK_S = 0.01  # more often than pictures, so that it is not these that limit them
WARM_UP_S = 0.5
BUDGET_S = 2.0
FEWEST, MOST, TURNS = 3, 120, 6
UNTIMED_S = 0.05
"""Frames of so long at the beginning of a turn are not counted: at work no other drawing is in between."""
PAN_SHARE = 0.01
ZOOM_TO = 1000


@dataclass(frozen=True, slots=True)
class Figures:
    """Times of frames in milliseconds."""

    median: float
    p99: float
    worst: float
    own: float  # median of the processor time of the thread: what others take of the machine is not in it

    @classmethod
    def of(cls, times_s: list[float], own_s: list[float]) -> Figures:
        ms = 1000 * np.array(times_s)
        own = 1000 * statistics.median(own_s)
        return cls(float(np.median(ms)), float(np.quantile(ms, 0.99)), float(ms.max()), own)


def voltages(count: int) -> np.ndarray:
    """A falling voltage with noise, invented."""
    noise = np.random.default_rng(5).standard_normal(count)
    return 2.25 - 0.25 * np.linspace(0, 1, count) + 0.002 * noise


class Ours:
    """Our chart, looking at a stretch of time."""

    name = "ours"

    def __init__(self, theme: Theme, times_s: np.ndarray, values: np.ndarray) -> None:
        self.chart = Chart(theme)
        self.overview = Overview.of(times_s, values)
        self.widget: QWidget = self.chart
        self._end_s = float(times_s[-1])
        self._ranges_V: dict[tuple[float, float], tuple[float, float]] = {}
        self.chart.resize(WIDTH, HEIGHT)
        self.chart.show_overview(self.overview, is_live=False)
        self.chart.show()

    def look(self, left_s: float, right_s: float) -> None:
        window = self.chart.window_of_time
        window.is_following, window._left_s, window._span_s = False, left_s, right_s - left_s
        self.chart.refresh(self._end_s)
        QApplication.processEvents()  # paints
        assert self.chart.frame is not None
        self._ranges_V[left_s, right_s] = self.chart.frame.low_V, self.chart.frame.high_V

    def voltages_V(self, left_s: float, right_s: float) -> tuple[float, float]:
        """What was shown with that stretch of time; with one that was not shown, what was shown last."""
        return self._ranges_V.get((left_s, right_s), next(reversed(self._ranges_V.values())))


class Stock:
    """The library's curve as it comes, or with peak downsampling and clipping, at the voltages of `ours`."""

    def __init__(self, times_s: np.ndarray, values: np.ndarray, ours: Ours, *, peak: bool) -> None:
        self._ours = ours
        self.name = "peak" if peak else "stock"
        self.plot = pg.PlotWidget()
        self.widget: QWidget = self.plot
        self.plot.resize(WIDTH, HEIGHT)
        self.curve = self.plot.plot(pen=pg.mkPen("b", width=1))
        if peak:  # after adding: adding resets them
            self.curve.setDownsampling(auto=True, method="peak")
            self.curve.setClipToView(True)
        self.plot.disableAutoRange()
        self.plot.setYRange(1.9, 2.3)
        self.plot.setXRange(0, float(times_s[-1]), padding=0)
        self.curve.setData(times_s, values)
        self.plot.show()

    def look(self, left_s: float, right_s: float) -> None:
        self.plot.setRange(xRange=(left_s, right_s), yRange=self._ours.voltages_V(left_s, right_s), padding=0)
        QApplication.processEvents()


Drawing = Ours | Stock


@dataclass(slots=True)
class Frames:
    """Frames of one drawing, timed in turns with those of others."""

    drawing: Drawing
    looks: Iterator[tuple[float, float]]
    times_s: list[float] = field(default_factory=list)
    own_s: list[float] = field(default_factory=list)

    def take_turn(self) -> None:
        """Time frame after frame, at least one, until the share of a turn is used up."""
        begin_s = time.perf_counter()
        for look in self.looks:  # fill caches that the others have emptied
            self.drawing.look(*look)
            if time.perf_counter() - begin_s > UNTIMED_S:
                break
        begin_s = time.perf_counter()
        for left_s, right_s in itertools.islice(self.looks, MOST // TURNS):
            before_s, own_before_s = time.perf_counter(), time.thread_time()
            self.drawing.look(left_s, right_s)
            self.times_s.append(time.perf_counter() - before_s)
            self.own_s.append(time.thread_time() - own_before_s)
            if time.perf_counter() - begin_s > BUDGET_S / TURNS:
                break


def timed(
    looks: Callable[[float], Iterator[tuple[float, float]]], end_s: float, drawings: Sequence[Drawing]
) -> list[Figures]:
    """Time the frames of some drawings, turn by turn: a machine that slows down meets them all alike."""
    found = [Frames(drawing, looks(end_s)) for drawing in drawings]
    for _ in range(TURNS):
        for frames in found:
            frames.take_turn()
    return [Figures.of(frames.times_s, frames.own_s) for frames in found]


def full_views(end_s: float) -> Iterator[tuple[float, float]]:
    """Nearly the whole, never twice the same."""
    while True:
        for i in range(1, 40):
            yield 0.0, end_s * (1 + 0.0005 * i)


def pans(end_s: float) -> Iterator[tuple[float, float]]:
    """A hundredth of the run, moving along."""
    span_s = PAN_SHARE * end_s
    while True:
        for share in np.linspace(0.05, 0.9, 97):
            yield share * end_s, share * end_s + span_s


def zooms(end_s: float) -> Iterator[tuple[float, float]]:
    """From the whole down to a thousand samples and back."""
    while True:
        for span_s in np.geomspace(end_s, max(ZOOM_TO / RATE_PER_S, end_s / 1e6), 20):
            yield 0.4 * (end_s - span_s), 0.4 * (end_s - span_s) + span_s


def compare_views(theme: Theme, counts: tuple[int, ...]) -> dict[int, dict[str, dict[str, Figures]]]:
    """Print and return the frames of all three for each number of samples."""
    print("\nms a frame: ours by the clock, then processor time of the thread, which others do not lengthen")
    print("   samples   view |    ours med    p99    max |   ours    stock    peak | stock/ours peak/ours")
    found: dict[int, dict[str, dict[str, Figures]]] = {}
    for count in counts:
        times_s, values = np.arange(count) / RATE_PER_S, voltages(count)
        found[count] = {}
        shown = Ours(theme, times_s, values)
        drawings: list[Drawing] = [
            shown,
            Stock(times_s, values, shown, peak=False),
            Stock(times_s, values, shown, peak=True),
        ]
        QApplication.processEvents()
        for view, looks in (("full", full_views), ("pan", pans), ("zoom", zooms)):
            figures = timed(looks, float(times_s[-1]), drawings)
            found[count][view] = {d.name: row for d, row in zip(drawings, figures, strict=True)}
            ours, stock, peak = figures
            print(
                f"{count:>10} {view:>6} | {ours.median:>11.2f} {ours.p99:>6.2f} {ours.worst:>6.2f} | "
                f"{ours.own:>6.2f} {stock.own:>8.2f} {peak.own:>7.2f} | {stock.own / ours.own:>9.1f}x "
                f"{peak.own / ours.own:>8.1f}x",
                flush=True,
            )
        for drawing in drawings:
            drawing.widget.close()
            drawing.widget.deleteLater()
        del drawings
        QApplication.processEvents()
        gc.collect()
    return found


class Follower(Chart):
    """Our chart, following as in the window: by its clock, with a dot at the newest reading.

    It notes when each picture was ready.
    """

    def __init__(self, theme: Theme, now_s: Callable[[], float]) -> None:
        super().__init__(theme)
        self.painted_s, self.frames_s, self.own_s = list[float](), list[float](), list[float]()
        self._run_s = now_s
        self._begun_s: tuple[float, float] | None = None
        self._clock = FrameClock(self)
        self._clock.ticked.connect(self.pace.ask)
        self.pace.due.connect(self._follow)

    def _follow(self) -> None:
        begun_s = time.perf_counter(), time.thread_time()
        self.show_notes(Notes(last=self._overview.last))
        if self.refresh(self._run_s()):
            self._begun_s = begun_s

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self._begun_s is not None:
            self.painted_s.append(time.perf_counter())
            self.frames_s.append(self.painted_s[-1] - self._begun_s[0])
            self.own_s.append(time.thread_time() - self._begun_s[1])
            self._begun_s = None

    def watch(self, seconds: float) -> tuple[float, float]:
        """Let the program run; return for how long, and the share of one core of everything."""
        loop = QEventLoop()
        QTimer.singleShot(round(1000 * WARM_UP_S), loop.quit)
        loop.exec()
        for figures in (self.painted_s, self.frames_s, self.own_s):
            figures.clear()
        cpu_s, begin_s = time.process_time(), time.perf_counter()
        QTimer.singleShot(round(1000 * seconds), loop.quit)
        loop.exec()
        while len(self.painted_s) < FEWEST:
            loop.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)
        lasted_s = time.perf_counter() - begin_s
        return lasted_s, (time.process_time() - cpu_s) / lasted_s


def follow(theme: Theme, rate: int, seconds: float) -> tuple[Follower, float, float]:
    """Follow a run of so many readings a second with ten minutes in view, read by a thread of its own.

    Returns the chart, how long it followed, and the share of one core of everything.
    """
    overview, step, block = Overview(), 1 / rate, max(1, round(rate * BLOCK_S))
    earlier = int(IN_VIEW_S * rate)
    noise = 2.1 + 0.002 * np.random.default_rng(6).standard_normal(1_000_000)
    for begin in range(0, earlier, noise.size):
        size = min(noise.size, earlier - begin)
        overview.add(_samples(begin, size, step, noise))
    ended, count = threading.Event(), [earlier]

    def read() -> None:
        begin_s = time.perf_counter()
        while not ended.wait(max(0.0, begin_s + (count[0] - earlier) * step - time.perf_counter())):
            overview.add(_samples(count[0], block, step, noise[count[0] % 4096 :]))
            count[0] += block

    chart, reader = Follower(theme, lambda: count[0] * step), threading.Thread(target=read)
    chart.resize(WIDTH, HEIGHT)
    chart.show_overview(overview, is_live=True)
    chart.show()
    reader.start()
    lasted_s, share = chart.watch(seconds)
    ended.set()
    reader.join()
    chart.close()
    return chart, lasted_s, share


def _samples(first: int, size: int, step: float, values: np.ndarray) -> Samples:
    times_s = (first + np.arange(size)) * step
    return Samples("cell_voltage", times_s, values[:size].copy(), np.zeros(size, np.uint8))


def follow_all(theme: Theme, seconds: float) -> None:
    """Print how each live rate is followed."""
    print("\nfollowing with ten minutes in view, by the window's clock (repaints where something changed)")
    for rate in LIVE_RATES:
        chart, lasted_s, share = follow(theme, rate, seconds)
        figures, between_ms = Figures.of(chart.frames_s, chart.own_s), 1000 * np.diff(chart.painted_s)
        print(
            f"{rate:>8}/s: {len(chart.painted_s) / lasted_s:5.1f} frames/s, {np.median(between_ms):.1f} ms "
            f"apart (99 %: {np.quantile(between_ms, 0.99):.1f}); median {figures.median:.2f} ms, p99 "
            f"{figures.p99:.2f} ms, own {figures.own:.2f} ms, {100 * share:.0f} % of a core, "
            f"load {os.getloadavg()[0] if hasattr(os, 'getloadavg') else float('nan'):.1f}",
            flush=True,
        )
        chart.deleteLater()


def wrong_columns(tries: int) -> tuple[int, int]:
    """Compare columns with brute force at random views; return how many were compared, and wrong."""
    random = np.random.default_rng(11)
    count = 1_000_000
    times_s, values = np.cumsum(random.exponential(1 / RATE_PER_S, count)), voltages(count)
    values[random.integers(0, count, 2000)] = np.inf
    overview = Overview.of(times_s, values)
    compared = wrong = 0
    for _ in range(tries):
        width = int(random.integers(300, 1900))
        span_s = float(times_s[-1]) * 10 ** random.uniform(-3.5, 0)
        left_s = random.uniform(0, float(times_s[-1]) - span_s)
        edges_s = left_s + np.arange(width + 1) * (span_s / width)
        found = overview.columns(edges_s)
        places = np.searchsorted(times_s, edges_s)
        shown = np.where(np.isfinite(values), values, np.nan)
        for k in range(width):
            part = shown[places[k] : places[k + 1]]
            part = part[~np.isnan(part)]
            expected = (part.min(), part.max()) if part.size else (np.nan, np.nan)
            wrong += not np.array_equal(expected, (found.low[k], found.high[k]), equal_nan=True)
        compared += width
    return compared, wrong


def spikes_shown() -> list[tuple[str, int, int]]:
    """Return for each case how many single-sample spikes there are, and how many columns show one."""
    count, width = 1_000_000, 1500
    times_s = np.arange(count) / RATE_PER_S
    places = np.linspace(5000, count - 5000, 40).astype(int)
    cases = []
    for name, at, hole in (
        ("40 isolated", places, False),
        ("1 in the last three samples", np.array([count - 2]), False),
        ("40, an overload two samples later", places, True),
    ):
        values = voltages(count)
        values[at] = 3.0
        if hole:
            values[at + 2] = np.inf
        found = trace(Overview.of(times_s, values), 0.0, float(times_s[-1]) / width * (1 + 1e-9), width)
        cases.append((name, at.size, int((found.columns.high > 2.9).sum())))
    return cases


def moments_cost(theme: Theme) -> float:
    """Return what 10,000 moments add to a frame: milliseconds of processor time, median."""
    count = 100_000
    times_s = np.arange(count) / RATE_PER_S
    moments = tuple(new_moment(t, "note", "a moment") for t in np.linspace(0, times_s[-1], 10_000))
    without, with_moments = (Ours(theme, times_s, voltages(count)) for _ in range(2))
    with_moments.chart.show_notes(Notes(moments))
    fewer, more = timed(full_views, float(times_s[-1]), (without, with_moments))
    for drawing in (without, with_moments):
        drawing.widget.close()
        drawing.widget.deleteLater()
    return more.own - fewer.own


def resident_MB() -> float:
    """Memory of this process, where the system tells."""
    try:
        with open("/proc/self/statm", encoding="ascii") as file:
            return int(file.read().split()[1]) * os.sysconf("SC_PAGE_SIZE") / 1e6
    except OSError:
        return float("nan")


def run(counts: tuple[int, ...], seconds: float, tries: int) -> int:
    """Do all of it; return the exit status."""
    sys.setswitchinterval(SWITCH_INTERVAL_S)
    application = QApplication.instance() or QApplication([])
    assert isinstance(application, QApplication)
    load_fonts()
    theme = Theme(application, "light")
    load = os.getloadavg()[0] if hasattr(os, "getloadavg") else float("nan")
    print(
        f"Python {platform.python_version()}, PySide6 {PySide6.__version__}, pyqtgraph {pg.__version__}, "
        f"numpy {np.__version__}, {platform.system()} {application.platformName()}, load {load:.1f}"
    )
    compared, wrong = wrong_columns(tries)
    print(f"\nbrute force: {compared} columns compared, {wrong} wrong")
    lost = 0
    for name, there, shown in spikes_shown():
        print(f"spikes, {name}: {shown} of {there} shown")
        lost += max(0, there - shown)
    found = compare_views(theme, counts)
    largest = found[counts[-1]]
    ours, stock, peak = (_middle(largest, name) for name in ("ours", "stock", "peak"))
    print(
        f"\nat {counts[-1]} samples, processor time, median of the views: {ours:.2f} ms, "
        f"stock {stock:.1f} ms ({stock / ours:.0f}x), peak {peak:.1f} ms ({peak / ours:.1f}x)"
    )
    follow_all(theme, seconds)
    print(f"\n10,000 moments add {moments_cost(theme):.2f} ms to a frame")
    print(f"memory at the end: {resident_MB():.0f} MB")
    return 1 if wrong or lost else 0


def _middle(rows: dict[str, dict[str, Figures]], name: str) -> float:
    return statistics.median(row[name].own for row in rows.values())


def main(argv: list[str] | None = None) -> int:
    """Read the options and run."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--quick", action="store_true")
    parser.add_argument("--full", action="store_true")
    options = parser.parse_args(argv)
    counts = COUNTS["quick" if options.quick else "usual"]
    if options.full:
        counts = (*counts, 50_000_000)
    return run(counts, 1.0 if options.quick else 6.0, 20 if options.quick else 200)


if __name__ == "__main__":
    sys.exit(main())
