"""The pictures of a recording in the order of their moments, with their bytes, for those who hand them on."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from logger.attachment_groups import read_picture
from logger.attachments import MEDIA_TYPES, Attachment, data_of
from logger.edit_journal import pending_edits
from logger.errors import RecordingError
from logger.journal import FrameType, journal_of, read_frames
from logger.moments import Moment
from logger.recording import Recording
from logger.vetting import vet

__all__ = ["MomentPicture", "moment_pictures", "orphans", "reading_pictures"]

ReadPicture = Callable[[Attachment], bytes]


@dataclass(frozen=True, slots=True)
class MomentPicture:
    """A picture and its moment; `number` is the moment's in chart and report, `place` counts all pictures."""

    attachment: Attachment
    moment: Moment
    number: int
    place: int

    @property
    def ending(self) -> str:
        """The usual ending of files of its kind."""
        return MEDIA_TYPES[self.attachment.media_type]


def moment_pictures(recording: Recording) -> tuple[MomentPicture, ...]:
    """Return the pictures of the moments that are there, by moment, then in the order of attaching."""
    found = [
        (one, moment, number)
        for number, moment in enumerate(recording.moments, 1)
        for one in recording.attachments
        if one.moment_id == moment.id
    ]
    return tuple(MomentPicture(*row, place) for place, row in enumerate(found, 1))


def orphans(recording: Recording) -> tuple[Attachment, ...]:
    """Return the pictures whose moment was removed: they stay until somebody removes them, too."""
    known = {moment.id for moment in recording.moments}
    return tuple(one for one in recording.attachments if one.moment_id not in known)


@contextmanager
def reading_pictures(recording: Recording) -> Iterator[ReadPicture]:
    """Yield a function that returns the bytes of a picture; the recording's file is opened only once.

    The function raises RecordingError where a picture is damaged or not there any more.

    Raises
    ------
    RecordingError : the file cannot be read.
    """
    if not recording.path.exists():
        yield _of_journal(recording)
        return
    import h5py

    entries = pending_edits(recording.path, recording.uuid).pictures
    pending = {entry["id"]: entry for entry in entries if not entry["removed"]}
    vet(recording.path)
    try:
        file = h5py.File(recording.path, "r")
    except OSError as error:
        raise RecordingError(f"a picture in {recording.path} cannot be read") from error

    def read(one: Attachment) -> bytes:
        if one.id in pending:
            return data_of(pending[one.id])
        try:
            return read_picture(file["run"], one.id)
        except (OSError, RuntimeError, KeyError, ValueError) as error:
            raise RecordingError(f"a picture in {recording.path} cannot be read") from error

    with file:
        yield read


def _of_journal(recording: Recording) -> ReadPicture:
    """Read from the journal of a run that goes on or was cut off, whose pictures are few."""
    held: dict[str, Any] = {}
    if recording.attachments:
        for frame in read_frames(journal_of(recording.path)):
            if frame.type == FrameType.ATTACHMENT:
                entry = frame.json()
                held[entry["id"]] = entry

    def read(one: Attachment) -> bytes:
        if one.id not in held:
            raise RecordingError("the picture is not there any more")
        return data_of(held[one.id])

    return read
