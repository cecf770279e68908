"""Pictures of an export on their way back into a recording."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from logger.attachments import Attachment, AttachmentError, new_attachment
from logger.export.spreadsheet_text import unguard_formula
from logger.import_csv import ImportRefused, table_rows
from logger.moments import Moment
from logger.picture_edits import read_picture_file

__all__ = ["ImportedPicture", "read_pictures"]

_NUMBER = re.compile("[0-9]{1,9}")


@dataclass(frozen=True, slots=True)
class ImportedPicture:
    """A picture that was looked at, and the file that holds its bytes."""

    attachment: Attachment
    path: Path


def read_pictures(path: Path, moments: Sequence[Moment]) -> tuple[ImportedPicture, ...]:
    """Read a CSV of pictures with the columns file, moment and sha256, and look at each file beside it.

    The moment is known by the column moment_id where `moments` have such ids, else by its number among them,
    in order of time, from 1. A line without a file is of a picture that was damaged already.

    Raises
    ------
    ImportRefused : missing column, a file that is not there, not the one that was exported, or no picture, or
        a moment that is not there.
    """
    in_order = sorted(moments, key=lambda moment: moment.time_s)
    known = {moment.id for moment in moments}
    found = []
    columns = ("file", "moment", "sha256")
    for where, row in table_rows(path, columns, optional=("moment_id", "file_name", "added_at")):
        name = unguard_formula(row["file"])
        if not name:
            continue
        if Path(name).name != name or set(name) & set("\\\0"):
            raise ImportRefused(f"{where}: {name!r} is no file beside this table; put it there")
        file = path.with_name(name)
        number = int(row["moment"]) if _NUMBER.fullmatch(row["moment"]) else 0
        moment_id = row.get("moment_id", "")
        if moment_id not in known:
            if not 1 <= number <= len(in_order):
                raise ImportRefused(
                    f"{where}: there is no moment {row['moment']!r} for {name}; "
                    "give the table of moments, too"
                )
            moment_id = in_order[number - 1].id
        try:
            data = read_picture_file(file)
            if row["sha256"] and row["sha256"] != hashlib.sha256(data).hexdigest():
                raise AttachmentError(
                    f"{name} is not the picture that was exported (SHA-256 differs); use another copy of it, "
                    "or leave its checksum empty"
                )
            one = new_attachment(moment_id, unguard_formula(row.get("file_name", "")) or name, data)
        except AttachmentError as error:
            raise ImportRefused(f"{where}: {error}") from error
        added_at = row.get("added_at", "")
        found.append(ImportedPicture(replace(one, added_at=added_at) if _is_date(added_at) else one, file))
    return tuple(found)


def _is_date(text: str) -> bool:
    try:
        return datetime.fromisoformat(text).utcoffset() is not None
    except ValueError:
        return False
