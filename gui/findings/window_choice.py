"""A settled stretch as a person moves it: what it may be, and who chose it. Touches no widget."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from gui.message_words import message_words
from gui.numbers import clock_text, plain
from gui.words import translate
from logger.analysis.chosen_windows import NAMES, ChosenWindow
from logger.scale import parse_clock

__all__ = ["WindowChoice", "WindowTextError", "choices_of", "windows_of"]

SHORTEST_S = 5.0


class WindowTextError(ValueError):
    """Begin or end was typed as no time of the run."""


@dataclass(frozen=True, slots=True)
class WindowChoice:
    """Begin and end of a stretch, how far they may go, its voltage, and whether a person chose it."""

    begin_s: float
    end_s: float
    first_s: float
    last_s: float
    voltage_V: float
    by_hand: bool = False

    def moved(self, part: str, by_s: float) -> WindowChoice:
        """Return the stretch with its ``begin``, its ``end`` or ``both`` moved, kept within its bounds."""
        if part == "both":
            by_s = min(max(by_s, self.first_s - self.begin_s), self.last_s - self.end_s)
            return replace(self, begin_s=self.begin_s + by_s, end_s=self.end_s + by_s, by_hand=True)
        if part == "begin":
            begin_s = min(max(self.begin_s + by_s, self.first_s), self.end_s - SHORTEST_S)
            return replace(self, begin_s=begin_s, by_hand=True)
        end_s = max(min(self.end_s + by_s, self.last_s), self.begin_s + SHORTEST_S)
        return replace(self, end_s=end_s, by_hand=True)

    @property
    def texts(self) -> tuple[str, str]:
        """Begin and end as they are typed."""
        return clock_text(self.begin_s), clock_text(self.end_s)

    def typed(self, begin: str, end: str) -> WindowChoice:
        """Return the stretch from two typed times.

        Raises
        ------
        WindowTextError : no times, out of the bounds, or too short.
        """
        try:
            begin_s, end_s = parse_clock(begin), parse_clock(end)
        except ValueError as error:
            raise WindowTextError(message_words(str(error))) from error
        if begin_s < self.first_s - 1 or end_s > self.last_s + 1 or end_s - begin_s < SHORTEST_S:
            text = translate(
                "Findings", "give times within {begin} to {end}, at least {shortest} apart"
            ).format(
                begin=clock_text(self.first_s),
                end=clock_text(self.last_s),
                shortest=plain(SHORTEST_S, 0, "s"),
            )
            raise WindowTextError(text)
        begin_s, end_s = max(begin_s, self.first_s), min(end_s, self.last_s)
        return replace(self, begin_s=begin_s, end_s=end_s, by_hand=True)


def choices_of(
    findings: Mapping[str, Any], duration_s: float, tried: Mapping[str, WindowChoice] | None = None
) -> dict[str, WindowChoice]:
    """Return the settled stretches that there are; each may move within its phase.

    `tried` : what a person chose for these findings. One that gave no voltage is returned as it was chosen:
    it has to be there to be moved on or taken back.
    """
    phases = {one["phase"]: one for one in findings.get("phases") or ()}
    found = {}
    for name, one in (findings.get("settled") or {}).items():
        if not one or one.get("voltage_V") is None:
            continue
        phase = phases.get(name, {"begin_s": 0.0, "end_s": duration_s})
        begin_s, end_s = one["window_begin_s"], one["window_end_s"]
        first_s, last_s = min(phase["begin_s"], begin_s), max(phase["end_s"], end_s)
        by_hand = bool(one.get("chosen_by_hand"))
        found[name] = WindowChoice(begin_s, end_s, first_s, last_s, one["voltage_V"], by_hand)
    known = {**(tried or {}), **found}
    return {name: known[name] for name in NAMES if name in known}


def windows_of(choices: Mapping[str, WindowChoice]) -> dict[str, ChosenWindow]:
    """Return those stretches that a person chose, for the analysis."""
    return {name: ChosenWindow(one.begin_s, one.end_s) for name, one in choices.items() if one.by_hand}
