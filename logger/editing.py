"""Changing a finished recording: one editor at a time, durable at once, folded in by copy and rename.

An edit is first made durable in the side journal, whose lock is the right to change the recording; then
the recording is copied, the copy changed, synced and renamed, and the side journal removed. Cut off
anywhere, nothing is lost and nothing is done twice.
"""

from __future__ import annotations

import contextlib
import time
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from logger.amend import Amendment, amend, check_protection, copy_of
from logger.disk import Disk
from logger.edit_journal import edits_of, merge, pending_edits, real_path
from logger.errors import LoggerError, RecordingBusy
from logger.journal import FrameType, JournalWriter
from logger.moments import Moment, check_revision, now_iso
from logger.payload import encode_json
from logger.reader import read_recording, read_stored
from logger.recording import Recording
from logger.stored_file import identity_of

__all__ = ["Editor", "editing", "finish_leftover"]

WAIT_S = 5.0
LOOK_AGAIN_S = 0.05


class Editor:
    """The right to change one recording, as `editing` gives it."""

    def __init__(
        self, recording: Recording, looked_at: tuple[int, ...], journal: JournalWriter, disk: Disk
    ) -> None:
        self.recording = recording
        """The recording as it is now, edits included."""
        self._looked_at = looked_at
        self._journal = journal
        self._disk = disk
        self.has_written = False

    def keep(self, revisions: Sequence[Moment] = (), pictures: Sequence[Mapping[str, Any]] = ()) -> None:
        """Make revisions of moments and entries of pictures durable, then fold them in.

        Raises
        ------
        LoggerError : they could not be made durable, or read again; nothing has changed.
        """
        for one in revisions:
            check_revision(one)
        moments = ((FrameType.MOMENT, encode_json(one.as_dict())) for one in revisions)
        attached = ((FrameType.ATTACHMENT, encode_json(one)) for one in pictures)
        self._keep(*moments, *attached)

    def keep_findings(self, findings_json: str) -> None:
        """Make findings durable, then fold them in. Raises as `keep`."""
        self._keep((FrameType.FINDINGS, encode_json({"json": findings_json, "date": now_iso()})))

    def _keep(self, *frames: tuple[FrameType, bytes]) -> None:
        try:
            for kind, payload in frames:
                self._journal.append(kind, payload)
            self._journal.sync()
        except OSError as error:
            raise _unchanged(self.recording.path, error) from error
        self.has_written = True
        # Durable from here on. Where the copy cannot be made now (no room), the next edit makes it.
        with contextlib.suppress(LoggerError):
            path = self.recording.path
            _fold(path, self._disk, is_looked_at=_identity(path) == self._looked_at)
            self.has_written = False


@contextlib.contextmanager
def editing(path: Path, disk: Disk | None = None) -> Iterator[Editor]:
    """Hold the right to change a finished recording.

    Raises
    ------
    RecordingError : not a recording.
    RecordingBusy : the run still goes on, was cut off, or somebody else is editing and does not end.
    LoggerError : earlier edits could not be folded in, or the file or its folder cannot be written.
    """
    disk = disk or Disk()
    path = real_path(path)  # what a link leads to is changed: a copy would take the place of the link
    check_protection(path)
    finish_leftover(path, disk)
    looked_at = _identity(path)  # the same file is not looked at again: each look takes a process of its own
    uuid = _finished(path).uuid
    journal = _begin(path, uuid, disk)
    editor = None
    try:
        before, looked_at = looked_at, _identity(path)
        # Once more: it may have been changed before the lock was ours.
        recording = _finished(path, is_looked_at=looked_at == before)
        if recording.uuid != uuid:
            raise RecordingBusy(f"{path} has just been replaced; try again")
        editor = Editor(recording, looked_at, journal, disk)
        yield editor
    finally:
        if editor is None or not editor.has_written:
            journal.remove()
        journal.close()


def finish_leftover(path: Path, disk: Disk | None = None) -> bool:
    """Fold in edits that an earlier process could not; True when there were some.

    Raises
    ------
    RecordingBusy : another process is editing at this moment and does not end.
    LoggerError : they could not be folded in; they stay beside the recording.
    """
    disk = disk or Disk()
    edits = edits_of(path)
    path = edits.with_suffix("")
    deadline_s = time.monotonic() + WAIT_S
    while edits.is_file():
        try:
            with disk.hold(edits) as held:
                _fold(path, disk)
                disk.remove_for_good(copy_of(path))  # of an editor that was cut off
                held.remove()
                disk.sync_folder(path.parent)
                return True
        except FileNotFoundError:
            continue  # its editor has just finished
        except RecordingBusy as error:
            if time.monotonic() > deadline_s:
                raise RecordingBusy(f"{path} is being edited by another process; try again later") from error
            time.sleep(LOOK_AGAIN_S)
    return False


def _begin(path: Path, uuid: str, disk: Disk) -> JournalWriter:
    deadline_s = time.monotonic() + WAIT_S
    while True:
        try:
            return JournalWriter(edits_of(path), {"uuid": uuid}, disk)
        except FileExistsError as error:
            if time.monotonic() > deadline_s:
                raise RecordingBusy(f"{path} is being edited by another process; try again later") from error
            time.sleep(LOOK_AGAIN_S)
            finish_leftover(path, disk)
        except OSError as error:
            raise _unchanged(path, error) from error


def _fold(path: Path, disk: Disk, *, is_looked_at: bool = False) -> None:
    """Write what the side journal holds into the recording. The caller holds the side journal's lock."""
    stored = read_stored(path, is_own=is_looked_at)
    pending = pending_edits(path, stored.uuid)
    if pending:
        moments, history = merge(stored.moments, stored.moments_history, pending.revisions)
        amend(path, Amendment(moments, history, pending.findings, pending.pictures), disk)


def _identity(path: Path) -> tuple[int, ...]:
    """Return what tells whether the file is the one that was looked at; nothing where there is none."""
    try:
        return identity_of(path.stat())
    except OSError:  # reading it says what is wrong
        return ()


def _finished(path: Path, *, is_looked_at: bool = False) -> Recording:
    recording = read_recording(path, is_own=is_looked_at)
    if recording.is_running:
        raise RecordingBusy(
            f"{path} is still being recorded; type the moment into the recorder, or end the run first"
        )
    if not path.exists():
        raise RecordingBusy(f"{path} was cut off; first: galvanote recover '{path}.journal'")
    return recording


def _unchanged(path: Path, error: OSError) -> LoggerError:
    return LoggerError(f"{path} could not be changed ({error.strerror or error}); it is as it was")
