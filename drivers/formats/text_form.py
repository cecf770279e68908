"""What the lines of a board usually look like, and when lines that look otherwise are believed. Pure.

A lost separator moves every column behind it, and the number that then stands at the chosen place is another
quantity; so does a sensor that is left out where blanks separate. A column that has been recorded is
therefore never read from lines of another form, however often they come.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drivers.formats.text_cells import NotCells, Row, voltage_unit_of

__all__ = ["ColumnNames", "UsualForm"]

_ROWS_TO_CHANGE_FORM = 2
_READINGS_TO_SETTLE = 8
_ROWS_TO_TELL = 3

Form = tuple[str, int]
"""Kind of the line, and the number of its columns; 0 where names tell what is there."""


class UsualForm:
    """Learns the form of the lines.

    A new form is believed when it has come twice running, until 8 readings of one form were given; from then
    on that form is the only one.
    """

    def __init__(self) -> None:
        self._usual: Form | None = None
        self._other: Form | None = None
        self._others_running = 0
        self._readings = 0

    @property
    def columns(self) -> int:
        """How many columns the lines have that readings were taken from; 0 if none, or where names tell."""
        return self._usual[1] if self._usual is not None and self._readings else 0

    @property
    def has_readings(self) -> bool:
        """Whether readings were taken from lines of the usual form."""
        return self._readings > 0

    @property
    def is_known(self) -> bool:
        """Whether there is a usual form at all."""
        return self._usual is not None

    def is_usual(self, row: Row) -> bool:
        """Take note of the row's form and return whether it is the usual one."""
        form = _form_of(row)
        if form == self._usual:
            self._others_running = 0
            return True
        self._others_running = self._others_running + 1 if form == self._other else 1
        self._other = form
        if self._readings >= _READINGS_TO_SETTLE or self._others_running < _ROWS_TO_CHANGE_FORM:
            return False
        self._usual, self._readings, self._others_running = form, 0, 0
        return True

    def note_readings(self, count: int) -> None:
        """Take note of readings from rows of the usual form."""
        self._readings += count
        self._others_running = 0

    def objection(self, raw: bytes) -> NotCells:
        """Say why the last row, of the line `raw`, is not read."""
        if self._others_running < _ROWS_TO_TELL or self._usual is None or self._other is None:
            return NotCells("damaged", f"the line {raw!r} has other columns than those before")
        return NotCells(
            "columns_changed",
            f"the lines are now {_in_words(self._other)}, and were {_in_words(self._usual)}: a column may "
            "hold another quantity now. Let the board print as before, or end the run and begin a new one.",
        )


class ColumnNames:
    """The names that header lines give to the columns.

    Once readings were taken, a header that gives the recorded column another name, or another unit, makes
    every line doubtful until the former header comes again: it may be damaged, or the columns have changed.
    """

    def __init__(self) -> None:
        self._names: tuple[str, ...] = ()
        self._denied: tuple[str, ...] = ()
        self._has_told_unfit = False

    def are(self, names: tuple[str, ...]) -> bool:
        """Whether `names` are those that hold already."""
        return names == self._names

    def take(self, names: tuple[str, ...], recorded: str | int | None) -> None:
        """Take a header; `recorded` is the name or the place, from 0, of the column; None before readings."""
        if names == self._names or recorded is None or _means_the_same(recorded, self._names, names):
            self._names, self._denied = names, ()
        else:
            self._denied = names

    def named(self, row: Row) -> Row:
        """Return the row with the names of its columns, as far as a header fits it."""
        names = self._names
        if len(row.cells) == len(names) + 1 and names and row.cells[-1].is_empty:
            names = (*names, "")
        if row.form != "columns" or len(row.cells) != len(names):
            return row
        cells = tuple(replace(cell, name=name) for cell, name in zip(row.cells, names, strict=True))
        return replace(row, cells=cells)

    def unfit(self, row: Row) -> NotCells | None:
        """Say once that the header does not fit the lines, so that its names and units are not used."""
        is_unfit = row.form == "columns" and bool(self._names) and self.named(row) is row
        if not is_unfit or self._has_told_unfit:
            return None
        self._has_told_unfit = True
        return NotCells(
            "header_unfit",
            f"the header names {', '.join(self._names)}, which does not fit lines of {len(row.cells)} "
            "columns. Its names and units are not used: numbers without a unit are taken for volts. Let the "
            "board name every column.",
        )

    def objection(self) -> NotCells | None:
        """Say why no line is read at present; None if lines are."""
        if not self._denied:
            return None
        before = f"{', '.join(self._names)} before" if self._names else "nothing before"
        return NotCells(
            "columns_changed",
            f"the header now names the columns {', '.join(self._denied)}, and {before}: the recorded column "
            "may be another quantity, or in another unit. Restart the board, or end the run and begin a new "
            "one.",
        )


def _form_of(row: Row) -> Form:
    return row.form, len(row.cells) if row.form == "columns" else 0


def _in_words(form: Form) -> str:
    kind, columns = form
    if kind != "columns":
        return {"json": "JSON objects", "pairs": "pairs of name and value"}.get(kind, kind)
    return f"{columns} columns" if columns > 1 else "single numbers"


def _means_the_same(recorded: str | int, before: Sequence[str], now: Sequence[str]) -> bool:
    if isinstance(recorded, str):
        return recorded in now
    if recorded >= len(now):
        return False
    if recorded >= len(before):  # taken for volts so far
        return voltage_unit_of(now[recorded]) != "mV"
    return before[recorded] == now[recorded]
