"""The charge that passed through the cell, from irregular samples of the current with gaps."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from logger.analysis.refusal import Refused, require_finite, require_positive

__all__ = ["GAP_IN_MEDIAN_STEPS", "SHORTEST_GAP_S", "Charge", "charge", "charge_of_pieces", "gap_limit_s"]

GAP_IN_MEDIAN_STEPS = 5.0
"""A step longer than this many median steps is a gap (common practice, no source)."""

SHORTEST_GAP_S = 10.0
"""No step of up to this many seconds is a gap (common practice, no source)."""

_BEYOND_NOISE = 3.0

Vector = NDArray[np.float64]
Pieces = Iterable[tuple[Vector, Vector, NDArray[np.bool_] | None]]
"""Times, currents, and which samples electrolyse (None: all), cut into pieces, oldest first."""


@dataclass(frozen=True, slots=True)
class Charge:
    """Charge passed, with what is not known of it kept apart.

    Attributes
    ----------
    low_C : float
        Nothing passed during the gaps.
    best_C : float
        Gaps bridged by the trapezoid where the cell electrolysed on both sides and nothing happened between.
    high_C : float or None
        The greatest current of the supply flowed during the gaps; None where that is not known and there
        are gaps.
    sampled_s, gap_s : float
        Time covered by samples, and by gaps.
    gaps, bridged_gaps : int
        Number of gaps, and of those bridged in `best_C`.
    gap_limit_s : float
        A longer step counts as a gap.
    missing_samples : int
        Samples without a finite current, left out.
    repeated_samples : int
        Exact duplicates of the sample before, left out.
    simultaneous_samples : int
        Samples that share their time with the one before but not its value; they carry no charge.
    is_reversed : bool
        The current came out negative beyond noise (leads reversed): the charges are magnitudes.
    """

    low_C: float
    best_C: float
    high_C: float | None
    sampled_s: float
    gap_s: float
    gaps: int
    bridged_gaps: int
    gap_limit_s: float
    missing_samples: int
    repeated_samples: int
    simultaneous_samples: int
    is_reversed: bool


def charge(
    times_s: ArrayLike,
    current_A: ArrayLike,
    *,
    electrolysing: ArrayLike | None = None,
    events_s: ArrayLike = (),
    greatest_current_A: float | None = None,
) -> Charge:
    """Integrate the current over time.

    Parameters
    ----------
    times_s : array_like, shape (n,)
        Run time of each sample in seconds, never decreasing.
    current_A : array_like, shape (n,)
        Current in ampere. Not-finite values are left out, so that their stretch becomes a gap if long.
    electrolysing : array_like of bool, shape (n,), optional
        False where the cell was open, touching or otherwise not electrolysing: there the current counts
        as zero (an overloaded meter's infinity too, but never a missing value), and no gap beside it is
        bridged. Everything electrolyses by default.
    events_s : array_like, shape (m,)
        Times of moments that change the cell (lift-out, swap, resistor). A gap with one inside, its ends
        included, is not bridged.
    greatest_current_A : float, optional
        What the supply can drive at most, Vs/(R + r), in ampere: gives `Charge.high_C`.

    Returns
    -------
    Charge

    Raises
    ------
    Refused
        Shapes differ, fewer than two samples with a current, a time not finite or running backwards.

    Notes
    -----
    Q = sum (I_k + I_{k+1})/2 (t_{k+1} - t_k), the trapezoidal rule. A gap is a step longer than
    `gap_limit_s`. Voltage and current are never interpolated through a lift-out, a dry cell or a short.
    """
    times, current, active = _checked(times_s, current_A, electrolysing)
    kept, _, _, _ = _with_current(times, current, active)
    return charge_of_pieces(
        [(times, current, active)],
        gap_limit_s=gap_limit_s(np.diff(kept)),
        events_s=events_s,
        greatest_current_A=greatest_current_A,
    )


def charge_of_pieces(
    pieces: Pieces, *, gap_limit_s: float, events_s: ArrayLike = (), greatest_current_A: float | None = None
) -> Charge:
    """Integrate a current that comes in pieces; times must not run backwards. See `charge`.

    Parameters
    ----------
    pieces : iterable of (times, current, electrolysing)
        Shapes (m,) each; `electrolysing` may be None where everything does.
    gap_limit_s : float
        See the function of that name.

    Raises
    ------
    Refused
        Fewer than two samples with a current, or a greatest current that is not above zero.
    """
    if greatest_current_A is not None:
        require_positive("greatest current in A", greatest_current_A)
    total = _Total(gap_limit_s, np.sort(np.asarray(events_s, dtype=np.float64)))
    for times, current, active in pieces:
        total.add(times, current, active)
    return total.charge(greatest_current_A)


class _Total:
    """The sums over the samples so far."""

    def __init__(self, limit_s: float, events_s: Vector) -> None:
        self._limit_s = limit_s
        self._events_s = events_s
        self._last: tuple[float, float, bool] | None = None  # time, current, whether it electrolysed
        self._first_s = math.nan
        self._samples = self._missing = self._repeated = self._simultaneous = 0
        self._gaps = self._bridged_gaps = 0
        self._sampled_C = self._bridged_C = self._gap_s = 0.0
        self._steps = 0
        self._changes_A2 = self._steps_s2 = 0.0

    def add(self, times: Vector, current: Vector, active: NDArray[np.bool_] | None) -> None:
        """Take one piece."""
        times, flowing, active, missing = _with_current(times, current, active)
        self._missing += missing
        if not times.size:
            return
        is_active = np.ones(times.size, dtype=np.bool_) if active is None else active
        last = float(times[-1]), float(flowing[-1]), bool(is_active[-1])
        if self._last is None:
            self._first_s = float(times[0])
        else:
            times = np.concatenate([self._last[:1], times])
            flowing = np.concatenate([self._last[1:2], flowing])
            is_active = np.concatenate([self._last[2:], is_active])
        self._samples += times.size - (self._last is not None)
        self._last = last
        self._add_steps(times, flowing, is_active)

    def _add_steps(self, times: Vector, flowing: Vector, active: NDArray[np.bool_]) -> None:
        steps_s, changes_A = np.diff(times), np.diff(flowing)
        standing = steps_s == 0.0
        if standing.any():
            repeated = int(np.count_nonzero(standing & (changes_A == 0.0)))
            self._repeated += repeated
            self._simultaneous += int(np.count_nonzero(standing)) - repeated
        pieces_C = 0.5 * (flowing[1:] + flowing[:-1]) * steps_s
        gap_at = np.flatnonzero(steps_s > self._limit_s)
        bridgeable = _bridgeable(gap_at, times, active, self._events_s)
        self._gaps += int(gap_at.size)
        self._bridged_gaps += int(np.count_nonzero(bridgeable))
        self._gap_s += float(steps_s[gap_at].sum())
        self._sampled_C += float(pieces_C.sum() - pieces_C[gap_at].sum())
        self._bridged_C += float(pieces_C[gap_at[bridgeable]].sum())
        self._steps += steps_s.size
        # Not np.dot: the threads of its library spin, and take the core that reads ahead.
        self._changes_A2 += float(np.square(changes_A).sum())
        self._steps_s2 += float(np.square(steps_s).sum()) - float(np.square(steps_s[gap_at]).sum())

    def charge(self, greatest_current_A: float | None) -> Charge:
        """Return the charge of all pieces."""
        if self._last is None or self._samples < 2:
            raise Refused(
                "samples with a current",
                self._samples,
                "a charge needs two points in time",
                "give at least two samples",
            )
        sign = -1.0 if self._is_reversed() else 1.0
        low_C = sign * self._sampled_C
        return Charge(
            low_C=low_C,
            best_C=sign * (self._sampled_C + self._bridged_C),
            high_C=_high_C(low_C, self._gap_s, greatest_current_A),
            sampled_s=self._last[0] - self._first_s - self._gap_s,
            gap_s=self._gap_s,
            gaps=self._gaps,
            bridged_gaps=self._bridged_gaps,
            gap_limit_s=self._limit_s,
            missing_samples=self._missing,
            repeated_samples=self._repeated,
            simultaneous_samples=self._simultaneous,
            is_reversed=sign < 0,
        )

    def _is_reversed(self) -> bool:
        """Tell whether the sampled charge is negative beyond what noise of the readings can make it."""
        if self._sampled_C >= 0.0:
            return False
        noise_A = math.sqrt(self._changes_A2 / self._steps / 2.0)
        return -self._sampled_C > _BEYOND_NOISE * noise_A * math.sqrt(max(self._steps_s2, 0.0))


def gap_limit_s(steps_s: NDArray[np.float64]) -> float:
    """Return how long a step may be, in seconds, before it counts as a gap.

    Parameters
    ----------
    steps_s : ndarray, shape (n,)
        Steps between samples in seconds; steps of zero are not counted.

    Returns
    -------
    float
        Five median steps, but at least 10 s.
    """
    moving = steps_s[steps_s > 0.0] if (steps_s == 0.0).any() else steps_s
    if not moving.size:
        return SHORTEST_GAP_S
    return max(GAP_IN_MEDIAN_STEPS * float(np.median(moving)), SHORTEST_GAP_S)


def _checked(
    times_s: ArrayLike, current_A: ArrayLike, electrolysing: ArrayLike | None
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.bool_] | None]:
    times = np.asarray(times_s, dtype=np.float64)
    current = np.asarray(current_A, dtype=np.float64)
    active = None if electrolysing is None else np.asarray(electrolysing, dtype=np.bool_)
    if (
        times.ndim != 1
        or current.shape != times.shape
        or (active is not None and active.shape != times.shape)
    ):
        shapes = f"times {times.shape}, current {current.shape}" + (
            f", electrolysing {active.shape}" if active is not None else ""
        )
        raise Refused("shapes of the samples", shapes, "they must be alike", "give vectors of one length")
    if times.size and not np.isfinite(times).all():
        raise Refused("times in s", "a time", "it is not a finite number", "give the time of every sample")
    backwards = np.flatnonzero(times[1:] < times[:-1])
    if backwards.size:
        first = int(backwards[0])
        raise Refused(
            "times in s",
            f"{times[first + 1]:.9g} after {times[first]:.9g} (sample {first + 1})",
            "time must not run backwards",
            "give the times of a monotonic clock, oldest first",
        )
    return times, current, active


def _with_current(
    times: NDArray[np.float64], current: NDArray[np.float64], active: NDArray[np.bool_] | None
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.bool_] | None, int]:
    """Leave out samples without a current, and say how many; where nothing electrolyses it is zero."""
    flowing = current
    if active is not None and not active.all():
        flowing = np.where(active | np.isnan(current), current, 0.0)
    kept = np.isfinite(flowing)
    missing = int(times.size - np.count_nonzero(kept))
    if missing:
        times, flowing = times[kept], flowing[kept]
        active = active[kept] if active is not None else None
    return times, flowing, active, missing


def _bridgeable(
    gap_at: NDArray[np.intp],
    times: NDArray[np.float64],
    active: NDArray[np.bool_],
    events_s: NDArray[np.float64],
) -> NDArray[np.bool_]:
    """Tell for each gap whether the trapezoid may stand for it; `events_s` in order."""
    first = np.searchsorted(events_s, times[gap_at], side="left")
    last = np.searchsorted(events_s, times[gap_at + 1], side="right")
    return np.asarray(active[gap_at] & active[gap_at + 1] & (first == last))


def _high_C(low_C: float, gap_s: float, greatest_current_A: float | None) -> float | None:
    if gap_s == 0.0:
        return low_C
    if greatest_current_A is None:
        return None
    return low_C + require_finite("greatest current in A", greatest_current_A) * gap_s
