"""Noise that pulls the mean of a settled voltage to one side: bubbles, or single readings far off."""

from __future__ import annotations

import numpy as np

from logger.analysis.caution import Caution
from logger.analysis.evidence import Evidence
from logger.analysis.refusal import Refused
from logger.analysis.settled import SettledWindow
from logger.analysis.stray_readings import StrayReadings, stray_readings
from logger.quantity import plain

__all__ = ["one_sided_noise"]

MOST_LOOKED_AT = 20_000
"""Readings of one window; among more a single one does not move the mean."""

NEIGHBOURS = 61
SURELY_STRAY = 10.0
"""In scaled median absolute deviations of the neighbours: far beyond any noise (common practice)."""


def one_sided_noise(evidence: Evidence, name: str, window: SettledWindow) -> Caution | None:
    """Say that mean and median of the window `name` differ by more than noise allows; None where not.

    Where it is a few readings far off that pull the mean, they are counted and the furthest is named: a lead
    that slipped, an electrode that was touched. They stay in the mean all the same.
    """
    spread_V = abs(window.voltage_V - window.median_V)
    if not spread_V > max(2.0 * window.scatter_uncertainty_V, evidence.resolution_V) > 0.0:
        return None
    return Caution(
        f"one_sided_{name}",
        f"Mean and median {name} differ by {1000 * spread_V:.1f} mV: {_reason(evidence, window)}.",
        window.end_s,
    )


def _reason(evidence: Evidence, window: SettledWindow) -> str:
    found = _strays(evidence, window)
    if found is None:
        return "the noise is one-sided (large bubbles?)"
    count = len(found.indices)
    readings = f"{count} readings lie" if count > 1 else "one reading lies"
    return (
        f"{readings} far off the others, the furthest by {plain(1000 * found.furthest, 0)} mV (a lead or an "
        f"electrode that was touched?); they count all the same, without them the mean would be "
        f"{found.mean_without:.4f} V"
    )


def _strays(evidence: Evidence, window: SettledWindow) -> StrayReadings | None:
    """Return the few readings that pull the mean off the median, or None where it is not a few that do."""
    usable = evidence.electrolysing(evidence.within(window.begin_s, window.end_s))
    if sum(usable.count(k) for k in range(len(usable))) > MOST_LOOKED_AT:
        return None
    values = [magnitudes for _, magnitudes in usable]
    try:
        found = stray_readings(np.concatenate([np.empty(0), *values]), span=NEIGHBOURS, limit=SURELY_STRAY)
    except Refused:
        return None
    explains = abs(found.mean_without - window.median_V) < 0.5 * abs(window.voltage_V - window.median_V)
    return found if explains and found.indices else None
