"""A voltage that jumps within a phase: a lead or an electrode that moved, not the catalyst."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from logger.analysis.caution import Caution
from logger.analysis.evidence import Evidence
from logger.analysis.phases import Phase
from logger.analysis.plateau import block_means
from logger.analysis.refusal import Refused
from logger.analysis.salt_effect import START_UP_S
from logger.analysis.settled import FINEST_CELLS
from logger.moments import Moment

__all__ = ["Step", "find_step", "step_in_phase"]

SIDE_S = 20.0
AT_ONCE_S = 1.5
FINEST_S = 0.4
LEAST_STEP_V = 0.01
LEAST_IN_DIGITS = 2.5
LEAST_IN_NOISE = 4.0
LEAST_IN_JUMPS = 8.0
LEAST_SHARE_AT_ONCE = 0.6
"""What tells a jump from noise and from a slow change (common practice, no source)."""

EXPLAINED_WITHIN_S = 30.0

Vector = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Step:
    """A jump: when, and by how much the voltage is higher from then on, in volts."""

    at_s: float
    height_V: float


def find_step(times_s: Vector, volts: Vector, digit_V: float = 0.0) -> Step | None:
    """Find the largest jump of a voltage that otherwise stays or drifts; None where none stands out.

    Parameters
    ----------
    times_s, volts : ndarray, shape (n,)
        Averages at equal distances.
    digit_V : float
        One digit of the display, 0 where it is not known.

    Notes
    -----
    The medians of 20 s on both sides must differ by more than 10 mV, two digits and four times what they
    differ by without the jump; most of it must come within some seconds, and exceed eight times what the
    voltage does in these as a rule (by medians of deviations).
    """
    spacing_s = float(np.median(np.diff(times_s))) if times_s.size > 1 else 0.0
    side = max(5, round(SIDE_S / spacing_s)) if spacing_s > 0.0 else 0
    if side == 0 or times_s.size < 5 * side:
        return None
    heights = _heights(volts, side)
    most = int(np.argmax(np.abs(heights - np.median(heights))))
    height_V = float(heights[most] - np.median(heights))
    at_once = max(2, round(AT_ONCE_S / spacing_s))
    jumps = _heights(volts, at_once)
    first = max(0, most + side - side // 2 - at_once)
    near = jumps[first : first + side]
    steepest = int(np.argmax(np.abs(near)))
    at, jump_V = first + steepest + at_once, float(near[steepest])
    without = _heights(volts - np.where(np.arange(volts.size) < at, 0.0, height_V), side)
    least_V = max(LEAST_STEP_V, LEAST_IN_DIGITS * digit_V, LEAST_IN_NOISE * _usual_size(without))
    is_sudden = abs(jump_V) >= LEAST_IN_JUMPS * _usual_size(jumps)
    if abs(height_V) < least_V or not is_sudden:
        return None
    if jump_V * np.sign(height_V) < LEAST_SHARE_AT_ONCE * abs(height_V):
        return None
    return Step(float(times_s[at]), height_V)


def _heights(volts: Vector, side: int) -> Vector:
    """Return by how much the medians of `side` values after each place exceed those before it."""
    medians = np.median(np.lib.stride_tricks.sliding_window_view(volts, side), axis=1)
    return np.asarray(medians[side:] - medians[:-side])


def _usual_size(values: Vector) -> float:
    return 1.4826 * float(np.median(np.abs(values - np.median(values))))


def step_in_phase(evidence: Evidence, phase: Phase, part: slice, moments: Iterable[Moment]) -> Caution | None:
    """Say that the voltage jumped in a phase, after its start-up and with no moment beside it; else None.

    Parameters
    ----------
    evidence : Evidence
    phase : Phase
    part : slice
        Its readings among which the settled window is looked for.
    moments : iterable of Moment
    """
    try:
        grid = evidence.averages.of(evidence.electrolysing(part), FINEST_CELLS)
    except Refused:
        return None
    if grid.gap_refusal:
        return None
    first = int(np.searchsorted(grid.times_s, phase.begin_s + START_UP_S))
    block = max(1, round(FINEST_S / grid.step_s))
    times_s, volts = (block_means(one[first:], block) for one in (grid.times_s, grid.values))
    found = find_step(times_s, volts, evidence.resolution_V)
    if found is None or any(abs(one.time_s - found.at_s) <= EXPLAINED_WITHIN_S for one in moments):
        return None
    height_mV = 1000.0 * abs(found.height_V)
    is_up = found.height_V > 0.0
    moved = f"it rose by about {height_mV:.0f} mV" if is_up else f"it fell by about {height_mV:.0f} mV"
    return Caution(
        f"step_{phase.phase}",
        f"The voltage jumped in the phase '{phase.phase}': {moved} all at once, and no moment says why. If a "
        "lead, a contact or an electrode moved, the two voltages cannot be compared: repeat the run.",
        found.at_s,
    )
