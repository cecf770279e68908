"""Changes of moments that could not be kept when they were made, and are made later, by another process.

They are made only on what they were made on: a moment that has been changed since stays as it is.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any, NamedTuple

from logger.disk import Disk
from logger.editing import editing
from logger.errors import RecordingBusy
from logger.moment_edits import ADDED, Changes, check_edit, last_revisions
from logger.moments import Moment, MomentError, new_moment
from logger.recording import Recording
from logger.scale import clock_text

__all__ = ["LateChange", "Refused", "late_changes", "make_late"]


@dataclass(frozen=True, slots=True)
class LateChange:
    """What a moment is to become: time in run seconds, kind, label, and whether it is removed.

    `base_revision` is the revision that was changed, `ADDED` where the moment is to be added.
    """

    moment_id: str
    base_revision: int
    time_s: float
    kind: str
    label: str
    removed: bool

    @classmethod
    def of(cls, entry: Mapping[str, Any]) -> LateChange:
        """Return the change that `as_dict` gave.

        Raises
        ------
        TypeError, ValueError, KeyError : it is none.
        """
        made = cls(
            str(entry["moment_id"]), int(entry["base_revision"]), float(entry["time_s"]), str(entry["kind"]),
            str(entry["label"]), entry["removed"],
        )  # fmt: skip
        if not made.moment_id.isalnum() or made.base_revision < ADDED or not isinstance(made.removed, bool):
            raise ValueError(made)
        made.as_moment()  # a kind and a time that can be
        return made

    def as_moment(self) -> Moment:
        """Return the revision of the moment that it becomes.

        Raises
        ------
        MomentError : no such kind, or a time that cannot be.
        """
        moment = new_moment(self.time_s, self.kind, self.label)
        return replace(moment, id=self.moment_id, revision=self.base_revision + 1, removed=self.removed)

    def as_dict(self) -> dict[str, Any]:
        """Return the fields as a dictionary, for JSON."""
        return asdict(self)


class Refused(NamedTuple):
    """A change that cannot be made in a recording, and why, which will be so again."""

    change: LateChange
    why: str


def late_changes(changes: Changes) -> tuple[LateChange, ...]:
    """Return what is to be made later of `changes`; nothing where there are pictures: they are too large."""
    if changes.pictures:
        return ()
    first: dict[str, Moment] = {}
    last: dict[str, Moment] = {}
    for moment in changes.revisions:
        first.setdefault(moment.id, moment)
        last[moment.id] = moment
    return tuple(
        LateChange(one.id, first[one.id].revision - 1, one.time_s, one.kind, one.label, one.removed)
        for one in last.values()
    )


def make_late(
    path: Path, uuid: str, changes: Sequence[LateChange], disk: Disk | None = None
) -> tuple[Refused, ...]:
    """Make those of `changes` that can be made in the recording at `path`; return the others.

    One is refused where its moment has been changed since, or cannot be so. What is in the recording already
    is left out. Those that are made are made together.

    Raises
    ------
    RecordingBusy : it is not the recording of that uuid any more, or somebody else is editing it.
    LoggerError : they could not be made durable; the file is as it was.
    """
    made, refused = list[Moment](), list[Refused]()
    with editing(path, disk) as editor:
        recording = editor.recording
        if recording.uuid != uuid:
            raise RecordingBusy(f"{path} has been replaced by another recording; open it again")
        for change in changes:
            if not _is_made(recording, change):
                try:
                    made.append(_revision(recording, change))
                except MomentError as error:
                    refused.append(Refused(change, str(error)))
        if made:
            editor.keep(made)
    return tuple(refused)


def _known(recording: Recording, change: LateChange) -> Moment | None:
    return next((one for one in recording.moments if one.id == change.moment_id), None)


def _is_made(recording: Recording, change: LateChange) -> bool:
    known = _known(recording, change)
    if known is None:
        return change.removed
    is_so = (known.time_s, known.kind, known.label) == (change.time_s, change.kind, change.label)
    return is_so and not change.removed and known.revision > change.base_revision


def _revision(recording: Recording, change: LateChange) -> Moment:
    """Return the revision that makes `change`. Raises MomentError."""
    if last_revisions(recording).get(change.moment_id, ADDED) != change.base_revision:
        raise MomentError(
            f"the moment at {clock_text(change.time_s)} has been changed in {recording.path.name} since; "
            "look at it, and change it by hand"
        )
    known = _known(recording, change)
    if known is None:  # it is added, or its removal undone
        made = change.as_moment()
    else:
        made = known.edited(
            time_s=change.time_s, kind=change.kind, label=change.label, removed=change.removed
        )
    check_edit(recording, made)
    return made
