"""The zero of a meter from readings taken with its leads together."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from logger.analysis.refusal import Refused
from logger.bench_rules import SECTIONS, Number

__all__ = ["meter_zero_V"]

FEWEST_READINGS = 5
LARGEST_SPREAD_V = 0.005
"""Readings of shorted leads that wander more are not of shorted leads (common practice, no source)."""


def meter_zero_V(readings_V: Sequence[float]) -> float:
    """Return the mean of readings taken with the leads together, in volts.

    Raises
    ------
    Refused : fewer than five readings, readings that wander, or too far from zero to be shorted leads.
    """
    values = np.asarray([one for one in readings_V if math.isfinite(one)], dtype=np.float64)
    if values.size < FEWEST_READINGS:
        raise Refused(
            "readings with the leads together",
            values.size,
            "so few say nothing",
            "hold them for three seconds",
        )
    spread_V = float(np.ptp(values))
    if spread_V > LARGEST_SPREAD_V:
        raise Refused(
            "spread of the readings in V", spread_V, "the leads do not touch firmly", "press them together"
        )
    zero_V = float(values.mean())
    rule = SECTIONS["meter"]["zero_V"]
    assert isinstance(rule, Number)
    if not rule.low <= zero_V <= rule.high:
        raise Refused("zero in V", zero_V, rule.reason, "hold the two test leads together, off the cell")
    return zero_V
