"""What the JSON entries of a journal must hold. A journal may be of unknown origin, or of another version.

Only what is read later is looked at; entries may hold more.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from datetime import datetime
from typing import Any

from logger.attachments import MEDIA_TYPES
from logger.errors import RecordingError
from logger.journal import Frame, FrameType
from logger.recording import LONGEST_S

__all__ = ["checked", "is_file_name", "is_plain_name", "is_unit"]

DEEPEST = 4
LAST_CHANNEL = 2**16 - 1

Check = Callable[[Any], bool]


def checked(frame: Frame) -> dict[str, Any]:
    """Return what a frame holds, by the names that its kind must have.

    Raises
    ------
    RecordingError : something is missing, or not what it must be.
    """
    entry = frame.json()
    found = {}
    for name, is_right in _FIELDS[frame.type].items():
        if name not in entry and name in _OPTIONAL:
            continue
        if name not in entry or not is_right(entry[name]):
            value = repr(entry.get(name, "nothing"))[:60]
            raise RecordingError(f"an entry {frame.type.name} holds {value} as {name}")
        found[name] = entry[name]
    return found


def _is_text(value: Any) -> bool:
    return isinstance(value, str)


def _is_flag(value: Any) -> bool:
    return isinstance(value, bool)


def _is_count(value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and 0 <= value < 2**31


def _is_number(value: Any) -> bool:
    if isinstance(value, int):
        return not isinstance(value, bool) and abs(value) < 2**63
    return isinstance(value, float) and math.isfinite(value)


def _is_time(value: Any) -> bool:
    return _is_number(value) and abs(value) < LONGEST_S


def _is_time_or_none(value: Any) -> bool:
    return value is None or _is_time(value)


def _is_date(value: Any) -> bool:
    try:
        datetime.fromisoformat(value)
    except (TypeError, ValueError):
        return False
    return True


def _is_channel(value: Any) -> bool:
    return _is_count(value) and value <= LAST_CHANNEL


def _is_name(value: Any) -> bool:
    return isinstance(value, str) and 0 < len(value) < 100 and value.isidentifier()


def _is_id(value: Any) -> bool:
    """Letters and digits: it names a group of the recording."""
    return isinstance(value, str) and 0 < len(value) <= 64 and value.isascii() and value.isalnum()


def _is_file_name(value: Any) -> bool:
    return isinstance(value, str) and is_file_name(value)


def _is_media_type(value: Any) -> bool:
    return isinstance(value, str) and value in MEDIA_TYPES


def is_unit(value: Any) -> bool:
    """Tell whether a unit is short and can stand in the head of a table."""
    return isinstance(value, str) and len(value) <= 40 and value.isprintable() and not set(value) & set(',"')


def _is_speed(value: Any) -> bool:
    return _is_number(value) and 0 < value < 1e9


def _is_tree(value: Any, depth: int = 0) -> bool:
    """Text, numbers, and nested mappings of them."""
    if not isinstance(value, Mapping) or depth > DEEPEST:
        return False
    return all(is_file_name(name) and _is_leaf_or_tree(item, depth) for name, item in value.items())


def is_file_name(name: str) -> bool:
    """Tell whether a file may have that name, and it leads to no other folder."""
    return is_plain_name(name) and "/" not in name


def is_plain_name(name: str) -> bool:
    """Tell whether a name is text that can be shown, and can be part of a file's name or the way to it."""
    return 0 < len(name) <= 255 and name.isprintable() and name.strip(".") != "" and "\\" not in name


def _is_leaf_or_tree(value: Any, depth: int) -> bool:
    return isinstance(value, str | bool) or _is_number(value) or _is_tree(value, depth + 1)


_OPTIONAL = frozenset({"version", "speed", "replace", "bench_toml", "data"})
_FIELDS: dict[FrameType, dict[str, Check]] = {
    FrameType.HEAD: {
        "uuid": _is_text,
        "title": _is_text,
        "start_time": _is_date,
        "time_zone": _is_text,
        "version": _is_text,
        "speed": _is_speed,
        "replace": _is_flag,
        "bench_toml": _is_text,
    },
    FrameType.CHANNEL: {
        "index": _is_channel,
        "name": _is_name,
        "role": _is_text,
        "unit": is_unit,
        "instrument": _is_tree,
    },
    FrameType.MOMENT: {
        "id": _is_text,
        "time_s": _is_time,
        "kind": _is_text,
        "label": _is_text,
        "noted_at": _is_text,
        "revision": _is_count,
        "removed": _is_flag,
    },
    FrameType.GAP: {
        "id": _is_text,
        "begin_s": _is_time,
        "end_s": _is_time_or_none,
        "channel": _is_text,
        "reason": _is_text,
    },
    FrameType.ANCHOR: {"time_s": _is_time, "utc": _is_text},
    FrameType.END: {"time_s": _is_time, "end_time": _is_date},
    FrameType.FINDINGS: {"json": _is_text, "date": _is_text},
    FrameType.ATTACHMENT: {
        "id": _is_id,
        "moment_id": _is_text,
        "file_name": _is_file_name,
        "media_type": _is_media_type,
        "size_bytes": _is_count,
        "added_at": _is_text,
        "removed": _is_flag,
        "data": _is_text,
    },
}
