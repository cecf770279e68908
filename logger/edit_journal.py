"""Edits of a finished recording's moments: durable at once in a side journal, then folded in.

The side journal (``FILE.h5.edits``) is a journal like that of a run, with the recording's uuid in its
head. Being cut off leaves it beside the recording: readers of this program take its edits into account,
and the next edit, or `galvanote recover`, folds it in. Folding twice changes nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from logger.amend import store_moments
from logger.disk import Disk
from logger.errors import LoggerError, RecordingBusy
from logger.journal import FrameType, JournalWriter, encode_json, read_frames
from logger.moments import Moment, apply_revision

__all__ = ["EDITS_SUFFIX", "edits_of", "fold", "merge", "pending_revisions", "write_edit"]

EDITS_SUFFIX = ".edits"

History = Sequence[tuple[Moment, str]]


def edits_of(recording: Path) -> Path:
    """Return the name of the side journal of a recording."""
    return recording.with_name(recording.name + EDITS_SUFFIX)


def pending_revisions(recording: Path, uuid: str) -> tuple[Moment, ...]:
    """Return the revisions that lie beside the recording and are not folded in (or not yet removed)."""
    path = edits_of(recording)
    if not path.is_file():
        return ()
    frames = list(read_frames(path))
    if not frames or frames[0].json().get("uuid") != uuid:
        return ()  # it belongs to a recording that had this name before
    return tuple(Moment(**frame.json()) for frame in frames if frame.type == FrameType.MOMENT)


def merge(
    moments: Sequence[Moment], history: History, revisions: Sequence[Moment]
) -> tuple[tuple[Moment, ...], tuple[tuple[Moment, str], ...]]:
    """Return living moments (in order of time) and history after the given revisions."""
    latest = {m.id: m for m in moments}
    replaced = list(history)
    for revision in revisions:
        known = latest.get(revision.id)
        if known is not None and revision.revision > known.revision:
            replaced.append((known, revision.noted_at))
        apply_revision(latest, revision)
    living = sorted((m for m in latest.values() if not m.removed), key=lambda m: m.time_s)
    return tuple(living), tuple(replaced)


def write_edit(recording: Path, uuid: str, revision: Moment, disk: Disk | None = None) -> None:
    """Make one revision durable in the side journal. Returns once it would survive a power cut.

    Raises
    ------
    RecordingBusy : another process is editing this recording.
    LoggerError : the folder cannot be written; nothing has changed.
    """
    disk = disk or Disk()
    path = edits_of(recording)
    try:
        journal = JournalWriter(path, {"uuid": uuid}, disk)
    except FileExistsError as error:
        raise RecordingBusy(
            f"{recording} is being edited by another process; try again in a moment"
        ) from error
    except OSError as error:
        raise LoggerError(f"{recording} could not be changed ({error.strerror}); it is as it was") from error
    try:
        journal.append(FrameType.MOMENT, encode_json(revision.as_dict()))
        journal.sync()
    except OSError as error:
        disk.remove(path)
        raise LoggerError(f"{recording} could not be changed ({error.strerror}); it is as it was") from error
    finally:
        journal.close()


def fold(
    recording: Path, uuid: str, moments: Sequence[Moment], history: History, disk: Disk | None = None
) -> None:
    """Write what the side journal holds into the recording, then remove the side journal.

    `moments` and `history` are those stored in the recording itself. Does nothing when there is no side
    journal of this recording.

    Raises
    ------
    LoggerError : the recording could not be changed; the edits stay in the side journal.
    """
    disk = disk or Disk()
    revisions = pending_revisions(recording, uuid)
    if revisions:
        store_moments(recording, *merge(moments, history, revisions), disk)
    if edits_of(recording).exists():
        disk.remove(edits_of(recording))
        disk.sync_folder(recording.parent)
