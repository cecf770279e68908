"""When a level began to change: the cumulative sum chart."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from logger.analysis.refusal import Refused, require_positive

__all__ = ["Alarm", "cusum_alarm", "one_sided_sums"]


@dataclass(frozen=True, slots=True)
class Alarm:
    """The first alarm of a two-sided chart.

    `index` is where it went off, `began` the first value of the rise that led to it, `sum_at_alarm` the
    sum then, `is_upward` its direction.
    """

    index: int
    began: int
    sum_at_alarm: float
    is_upward: bool


def one_sided_sums(standardised: ArrayLike, allowance: float) -> NDArray[np.float64]:
    """Return S_k = max(0, S_(k-1) + z_k - allowance), S starting at 0.

    Parameters
    ----------
    standardised : array_like, shape (n,)
        Values less their target, over their standard deviation.
    allowance : float
        Half of the shift that is to be found soonest, in standard deviations (kappa).

    Notes
    -----
    The reflected sum is the plain one less its running minimum, the start included.
    """
    plain = np.cumsum(np.asarray(standardised, dtype=np.float64) - allowance)
    lowest = np.minimum.accumulate(np.minimum(plain, 0.0))
    sums: NDArray[np.float64] = plain - lowest
    return sums


def cusum_alarm(standardised: ArrayLike, *, allowance: float = 0.5, limit: float = 8.0) -> Alarm | None:
    """Return the first alarm, upward or downward, or None.

    Parameters
    ----------
    standardised : array_like, shape (n,)
        Values less their target, over their standard deviation; independent of one another. Means of
        blocks well longer than the noise lasts, else false alarms come ten times too often.
    allowance, limit : float
        kappa and h, in standard deviations. With 0.5 and 8 a false alarm comes about every 9500 values.

    Raises
    ------
    Refused
        A value that is not finite, or a limit or an allowance that is not positive.

    References
    ----------
    Page, E. S., "Continuous inspection schemes", Biometrika 41 (1954) 100; run lengths: Lucas, J. M. and
    Crosier, R. B., Technometrics 24 (1982) 199, table 1 (limit 4: 168).
    """
    values = np.asarray(standardised, dtype=np.float64)
    require_positive("limit of the chart", limit)
    require_positive("allowance of the chart", allowance, zero_allowed=True)
    if not np.isfinite(values).all():
        raise Refused("values of the chart", "one", "it is not finite", "leave out missing readings first")
    found: list[Alarm] = []
    for is_upward, signed in ((True, values), (False, -values)):
        sums = one_sided_sums(signed, allowance)
        over = np.flatnonzero(sums > limit)
        if over.size:
            index = int(over[0])
            zeros = np.flatnonzero(sums[:index] == 0.0)
            began = int(zeros[-1]) + 1 if zeros.size else 0
            found.append(Alarm(index, began, float(sums[index]), is_upward))
    return min(found, key=lambda one: one.index, default=None)
