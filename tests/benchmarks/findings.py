"""How fast a recording becomes findings: python -m tests.benchmarks.findings [--samples N]

A simulated lesson is sampled fast enough to give the number of samples, in memory as the reader gives it.
Beside the time of the findings stands that of the plain way in the same run on the same arrays: one call of
numpy or scipy on whole arrays for each question (less than the findings answer). Times are seconds of the
clock; memory is the greatest resident size beyond that of the arrays themselves (Linux only).
"""

from __future__ import annotations

import argparse
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from scipy.integrate import trapezoid
from scipy.ndimage import median_filter
from scipy.stats import linregress

from drivers.simulated.cell import LessonCell
from logger.analysis.findings import findings
from logger.moments import new_moment
from logger.recording import ChannelData, Recording

TARGET_SAMPLES = 100_000_000
TARGET_S, TARGET_MB = 10.0, 500.0
SHORT_RUN_S, SHORT_TARGET_S = 600.0, 0.3
SLICE = 1 << 20
BENCH = Path(__file__).resolve().parents[2] / "recordings" / "example-bench.toml"


@dataclass(frozen=True)
class Timed:
    """What a piece of work took."""

    seconds: float
    extra_MB: float | None


def long_recording(samples: int) -> Recording:
    """A lesson sampled evenly, `samples` times: slow noise, and white noise on each sample."""
    cell = LessonCell("demo", seed=1)
    coarse_s = np.arange(0.0, cell.duration_s, 0.05)
    coarse_V = cell.block(coarse_s)
    step_s = cell.duration_s / samples
    times, values = np.empty(samples), np.empty(samples)
    random = np.random.default_rng(1)
    for begin in range(0, samples, SLICE):
        part = slice(begin, min(begin + SLICE, samples))
        times[part] = step_s * np.arange(part.start, part.stop)
        values[part] = np.interp(times[part], coarse_s, coarse_V)
        values[part] += 0.0005 * random.standard_normal(part.stop - part.start)
    moments = tuple(new_moment(one.time_s, one.kind, one.label) for one in cell.moments)
    return _recording(times, values, cell.duration_s, moments=moments)


def short_recording() -> Recording:
    """Ten minutes of a lesson as a hand-held meter reads it, 2.5 readings a second."""
    cell = LessonCell("demo", seed=1)
    times = np.arange(0.1, SHORT_RUN_S, 0.4)
    moments = (new_moment(one.time_s, one.kind) for one in cell.moments if one.time_s < SHORT_RUN_S)
    return _recording(times, cell.block(times), SHORT_RUN_S, moments=tuple(moments))


def _recording(times: np.ndarray, values: np.ndarray, duration_s: float, moments: tuple = ()) -> Recording:
    channel = ChannelData(
        "cell_voltage", "cell_voltage", "V", times, values, np.zeros(times.size, dtype=np.uint8)
    )
    return Recording(
        path=Path("benchmark.h5"),
        uuid="0" * 32,
        title="invented",
        start_time="2024-05-14T10:00:00.000+02:00",
        end_time=None,
        time_zone="Europe/Berlin",
        duration_s=duration_s,
        channels=(channel,),
        moments=moments,
        bench_toml=BENCH.read_text(encoding="utf-8"),
    )


def plain_way(recording: Recording) -> dict[str, float]:
    """A state for each sample, the charge, a mean and a slope, each by one call on whole arrays."""
    channel = recording.channels[0]
    smooth = median_filter(np.abs(channel.values), 3)
    states = np.digitize(smooth, (0.05, 1.28, 4.0, 24.0))
    passed_C = trapezoid(np.where(states == 2, (27.0 - smooth) / 12006.0, 0.0), channel.times_s)
    last = slice(-max(channel.times_s.size // 10, 30), None)
    line = linregress(channel.times_s[last], channel.values[last])
    return {"charge_C": float(passed_C), "mean_V": float(smooth[last].mean()), "slope": float(line.slope)}


def timed(work: Callable[[], object]) -> Timed:
    """Run something once; tell its time and by how much the resident memory grew at most."""
    before_kB = _reset_peak_kB()
    begin_s = time.perf_counter()
    work()
    seconds = time.perf_counter() - begin_s
    peak_kB = _status_kB("VmHWM")
    extra_MB = None if before_kB is None or peak_kB is None else (peak_kB - before_kB) / 1000.0
    return Timed(seconds, extra_MB)


def _reset_peak_kB() -> int | None:
    """Let the kernel count the peak anew; return the present resident size."""
    try:
        Path("/proc/self/clear_refs").write_text("5", encoding="ascii")
    except OSError:
        return None
    return _status_kB("VmRSS")


def _status_kB(name: str) -> int | None:
    try:
        lines = Path("/proc/self/status").read_text(encoding="ascii").splitlines()
    except OSError:
        return None
    return next((int(line.split()[1]) for line in lines if line.startswith(name)), None)


def _shown(name: str, taken: Timed) -> str:
    memory = "" if taken.extra_MB is None else f", {taken.extra_MB:7.0f} MB beyond the arrays"
    return f"  {name:<24} {taken.seconds:8.3f} s{memory}"


def compare(samples: int) -> bool:
    """Print both ways; return whether the targets are met."""
    short = short_recording()
    findings(short)  # imports what is imported late
    print(f"ten minutes, {short.channels[0].times_s.size} readings")
    shortest_s = min(timed(lambda: findings(short)).seconds for _ in range(3))
    print(f"  findings                 {shortest_s:8.3f} s (best of three; target {SHORT_TARGET_S} s)")
    long = long_recording(samples)
    print(f"{samples} samples, {long.channels[0].times_s.nbytes * 17 / 8e6:.0f} MB of arrays")
    ours, plain = timed(lambda: findings(long)), timed(lambda: plain_way(long))
    print(_shown("findings", ours))
    print(_shown("numpy and scipy, plain", plain))
    print(f"  findings take {ours.seconds / plain.seconds:.2f} times as long as the plain way")
    is_met = shortest_s < SHORT_TARGET_S
    if samples >= TARGET_SAMPLES:
        is_met &= ours.seconds < TARGET_S and (ours.extra_MB or 0.0) < TARGET_MB
    print(f"targets ({TARGET_S:g} s, {TARGET_MB:g} MB) {'met' if is_met else 'MISSED'}")
    return is_met


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--samples", type=int, default=TARGET_SAMPLES)
    return 0 if compare(parser.parse_args().samples) else 1


if __name__ == "__main__":
    raise SystemExit(main())
