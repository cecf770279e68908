"""The coverage interval of a sum of errors that are not all normal: by convolution of their distributions.

An interval of k times the combined standard uncertainty presumes that the sum is nearly normal (JCGM
100:2008, G.2.3). Where a limit of a specification or a digit of a display makes up most of it, the sum is
nearly a rectangle, and that interval is wider than the rectangle itself. The distributions are then
propagated, as JCGM 101:2008 (Supplement 1 to the GUM) does by drawing numbers; here by integration.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from logger.analysis.refusal import Refused

__all__ = ["coverage_factor", "coverage_half_width"]

POINTS = 4001
"""Points of the distribution function; the half-width is then right to a few parts in a million."""

NEGLIGIBLE_SHARE = 1e-5
"""Of the farthest sum of errors. What is narrower adds less than the square of it, and the area under it
would be lost in rounding."""


@lru_cache(maxsize=256)
def coverage_factor(probability: float, degrees_of_freedom: float) -> float:
    """Return the two-sided Student t factor.

    Parameters
    ----------
    probability : float
        Coverage, between 0 and 1.
    degrees_of_freedom : float
        Above zero, whole or not; infinity gives the factor of the normal distribution.

    Raises
    ------
    Refused
        A value lies outside its range.
    """
    if not 0.0 < probability < 1.0:
        raise Refused(
            "coverage probability", probability, "it must lie between 0 and 1", "give for example 0.95"
        )
    if math.isnan(degrees_of_freedom) or degrees_of_freedom <= 0:
        raise Refused(
            "degrees of freedom",
            degrees_of_freedom,
            "there must be more than zero",
            "give a number above zero",
        )
    if math.isinf(degrees_of_freedom):  # asked for by the bench of the window, which waits for nothing
        return -NormalDist().inv_cdf(0.5 - probability / 2.0)
    from scipy.special import stdtrit  # imported late: it takes longer to load than everything here

    return float(stdtrit(degrees_of_freedom, 0.5 + probability / 2.0))


def coverage_half_width(
    scale: float, degrees_of_freedom: float, limits: Sequence[float], probability: float = 0.95
) -> float:
    """Return the half-width of the interval, symmetric about zero, that holds a sum of independent errors.

    Parameters
    ----------
    scale, degrees_of_freedom : float
        Of an error with Student's distribution, its standard uncertainty in any unit, zero or more. Infinite
        degrees of freedom make it normal.
    limits : sequence of float
        Errors that lie anywhere within plus or minus a limit; in the same unit, zero or more.
    probability : float
        Between 0 and 1.

    Returns
    -------
    float

    Notes
    -----
    A distribution function F convolved with a rectangle of half-width a is the mean of F from x - a to x + a.
    One rectangle gives p a, two equal ones (a triangle of half-width 2 a) 2 a (1 - sqrt(1 - p)).
    """
    student = coverage_factor(probability, degrees_of_freedom) * scale
    farthest = student + sum(limits)
    if farthest == 0.0:
        return 0.0
    widths = sorted((one for one in limits if one > NEGLIGIBLE_SHARE * farthest), reverse=True)
    # Averaging spoils as much at both ends as the rectangles are wide together.
    reach = 1.01 * farthest + sum(widths)
    at = np.linspace(-reach, reach, POINTS)
    if student > NEGLIGIBLE_SHARE * farthest:
        below = _student_below(at / scale, degrees_of_freedom)
    else:
        below = np.clip(0.5 * (1.0 + at / widths.pop(0)), 0.0, 1.0)
    for width in widths:
        below = _averaged(at, below, width)
    whole = (at >= 0.0) & (at <= 1.005 * farthest)
    return float(np.interp(0.5 * (1.0 + probability), below[whole], at[whole]))


def _student_below(at: NDArray[np.float64], degrees_of_freedom: float) -> NDArray[np.float64]:
    from scipy.special import ndtr, stdtr  # imported late: it takes longer to load than everything here

    below: NDArray[np.float64] = ndtr(at) if np.isinf(degrees_of_freedom) else stdtr(degrees_of_freedom, at)
    return below


def _averaged(at: NDArray[np.float64], below: NDArray[np.float64], width: float) -> NDArray[np.float64]:
    """Return the mean of a distribution function from `at` - `width` to `at` + `width`."""
    step = at[1] - at[0]
    area = np.concatenate(([0.0], np.cumsum(0.5 * step * (below[1:] + below[:-1]))))
    mean: NDArray[np.float64] = (np.interp(at + width, at, area) - np.interp(at - width, at, area)) / (
        2.0 * width
    )
    return mean
