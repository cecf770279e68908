"""One line of text into named or numbered cells. Pure; knows nothing of earlier lines.

Forms: numbers separated by commas, TAB, ``;`` or blanks; a JSON object; ``key=value`` pairs. A decimal
comma is taken only where ``;`` separates the columns: ``1,2345`` alone may be one number or two, and is
never resolved by guessing.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from decimal import Decimal

from drivers.formats.number_shape import NumberShape, number_shape

__all__ = [
    "Cell",
    "Header",
    "NotCells",
    "Row",
    "parse_cells",
    "separator_of",
    "time_unit_of",
    "voltage_unit_of",
]

_NUMBER = re.compile(
    r"([+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,3})?) *([A-Za-zµμΩ°%]{0,6})"
)
_OVERLOAD = re.compile(r"([+-]?)(?:inf|infinity|ovf|ovl|ol|0\.l|overload)", re.IGNORECASE)
_NO_VALUE = re.compile(r"[+-]?nan|null|none", re.IGNORECASE)
_PAIR = re.compile(
    r"([A-Za-z_][A-Za-z0-9_]*) *[=:] *([^\s;,=:]+(?: +[A-Za-zµμΩ°%]{1,6}(?=[\s;,]|$))?)[\s;,]*"
)
_ONE_COMMA = re.compile(r"[+-]?[0-9]*,[0-9]+(?:[eE][+-]?[0-9]+)? *[A-Za-z]*")
_NUMBERS_APART = re.compile(r"[0-9.][ ]+[+-]?[0-9.]")
_BEFORE_UNIT = re.compile(
    rf"(?<=[0-9.]) +(?!(?:{_OVERLOAD.pattern}|{_NO_VALUE.pattern})(?: |$))(?=[A-Za-zµμΩ°%]{{1,6}}(?: |$))",
    re.IGNORECASE,
)
_NAME = re.compile(r"[A-Za-zµμ_][\w .()\[\]/°%µμ-]*")
_LIMIT = Decimal("9.9e36")  # beyond it nothing is a voltage, and scaling must stay finite

_TIME_NAME = re.compile(r"(?:(?:t|time|timestamp)(?:[ _(\[]+|$))?([a-zµμ]*)[)\]]?")
_TIME_UNITS = {
    "": "", "us": "us", "µs": "us", "μs": "us", "micros": "us", "microseconds": "us",
    "ms": "ms", "millis": "ms", "milliseconds": "ms",
    "s": "s", "sec": "s", "secs": "s", "seconds": "s",
}  # fmt: skip
_MILLIVOLT_NAME = re.compile(r"(?:.*[^a-z])?mv[)\]]?|.*millivolts?[)\]]?")
_VOLT_NAME = re.compile(r"(?:.*[^a-z])?v[)\]]?|[uv][0-9]*|.*volt(?:s|age)?(?:[^a-z].*)?")


@dataclass(frozen=True, slots=True)
class Cell:
    """One value of a line: a number, an overload (+1 or -1 in `overload`), or none (``nan``, or nothing)."""

    name: str
    value: Decimal | None
    unit: str = ""
    overload: int = 0
    shape: NumberShape | None = None
    is_empty: bool = False

    @property
    def is_whole(self) -> bool:
        """Whether it is written as a whole number."""
        return self.shape is not None and self.shape.decimals == 0 and self.shape.width == 0


@dataclass(frozen=True, slots=True)
class Row:
    """The cells of one line; `form` is ``columns``, ``json`` or ``pairs``."""

    form: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Header:
    """A line that names the columns of those after it."""

    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NotCells:
    """A line that is no row: a stable `code` and the reason for people."""

    code: str
    why: str


def parse_cells(text: str, *, comma_separates: bool = False) -> Row | Header | NotCells:
    """Read one line, without its end.

    `comma_separates` is the user's word that a comma stands between columns, which settles ``1,2345``.
    """
    stripped = text.strip()
    if stripped.startswith("{"):
        return _parse_object(stripped)
    if "=" in text or ":" in text:
        return _parse_pairs(stripped)
    return _parse_columns(text.strip(" \r\n"), comma_separates)  # a TAB at either end is an empty column


def time_unit_of(name: str) -> str | None:
    """Return the unit of a column named like a time: ``ms``, ``us``, ``s``, "" (unsaid); else None."""
    lowered = name.strip().lower()
    found = _TIME_NAME.fullmatch(lowered)
    return _TIME_UNITS.get(found.group(1)) if found and lowered else None


def voltage_unit_of(name: str) -> str | None:
    """Return ``V`` or ``mV`` if a column's name says that it is a voltage, else None."""
    lowered = name.strip().lower()
    if _MILLIVOLT_NAME.fullmatch(lowered):
        return "mV"
    return "V" if lowered and _VOLT_NAME.fullmatch(lowered) else None


def separator_of(text: str) -> str | None:
    """Return what stands between the columns of a line; None for blanks, or where there is only one."""
    return next((mark for mark in (";", "\t", ",") if mark in text), None)


def _parse_columns(text: str, comma_separates: bool) -> Row | Header | NotCells:
    separator = separator_of(text)
    if separator == "," and (
        _NUMBERS_APART.search(text) or (_ONE_COMMA.fullmatch(text) and not comma_separates)
    ):
        return _ambiguous(text)
    tokens = [token.strip() for token in text.split(separator)] if separator else _words(text)
    cells = [_column(token, comma_is_point=separator == ";") for token in tokens]
    row = tuple(cell for cell in cells if cell is not None)
    if len(row) == len(tokens) and any(tokens):
        return Row("columns", row)
    if separator == "\t" and any(_ONE_COMMA.fullmatch(token) for token in tokens):
        return _ambiguous(text)
    if len(tokens) > 1 and not tokens[-1]:
        tokens.pop()  # a separator after the last name
    return Header(tuple(tokens)) if _are_names(tokens) else _no_reading(text)


def _are_names(tokens: list[str]) -> bool:
    """Tell a header from a greeting: two names or more, and one of them known."""
    known = any(time_unit_of(token) is not None or voltage_unit_of(token) for token in tokens)
    return len(tokens) > 1 and known and all(map(_NAME.fullmatch, tokens))


def _words(text: str) -> list[str]:
    """Split at blanks, but keep a unit with its number."""
    return _BEFORE_UNIT.sub("", text).split()


def _parse_object(text: str) -> Row | NotCells:
    try:
        parsed = json.loads(text, parse_float=str, parse_int=str, parse_constant=str)
    except (ValueError, RecursionError):
        return _no_reading(text)
    cells = [
        Cell(name, None) if value is None else _cell(name, value)
        for name, value in parsed.items()
        if value is None or isinstance(value, str)
    ]
    row = tuple(cell for cell in cells if cell is not None)
    return Row("json", row) if row else _no_reading(text)


def _parse_pairs(text: str) -> Row | NotCells:
    cells, position = [], 0
    while found := _PAIR.match(text, position):
        cells.append(_cell(found.group(1), found.group(2)))
        position = found.end()
    row = tuple(cell for cell in cells if cell is not None)
    if position == len(text) and row and len(row) == len(cells):
        return Row("pairs", row)
    if re.search(r"[=:] *[+-]?[0-9]+,[0-9]+", text):
        return _ambiguous(text)
    return _no_reading(text)


def _column(token: str, *, comma_is_point: bool) -> Cell | None:
    """Return the cell between two separators, where nothing may stand: the others keep their places."""
    return _cell("", token, comma_is_point=comma_is_point) if token else Cell("", None, is_empty=True)


def _cell(name: str, text: str, *, comma_is_point: bool = False) -> Cell | None:
    if _NO_VALUE.fullmatch(text):
        return Cell(name, None)
    overload = _OVERLOAD.fullmatch(text)
    if overload:
        return Cell(name, None, overload=-1 if overload.group(1) == "-" else 1)
    found = _NUMBER.fullmatch(text)
    if not found or ("," in text and not comma_is_point):
        return None
    value = Decimal(found.group(1).replace(",", "."))
    if abs(value) >= _LIMIT:
        return None
    return Cell(name, value, unit=found.group(2), shape=number_shape(found.group(1)))


def _ambiguous(text: str) -> NotCells:
    return NotCells(
        "comma_ambiguous",
        f"the line {text!r} may hold one number with a decimal comma, or two columns. If they are columns, "
        "add column=2 (or 1) to the address; if it is a decimal comma, let the board print a point.",
    )


def _no_reading(text: str) -> NotCells:
    return NotCells("not_a_reading", f"the line {text!r} holds no reading")
