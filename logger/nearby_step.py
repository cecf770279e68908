"""A step of the voltage near a moment: where the moment may have been meant to lie.

A person tags a little before or after they act. Where the act made the voltage jump (electrodes lifted out,
put back, a lead off), the readings tell when it really was. Only an offer: the moment stays where it is.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["LEAST_JUMP_V", "REACH_S", "STEP_KINDS", "nearest_step_s"]

FLOATS = NDArray[np.float64]

REACH_S = 15.0
"""How far from a moment a step is looked for (about how long an act and its tag lie apart; no source)."""

LEAST_JUMP_V = 0.05
"""Smaller jumps are not told from the settling of a cell (chosen for this, no source)."""

NOISES = 8.0
SIDE = 3
"""Readings on either side whose medians are compared: one stray reading is no step."""

STEP_KINDS = frozenset(
    {"buffer_in", "electrodes_out", "electrodes_in", "solution_swapped", "resistor_changed", "lead_lifted",
     "lead_back"}
)  # fmt: skip
"""Kinds of moment whose act changes the circuit at one instant."""


def nearest_step_s(times_s: FLOATS, volts: FLOATS, at_s: float, reach_s: float = REACH_S) -> float | None:
    """Return the time of the first reading after the step nearest to `at_s`, or None where there is none.

    A step is where the medians of the `SIDE` readings before and after differ by more than `LEAST_JUMP_V`, by
    more than `NOISES` times the noise (from the median absolute difference of neighbours), and where most of
    that difference lies between two neighbours: a slide is no step.

    Parameters
    ----------
    times_s, volts : readings around the moment, shape (n,), in order of time; overloads may be infinite.
    at_s : the moment, run seconds.
    """
    near = np.abs(times_s - at_s) <= reach_s
    times_s, volts = times_s[near], np.nan_to_num(np.abs(volts[near]), posinf=1e3)
    if times_s.size < 2 * SIDE:
        return None
    windows = np.sort(np.lib.stride_tricks.sliding_window_view(volts, SIDE), axis=1)[:, SIDE // 2]
    jumps = np.abs(windows[SIDE:] - windows[:-SIDE])  # [k]: before and after reading k + SIDE
    neighbours = np.abs(np.diff(volts))
    noise = float(np.median(neighbours)) / (0.6745 * np.sqrt(2.0))  # normal noise, independent readings
    own = neighbours[SIDE - 1 : SIDE - 1 + jumps.size]
    is_step = (jumps > max(LEAST_JUMP_V, NOISES * noise)) & (own > 0.5 * jumps)
    if not is_step.any():
        return None
    places = times_s[SIDE : SIDE + jumps.size][is_step]
    return float(places[np.argmin(np.abs(places - at_s))])
