"""What the cell is doing, told from the voltage alone."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from typing import overload

import numpy as np
from numpy.typing import NDArray

from logger.analysis.charge import gap_limit_s
from logger.analysis.readings import Series, bounds_of, slices_of, step_bounds
from logger.analysis.refusal import Refused, require_positive
from logger.recording import Column

__all__ = [
    "LOWEST_OPEN_V",
    "STATES",
    "STEPS_LOOKED_AT",
    "StateInterval",
    "StateRuns",
    "StateThresholds",
    "highest_confirmed_V",
    "instant_states",
    "is_brief",
    "last_two_readable",
    "open_circuit_from_readings_V",
    "recognise_states",
    "reversed_samples",
    "state_thresholds",
]

STATES = ("no_reading", "touching", "below_reversible", "electrolysing", "poor_contact", "open")
"""Names as in the findings, in the order of their voltage."""

NO_READING, TOUCHING, BELOW, ELECTROLYSING, POOR, OPEN = range(6)

TOUCHING_ENTER_V, TOUCHING_LEAVE_V = 0.05, 0.10
BELOW_MARGIN_V, ELECTROLYSING_MARGIN_V = 0.05, 0.15
POOR_LEAVE_V, POOR_ENTER_V = 3.8, 4.0
OPEN_ENTER_SHARE, OPEN_LEAVE_SHARE = 0.90, 0.85
LOWEST_OPEN_ENTER_V = 4.4
LOWEST_OPEN_V = LOWEST_OPEN_ENTER_V / OPEN_ENTER_SHARE * (1.0 - 1e-12)
"""What lies below cannot be an open cell, whatever the others are."""
REVERSED_V = 0.1
HOLD_S = 5.0
FEWEST_SAMPLES = 3
STEPS_LOOKED_AT = 1 << 20
NONE_BEFORE: NDArray[np.float64] = np.empty(0)


@dataclass(frozen=True, slots=True)
class StateThresholds:
    """Voltages between which the states lie (common practice, no source), in volts.

    Each pair is one boundary with its hysteresis. `open_enter_V` is infinite where the open voltage is
    not known or too low to tell an open cell from a poor contact.
    """

    below_V: float
    electrolysing_V: float
    open_leave_V: float
    open_enter_V: float
    touching_enter_V: float = TOUCHING_ENTER_V
    touching_leave_V: float = TOUCHING_LEAVE_V
    poor_leave_V: float = POOR_LEAVE_V
    poor_enter_V: float = POOR_ENTER_V

    @property
    def cuts_V(self) -> tuple[float, ...]:
        """The eight voltages in order; of the zones between them even ones are sure, odd ones hysteresis."""
        return (
            self.touching_enter_V, self.touching_leave_V, self.below_V, self.electrolysing_V,
            self.poor_leave_V, self.poor_enter_V, self.open_leave_V, self.open_enter_V,
        )  # fmt: skip

    def sure_state(self, magnitudes_V: Sequence[float]) -> int | None:
        """Return the state (a number in `STATES`) that all of some voltages surely have, or None."""
        first, *more = (bisect_right(self.cuts_V, one) if math.isfinite(one) else -1 for one in magnitudes_V)
        return None if first % 2 or any(one != first for one in more) else 1 + first // 2


@dataclass(frozen=True, slots=True)
class StateInterval:
    """One stretch of one state, in run seconds: from its first sample to the first of the next."""

    state: str
    begin_s: float
    end_s: float

    @property
    def duration_s(self) -> float:
        """Length of the stretch."""
        return self.end_s - self.begin_s


def state_thresholds(reversible_voltage_V: float, open_circuit_V: float | None) -> StateThresholds:
    """Return the thresholds for a cell.

    Parameters
    ----------
    reversible_voltage_V : float
        At the cell's temperature and pressure.
    open_circuit_V : float or None
        What the meter reads with the cell dry; None where it is not known.

    Raises
    ------
    Refused
        A voltage that is not positive, or an open voltage so low that an open cell cannot be told from a
        poor contact (90 % of it must exceed 4.4 V).
    """
    reversible = require_positive("reversible voltage", reversible_voltage_V)
    enter = leave = np.inf
    if open_circuit_V is not None:
        enter = OPEN_ENTER_SHARE * require_positive("open-circuit voltage", open_circuit_V)
        leave = OPEN_LEAVE_SHARE * open_circuit_V
        if enter <= LOWEST_OPEN_ENTER_V:
            raise Refused(
                "open-circuit voltage in V",
                float(open_circuit_V),
                "an open cell cannot be told from a poor contact",
                f"use a stack of more than {LOWEST_OPEN_ENTER_V / OPEN_ENTER_SHARE:.2f} V",
            )
    return StateThresholds(
        below_V=reversible + BELOW_MARGIN_V,
        electrolysing_V=reversible + ELECTROLYSING_MARGIN_V,
        open_leave_V=float(leave),
        open_enter_V=float(enter),
    )


def open_circuit_from_readings_V(values: Series) -> float | None:
    """Return the highest voltage that three readings in a row confirm, if it can only be an open cell.

    A stand-in for a stack voltage that nobody stated; None where no reading is so high.
    """
    highest = max(
        (highest_confirmed_V(values[max(0, one.start - 2) : one.stop]) for one in slices_of(0, values.size)),
        default=0.0,
    )
    return highest or None


def highest_confirmed_V(values: NDArray[np.float64]) -> float:
    """Return the highest magnitude that three readings in a row confirm; 0 where none is an open cell's.

    Overload is passed over.
    """
    part = np.abs(values)
    if not part.size or part.max() * OPEN_ENTER_SHARE <= LOWEST_OPEN_ENTER_V:
        return 0.0  # too low for an open cell, whatever the others are
    part = part[np.isfinite(part)]
    if part.size < FEWEST_SAMPLES:
        return 0.0
    highest = float(_median_of_last_three(part)[2:].max())
    return highest if highest * OPEN_ENTER_SHARE > LOWEST_OPEN_ENTER_V else 0.0


def reversed_samples(values: Series, *, upright: bool = False) -> int:
    """Count the samples that three negative readings in a row beyond 0.1 V show to be reversed; no overload.

    With `upright`, count those that are positive in the same way.
    """
    count = 0
    for piece in slices_of(0, values.size):
        # The two readings before, so that a row of three across the edge counts as well.
        part = values[max(0, piece.start - 2) : piece.stop]
        low = part > REVERSED_V if upright else (part < -REVERSED_V) & np.isfinite(part)
        if low.size >= FEWEST_SAMPLES and low.any():
            count += int((low[2:] & low[1:-1] & low[:-2]).sum())
    return count


def recognise_states(
    times_s: Column, values: Series, thresholds: StateThresholds
) -> tuple[StateInterval, ...]:
    """Return the states of a recording as intervals without a gap between them.

    Parameters
    ----------
    times_s : Column of n
        Seconds, never decreasing.
    values : Series of n
        Cell voltage in volts as read: either sign (the magnitude counts), overload infinite, missing NaN.
    thresholds : StateThresholds

    Returns
    -------
    tuple of StateInterval
        In order; empty for no samples. The last ends with the last sample.

    Notes
    -----
    z is the median of the last three magnitudes. A z between the two voltages of a boundary keeps the
    state of the last z outside all such bands, if that is one of the two neighbours, and otherwise counts
    as the lower one. Poor contact and below reversible must last 5 s, touching and no reading three
    samples; shorter stretches belong to the state before. A long interval between two samples is
    "no reading".
    """
    runs = StateRuns(thresholds)
    for piece in slices_of(0, values.size):
        known = bounds_of(values, piece)
        if known is None or known[0] < 0.0 or not runs.add_unseen(piece.stop - piece.start, known):
            runs.add(values[piece], np.abs(values[max(piece.start - 2, 0) : piece.start]))
    return runs.intervals(times_s)


class StateRuns:
    """The runs of samples of one state, while readings are gone through; see `recognise_states`."""

    def __init__(self, thresholds: StateThresholds) -> None:
        self._thresholds = thresholds
        self._edges: list[int] = []
        self._codes: list[int] = []
        self._count = 0
        self._carried, self._last_two = NO_READING, NONE_BEFORE
        self._unseen: int | None = None
        """The state of the readings before, where `add_unseen` took them."""

    def add_unseen(self, count: int, bounds: tuple[float, float]) -> bool:
        """Take the next readings without looking at them, if their state is sure; tell whether it is.

        All of them are numbers, and their magnitudes lie between `bounds`.
        """
        before = self._last_two if self._unseen is None else ()
        sure = self._thresholds.sure_state((*bounds, *before))
        if sure is None or (self._unseen is not None and sure != self._unseen):
            return False
        self._carried = self._unseen = sure
        self._take(np.full(1, sure, np.int8), count)
        return True

    def add(self, part: NDArray[np.float64], last_two: NDArray[np.float64] = NONE_BEFORE) -> None:
        """Take the next magnitudes, shape (m,); `last_two` are those before them where they were not seen."""
        if self._unseen is not None:
            self._last_two, self._unseen = last_two, None
        code, self._carried = instant_states(part, self._thresholds, self._carried, self._last_two)
        self._last_two = last_two_readable(self._last_two, part)
        self._take(code, part.size)

    def _take(self, codes: NDArray[np.int8], count: int) -> None:
        """Note where the state changes; one code may stand for all `count` readings."""
        starts = np.flatnonzero(np.diff(codes, prepend=self._codes[-1] if self._codes else -1))
        self._edges.extend((starts + self._count).tolist())
        self._codes.extend(codes[starts].tolist())
        self._count += count

    def intervals(self, times_s: Column) -> tuple[StateInterval, ...]:
        """Return the states of all readings taken, whose times are `times_s`."""
        if not self._count:
            return ()
        runs = _with_gaps(times_s, np.asarray(self._edges), np.asarray(self._codes))
        end_s = float(times_s[-1])
        return _intervals(*_merged(*runs, end_s), end_s)


def _median_of_last_three(magnitude: NDArray[np.float64]) -> NDArray[np.float64]:
    out = magnitude.copy()
    if magnitude.size >= FEWEST_SAMPLES:
        a, b, c = magnitude[:-2], magnitude[1:-1], magnitude[2:]
        out[2:] = np.maximum(np.minimum(a, b), np.minimum(np.maximum(a, b), c))
    return out


@overload
def is_brief(kind: int, lasting_s: float, samples: int) -> bool: ...
@overload
def is_brief(
    kind: NDArray[np.int64], lasting_s: NDArray[np.float64], samples: NDArray[np.int64]
) -> NDArray[np.bool_]: ...
def is_brief(
    kind: int | NDArray[np.int64],
    lasting_s: float | NDArray[np.float64],
    samples: int | NDArray[np.int64],
) -> bool | NDArray[np.bool_]:
    """Tell whether a stretch (a number in `STATES`) is too short to be believed; numbers or arrays alike."""
    must_last = (kind == POOR) | (kind == BELOW)
    must_repeat = (kind == TOUCHING) | (kind == NO_READING)
    # A single reading of any state comes from the median between two others.
    return (must_last & (lasting_s < HOLD_S)) | (must_repeat & (samples < FEWEST_SAMPLES)) | (samples < 2)


def instant_states(
    values: NDArray[np.float64],
    limits: StateThresholds,
    carried: int,
    last_two: NDArray[np.float64] = NONE_BEFORE,
) -> tuple[NDArray[np.int8], int]:
    """Classify sample by sample, with hysteresis but without regard to duration.

    `carried` is the last sure state before these samples; the new one is returned. `last_two` are the last
    readings before them that are finite, at most two.
    """
    magnitude = np.abs(np.concatenate([last_two, values]))
    if values.size:
        only = limits.sure_state((magnitude.min(), magnitude.max()))  # no number if one of them is none
        if only is not None:
            return np.full(values.size, only, dtype=np.int8), only
    codes = np.zeros(values.size, dtype=np.int8)
    readable = np.isfinite(values)
    z = _median_of_last_three(magnitude[np.isfinite(magnitude)])[last_two.size :]
    if z.size == 0:
        return codes, carried
    zone = np.searchsorted(limits.cuts_V, z, side="right").astype(np.int8)
    sure = zone % 2 == 0
    last = np.maximum.accumulate(np.where(sure, np.arange(z.size), -1))
    before = np.where(last >= 0, 1 + zone[np.maximum(last, 0)] // 2, carried)
    lower = 1 + zone // 2
    keeps = ~sure & ((before == lower) | (before == lower + 1))
    codes[readable] = np.where(keeps, before, lower)
    return codes, int(before[-1])


def last_two_readable(last_two: NDArray[np.float64], values: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the last two finite readings after `values` were added to the `last_two` before."""
    tail = values[-2:]
    if tail.size == 2 and np.isfinite(tail).all():
        return tail.copy()
    return np.concatenate([last_two, values[np.isfinite(values)]])[-2:]


def _with_gaps(
    times_s: Column, edges: NDArray[np.int64], codes: NDArray[np.int64]
) -> tuple[NDArray[np.float64], NDArray[np.int64], NDArray[np.int64]]:
    """Cut the runs at long intervals: begin time, state and number of samples of each run."""
    limit = gap_limit_s(np.diff(times_s[:STEPS_LOOKED_AT]))
    resumed, before_s = _gaps(times_s, limit)
    owner = np.searchsorted(edges, resumed, side="right") - 1
    split = np.isin(resumed, edges, invert=True)
    starts = np.concatenate([edges, resumed[split]])
    kinds = np.concatenate([codes, codes[owner[split]]])
    order = np.argsort(starts, kind="stable")
    starts, kinds = starts[order], kinds[order]
    counts = np.diff(starts, append=times_s.size)
    # A gap counts as many samples as it takes to be kept, whatever the interval.
    begins = np.concatenate([_times_at(times_s, starts), before_s])
    kinds = np.concatenate([kinds, np.full(before_s.size, NO_READING)])
    counts = np.concatenate([counts, np.full(before_s.size, FEWEST_SAMPLES)])
    order = np.argsort(begins, kind="stable")
    return begins[order], kinds[order], counts[order]


def _gaps(times_s: Column, limit_s: float) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    """Return the numbers of the samples behind a long interval, and the times of those before it."""
    resumed, before_s = [np.empty(0, np.int64)], [np.empty(0)]
    for one in slices_of(0, times_s.size):
        if step_bounds(times_s, one)[1] <= limit_s:
            continue
        first = max(one.start - 1, 0)
        part = times_s[first : one.stop]
        long = np.flatnonzero(np.diff(part) > limit_s)
        resumed.append(first + long + 1)
        before_s.append(part[long])
    return np.concatenate(resumed), np.concatenate(before_s)


def _times_at(times_s: Column, numbers: NDArray[np.int64]) -> NDArray[np.float64]:
    """Return the times of some samples, by growing numbers, a piece at a time."""
    found = [np.empty(0)]
    for one in slices_of(0, times_s.size):
        first, beyond = np.searchsorted(numbers, (one.start, one.stop)).tolist()
        if beyond > first:
            found.append(times_s[one][numbers[first:beyond] - one.start])
    return np.concatenate(found)


def _merged(
    begins: NDArray[np.float64], kinds: NDArray[np.int64], counts: NDArray[np.int64], end_s: float
) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """Join runs of one state, give runs that are too short to the state before them, and join again."""
    # Two lost readings right before a gap are one stretch without readings.
    first = np.flatnonzero(np.diff(kinds, prepend=-1))
    begins, kinds, counts = begins[first], kinds[first], np.add.reduceat(counts, first)
    brief = np.asarray(is_brief(kinds, np.diff(begins, append=end_s), counts))
    brief[0] = False
    owner = np.maximum.accumulate(np.where(brief, 0, np.arange(kinds.size)))
    kinds = kinds[owner]
    first = np.flatnonzero(np.diff(kinds, prepend=-1))
    return begins[first], kinds[first]


def _intervals(
    begins: NDArray[np.float64], kinds: NDArray[np.int64], end_s: float
) -> tuple[StateInterval, ...]:
    ends = [*begins[1:].tolist(), end_s]
    return tuple(
        StateInterval(STATES[kind], begin, end)
        for kind, begin, end in zip(kinds.tolist(), begins.tolist(), ends, strict=True)
    )
