"""The recorder: from the intake into the journal, synced every second, whatever the disk does."""

from __future__ import annotations

import json
import threading
import time
from collections import deque
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Protocol

import numpy as np

from drivers.run_clock import RunClock
from drivers.samples import Samples
from logger.clock_watch import ClockWatch
from logger.intake import Entry, Intake
from logger.journal import BLOCK_LIMIT, FrameType, JournalWriter, encode_json, encode_samples
from logger.moments import now_iso
from logger.notices import Notices

__all__ = ["Recorder"]

SYNC_EVERY_S = 1.0
RETRY_EVERY_S = 0.5
ANCHOR_EVERY_S = 60.0
PENDING_LIMIT_BYTES = 128 * 2**20
"""What may wait in memory for a full disk, besides the intake: two hours at 1 kHz."""
STOP_PATIENCE_S = 20.0
"""How long `stop` goes on trying while the disk takes nothing."""


class _Listener(Protocol):
    def add(self, samples: Samples) -> None: ...


class Recorder:
    """Owns the journal and the one thread that writes it.

    The thread takes entries from the intake, writes each as a frame at once (a killed process then loses
    nothing that was written), syncs every second and right after a moment, and only then counts things as
    durable. A disk that takes nothing is retried with the same frame at the same place; what waits is
    kept, bounded, in memory. Listeners get the samples after the attempt to write: the journal has
    priority over the picture.
    """

    def __init__(
        self,
        journal: JournalWriter,
        intake: Intake,
        listeners: Sequence[_Listener],
        notices: Notices,
        clock: RunClock,
        *,
        on_durable: Callable[[int, int], None] | None = None,
    ) -> None:
        self._journal = journal
        self._intake = intake
        self._listeners = list(listeners)
        self._notices = notices
        self._clock = clock
        self._on_durable = on_durable
        self._thread = threading.Thread(target=self._work, name="recorder", daemon=True)
        self._stopping = threading.Event()
        self._ended_s = 0.0
        self._pending: deque[tuple[FrameType, bytes, int]] = deque()
        self._pending_bytes = 0
        self._written_samples = 0
        self._written_moments: set[str] = set()
        self._dirty = False
        self._synced_s: float | None = None
        self._anchored_s = -np.inf
        self._clock_watch = ClockWatch()
        self._sync_failed = False
        self.trouble: str | None = None
        """What keeps the recorder from writing at this moment, for people; None when all is well."""
        self.sample_count = 0
        """Samples taken so far, written or not."""
        self.last_sample_s: float | None = None
        self.durable_samples = 0
        """Samples that would survive a power cut."""

    @property
    def journal_path(self) -> Path:
        """Where the journal lies."""
        return self._journal.path

    @property
    def waiting(self) -> int:
        """Samples taken but not yet written."""
        return sum(count for _, _, count in tuple(self._pending))

    @property
    def synced_age_s(self) -> float | None:
        """Host seconds since everything written was made durable; None before the first time."""
        return None if self._synced_s is None else time.monotonic() - self._synced_s

    def start(self) -> None:
        """Begin."""
        self._thread.start()

    def stop(self, ended_s: float) -> None:
        """Write what is left and the end of the run, then end the thread. `ended_s` is run time.

        The journal stays open, and so locked, until `close`.
        """
        self._ended_s = ended_s
        self._stopping.set()
        self._intake.close()
        self._thread.join()

    def close(self) -> None:
        """Close the journal."""
        self._journal.close()

    # ------------------------------------------------------------ on the thread

    def _work(self) -> None:
        self._anchor()
        while True:
            was_stopping = self._stopping.is_set()
            self._round(SYNC_EVERY_S / 10)
            if was_stopping and not self._pending:
                break
            if was_stopping:
                self._write_in_time()
                break
        self._finish()

    def _round(self, wait_s: float) -> None:
        entries: list[Entry] = []
        if self._pending and self.trouble is not None:
            time.sleep(RETRY_EVERY_S)
        if self._pending_bytes < PENDING_LIMIT_BYTES:
            entries = self._intake.take(wait_s)
        has_moment = any(entry.type == FrameType.MOMENT for entry in entries)
        for entry in entries:
            self._queue(entry)
        self._watch_clocks()
        self._write_pending()
        for entry in entries:
            if entry.samples is not None:
                self._tell(entry)
        age_s = self.synced_age_s
        if self._dirty and (has_moment or age_s is None or age_s >= SYNC_EVERY_S):
            self._sync()

    def _queue(self, entry: Entry) -> None:
        if entry.samples is None:
            assert entry.content is not None
            self._push(entry.type, encode_json(entry.content), 0)
            return
        samples = entry.samples
        for begin in range(0, len(samples), BLOCK_LIMIT):
            part = samples if len(samples) <= BLOCK_LIMIT else _slice(samples, begin, begin + BLOCK_LIMIT)
            self._push(FrameType.SAMPLES, encode_samples(entry.index, part), len(part))
        self.sample_count += len(samples)
        self.last_sample_s = float(samples.times_s[-1])

    def _push(self, kind: FrameType, payload: bytes, count: int) -> None:
        self._pending.append((kind, payload, count))
        self._pending_bytes += len(payload)

    def _write_pending(self) -> None:
        while self._pending:
            kind, payload, count = self._pending[0]
            try:
                self._journal.append(kind, payload)
            except OSError as error:
                self._complain(error)
                return
            self._pending.popleft()
            self._pending_bytes -= len(payload)
            self._written_samples += count
            if kind == FrameType.MOMENT:
                self._written_moments.add(_moment_id(payload))
            self._dirty = True
        if self.trouble is not None and not self._sync_failed:
            self.trouble = None
            self._notices.add("info", "disk_back", "The disk takes data again; nothing was lost.")

    def _complain(self, error: OSError) -> None:
        text = (
            f"{self._journal.path.parent} takes no more data ({error.strerror or error}). "
            "The readings are kept in memory and written as soon as there is room: free some space now."
        )
        if self.trouble is None:
            self._notices.add("danger", "disk_full", text)
        self.trouble = text

    def _sync(self) -> None:
        if self._sync_failed:
            return
        try:
            self._journal.sync()
        except OSError as error:
            # After a failed sync the system may have dropped what it had: a second try that succeeds
            # proves nothing, so nothing is called durable from here on.
            self._sync_failed = True
            self.trouble = (
                f"The disk under {self._journal.path.parent} reports an error ({error.strerror or error}): "
                "from now on nothing can be promised. End the run and save it elsewhere."
            )
            self._notices.add("danger", "disk_error", self.trouble)
            return
        self._dirty = bool(self._pending)
        self._synced_s = time.monotonic()
        self.durable_samples = self._written_samples
        if self._on_durable is not None:
            self._on_durable(self.durable_samples, len(self._written_moments))

    def _tell(self, entry: Entry) -> None:
        assert entry.samples is not None
        for listener in tuple(self._listeners):
            try:
                listener.add(entry.samples)
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
        self._push(FrameType.ANCHOR, encode_json(anchor), 0)

    def _write_in_time(self) -> None:
        deadline_s = time.monotonic() + STOP_PATIENCE_S
        while self._pending and time.monotonic() < deadline_s:
            time.sleep(RETRY_EVERY_S)
            self._write_pending()

    def _finish(self) -> None:
        if self._pending:
            lost = self.waiting
            self._notices.add(
                "danger", "unsaved", f"{lost} readings could not be written: the disk stayed full."
            )
            self._sync()
            return
        self._anchor()
        self._push(FrameType.END, encode_json({"time_s": self._ended_s, "end_time": now_iso()}), 0)
        self._write_pending()
        self._sync()


def _slice(samples: Samples, begin: int, end: int) -> Samples:
    ticks = samples.board_ticks
    return Samples(
        samples.channel,
        samples.times_s[begin:end],
        samples.values[begin:end],
        samples.quality[begin:end],
        None if ticks is None else ticks[begin:end],
    )


def _moment_id(payload: bytes) -> str:
    return str(json.loads(payload)["id"])
