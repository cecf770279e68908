"""How fast a recording becomes findings: python -m tests.benchmarks.findings [--samples N] [--keep FILE.h5]

A simulated lesson is sampled fast enough to give the number of samples, by a converter whose step is 62.5 uV,
and written as the recorder writes it: a journal, and from it the finished file with its levels. Then two
processes, one after the other, begin from nothing: `galvanote analyse` and the plain way, which reads whole
arrays and makes one call of numpy or scipy on them for each question (less than the findings answer). Times
are seconds of the clock for the whole process; memory is the greatest resident size of the process.
"""

from __future__ import annotations

import argparse
import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from drivers.samples import Samples
from drivers.simulated.cell import LessonCell
from logger.analysis.findings import findings
from logger.archive import finish
from logger.disk import Disk
from logger.journal import FrameType, JournalWriter, journal_of
from logger.moments import Moment, new_moment
from logger.payload import encode_json, encode_samples
from logger.recording import ChannelData, Recording

TARGET_SAMPLES = 100_000_000
TARGET_S, TARGET_MB = 10.0, 500.0
SHORT_RUN_S, SHORT_TARGET_S = 600.0, 0.3
BLOCK = 50_000
STEP_V = 62.5e-6
CHANNEL = "cell_voltage"
ROOT = Path(__file__).resolve().parents[2]
BENCH = ROOT / "recordings" / "example-bench.toml"
PLAIN = "plain"
COMMAND = "import sys; from logger.commands import main; sys.exit(main())"


@dataclass(frozen=True)
class Taken:
    """What a process took, and what it printed."""

    seconds: float
    processor_s: float
    peak_MB: float
    said: str


def long_blocks(samples: int) -> Iterator[Samples]:
    """A lesson sampled evenly, `samples` times: slow noise, and white noise on each sample."""
    cell = LessonCell("demo", seed=1)
    coarse_s = np.arange(0.0, cell.duration_s, 0.05)
    coarse_V = cell.block(coarse_s)
    step_s = cell.duration_s / samples
    random = np.random.default_rng(1)
    for begin in range(0, samples, BLOCK):
        times = step_s * np.arange(begin, min(begin + BLOCK, samples))
        volts = np.interp(times, coarse_s, coarse_V) + 0.0005 * random.standard_normal(times.size)
        yield Samples(CHANNEL, times, np.round(volts / STEP_V) * STEP_V, np.zeros(times.size, np.uint8))


def lesson_moments() -> tuple[Moment, ...]:
    """The moments of that lesson."""
    return tuple(new_moment(one.time_s, one.kind, one.label) for one in LessonCell("demo", seed=1).moments)


def write_long(path: Path, samples: int) -> None:
    """Write the long recording, by way of a journal."""
    head = {
        "uuid": "0" * 32,
        "title": "invented",
        "start_time": "2024-05-14T10:00:00.000+02:00",
        "time_zone": "Europe/Berlin",
        "version": "benchmark",
        "bench_toml": BENCH.read_text(encoding="utf-8"),
    }
    disk = Disk()
    journal = JournalWriter(journal_of(path), head, disk)
    entry = {"index": 0, "name": CHANNEL, "role": CHANNEL, "unit": "V", "instrument": {"address": "invented"}}
    journal.append(FrameType.CHANNEL, encode_json(entry))
    for block in long_blocks(samples):
        journal.append(FrameType.SAMPLES, encode_samples(0, block))
    for moment in lesson_moments():
        journal.append(FrameType.MOMENT, encode_json(moment.as_dict()))
    duration_s = LessonCell("demo", seed=1).duration_s
    end = {"time_s": duration_s, "end_time": "2024-05-14T10:27:00.000+02:00"}
    journal.append(FrameType.END, encode_json(end))
    finish(journal.path, disk=disk, writer=journal)


def long_recording(samples: int) -> Recording:
    """The long recording in memory."""
    blocks = list(long_blocks(samples))
    times, values = (np.concatenate([getattr(b, name) for b in blocks]) for name in ("times_s", "values"))
    return _recording(times, values, LessonCell("demo", seed=1).duration_s, lesson_moments())


def short_recording() -> Recording:
    """Ten minutes of a lesson as a hand-held meter reads it, 2.5 readings a second."""
    cell = LessonCell("demo", seed=1)
    times = np.arange(0.1, SHORT_RUN_S, 0.4)
    moments = (new_moment(one.time_s, one.kind) for one in cell.moments if one.time_s < SHORT_RUN_S)
    return _recording(times, cell.block(times), SHORT_RUN_S, tuple(moments))


def _recording(
    times: np.ndarray, values: np.ndarray, duration_s: float, moments: tuple[Moment, ...]
) -> Recording:
    channel = ChannelData(CHANNEL, CHANNEL, "V", times, values, np.zeros(times.size, dtype=np.uint8))
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


def plain_way(path: Path) -> dict[str, float]:
    """A state for each sample, the charge, a mean and a slope, each by one call on whole arrays."""
    import h5py
    from scipy.integrate import trapezoid
    from scipy.ndimage import median_filter
    from scipy.stats import linregress

    with h5py.File(path, "r") as file:
        times, values = (file[f"run/{CHANNEL}/{name}"][()] for name in ("time", "value"))
    smooth = median_filter(np.abs(values), 3)
    states = np.digitize(smooth, (0.05, 1.28, 4.0, 24.0))
    passed_C = trapezoid(np.where(states == 2, (27.0 - smooth) / 12006.0, 0.0), times)
    last = slice(-max(times.size // 10, 30), None)
    line = linregress(times[last], values[last])
    return {"charge_C": float(passed_C), "mean_V": float(smooth[last].mean()), "slope": float(line.slope)}


def in_process(*arguments: str) -> Taken:
    """Run Python with these arguments from nothing to its end."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    begin_s = time.perf_counter()
    with subprocess.Popen(
        [sys.executable, *arguments], cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
    ) as child:
        assert child.stdout is not None
        said = child.stdout.read()
        _, status, usage = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
    seconds = time.perf_counter() - begin_s
    if child.returncode != 0:
        raise SystemExit(f"{' '.join(arguments)} ended with status {child.returncode}")
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    used_s = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return Taken(seconds, used_s, usage.ru_maxrss / 1000.0, said.decode())


def _shown(name: str, taken: Taken) -> str:
    return (
        f"  {name:<24} {taken.seconds:8.2f} s, processor {taken.processor_s:6.2f} s, "
        f"peak {taken.peak_MB:6.0f} MB"
    )


def compare(samples: int, path: Path) -> bool:
    """Print both ways; return whether the targets are met."""
    short = short_recording()
    findings(short)  # imports what is imported late
    shortest_s = np.inf
    for _ in range(3):
        begin_s = time.perf_counter()
        findings(short)
        shortest_s = min(shortest_s, time.perf_counter() - begin_s)
    print(f"ten minutes, {short.channels[0].times_s.size} readings")
    print(f"  findings                 {shortest_s:8.3f} s (best of three; target {SHORT_TARGET_S} s)")
    if not path.exists():
        begin_s = time.perf_counter()
        write_long(path, samples)
        print(f"{samples} samples written in {time.perf_counter() - begin_s:.0f} s", end=", ")
    print(f"{samples} samples, a file of {path.stat().st_size / 1e6:.0f} MB, load {os.getloadavg()[0]:.1f}")
    ours = in_process("-c", COMMAND, "analyse", str(path), "--json")
    plain = in_process("-m", "tests.benchmarks.findings", PLAIN, str(path))
    print(_shown("galvanote analyse", ours))
    print(_shown("numpy and scipy, plain", plain))
    print(f"  galvanote analyse takes {ours.seconds / plain.seconds:.2f} times as long as the plain way")
    charge_C = json.loads(ours.said)[0]["charge_C"]["best"]
    print(f"  charge {charge_C:.5f} C, the plain way {json.loads(plain.said)['charge_C']:.5f} C")
    is_met = shortest_s < SHORT_TARGET_S
    if samples >= TARGET_SAMPLES:
        is_met &= ours.seconds < TARGET_S and ours.peak_MB < TARGET_MB
    print(f"targets ({TARGET_S:g} s, {TARGET_MB:g} MB) {'met' if is_met else 'MISSED'}")
    return is_met


def main() -> int:
    if sys.argv[1:2] == [PLAIN]:
        print(json.dumps(plain_way(Path(sys.argv[2]))))
        return 0
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--samples", type=int, default=TARGET_SAMPLES)
    parser.add_argument("--keep", type=Path, help="write the recording here, or use the one that is here")
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        path = chosen.keep or Path(folder) / "long.h5"
        return 0 if compare(chosen.samples, path) else 1


if __name__ == "__main__":
    raise SystemExit(main())
