"""Keys of the bench file in a message, said as the fields of the page Bench are called.

Drivers and logger name what is missing or wrong by its key: that is what the command line, a report and the
file itself need. In the window it is a field with a name, and a unit that may be another one.
"""

from __future__ import annotations

import functools
import re
from typing import TYPE_CHECKING

from gui.bench.field_texts import field_texts
from gui.numbers import decimal_sign
from gui.words import translate
from logger.bench_rules import SECTIONS
from logger.bench_toml import Key

if TYPE_CHECKING:
    from logger.bench_form import Field

__all__ = ["are_keys", "keep_keys", "mark_keys", "name_fields", "path_before"]

BEGIN, END = "\ue000", "\ue001"
"""Round a key that is to be named: nobody types these, so a label or a path that looks like a key stays."""

_KEYS = {key: section for section, keys in SECTIONS.items() for key in keys}
_SECTION = "|".join(SECTIONS)
_ANY = "|".join(sorted(_KEYS, key=len, reverse=True))
_UNLIKE_WORDS = "|".join(sorted((key for key in _KEYS if "_" in key), key=len, reverse=True))
_KEY = rf"(?:(?:\[(?:{_SECTION})\] |(?:{_SECTION})\.)(?:{_ANY})|(?:{_UNLIKE_WORDS}))"
_IN_TEXT = re.compile(rf"(?<![\w./\\{{-]){_KEY}(?![\w/\\}}]|\.\w)")
_LIST = re.compile(rf"{_KEY}(?:(?:, | and ){_KEY})*")
_PATH = re.compile(rf"(?:(?:{_SECTION})\.\w+|steps\[\d+\](?:\.\w+)?)(?= )")
_NUMBER = r"[-−+]?\d+(?:[.,]\d+)?(?:e[-+]?\d+)?"
_MARKED = re.compile(rf"{BEGIN}[^{END}]*?\b(\w+){END}(?: = ({_NUMBER})(?![\w.,]\w))?")


def are_keys(text: str) -> bool:
    """Tell whether a text is nothing but keys: one, or several with commas and "and" between."""
    return _LIST.fullmatch(text) is not None


def path_before(text: str) -> str:
    """Return the place in a bench file that a complaint begins with, such as ``supply.cells``; else empty."""
    found = _PATH.match(text)
    return "" if found is None else found[0]


def mark_keys(text: str) -> str:
    """Mark the keys in a text of our own, so that `name_fields` names them."""
    return _IN_TEXT.sub(rf"{BEGIN}\g<0>{END}", text)


def keep_keys(text: str) -> str:
    """Return a text with the marked keys as they stand in the file."""
    return text.replace(BEGIN, "").replace(END, "")


def name_fields(text: str) -> str:
    """Return a text with the fields' names for the marked keys, and what they hold in the fields' units."""
    if BEGIN not in text:
        return text
    named = _MARKED.sub(_named, text)
    in_file, on_page = translate("Messages", "in the bench file"), translate("Fields", "on the page Bench")
    named = named.replace(in_file, on_page)
    return named.replace(_with_capital(in_file), _with_capital(on_page))


def _named(found: re.Match[str]) -> str:
    key = found[1]
    path = (_KEYS[key], key)
    name = translate("Fields", "“{field}”").format(field=field_texts()[path].name)
    if found[2] is None:
        return name
    from logger.bench_form import shown  # late: few messages name a value, and the window is to be there soon

    field = _fields()[path]
    value = float(found[2].replace(",", ".").replace("−", "-"))
    unit = f"\u00a0{field.unit}" if field.unit else ""
    return f"{name} = {shown(field, value, decimal_sign())}{unit}"


@functools.cache
def _fields() -> dict[Key, Field]:
    from logger.bench_form import FIELDS

    return {field.path: field for field in FIELDS}


def _with_capital(text: str) -> str:
    return text[:1].upper() + text[1:]
