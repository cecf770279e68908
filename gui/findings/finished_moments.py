"""The moments of a finished recording while a person changes them. No Qt, and no disk."""

from __future__ import annotations

from typing import Any

from logger.moment_edits import check_edit
from logger.moments import Moment, MomentError, apply_revision, new_moment
from logger.recording import Recording

__all__ = ["FinishedMoments"]


class FinishedMoments:
    """Holds each change at once; `take_unsaved` gives what is to be kept in the file."""

    def __init__(self, recording: Recording) -> None:
        self.start_again(recording)

    def start_again(self, recording: Recording) -> None:
        """Take the moments as they are in the recording, and forget every change."""
        self._recording = recording
        self._latest = {moment.id: moment for moment in recording.moments}
        self._unsaved: list[Moment] = []

    @property
    def moments(self) -> tuple[Moment, ...]:
        """The living moments in order of time."""
        living = (moment for moment in self._latest.values() if not moment.removed)
        return tuple(sorted(living, key=lambda moment: moment.time_s))

    def add_moment(self, kind: str, label: str, time_s: float) -> Moment:
        """Add a moment.

        Raises
        ------
        MomentError : its time is not within the run, or its label lacks the number that it must hold.
        """
        return self._keep(new_moment(time_s, kind, label))

    def edit_moment(self, moment_id: str, **changes: Any) -> Moment:
        """Change a moment; see `Moment.edited`. Raises as `add_moment`, and where there is no such moment."""
        known = self._latest.get(moment_id)
        if known is None:
            raise MomentError(f"there is no moment with the id {moment_id}")
        return self._keep(known.edited(**changes))

    def take_unsaved(self) -> tuple[Moment, ...]:
        """Return the revisions since the last call, oldest first."""
        unsaved, self._unsaved = tuple(self._unsaved), []
        return unsaved

    def _keep(self, moment: Moment) -> Moment:
        check_edit(self._recording, moment)
        apply_revision(self._latest, moment)
        self._unsaved.append(moment)
        return moment
