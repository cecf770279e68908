"""Long runs: python -m tests.campaigns.soak

A run of 72 h at 10 readings a second, each its own frame as in a real run, compressed into minutes; and the
real command for 20 minutes at 10 000 readings a second. Memory, descriptors and threads are sampled from
outside; the file is compared to the last reading. Exit status 1 when memory grows by more than 1 MB in an
hour of running after the warm-up, anything leaks, or a reading is wrong.
"""

from __future__ import annotations

import argparse
import multiprocessing
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from multiprocessing.synchronize import Event
from pathlib import Path
from unittest import mock

import numpy as np

from drivers.samples import Delivery, Samples
from drivers.simulated.cell import LessonCell
from logger.reader import read_recording
from logger.run import Run
from tests.campaigns.process_figures import ProcessFigures
from tests.campaigns.record_command import RecordCommand
from tests.campaigns.slow_disk import Flow, FlowSource
from tests.campaigns.table import print_table

SLOPE_LIMIT_MB_PER_H = 1.0
WARM_UP = 0.15
"""The part of a run in which buffers and pools find their size."""
SEED = 3
REAL_RATE = 10_000
SLOW_RATE = 10.0
COMPRESSED = 1000.0
HEAD = [
    "what", "run", "readings", "MB after warm-up", "MB at the end", "MB per hour of running", "descriptors",
    "threads", "CPU s", "file",
]  # fmt: skip


@dataclass
class Course:
    """Figures of a process, sampled while it ran. Times in seconds of the run."""

    times_s: list[float] = field(default_factory=list)
    rss_MB: list[float] = field(default_factory=list)
    descriptors: list[int] = field(default_factory=list)
    threads: list[int] = field(default_factory=list)
    cpu_s: float = 0.0

    def sample(self, figures: ProcessFigures, at_s: float) -> None:
        self.times_s.append(at_s)
        self.rss_MB.append(figures.rss_MB())
        self.descriptors.append(figures.descriptors())
        self.threads.append(figures.threads())
        self.cpu_s = figures.cpu_s()

    def settled(self) -> slice:
        """What comes after the warm-up."""
        return slice(int(np.searchsorted(self.times_s, self.times_s[-1] * WARM_UP)), None)

    def slope_MB_per_h(self) -> float:
        """Least-squares slope of memory after the warm-up."""
        part = self.settled()
        hours = np.array(self.times_s[part]) / 3600
        return float(np.polyfit(hours - hours.mean(), self.rss_MB[part], 1)[0])

    def row(self, name: str, readings: int, is_right: bool) -> list[object]:
        part = self.settled()
        descriptors, threads = self.descriptors[part], self.threads[part]
        return [
            name,
            f"{self.times_s[-1] / 3600:.2f} h",
            readings,
            f"{self.rss_MB[part][0]:.1f}",
            f"{self.rss_MB[-1]:.1f}",
            f"{self.slope_MB_per_h():+.3f}",
            f"{min(descriptors)} to {max(descriptors)}",
            f"{min(threads)} to {max(threads)}",
            f"{self.cpu_s:.0f}",
            "right to the last" if is_right else "WRONG",
        ]

    def is_flat(self) -> bool:
        part = self.settled()
        leaks = self.descriptors[-1] > self.descriptors[part][0] or self.threads[-1] > self.threads[part][0]
        return self.slope_MB_per_h() < SLOPE_LIMIT_MB_PER_H and not leaks


# ---------------------------------------------------------------- compressed


class SingleReadings(FlowSource):
    """Delivers each reading as a block of its own, as a handheld meter does."""

    speed = COMPRESSED  # type: ignore[assignment]

    def read(self, timeout_s: float) -> Delivery:
        delivery = super().read(timeout_s)
        return Delivery(tuple(one for block in delivery.samples for one in _singly(block)))


def _singly(block: Samples) -> list[Samples]:
    return [
        Samples(block.channel, block.times_s[i : i + 1], block.values[i : i + 1], block.quality[i : i + 1])
        for i in range(len(block))
    ]


def _compressed(out: str, hours: float, has_ended: Event, may_go: Event) -> None:
    flow = Flow("cell_voltage", SLOW_RATE, hours * 3600)
    with mock.patch("logger.recorder.ANCHOR_EVERY_S", 60.0 / COMPRESSED):
        run = Run([SingleReadings(flow)], Path(out))
        run.start()
        hour = 0
        while not run.wait_ended(0.5):
            if run.clock.now_s() // 3600 > hour:
                hour += 1
                run.add_moment("note", f"hour {hour}")
        has_ended.set()
        may_go.wait()
        run.stop()


def compressed(hours: float) -> tuple[list[object], bool]:
    """Record `hours` of run time in a process of its own; return a row of figures and whether all is well."""
    context = multiprocessing.get_context("spawn")
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "run.h5"
        has_ended, may_go = context.Event(), context.Event()
        process = context.Process(target=_compressed, args=(str(out), hours, has_ended, may_go))
        process.start()
        course = _follow(ProcessFigures(process.pid), COMPRESSED, has_ended.is_set, every_s=0.25)
        may_go.set()
        process.join()
        recording = read_recording(out)
        number = np.arange(int(hours * 3600 * SLOW_RATE))
        (channel,) = recording.channels
        is_right = (
            np.array_equal(channel.values, number * 1e-6)
            and np.array_equal(channel.times_s, number / SLOW_RATE)
            and len(recording.moments) == int(hours) - (hours == int(hours))
        )
    name = f"{hours:g} h at {SLOW_RATE:g}/s, {COMPRESSED:g} times as fast"
    return course.row(name, channel.values.size, is_right), is_right and course.is_flat()


# ---------------------------------------------------------------- real


def real(minutes: float) -> tuple[list[object], bool]:
    """Record with the real command; return a row of figures and whether all is well."""
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "run.h5"
        source = f"cell:bench?rate={REAL_RATE}&seed={SEED}"
        command = RecordCommand(out, source, options=("--for", f"{minutes * 60:g}s"))
        assert command.wait_said("Recording to")
        course = _follow(
            ProcessFigures(command.process.pid),
            1.0,
            lambda: command.wait_said("Saving", 0) or command.process.poll() is not None,
            every_s=minutes,
            on_sample=lambda number: command.type(f"note number {number}"),
        )
        assert command.wait(600) == 0, command.said
        recording = read_recording(out)
        (channel,) = recording.channels
        number = np.arange(channel.values.size)
        labels = [m.label for m in recording.moments if m.kind == "note"]
        is_right = (
            channel.values.size >= command.samples
            and channel.values.size >= 0.99 * minutes * 60 * REAL_RATE
            and np.array_equal(channel.times_s, number / REAL_RATE)
            and _is_cell(channel.values)
            and labels == [f"number {k}" for k in range(len(labels))]
        )
    name = f"{minutes:g} min at {REAL_RATE}/s, the real command"
    return course.row(name, channel.values.size, is_right), is_right and course.is_flat()


def _is_cell(values: np.ndarray) -> bool:
    cell = LessonCell("bench", seed=SEED)
    step = 100_000
    return all(
        np.array_equal(values[b : b + step], cell.block(np.arange(b, min(b + step, values.size)) / REAL_RATE))
        for b in range(0, values.size, step)
    )


def _follow(
    figures: ProcessFigures,
    speed: float,
    has_ended: Callable[[], bool],
    *,
    every_s: float,
    on_sample: Callable[[int], object] = lambda number: None,
) -> Course:
    course = Course()
    began_s = time.monotonic()
    while not has_ended():
        course.sample(figures, (time.monotonic() - began_s) * speed)
        on_sample(len(course.times_s) - 1)
        time.sleep(every_s)
    return course


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the campaign; return 1 when it found something bad."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument(
        "--quick", action="store_true", help="3 h compressed into 11 s, and 12 s: figures only"
    )
    parser.add_argument("--hours", type=float, default=72.0)
    parser.add_argument("--minutes", type=float, default=20.0)
    chosen = parser.parse_args(arguments)
    if chosen.quick:
        chosen.hours, chosen.minutes = 3.0, 0.2
    results = [compressed(chosen.hours), real(chosen.minutes)]
    print_table(HEAD, [row for row, _ in results])
    if chosen.quick:  # too short to tell a slope from the warm-up
        return 0 if all(row[-1] != "WRONG" for row, _ in results) else 1
    return 0 if all(is_well for _, is_well in results) else 1


if __name__ == "__main__":
    sys.exit(main())
