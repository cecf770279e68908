"""Changing the moments of a finished recording."""

from __future__ import annotations

import contextlib
from pathlib import Path

from logger.disk import Disk
from logger.edit_journal import edits_of, fold, write_edit
from logger.errors import LoggerError, RecordingBusy
from logger.moments import Moment, MomentError, new_moment
from logger.reader import read_recording, read_stored
from logger.recording import Recording

__all__ = ["add", "edit", "moments_of"]


def moments_of(path: Path) -> tuple[Moment, ...]:
    """Return the living moments of a recording, in order of time."""
    return read_recording(path).moments


def add(path: Path, time_s: float, kind: str, label: str = "") -> Moment:
    """Add a moment to a finished recording.

    Raises
    ------
    MomentError : unknown kind, or a time outside the run.
    RecordingBusy : the run still goes on.
    """
    recording = _finished(path)
    moment = new_moment(time_s, kind, label)
    _check_time(recording, moment)
    _store(recording, moment)
    return moment


def edit(
    path: Path,
    moment_id: str,
    *,
    time_s: float | None = None,
    kind: str | None = None,
    label: str | None = None,
    removed: bool | None = None,
) -> Moment:
    """Change or remove the moment whose id begins with `moment_id`; return its new revision.

    Raises
    ------
    MomentError : no such moment, more than one, or a value that cannot be.
    RecordingBusy : the run still goes on.
    """
    recording = _finished(path)
    known = _find(recording, moment_id)
    changed = known.edited(time_s=time_s, kind=kind, label=label, removed=removed)
    _check_time(recording, changed)
    _store(recording, changed)
    return changed


def fold_pending(path: Path) -> bool:
    """Fold in edits that an earlier process could not; True when there were some.

    Raises
    ------
    LoggerError : they could not be folded in; they stay beside the recording.
    """
    if not edits_of(path).is_file():
        return False
    stored = read_stored(path)
    fold(path, stored.uuid, stored.moments, stored.moments_history)
    return True


def _finished(path: Path) -> Recording:
    if edits_of(path).is_file() and not Disk().is_locked(edits_of(path)):
        fold_pending(path)
    recording = read_recording(path)
    if recording.is_running:
        raise RecordingBusy(
            f"{path} is still being recorded; type the moment into the recorder, or end the run first"
        )
    if not path.exists():
        raise RecordingBusy(f"{path} was cut off; first: galvanote recover '{path}.journal'")
    return recording


def _find(recording: Recording, moment_id: str) -> Moment:
    found = [m for m in recording.moments if m.id.startswith(moment_id.lower())] if moment_id else []
    if len(found) == 1:
        return found[0]
    seen = "is not one" if not found else f"fits {len(found)}"
    raise MomentError(
        f"{moment_id!r} {seen} of the moments; galvanote moment '{recording.path}' list shows their ids"
    )


def _check_time(recording: Recording, moment: Moment) -> None:
    if moment.time_s > recording.duration_s:
        raise MomentError(f"{moment.time_s:g} s is after the end of the run ({recording.duration_s:g} s)")


def _store(recording: Recording, revision: Moment) -> None:
    write_edit(recording.path, recording.uuid, revision)
    # Durable from here on. Where the copy cannot be made now (no room), the next edit or recovery makes it.
    with contextlib.suppress(LoggerError):
        fold_pending(recording.path)
