"""Pictures of the moments of a finished recording: attaching, moving, removing, and taking one out."""

from __future__ import annotations

from pathlib import Path

from logger.attachments import (
    PICTURE_LIMIT_BYTES,
    Attachment,
    AttachmentError,
    entry_of,
    new_attachment,
    removal_of,
)
from logger.disk import Disk
from logger.errors import LoggerError, RecordingError
from logger.export.atomic import refuse_what_exists, written_whole
from logger.moment_edits import Changes, find, keep_changes
from logger.moment_pictures import reading_pictures
from logger.portable_name import portable_name
from logger.reader import read_recording
from logger.recording import Recording
from logger.special_file import is_special

__all__ = [
    "attach",
    "attach_file",
    "detach",
    "detach_found",
    "extract",
    "find_picture",
    "load_picture",
    "read_picture_file",
    "reattach",
]


def read_picture_file(path: Path) -> bytes:
    """Return the bytes of a picture that somebody wants to attach; no more than can be.

    Raises
    ------
    AttachmentError : it cannot be read.
    """
    if is_special(path):
        raise AttachmentError(f"{path} is no ordinary file; name a picture (PNG, JPEG, WebP)")
    try:
        with path.open("rb") as file:
            return file.read(PICTURE_LIMIT_BYTES + 1)
    except OSError as error:
        raise AttachmentError(
            f"{path} cannot be read ({error.strerror or error}); name a picture (PNG, JPEG, WebP)"
        ) from error


def attach(
    recording: Recording, moment_id: str, file_name: str, data: bytes, disk: Disk | None = None
) -> tuple[Recording, Attachment]:
    """Attach a picture to a moment; return the recording with it, and what was attached.

    Raises
    ------
    AttachmentError : it is no picture, too large, or there is no such moment.
    RecordingBusy : the file is another one by now, or somebody else is editing it.
    LoggerError : it could not be made durable; the file is as it was.
    """
    if all(moment.id != moment_id for moment in recording.moments):
        raise AttachmentError("the moment is not there any more")
    attachment = new_attachment(moment_id, file_name, data)
    changes = Changes(pictures=(entry_of(attachment, data),))
    return keep_changes(recording, changes, disk), attachment


def detach(recording: Recording, attachment_id: str, disk: Disk | None = None) -> Recording:
    """Remove a picture for good; return the recording without it. Raises as `attach`."""
    known = next((one for one in recording.attachments if one.id == attachment_id), None)
    if known is None:
        raise AttachmentError("the picture is not there any more")
    return keep_changes(recording, Changes(pictures=(removal_of(known),)), disk)


def attach_file(path: Path, moment_id: str, picture: Path, disk: Disk | None = None) -> Attachment:
    """Attach the picture in a file to the moment whose id begins with `moment_id`. Raises as `attach`.

    Also raises MomentError where no moment, or more than one, has such an id.
    """
    recording = read_recording(path)
    moment = find(recording, moment_id)
    return attach(recording, moment.id, picture.name, read_picture_file(picture), disk)[1]


def detach_found(path: Path, attachment_id: str, disk: Disk | None = None) -> Attachment:
    """Remove the picture whose id begins with `attachment_id`. Raises as `detach`."""
    recording = read_recording(path)
    found = find_picture(recording, attachment_id)
    detach(recording, found.id, disk)
    return found


def reattach(path: Path, attachment_id: str, moment_id: str, disk: Disk | None = None) -> Attachment:
    """Give a picture to another moment, both by the beginnings of their ids; return it under its new id.

    Raises as `attach_file`, and RecordingError where the picture is damaged.
    """
    recording = read_recording(path)
    known, moment = find_picture(recording, attachment_id), find(recording, moment_id)
    data = load_picture(recording, known.id)
    moved = new_attachment(moment.id, known.file_name, data)
    keep_changes(recording, Changes(pictures=(entry_of(moved, data), removal_of(known))), disk)
    return moved


def extract(
    recording: Recording, attachment_id: str, out: Path | None = None, *, replace: bool = False
) -> tuple[Attachment, Path]:
    """Write the picture whose id begins with `attachment_id` to a file, byte for byte.

    Parameters
    ----------
    out : the file, or a folder, in which it gets the name that it was attached with, as far as a file can
        be called so everywhere; by default where one is.

    Raises
    ------
    OutputExists : the file is there and may not be replaced.
    RecordingError : the picture is damaged, or the recording cannot be read.
    AttachmentError : no picture, or more than one, has such an id.
    LoggerError : the file could not be written.
    """
    one = find_picture(recording, attachment_id)
    place = Path() if out is None else out
    place = place / portable_name(one.file_name) if place.is_dir() else place
    refuse_what_exists([place], replace=replace)
    if not place.absolute().parent.is_dir():
        raise LoggerError(f"the folder {place.absolute().parent} is not there; make it first")
    data = load_picture(recording, one.id)
    with written_whole(place, replace=replace) as part:
        part.write_bytes(data)
    return one, place


def load_picture(recording: Recording, attachment_id: str) -> bytes:
    """Return the bytes of a picture.

    Raises
    ------
    RecordingError : it is damaged or not there any more, or the file cannot be read.
    """
    known = next((one for one in recording.attachments if one.id == attachment_id), None)
    if known is None:
        raise RecordingError("the picture is not there any more")
    with reading_pictures(recording) as read:
        return read(known)


def find_picture(recording: Recording, attachment_id: str) -> Attachment:
    """Return the picture whose id begins with `attachment_id`.

    Raises
    ------
    AttachmentError : none, or more than one.
    """
    found = [one for one in recording.attachments if one.id.startswith(attachment_id.lower() or "?")]
    if len(found) != 1:
        seen = "is not one" if not found else f"fits {len(found)}"
        raise AttachmentError(
            f"{attachment_id!r} {seen} of the pictures; "
            f"galvanote moment '{recording.path}' list shows their ids"
        )
    return found[0]
