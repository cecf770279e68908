"""One run as the window sees it: opening, running, saving, finished. No Qt.

Whatever may take long (opening instruments, saving, analysing, judging the last minutes) runs on threads
of this object; the window asks it once a frame how far things are and never waits.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from drivers.errors import SourceError
from drivers.port_release import PortRelease
from drivers.registry import make_source
from drivers.source import Source
from logger.attachments import Attachment
from logger.bench import Bench
from logger.calibrated_source import corrected_sources
from logger.channel_overview import overview_of
from logger.disk_room import DiskRoom, look_at_disk
from logger.errors import LoggerError, RunAbandoned
from logger.journal import journal_of
from logger.moments import Moment
from logger.notices import RunNotice
from logger.overview import Overview
from logger.progress import Progress
from logger.recording import with_findings
from logger.run import Run, RunStatus
from logger.stored_overview import StoredOverview

if TYPE_CHECKING:
    from drivers.samples import Samples
    from logger.assessment import Assessment
    from logger.assessment_view import AssessmentView
    from logger.recording import Recording

__all__ = ["Finished", "Plan", "Session"]

ASSESS_EVERY_S = 0.3
GAPS_EVERY_S = 0.25
DISK_EVERY_S = 5.0
CLOSE_LIMIT_S = 30.0
CURVE_SHARE = 0.2
"""Of the time that the findings of a long run take: what goes into its curve."""


@dataclass(frozen=True, slots=True)
class Plan:
    """What to record: source addresses, where to, on which bench, and for how long (host seconds).

    `live` is a disposable file for other programs to follow the run with, `second_folder` where a second copy
    of everything is kept.
    """

    addresses: tuple[str, ...]
    out: Path
    bench: Bench
    title: str = ""
    duration_s: float | None = None
    live: Path | None = None
    second_folder: Path | None = None


@dataclass(frozen=True, slots=True)
class Finished:
    """A finished recording and its findings; `trouble` says why there are none, if so.

    `overview` is its curve, where it was made already. Of a long run the findings follow: `is_pending` then,
    and `found_later` returns them.
    """

    recording: Recording
    findings: dict[str, Any]
    trouble: str = ""
    overview: Overview | None = None
    is_pending: bool = False

    @property
    def as_exported(self) -> Recording:
        """The recording with the findings that are shown: its file may hold older ones, or none."""
        return with_findings(self.recording, self.findings) if self.findings else self.recording


class Session:
    """Runs a `Plan`. All public methods belong to the window's thread and return at once.

    Threads: *session* opens and later saves and analyses, one job after the other; *assessment* computes
    the live view, one at a time. Each leaves its result in an attribute, replaced as a whole, which
    `poll` and the properties read.
    """

    def __init__(self, plan: Plan, *, make_run: Callable[..., Run] = Run) -> None:
        self.plan = plan
        self.overview = Overview()
        self.state = "opening"  # opening | running | saving | finished | failed
        self.errors: tuple[str, ...] = ()
        """Why the run could not begin or be saved: several where several sources could not be opened."""
        self.trouble = ""
        self.view: AssessmentView | None = None
        self.finished: Finished | None = None
        self.disk_room: DiskRoom | None = None
        self._make_run = make_run
        self._run: Run | None = None
        self._beginning: Run | None = None  # while its sources are being opened
        self._sources: Sequence[Source] = ()
        self._assessment: Assessment | None = None
        self._began_s = 0.0
        self._ended_s: float | None = None
        self._assessed_s = self._gaps_s = 0.0
        self._looked_at_disk_s = -DISK_EVERY_S
        self._stop_wanted = False
        self.is_given_up = False
        """Whether the run was ended before its sources were open: nothing was recorded, as it was wanted."""
        self._ports = PortRelease()
        self.before_stop: Callable[[], None] = lambda: None
        """Called on the window's thread right before the run ends: what is still being typed is kept."""
        self.on_samples: Callable[[], None] = lambda: None
        """Called on the recorder's thread when the overview has taken new readings; returns at once."""
        self._notices_told = 0
        self._worker = self._start(self._open, "session")
        self._judge: threading.Thread | None = None

    # ------------------------------------------------------------ for the window

    @property
    def now_s(self) -> float:
        """Run time in seconds: 0 before the run began, its end from then on."""
        if self._ended_s is not None:
            return self._ended_s
        return self._run.clock.now_s() if self._run is not None else 0.0

    @property
    def speed(self) -> float:
        """Run seconds per second of the computer."""
        return self._run.clock.speed if self._run is not None else 1.0

    @property
    def moments(self) -> tuple[Moment, ...]:
        """The living moments in order of time."""
        return self._run.moments if self._run is not None else ()

    def status(self) -> RunStatus | None:
        """Return how the run is doing, None before it began."""
        return self._run.status() if self._run is not None else None

    @property
    def waits_for(self) -> tuple[str, ...]:
        """What the opening of each source waits for just now, in words; of none once the run has begun.

        Before it what is wrong with others: who waits for a slow meter can mend that meanwhile.
        """
        if self.state != "opening":
            return ()
        troubles = () if self._beginning is None else self._beginning.open_troubles
        return (*troubles, *(source.waits_for for source in self._sources if source.waits_for))

    @property
    def error(self) -> str:
        """Why the run could not begin or be saved, empty where it could."""
        return " ".join(self.errors)

    def new_notices(self) -> tuple[RunNotice, ...]:
        """Return the notices that were added since the last call."""
        if self._run is None:
            return ()
        found = self._run.notices_after(self._notices_told)
        self._notices_told += len(found)
        return found

    @property
    def is_over(self) -> bool:
        """Tell whether nothing more will happen: finished or failed."""
        return self.state in ("finished", "failed")

    def add_moment(self, kind: str, label: str, time_s: float) -> Moment:
        """Tag a moment at run time `time_s`."""
        if self._run is None:
            raise LoggerError("the run has not begun; tag the moment once readings come")
        return self._run.add_moment(kind, label, max(time_s, 0.0))

    def edit_moment(self, moment_id: str, **changes: Any) -> Moment:
        """Change a moment; see `Run.edit_moment`."""
        if self._run is None:
            raise LoggerError("the run has not begun")
        return self._run.edit_moment(moment_id, **changes)

    @property
    def attachments(self) -> tuple[Attachment, ...]:
        """The pictures of the moments, in the order in which they came."""
        return self._run.pictures.attachments if self._run is not None else ()

    def attach(self, moment_id: str, file_name: str, data: bytes, known_id: str = "") -> Attachment:
        """Attach a picture to a moment; see `RunPictures.attach`."""
        if self._run is None:
            raise LoggerError("the run has not begun")
        return self._run.pictures.attach(moment_id, file_name, data, known_id)

    def detach(self, attachment: Attachment) -> None:
        """Remove a picture."""
        if self._run is not None:
            self._run.pictures.detach(attachment.id)

    def picture(self, attachment: Attachment) -> bytes:
        """Return the bytes of a picture."""
        if self._run is None:
            raise LoggerError("the run has not begun")
        return self._run.pictures.picture(attachment.id)

    def keep_second_copy(self, folder: Path) -> None:
        """Keep a second copy of the run in `folder` from now on; see `Run`. May take long."""
        if self._run is None:
            raise LoggerError("the run has not begun")
        self._run.keep_second_copy(folder)

    def poll(self) -> None:
        """Let time pass: end the run when it is due, ask for the next assessment."""
        if self.state != "running" or self._run is None:
            return
        now = time.monotonic()
        if self._stop_wanted or self._is_due(now):
            self.stop()
            return
        if now - self._gaps_s >= GAPS_EVERY_S:
            self._gaps_s = now
            self.overview.set_gaps(self._run.gaps)
        busy = self._judge is not None and self._judge.is_alive()
        if not busy and self._assessment is not None and now - self._assessed_s >= ASSESS_EVERY_S:
            self._assessed_s = now
            self._judge = self._start(self._assess, "assessment")

    def stop(self) -> None:
        """End the run, save it and analyse it; may be called at any time and again.

        Instruments that are being opened are not waited for any longer: then nothing is recorded.
        """
        if self.state == "opening":
            self._stop_wanted = True  # also for a run that begins all the same: it is ended by `poll`
            beginning = self._beginning
            if beginning is not None and beginning.abandon():
                self._ports.let_go()
        elif self.state == "running":
            self.before_stop()
            self._ended_s = self.now_s
            self.state = "saving"
            self._worker = self._start(self._save, "session")

    @property
    def can_save_again(self) -> bool:
        """Tell whether there is a run that has ended and could not be saved."""
        return self.state == "failed" and self._run is not None

    def save_again(self) -> None:
        """Try once more to save a run that could not be saved, from what is safe of it."""
        if self.can_save_again:
            self.state = "saving"
            self._worker = self._start(self._save, "session")

    def wait_opened(self, limit_s: float) -> None:
        """Wait until the run has begun or failed to."""
        self._worker.join(limit_s)

    def close(self) -> None:
        """Wait for the threads to end; call after `stop`."""
        for thread in (self._worker, self._judge):
            if thread is not None:
                thread.join(CLOSE_LIMIT_S)

    # ------------------------------------------------------------ on the threads

    def _is_due(self, now_s: float) -> bool:
        assert self._run is not None
        limit_s = self.plan.duration_s
        return (limit_s is not None and now_s - self._began_s >= limit_s) or self._run.wait_ended(0.0)

    def _start(self, work: Callable[[], None], name: str) -> threading.Thread:
        thread = threading.Thread(target=work, name=name, daemon=True)
        thread.start()
        return thread

    def _open(self) -> None:
        plan = self.plan
        try:
            made = [make_source(address, opener=self._ports.open) for address in plan.addresses]
            sources = corrected_sources(made, plan.bench)
            self._sources = sources
            self.overview.channel = _voltage_channel(sources) or self.overview.channel
            run = self._make_run(
                sources,
                plan.out,
                title=plan.title,
                bench_toml=plan.bench.source_text,
                live=plan.live,
                second_folder=plan.second_folder,
            )
            run.add_listener(self.overview)
            self._beginning = run
            if self._stop_wanted:  # before there was anything to tell of it
                run.abandon()
            self._assessment = _assessment(plan.bench, self.overview.channel, run.clock.speed)
            run.add_listener(_Teller(self))
            run.add_listener(self._assessment)
            run.start()
        except RunAbandoned as error:
            self.is_given_up = True
            self._fail(str(error))  # not what letting go of the ports made of their sources
        except (SourceError, LoggerError, OSError) as error:
            troubles = () if self._beginning is None else self._beginning.open_troubles
            self._fail(str(error), *(trouble for trouble in troubles if trouble != str(error)))
        except Exception as error:  # noqa: BLE001 - a fault of ours must be seen, not hang the window
            self._fail(f"The run could not begin, by a fault of the program: {error!r}")
        else:
            self._began_s = time.monotonic()
            self._run = run
            self.state = "running"

    def _assess(self) -> None:
        assert self._run is not None
        assert self._assessment is not None
        self._look_at_disk(self._run)
        try:
            self._assessment.set_moments(self._run.moments)
            self.view = self._assessment.view(self._run.clock.now_s())
        except Exception as error:  # noqa: BLE001 - judging may fail, recording must not
            self._assessment = self.view = None
            self.trouble = (
                f"The live judgement stopped, by a fault of the program: {error!r}. Recording goes on."
            )

    def _look_at_disk(self, run: Run) -> None:
        """Here and not in the window's thread: a network disk may take its time to answer."""
        if time.monotonic() - self._looked_at_disk_s < DISK_EVERY_S:
            return
        self._looked_at_disk_s = time.monotonic()
        rate = sum(source.rate_per_s or 0.0 for source in run.status().sources)
        self.disk_room = look_at_disk(journal_of(self.plan.out), rate)

    def _save(self) -> None:
        assert self._run is not None
        try:
            saved = self._run.stop()
            self.finished = load_finished(saved)
        except (LoggerError, OSError) as error:
            self._fail(str(error))
        except Exception as error:  # noqa: BLE001 - as above
            self._fail(f"Saving met a fault of the program: {error!r}. The journal of the run is kept.")
        else:
            self.state = "finished"

    def _fail(self, *texts: str) -> None:
        self.errors = texts
        self.state = "failed"


class _Teller:
    """Tells the window that there is something to draw."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(self, _samples: Samples) -> None:
        self._session.on_samples()


def _voltage_channel(sources: Sequence[Source]) -> str | None:
    found = (c.name for source in sources for c in source.channels if c.role == "cell_voltage")
    return next(found, None)


def _assessment(bench: Bench, channel: str, speed: float) -> Assessment:
    from logger.assessment import Assessment

    return Assessment(bench, channel, speed)


def load_finished(path: Path, progress: Progress | None = None) -> Finished:
    """Read a recording and find what it shows; of a long one only its curve, the findings are to follow.

    Raises
    ------
    RecordingError : it cannot be read.
    Cancelled : `progress` was told to stop.
    """
    from logger.reader import read_recording

    recording = read_recording(path)
    channel = recording.channel("cell_voltage")
    overview = None if channel is None else overview_of(channel, recording.gaps, prepared=False)
    pending = Finished(recording, {}, overview=overview, is_pending=True)
    return pending if recording.stays_in_file else found_later(pending, progress)


def found_later(pending: Finished, progress: Progress | None = None) -> Finished:
    """Return a recording with its findings, and make its curve right to the pixel.

    Raises
    ------
    Cancelled : `progress` was told to stop.
    """
    from logger.analysis.findings import findings

    steps = progress or Progress()
    begin = 0.0
    if isinstance(pending.overview, StoredOverview):
        begin = CURVE_SHARE
        pending.overview.prepare(steps.part(0.0, begin))
    try:
        found = findings(pending.recording, progress=steps.part(begin, 1.0))
        return replace(pending, findings=found, is_pending=False)
    except LoggerError as error:
        return replace(pending, trouble=str(error), is_pending=False)


def describe_sources(addresses: Sequence[str]) -> str:
    """Return in plain words where readings come from."""
    if all(address.startswith("cell:") for address in addresses):
        return "Simulated cell"
    return ", ".join(addresses)
