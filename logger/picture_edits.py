"""Pictures of the moments of a finished recording: attaching, removing, and reading one."""

from __future__ import annotations

from pathlib import Path

from logger.attachment_groups import read_picture
from logger.attachments import (
    PICTURE_LIMIT_BYTES,
    Attachment,
    AttachmentError,
    data_of,
    entry_of,
    new_attachment,
    removal_of,
)
from logger.disk import Disk
from logger.edit_journal import pending_edits
from logger.errors import RecordingError
from logger.moment_edits import Changes, find, keep_changes
from logger.reader import read_recording
from logger.recording import Recording
from logger.vetting import vet

__all__ = ["attach", "attach_file", "detach", "detach_found", "load_picture", "read_picture_file"]


def read_picture_file(path: Path) -> bytes:
    """Return the bytes of a picture that somebody wants to attach; no more than can be.

    Raises
    ------
    AttachmentError : it cannot be read.
    """
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
    found = [one for one in recording.attachments if one.id.startswith(attachment_id.lower() or "?")]
    if len(found) != 1:
        seen = "is not one" if not found else f"fits {len(found)}"
        raise AttachmentError(
            f"{attachment_id!r} {seen} of the pictures; galvanote moment '{path}' list shows their ids"
        )
    detach(recording, found[0].id, disk)
    return found[0]


def load_picture(recording: Recording, attachment_id: str) -> bytes:
    """Return the bytes of a picture of a finished recording.

    Raises
    ------
    RecordingError : it is not there any more, or the file cannot be read.
    """
    import h5py

    for entry in pending_edits(recording.path, recording.uuid).pictures:
        if entry["id"] == attachment_id and not entry["removed"]:
            return data_of(entry)
    vet(recording.path)
    try:
        with h5py.File(recording.path, "r") as file:
            return read_picture(file["run"], attachment_id)
    except (OSError, RuntimeError, KeyError, ValueError) as error:
        raise RecordingError(f"a picture in {recording.path} cannot be read") from error
