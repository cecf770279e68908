"""Pictures attached to moments: what they are, and how a journal holds them.

A picture is kept byte for byte as it was given. In a journal it is one JSON entry with the bytes as base64
(RFC 4648), so that it is written, checked and made durable like a moment.
"""

from __future__ import annotations

import base64
import binascii
import random
import uuid
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from pathlib import PurePath
from typing import Any

from logger.errors import LoggerError, RecordingError
from logger.moments import clean_label, now_iso
from logger.picture_form import form_of

__all__ = [
    "MEDIA_TYPES",
    "PICTURE_LIMIT_BYTES",
    "Attachment",
    "AttachmentError",
    "attachment_of",
    "data_of",
    "entry_of",
    "living",
    "new_attachment",
    "removal_of",
]

PICTURE_LIMIT_BYTES = 16 * 2**20
MEDIA_TYPES = {"image/png": ".png", "image/jpeg": ".jpg", "image/webp": ".webp"}
"""The kinds of picture that are taken (names of the IANA registry), each with its usual ending."""

NAME_LIMIT = 120


class AttachmentError(LoggerError, ValueError):
    """A file cannot be attached."""


@dataclass(frozen=True, slots=True)
class Attachment:
    """One picture: its id, the moment it belongs to, name, kind (IANA media type) and size.

    `added_at` is the ISO 8601 time of this entry. One that was removed keeps its id with `removed` true.
    """

    id: str
    moment_id: str
    file_name: str
    media_type: str
    size_bytes: int
    added_at: str
    removed: bool = False


def new_attachment(moment_id: str, file_name: str, data: bytes, known_id: str = "") -> Attachment:
    """Return what is to be kept of a picture besides its bytes; with a new id, or the one that it had before.

    Raises
    ------
    AttachmentError : it is no PNG, JPEG or WebP picture, cut off, or too large.
    """
    form = form_of(data)
    if form is None:
        raise AttachmentError(
            f"{file_name or 'this'} is no picture that can be attached; give a PNG, JPEG or WebP file"
        )
    if len(data) > PICTURE_LIMIT_BYTES:
        raise AttachmentError(
            f"{file_name} is larger than the {PICTURE_LIMIT_BYTES // 2**20} MB that a picture may have; "
            "save it smaller, then attach it"
        )
    if not form.is_whole:
        raise AttachmentError(
            f"{file_name or 'this'} is damaged or cut off: it begins as a picture and is none to its end; "
            "copy it again, then attach it"
        )
    media_type = form.media_type
    name = clean_label(PurePath(file_name.replace("\\", "/")).name)[:NAME_LIMIT].lstrip(".")
    name = name or "picture" + MEDIA_TYPES[media_type]
    return Attachment(known_id or _new_id(), moment_id, name, media_type, len(data), now_iso())


def _new_id() -> str:
    """Return an id that begins with a letter: it names a group, and names of NeXus begin so."""
    return random.choice("abcdef") + uuid.uuid4().hex[1:]


def removal_of(attachment: Attachment) -> dict[str, Any]:
    """Return the entry that removes a picture."""
    return {**asdict(attachment), "added_at": now_iso(), "removed": True}


def entry_of(attachment: Attachment, data: bytes) -> dict[str, Any]:
    """Return the entry of a journal that holds a picture."""
    return {**asdict(attachment), "data": base64.b64encode(data).decode()}


def attachment_of(entry: Mapping[str, Any]) -> Attachment:
    """Return what an entry says of its picture; `logger.entries` has looked at the entry."""
    return Attachment(**{name: entry[name] for name in Attachment.__dataclass_fields__})


def data_of(entry: Mapping[str, Any]) -> bytes:
    """Return the bytes of the picture in an entry.

    Raises
    ------
    RecordingError : they are not as a recorder writes them.
    """
    try:
        data = base64.b64decode(entry["data"], validate=True)
    except (KeyError, TypeError, ValueError, binascii.Error) as error:
        raise RecordingError("an entry ATTACHMENT holds no picture") from error
    if len(data) != entry.get("size_bytes"):
        raise RecordingError(f"an entry ATTACHMENT holds {len(data)} bytes, not {entry.get('size_bytes')}")
    return data


def living(attachments: Iterable[Attachment]) -> tuple[Attachment, ...]:
    """Return those that were not removed, in the order in which they came; the last of an id counts."""
    latest: dict[str, Attachment] = {}
    for one in attachments:
        latest[one.id] = one
    return tuple(one for one in latest.values() if not one.removed)
