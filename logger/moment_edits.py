"""Changing the moments of a finished recording."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from logger.attachments import attachment_of, living
from logger.disk import Disk
from logger.edit_journal import merge
from logger.editing import editing
from logger.errors import RecordingBusy
from logger.moments import Moment, MomentError, check_length, check_number, new_moment
from logger.reader import read_recording
from logger.recording import Recording

__all__ = [
    "ADDED",
    "Changes",
    "add",
    "changes_beyond",
    "check_edit",
    "edit",
    "find",
    "keep_changes",
    "last_revisions",
    "moments_of",
]

ADDED = -1
"""The revision that a moment is made on which is to be added."""


@dataclass(frozen=True, slots=True)
class Changes:
    """What a person has changed in a recording: revisions of moments, entries of pictures (see
    `logger.attachments`), each in the order in which they were made."""

    revisions: tuple[Moment, ...] = ()
    pictures: tuple[Mapping[str, Any], ...] = ()

    def __bool__(self) -> bool:
        return bool(self.revisions) or bool(self.pictures)

    def __add__(self, later: Changes) -> Changes:
        return Changes((*self.revisions, *later.revisions), (*self.pictures, *later.pictures))


def moments_of(path: Path) -> tuple[Moment, ...]:
    """Return the living moments of a recording, in order of time."""
    return read_recording(path).moments


def add(path: Path, time_s: float, kind: str, label: str = "", disk: Disk | None = None) -> Moment:
    """Add a moment to a finished recording.

    Raises
    ------
    MomentError : unknown kind, a time outside the run, or a label that is too long.
    RecordingBusy : the run still goes on, or somebody else is editing it.
    """
    check_length(label)
    moment = new_moment(time_s, kind, label)
    with editing(path, disk) as editor:
        check_edit(editor.recording, moment)
        editor.keep((moment,))
    return moment


def edit(
    path: Path,
    moment_id: str,
    *,
    time_s: float | None = None,
    kind: str | None = None,
    label: str | None = None,
    removed: bool | None = None,
    disk: Disk | None = None,
) -> Moment:
    """Change or remove the moment whose id begins with `moment_id`; return its new revision.

    Raises
    ------
    MomentError : no such moment, more than one, or a value that cannot be.
    RecordingBusy : the run still goes on, or somebody else is editing it.
    """
    check_length(label or "")
    with editing(path, disk) as editor:
        known = find(editor.recording, moment_id)
        changed = known.edited(time_s=time_s, kind=kind, label=label, removed=removed)
        check_edit(editor.recording, changed)
        editor.keep((changed,))
    return changed


def keep_changes(recording: Recording, changes: Changes, disk: Disk | None = None) -> Recording:
    """Keep changes that have been checked when they were made; return the recording with them.

    Where others have changed a moment in the file since, what they made of it goes into its history. What is
    returned has their changes, too.

    Raises
    ------
    RecordingBusy : the file is another one by now, or somebody else is editing it.
    LoggerError : they could not be made durable; the file is as it was.
    """
    with editing(recording.path, disk) as editor:
        present = editor.recording
        if present.uuid != recording.uuid:
            raise RecordingBusy(f"{recording.path} has been replaced by another recording; open it again")
        revisions = _following(present, changes.revisions)
        editor.keep(revisions, changes.pictures)
    moments, history = merge(present.moments, present.moments_history, revisions)
    return replace(
        recording,
        moments=moments,
        moments_history=history,
        attachments=living((*present.attachments, *map(attachment_of, changes.pictures))),
        findings_json=present.findings_json,
        findings_date=present.findings_date,
    )


def changes_beyond(recording: Recording, changes: Changes) -> Changes:
    """Return changes without those of what ends as it is in the recording: what was undone is none.

    Where a change was not made on what is in the recording, which may be older than the file, it is one.
    """
    there = {moment.id: _what_is_kept(moment) for moment in recording.moments}
    last = {moment.id: _what_is_kept(moment) for moment in changes.revisions}
    first = {moment.id: moment.revision for moment in reversed(changes.revisions)}
    base = last_revisions(recording)
    undone = {one for one in last if last[one] == there.get(one) and first[one] == base.get(one, ADDED) + 1}
    revisions = tuple(one for one in changes.revisions if one.id not in undone)
    attached = {one.id for one in recording.attachments}
    removed_first = {entry["id"]: entry["removed"] for entry in reversed(changes.pictures)}
    removed_last = {entry["id"]: entry["removed"] for entry in changes.pictures}
    as_before = {
        one for one, is_removed in removed_last.items()
        if is_removed != (one in attached) and removed_first[one] == (one in attached)
    }  # fmt: skip
    return Changes(revisions, tuple(entry for entry in changes.pictures if entry["id"] not in as_before))


def _what_is_kept(moment: Moment) -> tuple[float, str, str] | None:
    return None if moment.removed else (moment.time_s, moment.kind, moment.label)


def last_revisions(recording: Recording) -> dict[str, int]:
    """Return by id which revision was the last of each moment that is, or was, in a recording.

    That a moment was removed is one, too, of which the recording holds no more than what was before it.
    """
    last: dict[str, int] = {}
    for moment, _ in recording.moments_history:
        last[moment.id] = max(last.get(moment.id, 0), moment.revision + 1)
    return last | {moment.id: moment.revision for moment in recording.moments}


def _following(present: Recording, revisions: Sequence[Moment]) -> tuple[Moment, ...]:
    """Return revisions numbered on from those in the file: a lower number would count for an earlier edit.

    Those that are in it already are left out.
    """
    last = last_revisions(present)
    known = {moment.id: moment for moment in present.moments}
    behind: dict[str, int] = {}
    made: list[Moment] = []
    for moment in revisions:
        there = known.get(moment.id)
        if there is not None and replace(there, revision=moment.revision) == moment:
            made = [one for one in made if one.id != moment.id]
            behind[moment.id] = max(there.revision - moment.revision, 0)
            continue
        by = behind.setdefault(moment.id, max(last.get(moment.id, ADDED) + 1 - moment.revision, 0))
        made.append(replace(moment, revision=moment.revision + by))
    return tuple(made)


def check_edit(recording: Recording, moment: Moment) -> None:
    """Refuse what nobody can have meant; a moment that is being removed may be as it likes.

    What a moment was before in the recording it may be again, as one that was tagged at the bench without its
    number.

    Raises
    ------
    MomentError : a time after the end of the run, or a label without the number that it must hold.
    """
    if moment.removed:
        return
    were = (*recording.moments, *(one for one, _ in recording.moments_history))
    if any(one.id == moment.id and _what_is_kept(one) == _what_is_kept(moment) for one in were):
        return
    if moment.time_s > recording.duration_s:
        raise MomentError(
            f"{moment.time_s:g} s is after the end of the run ({recording.duration_s:g} s); "
            "give a time within it"
        )
    check_number(moment)


def find(recording: Recording, moment_id: str) -> Moment:
    """Return the living moment whose id begins with `moment_id`.

    Raises
    ------
    MomentError : none, or more than one.
    """
    found = [m for m in recording.moments if m.id.startswith(moment_id.lower())] if moment_id else []
    if len(found) == 1:
        return found[0]
    seen = "is not one" if not found else f"fits {len(found)}"
    raise MomentError(
        f"{moment_id!r} {seen} of the moments; galvanote moment '{recording.path}' list shows their ids"
    )
