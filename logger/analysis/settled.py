"""The settled voltage of a phase, after the fact: which stretch of it counts, and how well it is known."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from logger.analysis.drift import Drift, drift
from logger.analysis.grid import Grid, Pieces, grid_of_pieces
from logger.analysis.plateau import FEWEST_SAMPLES, block_means, plateau
from logger.analysis.refusal import Refused, require_positive
from logger.analysis.rounding import two_sided_spread
from logger.analysis.start_up import tail_in_mean
from logger.analysis.uncertainty import coverage_factor

__all__ = [
    "FINEST_CELLS",
    "MOST_SAMPLES",
    "SettledWindow",
    "given_window",
    "given_window_of_pieces",
    "settled_window",
    "settled_window_of_pieces",
    "window_lengths_s",
]

MOST_SAMPLES = 600
"""Samples a window is averaged down to: the scales of the estimators then reach from seconds to minutes."""

FINEST_CELLS = 4800
Averager = Callable[[Pieces, int], Grid]
LENGTHS = 24
SEARCH_STEP_SHARE = 1.0 / 12.0
BEGINNING_PROBABILITY = 0.90
START_UP_IN_WINDOWS = 3.0
"""The tail of the start-up is looked for in so many lengths of the window, up to its end: further back the
voltage comes down faster than anything that is left of it."""

START_UP_SAMPLES = 300


@dataclass(frozen=True, slots=True)
class SettledWindow:
    """The stretch at the end of a phase that counts as its settled voltage.

    Attributes
    ----------
    begin_s, end_s : float
        Run time of the window.
    voltage_V, median_V : float
        Mean and median. They differ where bubbles are large.
    deviation_V : float
        Standard deviation of the readings (of their averages, where there were more than 600).
    spread_V : float
        How far they lie about their median on either side; see `logger.analysis.rounding`.
    scatter_uncertainty_V, scatter_freedom : float
        Standard uncertainty of the mean from the noise, and its degrees of freedom.
    drift_uncertainty_V : float
        How far the drift moves the voltage within the window, beyond what noise alone makes it look like; of
        one that is not settled, how far it may still go.
    start_up_uncertainty_V : float
        What the tail of the start-up may have left in the mean.
    drift : Drift
        In volts a second.
    effective_samples : float
        How many independent readings the window is worth.
    is_settled : bool
        True where the 90 % interval of the drift lies within the limit.
    """

    begin_s: float
    end_s: float
    voltage_V: float
    median_V: float
    deviation_V: float
    spread_V: float
    scatter_uncertainty_V: float
    scatter_freedom: float
    drift_uncertainty_V: float
    start_up_uncertainty_V: float
    drift: Drift
    effective_samples: float
    is_settled: bool

    @property
    def length_s(self) -> float:
        """Length of the window."""
        return self.end_s - self.begin_s


@dataclass(frozen=True, slots=True)
class _Candidate:
    """One window of the search: where it lies, its averaged samples, its length and its drift."""

    begin_s: float
    end_s: float
    times_s: NDArray[np.float64]
    values_V: NDArray[np.float64]
    length_s: float
    drift: Drift
    start_up_V: float = 0.0
    """What the tail of the start-up leaves in the mean."""
    came_from_V: float = 0.0
    """How far above the window's mean the voltage was before it, where it came down (or up) to it."""

    @property
    def worst_drift(self) -> float:
        return max(abs(end) for end in self.drift.interval())


def settled_window(
    times_s: ArrayLike,
    voltage_V: ArrayLike,
    *,
    limit_V_per_s: float,
    window_s: float,
    resolution_V: float = 0.0,
) -> SettledWindow:
    """Find the settled stretch at the end of a phase.

    Parameters
    ----------
    times_s : array_like, shape (n,)
        Run time of the readings in seconds, never decreasing: one uninterrupted stretch of electrolysis.
    voltage_V : array_like, shape (n,)
        Magnitudes in volts, finite.
    limit_V_per_s : float
        Settling limit; the drift's whole 90 % interval must lie within it.
    window_s : float
        Shortest window that counts.
    resolution_V : float
        One digit of the meter; smaller differences are not looked at.

    Returns
    -------
    SettledWindow
        With `is_settled` False where no window passes: then the one whose drift comes nearest, or all of
        a stretch that is shorter than `window_s`.

    Raises
    ------
    Refused
        Fewer than 30 readings, or gaps of more than a tenth in every window.

    Notes
    -----
    The settled voltage is what the cell needs during the settled window, its noise averaged out. Where it
    drifts there is no single such voltage: the mean stands for the middle of the window, and how far the
    drift moves it from there to either end belongs to the uncertainty (definitional uncertainty, VIM,
    JCGM 200:2012, 2.27). What the start-up still leaves in the window is an error of the mean.

    Windows end where the phase ends. The whole phase is taken where its drift lies within the limit and its
    beginning agrees with the rest of it. Else a voltage came down at first: it passes a test of the average
    slope long before its beginning belongs to the plateau. So from the longest window whose drift lies within
    the limit as much of the beginning is left out as makes scatter and start-up together least.

    The mean's uncertainty is that of `plateau`, or, where the window is too short for it or its drift differs
    from zero (by the 90 % interval), that of the scatter about the line. The drift b with its uncertainty u
    adds sqrt(p (b^2 + u^2)) W/sqrt(12), the standard deviation of such a line over the window of length W,
    with p = 1 - exp(-(b/u)^2/2): the less noise explains it, the more it counts. The start-up adds
    `tail_in_mean`. A drift that goes on the way that the start-up went and the tail of it are one and the
    same movement: the larger counts. Where such a drift differs from zero it may be the rest of a slow
    start-up, and counts twice. An unsettled window carries
    sqrt(b^2 + u^2) W/sqrt(3): the voltage may go on by as much as it moved in the window, which is what an
    exponential tail does, and a slower one goes on further.
    """
    times, volts = np.asarray(times_s, dtype=np.float64), np.asarray(voltage_V, dtype=np.float64)
    return settled_window_of_pieces(
        [(times, volts)], limit_V_per_s=limit_V_per_s, window_s=window_s, resolution_V=resolution_V
    )


def settled_window_of_pieces(
    pieces: Pieces,
    *,
    limit_V_per_s: float,
    window_s: float,
    resolution_V: float = 0.0,
    average: Averager = grid_of_pieces,
) -> SettledWindow:
    """Find the settled stretch in readings that come in pieces, oldest first; see `settled_window`.

    `average` puts them on a grid; it may know that of these readings already.

    Raises
    ------
    Refused
        As `settled_window`.
    """
    limit = require_positive("settling limit", limit_V_per_s)
    shortest_s = require_positive("settling window in s", window_s)
    _check_number("readings in the phase", pieces)
    grid = average(pieces, FINEST_CELLS)
    if grid.length_s < shortest_s:
        chosen, is_settled = _whole(grid), False
    else:
        chosen, is_settled = _search(grid, limit, shortest_s, resolution_V)
    return _described(chosen, is_settled)


def given_window(times_s: ArrayLike, voltage_V: ArrayLike, *, limit_V_per_s: float) -> SettledWindow:
    """Judge a window that somebody chose, by the same measure as one that was found.

    Parameters
    ----------
    times_s, voltage_V, limit_V_per_s
        See `settled_window`; all of the readings are the window.

    Raises
    ------
    Refused
        Fewer than 30 readings, or gaps of more than a tenth.
    """
    times, volts = np.asarray(times_s, dtype=np.float64), np.asarray(voltage_V, dtype=np.float64)
    return given_window_of_pieces([(times, volts)], limit_V_per_s=limit_V_per_s)


def given_window_of_pieces(
    pieces: Pieces, *, limit_V_per_s: float, average: Averager = grid_of_pieces
) -> SettledWindow:
    """Judge a chosen window whose readings come in pieces, oldest first; see `given_window`.

    Raises
    ------
    Refused
        As `given_window`.
    """
    limit = require_positive("settling limit", limit_V_per_s)
    _check_number("readings in the window", pieces)
    chosen = _whole(average(pieces, FINEST_CELLS))
    return _described(chosen, chosen.drift.is_within(limit))


def _check_number(quantity: str, pieces: Pieces) -> None:
    number = 0
    for times, _ in pieces:
        number += int(times.size)
        if number >= FEWEST_SAMPLES:
            return
    raise Refused(quantity, number, "so few say nothing", f"record {FEWEST_SAMPLES} or more")


def window_lengths_s(longest_s: float, shortest_s: float) -> Iterator[float]:
    """Yield the lengths to try, longest first; about 25, at least a twelfth of the shortest apart."""
    step_s = max(shortest_s * SEARCH_STEP_SHARE, (longest_s - shortest_s) / LENGTHS)
    count = int((longest_s - shortest_s) / step_s + 1e-9)
    for k in range(count + 1):
        yield longest_s - k * step_s


def _whole(grid: Grid) -> _Candidate:
    if len(grid) < FEWEST_SAMPLES or grid.gap_refusal:
        raise Refused(
            "readings in the phase",
            len(grid),
            grid.gap_refusal or "so few say nothing",
            "record without gaps",
        )
    return _candidate(grid)


def _search(grid: Grid, limit: float, shortest_s: float, resolution_V: float) -> tuple[_Candidate, bool]:
    drifting: list[_Candidate] = []
    passing: list[_Candidate] = []
    gap = ""
    for length_s in window_lengths_s(grid.length_s, shortest_s):
        part = grid.last(length_s)
        gap = part.gap_refusal or gap
        if len(part) < FEWEST_SAMPLES or part.gap_refusal:
            continue
        candidate = _candidate(part)
        if not candidate.drift.is_within(limit):
            drifting.append(candidate)
            continue
        is_first = not drifting and not passing
        if is_first and _beginning_agrees(candidate, shortest_s, resolution_V):
            return candidate, True
        passing.append(candidate)
    if passing:
        return _least_uncertain(grid, passing, resolution_V), True
    if not drifting:
        raise Refused(
            "readings at the end of the phase",
            len(grid),
            gap or "too few for the settling window",
            "record without gaps, faster or longer",
        )
    return min(drifting, key=lambda one: one.worst_drift), False


def _candidate(part: Grid) -> _Candidate:
    """Average a window down to at most 600 samples that end with its last one, and fit its drift."""
    block = -(-len(part) // MOST_SAMPLES)
    first = len(part) % block
    times, volts = block_means(part.times_s[first:], block), block_means(part.values[first:], block)
    ends = float(part.times_s[first]), float(part.times_s[-1])
    return _Candidate(*ends, times, volts, part.length_s, drift(times, volts))


def _least_uncertain(grid: Grid, passing: list[_Candidate], resolution_V: float) -> _Candidate:
    """Return the window whose scatter and start-up together are least.

    The noise is the median of what all of them show: taking each by its own would prefer the window whose
    scatter came out small by chance.
    """
    shown = float(np.median([one.drift.level_uncertainty * math.sqrt(one.length_s) for one in passing]))
    noise_V_root_s = max(shown, resolution_V * math.sqrt(grid.step_s / 12.0))
    if noise_V_root_s == 0.0:
        return passing[0]
    tails_V = [_start_up_V(grid, one.length_s, noise_V_root_s) for one in passing]
    doubts_V = [
        math.hypot(noise_V_root_s / math.sqrt(one.length_s), tail_V)
        for one, tail_V in zip(passing, tails_V, strict=True)
    ]
    best = int(np.argmin(doubts_V))
    chosen = passing[best]
    earlier = grid.values[grid.times_s < chosen.begin_s]
    came_from_V = float(earlier.mean() - chosen.values_V.mean()) if earlier.size else 0.0
    return replace(chosen, start_up_V=tails_V[best], came_from_V=came_from_V)


def _start_up_V(grid: Grid, length_s: float, noise_V_root_s: float) -> float:
    """Return what the tail of the start-up leaves in the mean of the last `length_s` seconds."""
    part = grid.last(START_UP_IN_WINDOWS * length_s)
    block = -(-len(part) // START_UP_SAMPLES)
    first = len(part) % block
    times, volts = block_means(part.times_s[first:], block), block_means(part.values[first:], block)
    return tail_in_mean(times, volts, times[-1] - length_s, noise_V_root_s / math.sqrt(block * grid.step_s))


def _beginning_agrees(candidate: _Candidate, beginning_s: float, resolution_V: float) -> bool:
    """Tell whether the first `beginning_s` (at most half) of a window lie where the rest of it lies."""
    times, volts = candidate.times_s, candidate.values_V
    first = int(np.searchsorted(times, times[0] + min(beginning_s, candidate.length_s / 2.0)))
    rest = volts[first:]
    if rest.size < FEWEST_SAMPLES:
        return True  # too short to be looked at in parts
    about = drift(times[first:], rest)
    difference = abs(float(volts[:first].mean() - rest.mean()))
    allowed = coverage_factor(BEGINNING_PROBABILITY, about.level_freedom) * about.level_uncertainty
    return difference <= max(resolution_V, allowed * math.sqrt(1.0 + rest.size / first))


def _left_open_V(chosen: _Candidate, is_settled: bool) -> tuple[float, float]:
    """Return the standard uncertainties that drift and start-up leave."""
    slope, doubt = chosen.drift.slope, chosen.drift.standard_uncertainty
    moving_V = math.hypot(slope, doubt) * chosen.length_s
    if not is_settled:
        return moving_V / math.sqrt(3.0), chosen.start_up_V
    # The likelihood that nothing drifts, relative to that of the fitted drift.
    still = math.exp(-0.5 * (slope / doubt) ** 2) if doubt > 0.0 else 0.0
    within_V = math.sqrt(1.0 - still) * moving_V / math.sqrt(12.0)
    if slope * chosen.came_from_V >= 0.0:
        return within_V, chosen.start_up_V
    low, high = chosen.drift.interval()
    if not low <= 0.0 <= high:
        within_V *= 2.0
    return (within_V, 0.0) if within_V > chosen.start_up_V else (0.0, chosen.start_up_V)


def _described(chosen: _Candidate, is_settled: bool) -> SettledWindow:
    level = plateau(chosen.values_V)
    low, high = chosen.drift.interval()
    stands_still = level.is_valid and is_settled and low <= 0.0 <= high
    drift_V, start_up_V = _left_open_V(chosen, is_settled)
    return SettledWindow(
        begin_s=chosen.begin_s,
        end_s=chosen.end_s,
        voltage_V=level.mean,
        median_V=level.median,
        deviation_V=level.standard_deviation,
        spread_V=two_sided_spread(chosen.values_V),
        scatter_uncertainty_V=level.standard_uncertainty if stands_still else chosen.drift.level_uncertainty,
        scatter_freedom=level.degrees_of_freedom if stands_still else chosen.drift.level_freedom,
        drift_uncertainty_V=drift_V,
        start_up_uncertainty_V=start_up_V,
        drift=chosen.drift,
        effective_samples=level.effective_samples,
        is_settled=is_settled,
    )
