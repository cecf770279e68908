"""The pictures of a recording as files of a set of tables, and the table that says which belongs where."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from logger.clean_text import clean_text
from logger.errors import RecordingError
from logger.moment_pictures import MomentPicture, moment_pictures, reading_pictures
from logger.recording import Recording

__all__ = ["PICTURE_FIELDS", "PictureFile", "PictureRow", "picture_files", "written_pictures"]

PICTURE_FIELDS: list[dict[str, Any]] = [
    {"name": "file", "type": "string", "description": "the picture, beside this table; empty where damaged"},
    {
        "name": "moment",
        "type": "integer",
        "description": "number of its moment, in order of time",
    },
    {"name": "moment_id", "type": "string"},
    {"name": "file_name", "type": "string", "description": "the name that it was attached with"},
    {"name": "media_type", "type": "string"},
    {"name": "sha256", "type": "string"},
    {"name": "added_at", "type": "string", "description": "when it was attached, ISO 8601"},
    {"name": "note", "type": "string"},
]

PictureRow = tuple[str | int, ...]
PictureFile = tuple[MomentPicture, Path]


def picture_files(recording: Recording, beside: Callable[[str], Path]) -> list[PictureFile]:
    """Return each picture and its file; `beside` returns the path of a file of the set by its ending."""
    return [(one, beside(f"picture-{one.place}{one.ending}")) for one in moment_pictures(recording)]


def written_pictures(
    recording: Recording, files: list[PictureFile], begin: Callable[[Path], Path]
) -> Iterator[tuple[PictureRow, dict[str, Any] | None]]:
    """Write the pictures, byte for byte; yield for each its row and what the data package says of its file.

    A damaged one is not written; its row says why.
    """
    with reading_pictures(recording) as read:
        for one, path in files:
            picture = one.attachment
            known = (one.number, one.moment.id, picture.file_name, picture.media_type)
            try:
                data = read(picture)
            except RecordingError as error:
                yield ("", *known, "", picture.added_at, str(error)), None
                continue
            digest = hashlib.sha256(data).hexdigest()
            begin(path).write_bytes(data)
            resource = {
                "name": f"picture-{one.place}",
                "path": path.name,
                "bytes": len(data),
                "hash": f"sha256:{digest}",
                "profile": "data-resource",
                "format": path.suffix.removeprefix("."),
                "mediatype": picture.media_type,
                "description": clean_text(f"picture of moment {one.number}: {picture.file_name}"),
            }
            yield (path.name, *known, digest, picture.added_at, ""), resource
