"""A run without instruments, files or threads: the window's tests say what it reads and when."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

from drivers.samples import Samples
from gui.demo import demo_bench
from gui.session import Plan, Session
from logger.bench import Bench
from logger.errors import LoggerError
from logger.feed import SourceStatus
from logger.intake import Intake
from logger.moments import Moment, MomentError, new_moment
from logger.notices import RunNotice
from logger.recording import Gap
from logger.run import RunStatus
from logger.run_pictures import RunPictures


class FakeClock:
    """Stands still until told."""

    speed = 1.0

    def __init__(self) -> None:
        self.time_s = 0.0

    def now_s(self) -> float:
        return self.time_s


class FakeRun:
    """Has the face of `logger.run.Run` that the session uses."""

    def __init__(
        self,
        _sources: Sequence[Any],
        out: Path,
        *,
        title: str = "",
        bench_toml: str = "",
        live: Path | None = None,
        second_folder: Path | None = None,
    ) -> None:
        self.out, self.title = out, title
        self.live, self.second_folder = live, second_folder
        self.clock = FakeClock()
        self.listeners: list[Any] = []
        self.kept: dict[str, Moment] = {}
        self.pictures = RunPictures(Intake(), lambda moment_id: moment_id in self.kept)
        self.gaps: tuple[Gap, ...] = ()
        self.told: list[RunNotice] = []
        self.source_state = "streaming"
        self.open_troubles: tuple[str, ...] = ()
        self.has_ended = False
        self.stopped = 0
        self.disk_error: LoggerError | None = None
        self.count = 0

    def add_listener(self, listener: Any) -> None:
        self.listeners.append(listener)

    def start(self) -> None:
        pass

    def abandon(self) -> bool:
        return False

    def stop(self) -> Path:
        self.stopped += 1
        if self.disk_error is not None:
            raise self.disk_error
        return self.out

    def keep_second_copy(self, folder: Path) -> None:
        self.second_folder = folder

    def wait_ended(self, _timeout_s: float) -> bool:
        return self.has_ended

    def push(self, times_s: Any, values: Any) -> None:
        """Let readings arrive, the last one now."""
        times_s, values = np.atleast_1d(times_s).astype(float), np.atleast_1d(values).astype(float)
        samples = Samples("cell_voltage", times_s, values, np.zeros(times_s.size, np.uint8))
        for listener in self.listeners:
            listener.add(samples)
        self.count += times_s.size
        self.clock.time_s = float(times_s[-1])

    def add_moment(self, kind: str, label: str = "", time_s: float | None = None) -> Moment:
        moment = new_moment(self.clock.time_s if time_s is None else time_s, kind, label)
        self.kept[moment.id] = moment
        return moment

    def edit_moment(self, moment_id: str, **changes: Any) -> Moment:
        if (changes.get("time_s") or 0.0) > self.clock.time_s:
            raise MomentError("that is still to come")
        self.kept[moment_id] = self.kept[moment_id].edited(**changes)
        return self.kept[moment_id]

    @property
    def moments(self) -> tuple[Moment, ...]:
        living = [m for m in self.kept.values() if not m.removed]
        return tuple(sorted(living, key=lambda m: m.time_s))

    def notices_after(self, count: int) -> tuple[RunNotice, ...]:
        return tuple(self.told[count:])

    def status(self) -> RunStatus:
        source = SourceStatus("scpi:/dev/ttyS9", "Bench meter", self.source_state, 3.0, 0.2, "")
        return RunStatus(
            phase="recording",
            title=self.title,
            start_time="2026-11-25T09:10:03.123+01:00",
            out=self.out,
            speed=1.0,
            now_s=self.clock.time_s,
            sample_count=self.count,
            last_sample_s=None,
            durable_samples=self.count,
            synced_age_s=0.4,
            waiting_samples=0,
            sources=(source,),
            notices=tuple(self.told),
            error=None,
        )


def plan(out: Path, bench: Bench | None = None, **changes: Any) -> Plan:
    """A plan whose source is never opened by a `FakeRun`."""
    return Plan(("cell:demo",), out, bench or demo_bench(), "Strip 4", **changes)


def running_session(out: Path, **changes: Any) -> tuple[Session, FakeRun]:
    """A session in the state *running*, and its run."""
    made: list[FakeRun] = []

    def make(*arguments: Any, **options: Any) -> Any:
        made.append(FakeRun(*arguments, **options))
        return made[0]

    session = Session(plan(out, **changes), make_run=make)
    session.wait_opened(10.0)
    assert session.state == "running", session.error
    return session, made[0]


def lesson(end_s: float, rate: float = 3.0) -> tuple[np.ndarray, np.ndarray]:
    """Invented readings of a lesson: dry 45 s, before to 285 s, then growth."""
    times_s = np.arange(0, end_s, 1 / rate)
    values = np.full(times_s.size, 26.97)
    wet = times_s >= 45
    values[wet] = 2.25 + 0.08 * np.exp(-(times_s[wet] - 45) / 30)
    grown = times_s >= 285
    values[grown] = 2.0 + 0.25 * np.exp(-(times_s[grown] - 285) / 240)
    noise = np.random.default_rng(4).standard_normal(times_s.size)
    return times_s, values + 0.001 * noise
