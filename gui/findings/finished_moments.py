"""The moments of a finished recording while a person changes them. No Qt."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from logger.attachments import (
    Attachment,
    attachment_of,
    data_of,
    entry_of,
    living,
    new_attachment,
    removal_of,
)
from logger.moment_edits import ADDED, Changes, check_edit, last_revisions
from logger.moments import Moment, MomentError, apply_revision, new_moment
from logger.picture_edits import load_picture
from logger.recording import Recording

__all__ = ["FinishedMoments"]


class FinishedMoments:
    """Holds each change at once; `take_unsaved` gives what is to be kept in the file."""

    def __init__(self, recording: Recording) -> None:
        self._latest: dict[str, Moment] = {}
        self.start_again(recording)

    def start_again(self, recording: Recording) -> None:
        """Take the moments as they are in the recording, and forget every change.

        What was here and is not there counts as removed: words for it may be on their way, and bring it back.
        """
        self._recording = recording
        last = last_revisions(recording)
        self._latest = {
            one.id: replace(one, removed=True, revision=last.get(one.id, ADDED))
            for one in self._latest.values()
        }
        self._latest |= {moment.id: moment for moment in recording.moments}
        self._known = set(map(_state, recording.moments))
        """All that was kept once, so that undoing can always come back to it."""
        self._before: dict[str, tuple[str, float, str, str] | None] = {}
        """What a moment was before a person first changed it here; None where it was not there."""
        self._revisions: list[Moment] = []
        self._attachments = {one.id: one for one in recording.attachments}
        self._added: dict[str, bytes] = {}
        self._pictures: list[dict[str, Any]] = []

    def is_behind(self, recording: Recording) -> bool:
        """Tell whether others have changed moments in the file, from which `recording` was read just now."""
        return bool(self._changed_by_others(recording))

    def follow(self, recording: Recording) -> None:
        """Take what others have changed in the file; what is changed here and not kept yet stays."""
        there = {moment.id: moment for moment in recording.moments}
        unsaved = {moment.id for moment in self._revisions}
        for moment_id, revision in self._changed_by_others(recording).items():
            if moment_id in unsaved:
                continue
            if (moment := there.get(moment_id)) is not None:
                self._latest[moment_id] = moment
                self._known.add(_state(moment))
            else:
                self._latest[moment_id] = replace(self._latest[moment_id], removed=True, revision=revision)

    def _changed_by_others(self, recording: Recording) -> dict[str, int]:
        """Return by id the revision in the file of each moment that is not as far here.

        One that was removed there, and was never here, is left out.
        """
        alive = {moment.id for moment in recording.moments}
        return {
            moment_id: revision
            for moment_id, revision in last_revisions(recording).items()
            if (moment_id in alive and moment_id not in self._latest)
            or (moment_id in self._latest and revision > self._latest[moment_id].revision)
        }

    @property
    def moments(self) -> tuple[Moment, ...]:
        """The living moments in order of time."""
        living_ones = (moment for moment in self._latest.values() if not moment.removed)
        return tuple(sorted(living_ones, key=lambda moment: moment.time_s))

    def add_moment(self, kind: str, label: str, time_s: float) -> Moment:
        """Add a moment.

        Raises
        ------
        MomentError : its time is not within the run, or its label lacks the number that it must hold.
        """
        return self._keep(new_moment(time_s, kind, label))

    def edit_moment(self, moment_id: str, **changes: Any) -> Moment:
        """Change a moment; see `Moment.edited`. Raises as `add_moment`, and where there is no such moment.

        What a moment was before it may be again, as one that was tagged at the bench without its number.
        """
        known = self._latest.get(moment_id)
        if known is None:
            raise MomentError(f"there is no moment with the id {moment_id}")
        return self._keep(known.edited(**changes))

    @property
    def attachments(self) -> tuple[Attachment, ...]:
        """The pictures of all moments, in the order in which they came."""
        return living(self._attachments.values())

    def attach(self, moment_id: str, file_name: str, data: bytes, known_id: str = "") -> Attachment:
        """Attach a picture to a moment, under the id that it had before if it was there before.

        Raises
        ------
        AttachmentError : it is no picture, or too large.
        """
        one = new_attachment(moment_id, file_name, data, known_id)
        self._attachments[one.id] = one
        self._added[one.id] = data
        self._pictures.append(entry_of(one, data))
        return one

    def detach(self, attachment: Attachment) -> None:
        """Remove a picture."""
        self._attachments.pop(attachment.id, None)
        self._added.pop(attachment.id, None)
        self._pictures.append(removal_of(attachment))

    def picture(self, attachment: Attachment) -> bytes:
        """Return the bytes of a picture.

        Raises
        ------
        RecordingError : it is not there any more, or the file cannot be read.
        """
        added = self._added.get(attachment.id)
        return load_picture(self._recording, attachment.id) if added is None else added

    def take_unsaved(self) -> Changes:
        """Return what has changed since the last call."""
        unsaved = Changes(tuple(self._revisions), tuple(self._pictures))
        self._revisions, self._pictures = [], []
        return unsaved

    def is_changed(self, moment_id: str) -> bool:
        """Tell whether a person has changed a moment here since `start_again`, and not undone that."""
        return moment_id in self._before and self._present(moment_id) != self._before[moment_id]

    def _present(self, moment_id: str) -> tuple[str, float, str, str] | None:
        known = self._latest.get(moment_id)
        return None if known is None or known.removed else _state(known)

    def put_back(self, changes: Changes) -> None:
        """Take changes as not kept yet: `take_unsaved` had given them, and they could not be."""
        self._revisions = [*changes.revisions, *self._revisions]
        self._pictures = [*map(dict, changes.pictures), *self._pictures]

    def make_again(self, changes: Changes) -> None:
        """Take changes once more that could not be kept, after `start_again`.

        Those of a moment that has been changed here since are left out: what a person did last counts. Others
        may have changed it in the file meanwhile: that is what it follows then.
        """
        further: dict[str, int] = {}
        for moment in changes.revisions:
            if not self.is_changed(moment.id):
                known = self._latest.get(moment.id)
                following = (ADDED if known is None else known.revision) + 1
                by = further.setdefault(moment.id, following - moment.revision)
                made = replace(moment, revision=moment.revision + by)
                self._known.add(_state(made))
                apply_revision(self._latest, made)
                self._revisions.append(made)
        for entry in changes.pictures:
            one = attachment_of(entry)
            if one.removed:
                self.detach(one)
            else:
                self.attach(one.moment_id, one.file_name, data_of(entry), one.id)

    def _keep(self, moment: Moment) -> Moment:
        if _state(moment) not in self._known:
            check_edit(self._recording, moment)
            self._known.add(_state(moment))
        self._before.setdefault(moment.id, self._present(moment.id))
        apply_revision(self._latest, moment)
        self._revisions.append(moment)
        return moment


def _state(moment: Moment) -> tuple[str, float, str, str]:
    """Return what of a moment a person changes."""
    return moment.id, moment.time_s, moment.kind, moment.label
