"""What a shelf knows of one recording: enough to find it and to draw it small."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass, fields
from pathlib import Path
from typing import Any, Literal

from logger.errors import LoggerError

__all__ = ["CURVE_COLUMNS", "EntryError", "ShelfEntry", "matches"]

CURVE_COLUMNS = 640
"""Most columns of the small curve: as many as there are pixels where it is drawn large."""

State = Literal["finished", "cut_off", "recording", "damaged"]
STATES: tuple[State, ...] = ("finished", "cut_off", "recording", "damaged")


class EntryError(LoggerError, ValueError):
    """Kept data are no entry."""


@dataclass(frozen=True, slots=True)
class ShelfEntry:
    """One recording on a shelf.

    Attributes
    ----------
    path : Path
        The recording, or the journal of a run that was cut off or goes on.
    state : {"finished", "cut_off", "recording", "damaged"}
    problem : str
        Why it cannot be read; empty otherwise.
    title, start_time : str
        The start is ISO 8601 with UTC offset.
    duration_s : float
    samples : int
        Readings of the cell voltage.
    last_V : float or None
        The last reading that was no overload.
    low_V, high_V : tuple of (float or None)
        Smallest and largest reading of each of equal parts of the run, from its begin to `duration_s`, at
        most `CURVE_COLUMNS`; None without.
    labels : str
        Kinds and labels of all moments, for searching.
    moments : int
    is_simulated : bool
    size_bytes, changed_ns : int
        Of the file, when it was read.
    """

    path: Path
    state: State
    problem: str = ""
    title: str = ""
    start_time: str = ""
    duration_s: float = 0.0
    samples: int = 0
    last_V: float | None = None
    low_V: tuple[float | None, ...] = ()
    high_V: tuple[float | None, ...] = ()
    labels: str = ""
    moments: int = 0
    is_simulated: bool = False
    size_bytes: int = 0
    changed_ns: int = 0

    def as_dict(self) -> dict[str, Any]:
        """Return the fields as plain data, for JSON."""
        return {**asdict(self), "path": str(self.path)}

    @classmethod
    def from_dict(cls, data: object) -> ShelfEntry:
        """Return the entry that `as_dict` gave.

        Raises
        ------
        EntryError : the data are of another form; they may come from another version, or from anyone.
        """
        if not isinstance(data, dict) or data.keys() != {field.name for field in fields(cls)}:
            raise EntryError("an entry of the shelf has other fields")
        if data["state"] not in STATES:
            raise EntryError(f"an entry of the shelf cannot be {data['state']!r}")
        for key in ("path", "problem", "title", "start_time", "labels"):
            _require(isinstance(data[key], str), key)
        for key in ("samples", "moments", "size_bytes", "changed_ns"):
            _require(type(data[key]) is int and data[key] >= 0, key)
        _require(isinstance(data["is_simulated"], bool), "is_simulated")
        _require(_is_number(data["duration_s"]), "duration_s")
        _require(data["last_V"] is None or _is_number(data["last_V"]), "last_V")
        curve = {key: _column(data[key], key) for key in ("low_V", "high_V")}
        _require(len(curve["low_V"]) == len(curve["high_V"]), "high_V")
        return cls(**{**data, **curve, "path": Path(data["path"])})


def matches(entry: ShelfEntry, words: str, also: str = "") -> bool:
    """Tell whether every word of `words` occurs in name, title, date or moments, in any case of letters.

    `also` is what else the recording may be found by: how a window writes its date and calls its moments.
    """
    text = f"{entry.path.name} {entry.title} {entry.start_time} {entry.labels} {also}".casefold()
    return all(word in text for word in words.casefold().split())


def _column(values: object, key: str) -> tuple[float | None, ...]:
    _require(isinstance(values, Sequence) and not isinstance(values, str), key)
    assert isinstance(values, Sequence)
    _require(len(values) <= CURVE_COLUMNS and all(v is None or _is_number(v) for v in values), key)
    return tuple(values)


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and value == value


def _require(holds: bool, key: str) -> None:
    if not holds:
        raise EntryError(f"an entry of the shelf has no usable {key}")
