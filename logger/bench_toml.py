"""Writing a bench file: only what changed is changed, comments and order stay.

A file of a form that cannot be changed in place (inline tables, dotted keys) is written anew, without its
comments. Whatever way was taken, the result is read again and compared before it is given out.
"""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Mapping
from typing import Any

from logger.bench_rules import SECTIONS
from logger.toml_lines import line_of

__all__ = ["TITLE", "Key", "Value", "write_values"]

Key = tuple[str, str]
"""Table and key; the title has no table."""

TITLE: Key = ("", "title")
Value = str | int | float | None

_VALUE = r"""(?:"(?:\\.|[^"\\\n])*"|'[^'\n]*'|[-+.\w]+)"""
_STATEMENT = re.compile(rf"(?P<head>\s*[\w\"'-]+\s*=\s*)(?P<value>{_VALUE})(?P<rest>\s*(?:\#.*)?)")


def write_values(text: str, values: Mapping[Key, Value]) -> str:
    """Return the text of a bench file in which each key of `values` has that value; None takes it out.

    Parameters
    ----------
    text : a TOML text that `tomllib` reads; what `values` does not name stays as it is.

    Raises
    ------
    tomllib.TOMLDecodeError : `text` is no TOML.
    """
    text = text.replace("\r\n", "\n")
    wanted = _with_values(tomllib.loads(text), values)
    changed = text
    for key, value in values.items():
        found = _in_place(changed, key, value)
        if found is None:
            return _anew(wanted)
        changed = found
    return changed if _reads_as(changed, wanted) else _anew(wanted)


def _with_values(document: dict[str, Any], values: Mapping[Key, Value]) -> dict[str, Any]:
    wanted = {name: dict(one) if isinstance(one, dict) else one for name, one in document.items()}
    for (section, key), value in values.items():
        table = wanted.setdefault(section, {}) if section else wanted
        table.pop(key, None)
        if value is not None:
            table[key] = value
    return wanted


def _reads_as(text: str, wanted: dict[str, Any]) -> bool:
    try:
        found = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return False
    return _without_empty(found) == _without_empty(wanted)


def _without_empty(document: dict[str, Any]) -> dict[str, Any]:
    return {name: one for name, one in document.items() if one not in ({}, [])}


def _in_place(text: str, key: Key, value: Value) -> str | None:
    """Return the text with one value changed, or None where that cannot be done line by line."""
    document = tomllib.loads(text)
    table = document.get(key[0], {}) if key[0] else document
    if not isinstance(table, dict):
        return None
    present = table.get(key[1])
    if type(present) is type(value) and present == value:
        return text
    lines = text.split("\n")
    if present is not None:
        number = line_of(text, [part for part in key if part]) - 1
        found = _STATEMENT.fullmatch(lines[number])
        if found is None:
            return None
        if value is None:
            del lines[number]
        else:
            lines[number] = f"{found['head']}{_literal(value)}{found['rest']}"
        return "\n".join(lines)
    if value is None:
        return text
    return _inserted(lines, key, f"{key[1]} = {_literal(value)}")


def _inserted(lines: list[str], key: Key, statement: str) -> str:
    if not key[0]:
        return "\n".join([statement, *lines])
    header = re.compile(rf"\s*\[\s*{re.escape(key[0])}\s*\]\s*(?:#.*)?")
    place = next((i for i, line in enumerate(lines) if header.fullmatch(line)), None)
    if place is None:
        while lines and not lines[-1].strip():
            lines.pop()
        parting = [""] if lines else []
        return "\n".join([*lines, *parting, f"[{key[0]}]", statement, ""])
    end = place + 1
    for number in range(place + 1, len(lines)):
        if lines[number].lstrip().startswith("["):
            break
        if lines[number].strip() and not lines[number].lstrip().startswith("#"):
            end = number + 1
    return "\n".join([*lines[:end], statement, *lines[end:]])


def _literal(value: str | int | float) -> str:
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    return repr(value)


def _anew(document: Mapping[str, Any]) -> str:
    lines = [f"title = {_literal(document['title'])}"] if "title" in document else []
    for section in SECTIONS:
        table = document.get(section)
        if table:
            lines += ["", f"[{section}]", *(f"{key} = {_literal(value)}" for key, value in table.items())]
    for step in document.get("steps", ()):
        lines += ["", "[[steps]]", *(f"{key} = {_literal(value)}" for key, value in step.items())]
    return "\n".join(lines).lstrip("\n") + "\n"
