"""One run in progress: sources, recorder, listeners and moments.

The same object serves the window and the command line. A run has these threads of its own:

* one *feed* thread for each source (`logger.feed`): opens, reads, closes it, and opens it again when it
  was lost. It puts what it gets into the intake and knows nothing of files;
* one *recorder* thread (`logger.recorder`): takes from the intake, writes the journal, syncs it, and then
  hands the samples to the listeners.

Any thread may call the public methods. Shared state sits behind one lock, held only for moments.
"""

from __future__ import annotations

import threading
import time
import uuid
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any, Protocol

from drivers.run_clock import HostClock, RunClock
from drivers.samples import Samples, TaggedMoment
from drivers.source import Source
from logger.archive import ArchiveFailed
from logger.disk import Disk
from logger.errors import LoggerError, OutputExists, RecordingBusy, RunAbandoned
from logger.feed import Feed, SourceStatus
from logger.intake import Intake
from logger.journal import journal_of
from logger.ledger import RESERVED
from logger.live import LiveFile
from logger.moments import Moment, MomentError, apply_revision, new_moment
from logger.notices import Notices, RunNotice
from logger.recorder import Recorder
from logger.recording import Gap
from logger.run_pictures import RunPictures
from logger.saving import save
from logger.scale import clock_text
from logger.track import Track
from logger.version import VERSION

__all__ = ["Listener", "Run", "RunStatus"]

STOP_LIMIT_S = 5.0
"""Host seconds that a thread may take to end before it is reported as stuck."""

ABANDON_LIMIT_S = 1.0
"""The same for all sources of a run that is given up: who gave it up wants to go."""


class Listener(Protocol):
    """Something that follows the samples of a run. Called on the recorder thread; must be quick."""

    def add(self, samples: Samples) -> None:
        """Take one block."""


@dataclass(frozen=True, slots=True)
class RunStatus:
    """What a run looks like at one moment. Host seconds for ages, run seconds for times."""

    phase: str  # starting | recording | stopping | finished | failed
    title: str
    start_time: str
    out: Path
    speed: float
    now_s: float
    sample_count: int
    last_sample_s: float | None
    durable_samples: int
    synced_age_s: float | None
    waiting_samples: int  # read, but not yet written (a full or slow disk)
    sources: tuple[SourceStatus, ...]
    notices: tuple[RunNotice, ...]
    error: str | None
    saved_samples: int = 0  # what stands in a journal, durable or not


class Run:
    """A run from start to finished file.

    Parameters
    ----------
    sources : sources, not yet opened; all must have the same `speed`, and no two channels one name.
    out : the recording to make. Must not exist unless `replace`; then it is replaced only by the whole
        new file.
    bench_toml : text of the bench file, kept in the recording.
    second_folder : a folder, best on another disk, in which a second copy of everything is kept.
    live : a disposable file for other programs to follow the run with (`logger.live`).
    clock, disk : for tests.

    Raises
    ------
    LoggerError : the sources do not fit together.
    """

    def __init__(
        self,
        sources: Sequence[Source],
        out: Path,
        *,
        title: str = "",
        bench_toml: str = "",
        replace: bool = False,
        second_folder: Path | None = None,
        live: Path | None = None,
        clock: RunClock | None = None,
        disk: Disk | None = None,
        on_durable: Callable[[int, int], None] | None = None,
    ) -> None:
        if not sources:
            raise LoggerError("a run needs at least one source: add --source ADDRESS")
        speeds = {source.speed for source in sources}
        if len(speeds) > 1:
            raise LoggerError("all sources of a run must have the same speed; give each the same speed=")
        self.out = out.absolute()
        self.title = title or self.out.stem
        self._sources = tuple(sources)
        self._bench_toml = bench_toml
        self._replace = replace
        self._second_folder = second_folder
        self._notices = Notices(lambda: self.clock.now_s())
        if live is not None and live.absolute() == self.out:
            raise LoggerError(
                f"{live}: the live file is thrown away at the end; name another than the recording"
            )
        self._live = None if live is None else LiveFile(journal_of(self.out), live, self._notices)
        self._speed = speeds.pop()
        self.clock: RunClock = clock or HostClock(self._speed)
        self._disk = disk or Disk()
        self._on_durable = on_durable
        self._lock = threading.Lock()
        self._stop_lock = threading.Lock()
        self._moments: dict[str, Moment] = {}
        self._listeners: list[Listener] = []
        self._intake = Intake()
        self.pictures = RunPictures(self._intake, lambda moment_id: moment_id in self._moments)
        """The pictures of the moments."""
        self._feeds: list[Feed] = []
        self._recorder: Recorder | None = None
        self._phase = "starting"
        self._is_abandoned = self._may_begin = False
        self._error: str | None = None
        self._start_time = ""
        self.saved: Path | None = None
        """The finished recording, once `stop` has returned."""

    # ------------------------------------------------------------ life

    def add_listener(self, listener: Listener) -> None:
        """Let `listener` follow all samples. Call before `start`."""
        self._listeners.append(listener)

    def start(self) -> None:
        """Open the sources, begin the journal and record. Returns once the run is durable.

        Raises
        ------
        SourceError : a source could not be opened; no file was made.
        RunAbandoned : `abandon` was called meanwhile; no file was made.
        OutputExists : the output exists already, or an unfinished run of that name does.
        OSError : the folder cannot be written.
        """
        self._check_output()
        # Zero is here, not after opening: a source may read while it opens, and that time must stand.
        self.clock.restart()
        self._start_time = datetime.now().astimezone().isoformat(timespec="milliseconds")
        try:
            self._open_sources()
            self._decide_to_begin()
            tracks = self._begin_tracks()
        except BaseException:
            self._phase = "failed"
            self._end_opening()
            raise
        self._recorder = Recorder(
            tracks, self._intake, self._listeners, self._notices, self.clock, on_durable=self._on_durable
        )
        self._recorder.start()
        self._phase = "recording"
        if self._live is not None:
            self._live.start()
        for feed in self._feeds:  # all channels stand in the journal before the first sample
            feed.declare_channels()
        for feed in self._feeds:
            feed.go()

    def abandon(self) -> bool:
        """Give up a run whose sources are being opened: `start` raises `RunAbandoned` soon. From any thread.

        Returns False, and does nothing, where all are open: that run begins and is to be stopped.
        """
        with self._lock:
            if self._may_begin:
                return False
            self._is_abandoned = True
        for feed in tuple(self._feeds):
            feed.stop()
        return True

    def _decide_to_begin(self) -> None:
        with self._lock:
            self._check_wanted()
            self._may_begin = True

    def _check_wanted(self) -> None:
        if self._is_abandoned:
            raise RunAbandoned(
                "The run was given up before its instrument had answered. Nothing was recorded."
            )

    def _end_opening(self) -> None:
        """Close what was opened, after a beginning that failed."""
        for feed in self._feeds:
            feed.stop()
        end_s = time.monotonic() + ABANDON_LIMIT_S
        for feed in self._feeds:
            feed.join(max(0.0, end_s - time.monotonic()) if self._is_abandoned else STOP_LIMIT_S)

    @property
    def open_troubles(self) -> tuple[str, ...]:
        """Why sources could not be opened, as far as is known while others are being opened."""
        return tuple(feed.open_trouble for feed in tuple(self._feeds) if feed.open_trouble)

    def _check_output(self) -> None:
        targets = self._targets()
        if len(set(targets)) < len(targets):
            raise LoggerError(f"the second copy must be in another folder than {self.out.parent}")
        for target in targets:
            self._check_free(target)

    def _check_free(self, target: Path) -> None:
        if target.exists() and not self._replace:
            raise OutputExists(f"{target} exists; choose another name, or add --replace to replace it")
        if journal_of(target).exists():
            if self._disk.is_locked(journal_of(target)):
                raise RecordingBusy(f"{target} is being recorded by another process; choose another name")
            raise OutputExists(
                "an unfinished run of that name lies beside it; "
                f"first: galvanote recover '{journal_of(target)}'"
            )
        if not target.parent.is_dir():
            raise LoggerError(f"the folder {target.parent} is not there; make it, or choose another")

    def _open_sources(self) -> None:
        for source in self._sources:
            feed = Feed(source, self._intake, self._notices, on_moment=self._take_tagged)
            self._feeds.append(feed)
            self._check_wanted()  # who gives the run up from now on stops this feed, too
            feed.open(self.clock)
        for feed in self._feeds:
            try:
                feed.wait_open()
            finally:
                self._check_wanted()  # what giving up made of a source is no fault of it
        names = [channel.name for source in self._sources for channel in source.channels]
        for name in names:
            if names.count(name) > 1:
                raise LoggerError(
                    f"two channels are called {name}; give one of the sources another channel=, and its role="
                )
            if name in RESERVED:
                raise LoggerError(
                    f"no channel can be called {name}: a recording needs it; choose another channel="
                )
        index = 0
        for feed in self._feeds:
            index = feed.number_channels(index)

    def _begin_tracks(self) -> list[Track]:
        head: dict[str, Any] = {
            "uuid": str(uuid.uuid4()),
            "title": self.title,
            "start_time": self._start_time,
            "time_zone": _zone_name(),
            "version": VERSION,
            "speed": self._speed,
            "replace": self._replace,
            "bench_toml": self._bench_toml,
        }
        tracks: list[Track] = []
        try:
            for target in self._targets():
                # Not a comprehension: those begun before one fails must be taken back.
                tracks.append(Track(journal_of(target), head, self._notices, self._disk))  # noqa: PERF401
        except (OSError, LoggerError) as error:
            for track in tracks:  # nothing was measured yet: the beginnings hold nothing
                track.writer.remove()
            if isinstance(error, FileExistsError):
                raise OutputExists(f"another run of that name has just begun: {self.out}") from error
            if isinstance(error, LoggerError):
                raise
            folder = self._targets()[len(tracks)].parent
            raise LoggerError(
                f"no recording can be begun in {folder} ({error.strerror}); choose another folder"
            ) from error
        return tracks

    def _targets(self) -> list[Path]:
        second = [] if self._second_folder is None else [self._second_folder.absolute() / self.out.name]
        return [self.out, *second]

    def keep_second_copy(self, folder: Path) -> None:
        """Keep a second copy of this run in `folder` from now on, with all that came before.

        Where the run has ended but its disk takes nothing, what waits for it goes there.

        Raises
        ------
        LoggerError : it cannot be written there, or a recording of that name is there.
        """
        recorder = self._recorder
        if recorder is None or self._phase not in ("recording", "stopping"):
            raise LoggerError("a second copy can be begun only while a run goes on")
        target = folder.absolute() / self.out.name
        self._check_free(target)
        try:
            recorder.add_second_place(journal_of(target), self._disk)
        except OSError as error:
            raise LoggerError(f"no second copy can be begun in {folder} ({error.strerror})") from error
        self._second_folder = folder

    def wait_ended(self, timeout_s: float) -> bool:
        """Wait for the sources to end by themselves; True once all have."""
        deadline_s = time.monotonic() + timeout_s
        return all(feed.wait_ended(max(0.0, deadline_s - time.monotonic())) for feed in self._feeds)

    def stop(self) -> Path:
        """End the run in order and make the finished file. May be called twice, from any thread.

        Returns the path of the recording.

        Raises
        ------
        ArchiveFailed : the run is safe in its journal, but the finished file could not be made.
        """
        with self._stop_lock:
            if self.saved is not None:
                return self.saved
            if self._recorder is None:
                raise LoggerError("the run was never started; there is nothing to save")
            self._phase = "stopping"
            # A source that has nothing more to give ended the run itself, not whoever noticed it later.
            ended_s = max((feed.last_sample_s for feed in self._feeds), default=0.0)
            if not self.wait_ended(0.0):
                ended_s = self.clock.now_s()
            for feed in self._feeds:
                feed.stop()
            for feed in self._feeds:
                if not feed.join(STOP_LIMIT_S):
                    self._notices.add("warning", "thread_stays", f"{feed.name} did not end in time")
            # Meanwhile readings may still have come: the run lasts until its last one at least.
            ended_s = max(ended_s, *(feed.last_sample_s for feed in self._feeds))
            self._recorder.stop(ended_s)
            if self._live is not None:
                self._live.stop()
            try:
                self.saved = save(self._recorder.tracks, self.unsaved_samples, self._disk, self._notices)
            except ArchiveFailed as error:
                self._phase, self._error = "failed", str(error)
                raise
            finally:
                self._recorder.close()
            self._phase = "finished"
            return self.saved

    @property
    def unsaved_samples(self) -> int:
        """Readings that are in no journal; once `stop` has returned or raised, they are lost."""
        return 0 if self._recorder is None else self._recorder.unsaved

    # ------------------------------------------------------------ moments

    def add_moment(self, kind: str, label: str = "", time_s: float | None = None) -> Moment:
        """Tag a moment; `time_s` is run time, None means now. Returns at once; durable soon after.

        Raises
        ------
        MomentError : unknown kind, or a time before the start.
        """
        moment = new_moment(self.clock.now_s() if time_s is None else time_s, kind, label)
        self._keep(moment)
        return moment

    def edit_moment(
        self,
        moment_id: str,
        *,
        time_s: float | None = None,
        kind: str | None = None,
        label: str | None = None,
        removed: bool | None = None,
    ) -> Moment:
        """Change a moment; what it was stays in the recording's history.

        Raises
        ------
        MomentError : no such moment, a time still to come, or a value that cannot be.
        """
        with self._lock:
            known = self._moments.get(moment_id)
        if known is None:
            raise MomentError(f"there is no moment with the id {moment_id}")
        now_s = self.clock.now_s()
        if time_s is not None and time_s > now_s:  # the run would count as that long
            raise MomentError(
                f"{clock_text(time_s)} is still to come, the run has reached {clock_text(now_s)}; "
                "give a time up to that"
            )
        moment = known.edited(time_s=time_s, kind=kind, label=label, removed=removed)
        self._keep(moment)
        return moment

    @property
    def moments(self) -> tuple[Moment, ...]:
        """The living moments in order of time."""
        with self._lock:
            found = [m for m in self._moments.values() if not m.removed]
        return tuple(sorted(found, key=lambda m: m.time_s))

    def _take_tagged(self, tagged: TaggedMoment) -> None:
        self._keep(new_moment(tagged.time_s, tagged.kind, tagged.label))

    def _keep(self, moment: Moment) -> None:
        self._intake.put_moment(moment)
        with self._lock:
            apply_revision(self._moments, moment)

    # ------------------------------------------------------------ looking

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """The gaps so far, open ones ending now."""
        now_s = self.clock.now_s()
        return tuple(gap for feed in self._feeds for gap in feed.gaps(now_s))

    @property
    def journal_path(self) -> Path:
        """The journal that holds the run while it goes on."""
        return journal_of(self.out)

    def notices_after(self, count: int) -> tuple[RunNotice, ...]:
        """Return the messages that followed the first `count` of this run."""
        return self._notices.after(count)

    def status(self) -> RunStatus:
        """Return a picture of the run for people."""
        recorder = self._recorder
        return RunStatus(
            phase=self._phase,
            title=self.title,
            start_time=self._start_time,
            out=self.saved or self.out,
            speed=self._speed,
            now_s=self.clock.now_s(),
            sample_count=recorder.sample_count if recorder else 0,
            last_sample_s=recorder.last_sample_s if recorder else None,
            durable_samples=recorder.durable_samples if recorder else 0,
            synced_age_s=recorder.synced_age_s if recorder else None,
            waiting_samples=self._intake.waiting + (recorder.waiting if recorder else 0),
            sources=tuple(feed.status() for feed in self._feeds),
            notices=self._notices.all(),
            error=self._error or (recorder.trouble if recorder else None),
            saved_samples=recorder.written_samples if recorder else 0,
        )


def _zone_name() -> str:
    """Return the name of the local time zone as the system knows it, else its abbreviation."""
    link = Path("/etc/localtime")
    if link.is_symlink():
        _, found, name = str(link.resolve()).partition("zoneinfo/")
        if found:
            return name
    return datetime.now().astimezone().tzname() or "UTC"
