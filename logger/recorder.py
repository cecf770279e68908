"""The recorder: from the intake into the journal, synced every second, whatever the disk does."""

from __future__ import annotations

import errno
import queue
import threading
import time
from collections.abc import Callable, Sequence
from concurrent.futures import Future, wait
from datetime import UTC, datetime
from pathlib import Path
from typing import Protocol

import numpy as np

from drivers.run_clock import RunClock
from drivers.samples import Samples
from logger.clock_watch import ClockWatch
from logger.disk import Disk
from logger.framing import frames_of, gathered
from logger.intake import Entry, Intake
from logger.journal import FrameType
from logger.moments import now_iso
from logger.notices import Notices
from logger.payload import encode_json
from logger.track import FrameToWrite, Track

__all__ = ["Recorder"]

SYNC_EVERY_S = 1.0
RETRY_EVERY_S = 0.5
ANCHOR_EVERY_S = 60.0
FOR_PEOPLE = frozenset({FrameType.MOMENT, FrameType.ATTACHMENT})
"""What somebody has just done by hand: synced at once."""
STOP_PATIENCE_S = 30.0
"""How long `stop` goes on trying while the disk takes nothing."""


class _Listener(Protocol):
    def add(self, samples: Samples) -> None: ...


class Recorder:
    """Owns the journal, its second copy if there is one, and the one thread that writes them.

    The thread takes entries from the intake, writes each as a frame at once (a killed process then loses
    nothing that was written), syncs every second and right after a moment, and only then counts things as
    durable. What the disk does not take waits in the track, bounded. Listeners get the samples after the
    attempt to write: the journal has priority over the picture.
    """

    def __init__(
        self,
        tracks: Sequence[Track],
        intake: Intake,
        listeners: Sequence[_Listener],
        notices: Notices,
        clock: RunClock,
        *,
        on_durable: Callable[[int, int], None] | None = None,
    ) -> None:
        self._tracks = list(tracks)
        self._intake = intake
        self._listeners = list(listeners)
        self._notices = notices
        self._clock = clock
        self._on_durable = on_durable
        self._thread = threading.Thread(target=self._work, name="recorder", daemon=True)
        self._stopping = threading.Event()
        self._requests: queue.SimpleQueue[Callable[[], None]] = queue.SimpleQueue()
        self._ended_s = 0.0
        self._anchored_s = -np.inf
        self._clock_watch = ClockWatch()
        self.sample_count = 0
        """Samples taken so far, written or not."""
        self.last_sample_s: float | None = None

    # ------------------------------------------------------------ from other threads

    @property
    def tracks(self) -> tuple[Track, ...]:
        """The copies being written; a healthy one first."""
        return tuple(sorted(self._tracks, key=lambda track: track.is_failed))

    @property
    def waiting(self) -> int:
        """Samples taken but written nowhere yet."""
        return min(track.waiting for track in self._tracks)

    @property
    def unsaved(self) -> int:
        """Samples that are in no journal; after `stop` nothing more comes of them."""
        return min(track.waiting for track in self._healthy) + self._intake.waiting

    @property
    def written_samples(self) -> int:
        """Samples that stand in a journal, durable or not."""
        return max(track.written_samples for track in self._healthy)

    @property
    def _healthy(self) -> list[Track]:
        """The tracks whose disk reports no error; all of them where there is none."""
        return [track for track in self._tracks if not track.is_failed] or self._tracks

    @property
    def durable_samples(self) -> int:
        """Samples that would survive a power cut."""
        return max(track.durable_samples for track in self._tracks)

    @property
    def synced_age_s(self) -> float | None:
        """Host seconds since everything written was made durable; None before the first time."""
        return min((t.synced_age_s for t in self._tracks if t.synced_age_s is not None), default=None)

    @property
    def trouble(self) -> str | None:
        """What is wrong with a disk at this moment, for people; None when all is well."""
        return next((track.trouble for track in self._tracks if track.trouble is not None), None)

    def start(self) -> None:
        """Begin."""
        self._thread.start()

    def add_second_place(self, path: Path, disk: Disk) -> None:
        """Write everything of this run also to a new journal at `path`, from its beginning.

        Also while `stop` waits for a disk that takes nothing.

        Raises
        ------
        OSError : it cannot be written there.
        """
        done: Future[None] = Future()

        def on_thread() -> None:
            try:
                source = self.tracks[0]
                self._tracks.append(source.copy_to(path, disk))
            except Exception as error:  # noqa: BLE001 - raised again where it was asked for
                done.set_exception(error)
            else:
                done.set_result(None)

        self._requests.put(on_thread)
        while not wait([done], timeout=RETRY_EVERY_S).done:
            if not self._thread.is_alive() and not done.done():
                raise OSError(errno.ESHUTDOWN, "the run has ended")
        done.result()

    def stop(self, ended_s: float) -> None:
        """Write what is left and the end of the run, then end the thread. `ended_s` is run time.

        The journals stay open, and so locked, until `close`.
        """
        self._ended_s = ended_s
        self._stopping.set()
        self._intake.close()
        self._thread.join()

    def close(self) -> None:
        """Close the journals."""
        for track in self._tracks:
            track.close()

    # ------------------------------------------------------------ on the thread

    def _work(self) -> None:
        self._anchor()
        self._write()  # what waits at the beginning of a round counts as refused by the disk
        while not self._stopping.is_set():
            self._round(SYNC_EVERY_S / 10)
        deadline_s = time.monotonic() + STOP_PATIENCE_S
        self._drain(deadline_s)
        self._finish(deadline_s)

    def _answer_requests(self) -> None:
        while not self._requests.empty():
            self._requests.get()()

    def _round(self, wait_s: float) -> None:
        self._answer_requests()
        healthy = self._healthy
        if all(track.is_behind for track in healthy):
            self._stopping.wait(RETRY_EVERY_S)
        entries = self._intake.take(wait_s) if any(track.has_room for track in healthy) else []
        for group in gathered(entries):
            self._take(group)
        self._watch_clocks()
        self._write()
        for entry in entries:
            if entry.samples is not None:
                self._tell(entry.samples)
        self._sync(at_once=any(entry.type in FOR_PEOPLE for entry in entries))

    def _take(self, group: Sequence[Entry]) -> None:
        try:
            frames = frames_of(group)
        except Exception as error:  # noqa: BLE001 - one thing that cannot be kept must not end the recording
            if len(group) == 1:
                self._notices.add("danger", "fault", f"Something could not be recorded: {error!r}.")
            else:
                for entry in group:
                    self._take([entry])
            return
        for frame in frames:
            self._push(frame)
        samples = group[-1].samples
        if samples is not None:
            self.sample_count += sum(frame.samples for frame in frames)
            self.last_sample_s = float(samples.times_s[-1])

    def _push(self, frame: FrameToWrite) -> None:
        for track in self._tracks:
            if not track.has_room and any(t.has_room and not t.is_failed for t in self._tracks):
                if not track.is_failed:
                    track.give_up()
                continue
            track.push(frame)

    def _write(self) -> None:
        for track in self._tracks:
            track.write()

    def _sync(self, *, at_once: bool) -> None:
        synced = False
        for number, track in enumerate(self._tracks):
            age_s = track.synced_age_s
            if track.needs_sync and (at_once or age_s is None or age_s >= SYNC_EVERY_S):
                self._tracks[number] = track.with_its_name()
                synced |= self._tracks[number].sync()
        if synced and self._on_durable is not None:
            moments = max(track.durable_moments for track in self._tracks)
            try:
                self._on_durable(self.durable_samples, moments)
            except Exception as error:  # noqa: BLE001 - who is told must not end the recording
                self._on_durable = None
                self._notices.add("warning", "acks", f"Acknowledging stopped: {error!r}. Recording goes on.")

    def _tell(self, samples: Samples) -> None:
        for listener in tuple(self._listeners):
            try:
                listener.add(samples)
            except Exception as error:  # noqa: BLE001 - a fault in a picture must not end the recording
                self._listeners.remove(listener)
                self._notices.add(
                    "warning", "listener", f"The live view stopped: {error!r}. Recording goes on."
                )

    def _watch_clocks(self) -> None:
        events = self._clock_watch.look()
        for event in events:
            self._notices.add("warning", event.code, event.text)
        if events or time.monotonic() - self._anchored_s >= ANCHOR_EVERY_S:
            self._anchor()

    def _anchor(self) -> None:
        self._anchored_s = time.monotonic()
        anchor = {
            "time_s": self._clock.now_s(),
            "utc": datetime.now(UTC).isoformat(timespec="milliseconds"),
        }
        self._push(FrameToWrite(FrameType.ANCHOR, encode_json(anchor)))

    def _drain(self, deadline_s: float) -> None:
        """Take and write what is left, as long as there is hope that the disk takes it."""
        self._round(0.0)
        while not self._intake.is_empty and time.monotonic() < deadline_s:
            time.sleep(RETRY_EVERY_S)
            self._round(0.0)

    def _finish(self, deadline_s: float) -> None:
        self._anchor()
        end = {"time_s": self._ended_s, "end_time": now_iso()}
        self._push(FrameToWrite(FrameType.END, encode_json(end)))
        self._write()
        while all(track.is_behind for track in self._healthy) and time.monotonic() < deadline_s:
            time.sleep(RETRY_EVERY_S)
            self._answer_requests()  # a second place named now saves what waits for a full disk
            self._write()
        if lost := self.unsaved:
            self._notices.add(
                "danger", "unsaved", f"{lost} readings could not be written: the disk stayed full."
            )
        self._sync(at_once=True)
        for track in self._tracks:
            track.restore()
