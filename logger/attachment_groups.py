"""Pictures in a finished recording: one NXnote each below /run/attachments, named by its id.

NeXus base class NXnote: `type` (media type), `file_name`, `date`, `data` (the bytes as they were given, with
their SHA-256 as attribute `sha256`). The id of its moment is the attribute `moment_id`. A picture that is
removed is overwritten first: whoever took it back, perhaps since somebody is to be seen on it, must be able
to rely on that.
"""

from __future__ import annotations

import hashlib
from typing import Any

import numpy as np

from logger.attachments import MEDIA_TYPES, Attachment, attachment_of, data_of
from logger.checksum import ATTRIBUTE
from logger.entries import is_file_name
from logger.errors import RecordingError

__all__ = ["GROUP", "damaged_pictures", "read_attachments", "read_picture", "write_entry"]

GROUP = "attachments"


def write_entry(run: Any, entry: dict[str, Any]) -> None:
    """Write what one entry of a journal says into the open group `run`: a picture, or that one is removed.

    Raises
    ------
    RecordingError : the entry holds no picture.
    """
    import h5py

    attachment = attachment_of(entry)
    if attachment.removed:
        _erase(run, attachment.id)
        return
    data = data_of(entry)
    group = run.require_group(GROUP)
    group.attrs["NX_class"] = "NXcollection"
    if attachment.id in group:
        return  # told twice: an edit was cut off between folding in and removal
    note = group.create_group(attachment.id)
    note.attrs["NX_class"] = "NXnote"
    note.attrs["moment_id"] = attachment.moment_id
    texts = {
        "type": attachment.media_type,
        "file_name": attachment.file_name,
        "date": attachment.added_at,
    }
    for name, text in texts.items():
        note.create_dataset(name, data=text, dtype=h5py.string_dtype())
    held = note.create_dataset("data", data=np.frombuffer(data, np.uint8))
    held.attrs[ATTRIBUTE] = hashlib.sha256(data).hexdigest()


def _erase(run: Any, attachment_id: str) -> None:
    group = run.get(GROUP)
    if group is None or attachment_id not in group:
        return
    data = group[attachment_id]["data"]
    data[...] = np.zeros(data.shape, data.dtype)
    run.file.flush()
    del group[attachment_id]
    if not len(group):
        del run[GROUP]


def read_attachments(run: Any) -> tuple[Attachment, ...]:
    """Return the pictures of an open group `run`, in the order in which they were attached.

    Raises
    ------
    ValueError, KeyError : something is not as it must be.
    """
    found = []
    for name, note in run.get(GROUP, {}).items():
        texts = {key: _text(note, key) for key in ("file_name", "type", "date")}
        data = note["data"]
        if texts["type"] not in MEDIA_TYPES or data.ndim != 1 or data.dtype != np.uint8:
            raise ValueError(f"{note.name} is no picture")
        if not is_file_name(texts["file_name"]):
            raise ValueError(f"{note.name} has a name that no picture has")
        found.append(
            Attachment(
                name, _moment_id(note), texts["file_name"], texts["type"], int(data.shape[0]), texts["date"]
            )
        )
    return tuple(sorted(found, key=lambda one: (one.added_at, one.id)))


def read_picture(run: Any, attachment_id: str) -> bytes:
    """Return the bytes of a picture, as they were given.

    Raises
    ------
    RecordingError : there is none of that id, or its bytes are not those that were given.
    """
    note = run.get(f"{GROUP}/{attachment_id}")
    if note is None:
        raise RecordingError("the picture is not there any more")
    data = bytes(note["data"][()].tobytes())
    if is_changed(note["data"], data):
        raise RecordingError(
            f"the picture {_text(note, 'file_name')} is damaged: its bytes are not those that were attached "
            "(SHA-256 differs); use another copy of the recording if there is one"
        )
    return data


def is_changed(dataset: Any, data: bytes) -> bool:
    """Tell whether the bytes of a picture are others than were given; False where no checksum was kept."""
    kept = dataset.attrs.get(ATTRIBUTE)
    return kept is not None and kept != hashlib.sha256(data).hexdigest()


def damaged_pictures(run: Any) -> list[str]:
    """Return the ids of the pictures of an open group `run` whose bytes are not those that were given.

    Raises
    ------
    OSError, KeyError : something cannot be read.
    """
    notes = run.get(GROUP, {}).items()
    return [name for name, note in notes if is_changed(note["data"], note["data"][()].tobytes())]


def _moment_id(note: Any) -> str:
    value = note.attrs["moment_id"]
    if not isinstance(value, str):
        raise ValueError(f"{note.name}@moment_id is no text")
    return value


def _text(note: Any, name: str) -> str:
    value = note[name][()]
    return value.decode() if isinstance(value, bytes) else str(value)
