"""One copy of a run on one disk: a journal with what waits for it, and what has become durable on it."""

from __future__ import annotations

import contextlib
import errno
import itertools
import json
import time
from collections import deque
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

from logger.disk import Disk
from logger.journal import FrameType, JournalWriter
from logger.notices import Notices
from logger.payload import Payload, parts_of, size_of

__all__ = ["PENDING_LIMIT_BYTES", "FrameToWrite", "Track"]

PENDING_LIMIT_BYTES = 128 * 2**20
"""What may wait in memory for a full disk, besides the intake: two hours at 1 kHz."""
BATCH_BYTES = 2**20
_WHY = "the first disk has lost them, and memory had no room for them."


class FrameToWrite(NamedTuple):
    """A frame on its way to the disk, and how many samples it holds."""

    type: FrameType
    payload: Payload
    samples: int = 0

    @property
    def size(self) -> int:
        """Bytes of the payload."""
        return size_of(self.payload)


class Track:
    """Writes frames to one journal, keeps what the disk does not take, and counts what is durable.

    A write that fails (a full disk) is tried again later with the same frame at the same place. A sync
    that fails is final: the system may have dropped what it had, and a second sync that succeeds would
    prove nothing. From then on the track acknowledges nothing; what was not yet durable stays in memory,
    bounded, so that it can go to a second place. Used by one thread; counts may be read by others.

    Parameters
    ----------
    path, head, disk : as for `JournalWriter`, which may raise.
    """

    def __init__(self, path: Path, head: Mapping[str, Any], notices: Notices, disk: Disk) -> None:
        self.head = dict(head)
        self._notices = notices
        self._disk = disk
        self._journal = JournalWriter(path, head, disk)
        self._pending: deque[FrameToWrite] = deque()
        self._unsynced: deque[FrameToWrite] = deque()
        self._kept_bytes = 0
        self._is_keeping = True
        self._synced_end = self._journal.end
        self.written_samples = 0
        """Samples that stand in the file, durable or not."""
        self._written_moments: set[str] = set()
        self._written_frames = 1
        self._dirty = False
        self._synced_s: float | None = None
        self.is_failed = False
        """A sync has failed: nothing more is acknowledged here."""
        self.trouble: str | None = None
        """What keeps this track from being durable at this moment, for people; None when all is well."""
        self.durable_samples = 0
        self.durable_moments = 0
        self.durable_frames = 1

    @property
    def path(self) -> Path:
        """Where the journal lies."""
        return self._journal.path

    @property
    def waiting(self) -> int:
        """Samples not yet written."""
        return sum(frame.samples for frame in tuple(self._pending))

    @property
    def is_behind(self) -> bool:
        """Frames wait to be written."""
        return bool(self._pending)

    @property
    def has_room(self) -> bool:
        """More may be pushed without keeping too much in memory."""
        return self._kept_bytes < PENDING_LIMIT_BYTES

    @property
    def synced_age_s(self) -> float | None:
        """Host seconds since everything written was made durable; None before the first time."""
        return None if self._synced_s is None else time.monotonic() - self._synced_s

    @property
    def needs_sync(self) -> bool:
        """Something was written since the last sync, and a sync is worth trying."""
        return self._dirty and not self.is_failed

    def push(self, frame: FrameToWrite) -> None:
        """Add a frame behind the last; `write` takes it to the disk."""
        self._pending.append(frame)
        self._kept_bytes += frame.size

    def give_up(self) -> None:
        """Let go of what waits: another copy is whole, and memory has an end."""
        self.is_failed = True
        self._pending.clear()
        self._unsynced.clear()
        self._kept_bytes = 0
        self.trouble = f"The copy in {self.path.parent} stopped: that disk took nothing for too long."
        self._notices.add("danger", "copy_stopped", self.trouble)

    def write(self) -> None:
        """Write what waits, as far as the disk takes it; short frames together."""
        most_bytes = BATCH_BYTES
        while self._pending:
            frames = self._first_waiting(most_bytes)
            try:
                self._journal.append_all([(frame.type, frame.payload) for frame in frames])
            except OSError as error:
                if len(frames) == 1:
                    self._complain(error)
                    return
                most_bytes = 0  # some of them may still fit, one by one
                continue
            for frame in frames:
                self._has_written(frame)
        if self.trouble is not None and not self.is_failed:
            self.trouble = None
            self._notices.add("info", "disk_back", "The disk takes data again; nothing was lost.")

    def _first_waiting(self, most_bytes: int) -> list[FrameToWrite]:
        """Return the first frame that waits, and those behind it up to so many bytes together."""
        frames: list[FrameToWrite] = []
        size = 0
        for frame in self._pending:
            size += frame.size
            if frames and size > most_bytes:
                break
            frames.append(frame)
        return frames

    def _has_written(self, frame: FrameToWrite) -> None:
        self._pending.popleft()
        self._written_frames += 1
        self.written_samples += frame.samples
        if frame.type == FrameType.MOMENT:
            self._written_moments.add(json.loads(b"".join(parts_of(frame.payload)))["id"])
        self._dirty = True
        # Without a hole: once one frame was not kept, none behind it is.
        self._is_keeping &= not self.is_failed or self.has_room
        if self._is_keeping:
            self._unsynced.append(frame)
        else:
            self._kept_bytes -= frame.size  # written at least; memory has an end

    def sync(self) -> bool:
        """Make everything written durable. False when it is not (also when it failed earlier)."""
        if self.is_failed:
            return False
        self._journal.lay_out_ahead()
        try:
            self._journal.sync()
        except OSError as error:
            self._fail(
                f"The disk under {self.path.parent} reports an error ({error.strerror or error}): from now "
                "on nothing is safe there. What was measured since the last good moment is kept in memory; "
                "name a second place."
            )
            return False
        self._dirty = False
        self._synced_s = time.monotonic()
        self._kept_bytes -= sum(frame.size for frame in self._unsynced)
        self._unsynced.clear()
        self._synced_end = self._journal.end
        self.durable_samples = self.written_samples
        self.durable_moments = len(self._written_moments)
        self.durable_frames = self._written_frames
        return True

    def restore(self) -> None:
        """After a failed sync write what memory keeps once more: the system may have dropped it.

        Nothing is acknowledged for it: whoever reads the journal finds as much as can be found.
        """
        if self.is_failed and self._journal.is_open:
            kept = [(frame.type, frame.payload) for frame in self._unsynced]
            with contextlib.suppress(OSError):
                self._journal.write_again(self._synced_end, kept)

    def with_its_name(self) -> Track:
        """Return this track; where its journal's name is gone, a new one of that name with everything.

        A file without a name is lost when this process ends. Where no new one can be made the track has
        failed: nothing more is acknowledged, and what the open file holds can still go to a second place.
        """
        if self.is_failed or self._journal.has_its_name:
            return self
        try:
            anew = self.copy_to(self.path, self._disk)
        except OSError as error:
            self._fail(
                f"{self.path} is no longer there (removed, renamed, or its disk taken away) and could not be "
                f"written anew ({error.strerror or error}): from now on nothing is safe there. Everything "
                "recorded so far is still within reach while this run goes on: name a second place now."
            )
            return self
        self._journal.close()
        self._notices.add(
            "warning",
            "journal_anew",
            f"{self.path} was removed, renamed or replaced while it was being written. It has been written "
            "anew, with everything recorded so far; leave it alone until the run has ended.",
        )
        return anew

    def copy_to(self, path: Path, disk: Disk) -> Track:
        """Return a new track at `path` with everything of this one: from its file what had become
        durable, from memory what it keeps, and from the file again what memory had no room for.

        Raises
        ------
        OSError : the second place cannot be written either.
        """
        self.restore()
        kept_until = self.durable_frames + len(self._unsynced)
        track = Track(path, self.head, self._notices, disk)
        in_file = self._read(1, self.durable_frames), self._read(kept_until, self._written_frames)
        try:
            for frame in itertools.chain(in_file[0], self._unsynced, in_file[1], self._pending):
                track.push(frame)
                track.write()
                if track.is_behind:
                    raise OSError(errno.ENOSPC, "no room for what has been recorded so far")
        except BaseException:
            track.writer.remove()  # half a copy would only keep the name from the next attempt
            raise
        track.sync()
        if missing := self.written_samples + self.waiting - track.written_samples:
            self._notices.add("danger", "copy_short", f"{missing} readings could not be copied: {_WHY}")
        return track

    def _read(self, first: int, end: int) -> Iterator[FrameToWrite]:
        """Yield frames of the file by their numbers."""
        for frame in itertools.islice(self._journal.frames(), first, end):
            samples = 0
            if frame.type == FrameType.SAMPLES:
                samples = int.from_bytes(frame.payload[4:8], "little")
            yield FrameToWrite(frame.type, frame.payload, samples)

    @property
    def writer(self) -> JournalWriter:
        """What writes the journal; it holds the journal's lock until it is closed."""
        return self._journal

    def close(self) -> None:
        """Close the journal and give up its lock."""
        self._journal.close()

    def _complain(self, error: OSError) -> None:
        if self.trouble is None:
            self.trouble = (
                f"{self.path.parent} takes no more data ({error.strerror or error}). "
                "The readings are kept in memory and written as soon as there is room: free some space now."
            )
            self._notices.add("danger", "disk_full", self.trouble)

    def _fail(self, trouble: str) -> None:
        self.is_failed = True
        self.trouble = trouble
        self._notices.add("danger", "disk_error", self.trouble)
