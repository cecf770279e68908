"""Moments: what a person tagged during a run, and when."""

from __future__ import annotations

import difflib
import math
import re
import unicodedata
import uuid
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from typing import Any

from logger.errors import LoggerError

__all__ = [
    "KINDS",
    "SIMULATED",
    "Moment",
    "MomentError",
    "apply_revision",
    "check_number",
    "clean_label",
    "new_moment",
    "parse_line",
]

KINDS: dict[str, str] = {
    "dry_cell": "Dry cell",
    "buffer_in": "Buffer in",
    "stirring_on": "Stirring on",
    "stirring_off": "Stirring off",
    "electrodes_out": "Electrodes out",
    "electrodes_in": "Electrodes in",
    "salt_added": "Salt added",
    "solution_swapped": "Solution swapped",
    "resistor_changed": "Resistor changed",
    "lead_lifted": "Lead lifted",
    "lead_back": "Lead back",
    "temperature": "Temperature",
    "photo": "Photo",
    "note": "Note",
}
"""The kinds of moment (names as in the file) and how they read on screen."""

SIMULATED = "(simulated)"
"""Ends the label of every moment that the simulated operator tagged."""

LABEL_LIMIT = 500

_NUMBER = re.compile(r"[-+]?\d+(?:[.,]\d+)?")


class MomentError(LoggerError, ValueError):
    """A moment's kind, time or label cannot be taken."""


@dataclass(frozen=True, slots=True)
class Moment:
    """One tagged moment.

    `time_s` is run time in seconds, `noted_at` the ISO 8601 time at which this revision was written,
    `revision` counts edits of the same `id`; a removed moment keeps its id with `removed` true.
    """

    id: str
    time_s: float
    kind: str
    label: str
    noted_at: str
    revision: int = 0
    removed: bool = False

    def as_dict(self) -> dict[str, Any]:
        """Return the fields as a dictionary, for JSON."""
        return asdict(self)

    def edited(
        self,
        *,
        time_s: float | None = None,
        kind: str | None = None,
        label: str | None = None,
        removed: bool | None = None,
    ) -> Moment:
        """Return the next revision of this moment with the given fields changed."""
        changed = replace(
            self,
            time_s=self.time_s if time_s is None else time_s,
            kind=self.kind if kind is None else kind,
            label=self.label if label is None else clean_label(label),
            removed=self.removed if removed is None else removed,
            revision=self.revision + 1,
            noted_at=now_iso(),
        )
        _check(changed)
        return changed


def new_moment(time_s: float, kind: str, label: str = "") -> Moment:
    """Return a new moment at run time `time_s` (seconds).

    Raises
    ------
    MomentError : unknown kind (the nearest known one is named), or a time that is negative or not finite.
    """
    moment = Moment(uuid.uuid4().hex, float(time_s), kind, clean_label(label), now_iso())
    _check(moment)
    return moment


def parse_line(text: str) -> tuple[str, str]:
    """Split a typed line into kind and label: ``KIND``, ``KIND label``, or free text (a note)."""
    text = text.strip()
    first, _, rest = text.partition(" ")
    return (first, rest.strip()) if first in KINDS else ("note", text)


def clean_label(label: str) -> str:
    """Drop control characters, direction overrides and what is no character; join lines; limit the length.

    Cleaning what is clean changes nothing.
    """
    joined = " ".join(label.split())
    kept = "".join(c for c in joined if unicodedata.category(c) not in ("Cc", "Cs") and c not in _UNWANTED)
    return " ".join(kept.split())[:LABEL_LIMIT].rstrip()


def check_number(moment: Moment) -> None:
    """Refuse a moment whose label must hold a number and does not.

    Only for moments that somebody edits at leisure: at the bench a moment is kept whatever its label says.

    Raises
    ------
    MomentError : no number, or one that cannot be.
    """
    if moment.kind not in ("resistor_changed", "temperature"):
        return
    found = _NUMBER.search(moment.label)
    value = float(found.group().replace(",", ".")) if found else math.nan
    if moment.kind == "resistor_changed" and not value > 0:
        raise MomentError(
            f"the label of resistor_changed must hold the ohms, for example 4.7k, not {moment.label!r}"
        )
    if moment.kind == "temperature" and not 0 <= value <= 100:
        raise MomentError(
            "the label of temperature must hold degrees Celsius from 0 to 100, for example 22.5, "
            f"not {moment.label!r}"
        )


def apply_revision(moments: dict[str, Moment], moment: Moment) -> None:
    """Put `moment` into `moments` (by id) unless a higher revision is there already."""
    known = moments.get(moment.id)
    if known is None or moment.revision >= known.revision:
        moments[moment.id] = moment


def now_iso() -> str:
    """Return the present local time as ISO 8601 with UTC offset."""
    return datetime.now().astimezone().isoformat(timespec="milliseconds")


_DIRECTION = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c"
_NO_CHARACTERS = (
    *range(0xFDD0, 0xFDF0),
    *(plane << 16 | low for plane in range(17) for low in (0xFFFE, 0xFFFF)),
)
_UNWANTED = frozenset(_DIRECTION) | frozenset(map(chr, _NO_CHARACTERS))
"""The latter are the Unicode Standard's noncharacters (section 23.7): files must not hold them."""


def _check(moment: Moment) -> None:
    if moment.kind not in KINDS:
        near = difflib.get_close_matches(moment.kind, KINDS, n=1, cutoff=0.5)
        hint = f"; did you mean {near[0]}?" if near else ""
        raise MomentError(f"there is no kind of moment {moment.kind!r}{hint} (known: {', '.join(KINDS)})")
    if not math.isfinite(moment.time_s) or moment.time_s < 0:
        raise MomentError(
            f"a moment's time must be zero or more seconds since the start, not {moment.time_s}"
        )
