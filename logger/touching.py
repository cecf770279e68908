"""When the electrodes touched, in words: the one state of a run that always is a fault."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from logger.quantity import NO_BREAK, plain
from logger.scale import clock_text

__all__ = ["touching_count", "touching_times"]

MOST = 4


def _stretches(findings: Mapping[str, Any]) -> list[tuple[float, float]]:
    states = findings.get("states") or ()
    return [(one["begin_s"], one["end_s"]) for one in states if one["state"] == "touching"]


def touching_count(findings: Mapping[str, Any]) -> str:
    """Return how often and how long electrodes or leads touched; empty where they never did."""
    found = _stretches(findings)
    if not found:
        return ""
    length = plain(sum(end - begin for begin, end in found), 1, "s")
    return f"once, {length}" if len(found) == 1 else f"{len(found)}{NO_BREAK}times, {length} together"


def touching_times(findings: Mapping[str, Any]) -> str:
    """Return when they touched, the first ones where that was often; empty where they never did."""
    found = _stretches(findings)
    times = ", ".join(f"{clock_text(begin)} to {clock_text(end)}" for begin, end in found[:MOST])
    return f"{times} and {len(found) - MOST} more" if len(found) > MOST else times
