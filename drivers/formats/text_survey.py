"""What the columns of a board's lines look like, for a person who has to choose among them. Pure.

Nothing is decided here: `text_columns.ColumnRule` does, and where it cannot, a person.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from drivers.formats.text_cells import Cell, Header, Row, parse_cells, time_unit_of, voltage_unit_of
from drivers.formats.text_columns import VOLT_UNITS

__all__ = ["Look", "SurveyedColumn", "survey_lines"]

Look = Literal["time", "volts", "maybe_volts", "counts", "other"]
"""``volts`` by name or unit; ``maybe_volts`` are bare numbers with decimals; ``counts`` are whole ones."""

_COLUMN_LIMIT = 16
_FIT_FOR_ADDRESSES = re.compile(r"[A-Za-z_][A-Za-z0-9_.-]*")


@dataclass(frozen=True, slots=True)
class SurveyedColumn:
    """One column: how an address calls it, its name if it has one, and what it looks like.

    `unit` : as printed behind the number or told by a name, "" if nothing tells. `last` : the last number as
    it was printed, "" if there was none.
    """

    column: str
    name: str
    looks_like: Look
    unit: str = ""
    last: str = ""


def survey_lines(lines: Iterable[bytes]) -> tuple[SurveyedColumn, ...]:
    """Return the columns of the most usual kind of row among `lines`; () where there is none.

    The first line may be cut off and counts only as a line of names. These count wherever they stand; columns
    separated by marks are called by their number all the same, since names that are printed once may never
    come again.
    """
    rows: list[Row] = []
    names: tuple[str, ...] = ()
    for place, line in enumerate(lines):
        parsed = parse_line(line)
        if isinstance(parsed, Row):
            rows += [parsed] if place else []
        elif isinstance(parsed, Header):
            names = parsed.names
    if not rows:
        return ()
    usual = Counter(map(_form, rows)).most_common(1)[0][0]
    rows = [row for row in rows if _form(row) == usual]
    width = min(len(rows[-1].cells), _COLUMN_LIMIT)
    if len(rows[-1].cells) != len(names):
        names = ()
    return tuple(_surveyed(rows, place, names[place] if names else "") for place in range(width))


def parse_line(line: bytes) -> Row | Header | None:
    """Return what one line holds, with or without its end and its check; None if it is no row of values."""
    try:
        text = line.decode("utf-8").strip()
    except UnicodeDecodeError:  # what another line speed makes of text rarely is any
        return None
    body, star, check = text.rpartition(" *")
    parsed = parse_cells(body if star and len(check) == 2 else text, comma_separates=True)
    return parsed if isinstance(parsed, Row | Header) else None


def _form(row: Row) -> tuple[str, ...]:
    """Return what tells rows of one kind: their number of columns, or their names."""
    return (row.form, *(cell.name or str(place) for place, cell in enumerate(row.cells)))


def _surveyed(rows: list[Row], place: int, header_name: str) -> SurveyedColumn:
    cells = [row.cells[place] for row in rows]
    own_name = cells[-1].name
    name = own_name or header_name
    unit = next((cell.unit for cell in reversed(cells) if cell.unit), "")
    numbers = [cell.value for cell in cells if cell.value is not None]
    return SurveyedColumn(
        column=own_name if _FIT_FOR_ADDRESSES.fullmatch(own_name) else str(place + 1),
        name=name,
        looks_like=_look(cells, name, unit, is_first_of_many=place == 0 and len(rows[-1].cells) > 1),
        unit=unit or time_unit_of(name) or voltage_unit_of(name) or "",
        last=str(numbers[-1]) if numbers else "",
    )


def _look(cells: list[Cell], name: str, unit: str, *, is_first_of_many: bool) -> Look:
    if unit:
        return "volts" if unit in VOLT_UNITS else "other"
    if name:
        if time_unit_of(name) is not None:
            return "time"
        return "volts" if voltage_unit_of(name) else "other"
    if any(not cell.is_whole for cell in cells if cell.value is not None):
        return "maybe_volts"
    values = [cell.value for cell in cells if cell.value is not None]
    if not values:
        return "other"
    rises = all(after >= before for before, after in pairwise(values)) and values[-1] > values[0]
    return "time" if is_first_of_many and rises else "counts"
