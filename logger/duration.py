"""Durations as people type them: ``90``, ``90s``, ``15m``, ``2h``."""

from __future__ import annotations

import re

from logger.errors import LoggerError

__all__ = ["DurationError", "parse_duration_s"]

_FORM = re.compile(r"(\d+(?:\.\d*)?|\.\d+)\s*(s|m|h)?")
_SECONDS = {"s": 1.0, "m": 60.0, "h": 3600.0, None: 1.0}


class DurationError(LoggerError, ValueError):
    """A text is no duration."""


def parse_duration_s(text: str) -> float:
    """Return the seconds that a duration names.

    Raises
    ------
    DurationError : not of the form, zero, or longer than a year.
    """
    found = _FORM.fullmatch(text.strip())
    seconds = float(found[1]) * _SECONDS[found[2]] if found else 0.0
    if not 0 < seconds <= 366 * 86400:
        raise DurationError(f"{text!r} is not a duration; write for example 90, 90s, 15m or 2h")
    return seconds
