"""Whether the cell was stirred alike at both settled voltages, by the moments that somebody tagged."""

from __future__ import annotations

from collections.abc import Iterable

from logger.analysis.caution import Caution
from logger.analysis.settled import SettledWindow
from logger.moments import Moment

__all__ = ["stirring_changed"]

SWITCHES = {"stirring_on": True, "stirring_off": False}


def stirring_changed(
    moments: Iterable[Moment], before: SettledWindow, after: SettledWindow
) -> Caution | None:
    """Say that the stirrer ran at one of two settled voltages only, or was switched in one; None where not.

    Parameters
    ----------
    moments : iterable of Moment
        In order of time. Up to the first one that switches it the stirrer was the other way.
    before, after : SettledWindow
    """
    switches = [(one.time_s, SWITCHES[one.kind]) for one in moments if one.kind in SWITCHES]
    if not switches:
        return None
    edges_s = [-float("inf"), *(at_s for at_s, _ in switches)]
    runs = [not switches[0][1], *(is_on for _, is_on in switches)]
    seen: set[bool] = set()
    for window in (before, after):
        for begin_s, end_s, is_on in zip(edges_s, [*edges_s[1:], float("inf")], runs, strict=True):
            if begin_s < window.end_s and end_s > window.begin_s:
                seen.add(is_on)
    if len(seen) < 2:
        return None
    last_s = max(at_s for at_s, _ in switches if at_s < after.end_s)
    return Caution(
        "stirring_changed",
        "The cell was not stirred alike at the two voltages, by the moments. Stirring changes the voltage by "
        "itself: leave the stirrer as it is until both are settled.",
        last_s,
    )
