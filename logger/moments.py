"""Moments: what a person tagged during a run, and when."""

from __future__ import annotations

import difflib
import math
import uuid
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from typing import Any

from logger.clean_text import clean_text
from logger.errors import LoggerError
from logger.label_numbers import celsius_in_label, ohms_in_label

__all__ = [
    "KINDS",
    "LABEL_LIMIT",
    "MOST_REVISIONS",
    "SIMULATED",
    "Moment",
    "MomentError",
    "apply_revision",
    "check_length",
    "check_number",
    "check_revision",
    "clean_label",
    "is_too_long",
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

MOST_REVISIONS = 2**30
"""Edits of one moment; more come from no hand, and further ones could not be numbered in 32 bits."""


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
    """Return `label` fit to be shown, at most `LABEL_LIMIT` characters: a cut one ends in an ellipsis."""
    return clean_text(label, LABEL_LIMIT)


def is_too_long(label: str) -> bool:
    """Tell whether `clean_label` has to cut the label."""
    return len(clean_text(label)) > LABEL_LIMIT


def check_length(label: str) -> None:
    """Refuse a label that is too long; only for those that somebody edits at leisure.

    Raises
    ------
    MomentError : it is.
    """
    if is_too_long(label):
        raise MomentError(
            f"the label has {len(clean_text(label))} characters, {LABEL_LIMIT} are the most; "
            "shorten it, or tag a second moment"
        )


def check_revision(moment: Moment) -> None:
    """Refuse an edit that could not be read again.

    Raises
    ------
    MomentError : the moment it is of says that it was edited as often as no hand can.
    """
    if moment.revision >= MOST_REVISIONS:
        raise MomentError(
            f"the moment says that it was edited {moment.revision} times, which no hand can: its recording "
            "is damaged, or made to harm; add another moment in its place"
        )


def check_number(moment: Moment) -> None:
    """Refuse a moment whose label must hold a number and does not.

    Only for moments that somebody edits at leisure: at the bench a moment is kept whatever its label says.

    Raises
    ------
    MomentError : no number, or one that cannot be.
    """
    if moment.kind not in ("resistor_changed", "temperature"):
        return
    read = ohms_in_label if moment.kind == "resistor_changed" else celsius_in_label
    value = read(moment.label)
    if moment.kind == "resistor_changed" and (value is None or value <= 0):
        raise MomentError(
            f"the label of resistor_changed must hold the ohms, for example 4.7k, not {moment.label!r}"
        )
    if moment.kind == "temperature" and (value is None or not 0 <= value <= 100):
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


def _check(moment: Moment) -> None:
    if moment.kind not in KINDS:
        near = difflib.get_close_matches(moment.kind, KINDS, n=1, cutoff=0.5)
        hint = f"; did you mean {near[0]}?" if near else ""
        raise MomentError(f"there is no kind of moment {moment.kind!r}{hint} (known: {', '.join(KINDS)})")
    if not math.isfinite(moment.time_s) or moment.time_s < 0:
        raise MomentError(
            f"a moment's time must be zero or more seconds since the start, not {moment.time_s}"
        )
