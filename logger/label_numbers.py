"""Numbers that people write into the label of a moment: the ohms of a resistor, a temperature.

What can be read in two ways is not guessed: it is None, and whoever asked says how to write it.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

__all__ = ["celsius_in_label", "ohms_in_label"]

_TOKEN = re.compile(
    r"(?:(?P<spread>±|\+/?[-−])|(?<![\w.,])(?P<sign>[-−+])?)\s?"  # a whole number: not the 2 of R2
    r"(?P<number>[0-9](?:[0-9 .,'\u00a0\u202f]*[0-9])?)(?P<exponent>[eE][-+]?[0-9]+)?"
    r"\s*(?P<unit>°?[^\W\d_]+|[°%])?(?P<rest>[0-9]*)"
)
_PLAIN = re.compile(r"[0-9]+(?:[.,][0-9]+)?")
_GROUPED = re.compile(r"[0-9]{1,3}(?:[ '\u00a0\u202f][0-9]{3})+(?:[.,][0-9]+)?")
_THOUSANDS_OR_DECIMALS = re.compile(r"[1-9][0-9]{0,2}[.,][0-9]{3}")

_OHMS: dict[str, float] = {
    f"{prefix}{unit}": factor
    for names, factor in ((("",), 1.0), (("k", "kilo"), 1e3), (("mega",), 1e6))
    for prefix in names
    for unit in ("", "ω", "ohm", "ohms", "r")
    if prefix or unit
}
_MEGOHMS = frozenset({"M", "MΩ", "MOhm", "Mohm", "Mohms", "MOhms"})
_NOT_OHMS = frozenset(
    {"%", "m", "mω", "mohm", "v", "mv", "a", "ma", "µa", "μa", "w", "mw", "s", "min", "h", "°c", "c", "mm"}
)
_CELSIUS = frozenset({"°", "°c", "c", "deg", "degc", "degree", "degrees", "celsius", "grad"})
_OTHER_DEGREES = frozenset({"k", "kelvin", "f", "°f", "fahrenheit"})
_NOT_CELSIUS = frozenset({"%", "v", "mv", "ma", "s", "min", "h", "ml"})
_BECOMES = re.compile(r"\W*(?:to|auf|nach|-+>|=>|→)\s*")


@dataclass(frozen=True, slots=True)
class _Number:
    """A number in a label: its value (NaN where it is unclear), whether a unit marks it, and its place."""

    value: float
    is_marked: bool
    begin: int
    end: int


def ohms_in_label(label: str) -> float | None:
    """Return the ohms that a label names, or None where it names none or not clearly one value.

    ``4.7k``, ``4,7 kΩ``, ``4k7`` (IEC 60062), ``4700 ohm`` and ``10 000`` are understood. Of a change, as in
    ``10k -> 4.7k``, the new value counts. ``10.000`` without a unit is unclear: ten ohms or ten thousand.
    """
    return _one_of(label, list(_ohms(label)))


def celsius_in_label(label: str) -> float | None:
    """Return the degrees Celsius that a label names, or None where it names none or not clearly one value.

    Kelvin and Fahrenheit are not taken: they are hardly ever meant, and never by the number alone.
    """
    found = []
    for token in _TOKEN.finditer(label):
        unit = (token["unit"] or "").casefold()
        if unit in _OTHER_DEGREES:
            return None
        if not token["spread"] and unit not in _NOT_CELSIUS:
            value = _value(token, is_decimal=True)
            found.append(_number(token, value, is_marked=unit in _CELSIUS))
    return _one_of(label, found)


def _ohms(label: str) -> Iterator[_Number]:
    for token in _TOKEN.finditer(label):
        written = token["unit"] or ""
        unit = written.casefold()
        factor = 1e6 if written in _MEGOHMS else _OHMS.get(unit)
        if token["spread"] or (factor is None and unit in _NOT_OHMS):
            continue
        value = _value(token, is_decimal=factor not in (None, 1.0))
        if token["rest"]:
            value = _by_letter_code(token, factor)
        yield _number(token, value * (factor or 1.0), is_marked=factor is not None)


def _number(token: re.Match[str], value: float, *, is_marked: bool) -> _Number:
    """Return a number with its place; a word behind it that is no unit of it does not belong to it."""
    end = token.end() if is_marked else max(token.end("number"), token.end("exponent"))
    return _Number(value, is_marked, token.start(), end)


def _by_letter_code(token: re.Match[str], factor: float | None) -> float:
    """Return the value before the multiplier of ``4k7``, where the letter stands for the decimal point."""
    is_code = factor is not None and len(token["unit"]) == 1 and token["number"].isdigit()
    return float(f"{token['number']}.{token['rest']}") if is_code else math.nan


def _value(token: re.Match[str], *, is_decimal: bool) -> float:
    text = token["number"]
    if not (_PLAIN.fullmatch(text) or _GROUPED.fullmatch(text)):
        return math.nan
    if not is_decimal and token["exponent"] is None and _THOUSANDS_OR_DECIMALS.fullmatch(text):
        return math.nan
    digits = re.sub(r"[ '\u00a0\u202f]", "", text).replace(",", ".")
    value = float(digits + (token["exponent"] or ""))
    return -value if token["sign"] in ("-", "−") else value


def _one_of(label: str, found: list[_Number]) -> float | None:
    """Return the one value that a label states, or of two the one that it changes to; else None."""
    marked = [one for one in found if one.is_marked]
    stated = marked or found
    if len(stated) == 2 and _BECOMES.fullmatch(label[stated[0].end : stated[1].begin]):
        stated = stated[1:]
    values = {one.value for one in stated}
    if len(values) != 1:
        return None
    (value,) = values
    return value if math.isfinite(value) else None
