"""When a settled voltage began to fall, for runs in which nobody tagged the salt."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from logger.analysis.cusum import cusum_alarm
from logger.analysis.grid import Grid, Pieces, grid_of_pieces
from logger.analysis.plateau import block_means
from logger.analysis.refusal import Refused
from logger.analysis.settled import SettledWindow, settled_window

__all__ = ["START_UP_S", "Fall", "find_fall", "find_fall_of_pieces"]

BLOCK_S = 20.0
CHECK_EVERY_S = 20.0
MOST_CHECKS = 150
LEAST_FALL_V = 0.005
LEAST_FALL_UNCERTAINTIES = 5.0
STILL_FALLING_AFTER_S = 60.0
START_UP_S = 90.0
LARGEST_START_UP_V = 0.015
FIRST_PART = 0.1
BEND_BLOCK_S = 10.0
STEEPENING = 1.25  # between a line, which bends late, and a parabola, which bends early
CELLS = 4800


@dataclass(frozen=True, slots=True)
class Fall:
    """A lasting fall of the voltage: when it began, and by how much it fell in the end.

    `was_settled` is False where the voltage fell from the start, so that its beginning is not known.
    """

    begin_s: float
    total_V: float
    was_settled: bool = True


def find_fall(
    times_s: NDArray[np.float64], voltage_V: NDArray[np.float64], *, limit_V_per_s: float, window_s: float
) -> Fall | None:
    """Find the first lasting fall of the voltage.

    Parameters
    ----------
    times_s, voltage_V : ndarray, shape (n,)
        One stretch of electrolysis, magnitudes.
    limit_V_per_s, window_s : float
        The settling rule (see `settled_window`).

    Returns
    -------
    Fall or None
        None where the voltage never fell lastingly once it had settled: by at least 5 mV and five standard
        uncertainties, and still falling a minute later. With `was_settled` False where it fell by more than
        15 mV after the first 90 s without having settled: no start-up takes that long, but salt that went
        in too early does (all common practice, no source).

    Notes
    -----
    From the first moment at which a settled window ends, a CUSUM chart (k 0.5, h 8) follows means of 20 s;
    their standard deviation comes from the window's uncertainty, so slow noise is allowed for. A change
    that does not last moves the start on. The chart only tells that there is a fall; its beginning is the
    bend of a level and a steepening fall, fitted from the window to the first tenth of it all. A warming
    or a change of stirring may look the same: whoever uses this must say so.
    """
    return find_fall_of_pieces([(times_s, voltage_V)], limit_V_per_s=limit_V_per_s, window_s=window_s)


def find_fall_of_pieces(pieces: Pieces, *, limit_V_per_s: float, window_s: float) -> Fall | None:
    """Find the first lasting fall in readings that come in pieces, oldest first; see `find_fall`."""
    try:
        grid = grid_of_pieces(pieces, CELLS)
    except Refused:
        return None
    start_s = float(grid.times_s[0])
    end_s = float(grid.times_s[-1])
    at_s = start_s + window_s
    step_s = max(CHECK_EVERY_S, (end_s - start_s) / MOST_CHECKS)
    seen_settled = False
    while at_s < end_s - STILL_FALLING_AFTER_S:
        settled = _settled_until(grid, start_s, at_s, limit_V_per_s, window_s)
        if settled is None:
            at_s += step_s
            continue
        if not seen_settled:
            seen_settled = True
            early = _fall_from_the_start(grid, settled.voltage_V)
            if early is not None:
                return early
        changed_s = _change_after(grid, settled)
        if changed_s is None:
            return None
        fall = _lasting_fall(grid, settled, changed_s)
        if fall is not None:
            return fall
        at_s = max(at_s + step_s, changed_s + window_s)
        start_s = max(start_s, changed_s)
    return None if seen_settled else _fall_from_the_start(grid, float(grid.values[-1]))


def _fall_from_the_start(grid: Grid, later_V: float) -> Fall | None:
    begin_s = float(grid.times_s[0])
    early = (grid.times_s >= begin_s + START_UP_S) & (grid.times_s < begin_s + START_UP_S + BLOCK_S)
    if not early.any():
        return None
    total_V = float(grid.values[early].mean()) - later_V
    return Fall(begin_s, total_V, was_settled=False) if total_V > LARGEST_START_UP_V else None


def _settled_until(
    grid: Grid, start_s: float, end_s: float, limit: float, window_s: float
) -> SettledWindow | None:
    inside = (grid.times_s >= start_s) & (grid.times_s <= end_s)
    try:
        found = settled_window(
            grid.times_s[inside], grid.values[inside], limit_V_per_s=limit, window_s=window_s
        )
    except Refused:
        return None
    return found if found.is_settled else None


def _change_after(grid: Grid, settled: SettledWindow) -> float | None:
    """Return when the level left the settled one, or None."""
    later = grid.times_s > settled.end_s
    block = max(1, round(BLOCK_S / grid.step_s))
    means = block_means(grid.values[later], block)
    begins_s = grid.times_s[later][: means.size * block : block]
    if means.size == 0:
        return None
    # The variance of a mean goes with one over its length, the slow noise included.
    deviation = settled.scatter_uncertainty_V * math.sqrt(settled.length_s / (block * grid.step_s))
    deviation = math.hypot(deviation, settled.scatter_uncertainty_V)
    if deviation == 0.0:
        deviation = 1e-6  # a display that never moved: any change is one
    alarm = cusum_alarm((means - settled.voltage_V) / deviation)
    return None if alarm is None else float(begins_s[alarm.began])


def _lasting_fall(grid: Grid, settled: SettledWindow, changed_s: float) -> Fall | None:
    after = grid.values[grid.times_s >= changed_s + STILL_FALLING_AFTER_S]
    soon = grid.values[(grid.times_s >= changed_s) & (grid.times_s < changed_s + STILL_FALLING_AFTER_S)]
    if after.size < 2 or soon.size < 2:
        return None
    last_V = float(after[-max(2, after.size // 5) :].mean())
    total_V = settled.voltage_V - last_V
    least_V = max(LEAST_FALL_V, LEAST_FALL_UNCERTAINTIES * settled.scatter_uncertainty_V)
    if not (total_V >= least_V and last_V < float(soon.mean())):
        return None
    return Fall(_bend_s(grid, settled, total_V), total_V)


def _bend_s(grid: Grid, settled: SettledWindow, total_V: float) -> float:
    """Return where a level turns into a fall that steepens, by least squares over all bends."""
    block = max(1, round(BEND_BLOCK_S / grid.step_s))
    later = grid.times_s >= settled.begin_s
    times, volts = block_means(grid.times_s[later], block), block_means(grid.values[later], block)
    first_part_V = max(2.0 * LEAST_FALL_V, FIRST_PART * total_V)
    fallen = np.flatnonzero(volts < settled.voltage_V - first_part_V)
    fallen = fallen[times[fallen] > settled.end_s]
    stop = int(fallen[0]) + 1 if fallen.size else times.size
    times, volts = times[:stop], volts[:stop]
    best_s, least = settled.end_s, math.inf
    for bend_s in times[1:-1]:
        ramp = np.maximum(0.0, times - bend_s) ** STEEPENING
        design = np.column_stack([np.ones_like(times), ramp])
        (level_V, slope), *_ = np.linalg.lstsq(design, volts, rcond=None)
        left = float(((volts - level_V - slope * ramp) ** 2).sum())
        if slope < 0.0 and left < least:
            best_s, least = float(bend_s), left
    return best_s
