"""Settled windows that a person chose in place of the ones the program finds.

A choice is kept with the findings of the recording (``settled.before.chosen_by_hand``), so that every later
analysis of the file uses it too, and says so, until it is taken back.
"""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from logger.analysis.refusal import Refused

__all__ = ["NAMES", "ChosenWindow", "chosen_windows", "told_windows"]

NAMES = ("before", "after")


@dataclass(frozen=True, slots=True)
class ChosenWindow:
    """A stretch of run time, in seconds.

    Raises
    ------
    Refused
        The end is not after the begin, or a time is negative or not finite.
    """

    begin_s: float
    end_s: float

    def __post_init__(self) -> None:
        if not (math.isfinite(self.begin_s) and math.isfinite(self.end_s) and 0 <= self.begin_s < self.end_s):
            raise Refused(
                "chosen window in s",
                f"{self.begin_s:g} to {self.end_s:g}",
                "it is no stretch of the run",
                "give a begin and a later end",
            )


def chosen_windows(findings_json: str | None) -> dict[str, ChosenWindow]:
    """Return the windows that kept findings say were chosen by hand; none where they say nothing usable."""
    try:
        document: Any = json.loads(findings_json) if findings_json else None
    except (ValueError, RecursionError):
        return {}
    settled = document.get("settled") if isinstance(document, dict) else None
    if not isinstance(settled, Mapping):
        return {}
    found = {}
    for name in NAMES:
        one = settled.get(name)
        if isinstance(one, Mapping) and one.get("chosen_by_hand") is True:
            try:
                found[name] = ChosenWindow(float(one["window_begin_s"]), float(one["window_end_s"]))
            except (KeyError, TypeError, ValueError):
                continue
    return found


def told_windows(chosen: Mapping[str, ChosenWindow]) -> dict[str, Any]:
    """Return chosen windows as findings tell of them, so that `chosen_windows` finds them there again."""
    return {
        name: {"chosen_by_hand": True, "window_begin_s": one.begin_s, "window_end_s": one.end_s}
        for name, one in chosen.items()
    }
