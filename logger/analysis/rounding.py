"""What rounding leaves open of a mean: a digit where the display stands still, next to nothing in noise."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from logger.analysis.refusal import require_positive

__all__ = ["rounding_bias", "rounding_uncertainty", "two_sided_spread"]

TERMS = 200
LEAST_EXCESS = 0.02
"""In squared digits: what the scatter must have beyond that of a display that changes between two digits. It
takes noise of some three tenths of a digit."""

LARGEST_EDGE_VARIANCE = 0.25
"""In squared digits: the scatter of a display that shows each of two digits half of the time."""

LEAST_SPREAD = 0.5
"""In digits: two digits lie within this of their median, on one side of it at least."""

LEAST_SHARE = 0.02
"""Of the readings, on either side: noise reaches both, bubbles and other spikes mostly one."""

LEAST_EXCESS_ANYWHERE = 0.0525
"""The same where the two digits may lie anywhere: the scatter must reach 0.55 digits."""


def rounding_bias(level: float, deviation: float, digit: float) -> float:
    """Return by how much the mean of many rounded readings differs from the level, on average.

    Parameters
    ----------
    level, deviation : float
        Mean and standard deviation of the normal noise before rounding, the latter above zero.
    digit : float
        Step of the display, in the same unit, above zero.

    Notes
    -----
    q sum over k of (-1)^k/(pi k) exp(-2 pi^2 k^2 (deviation/q)^2) sin(2 pi k level/q): the Fourier series of
    the rounding error, averaged over normal noise (Widrow, B., "Statistical analysis of amplitude-quantized
    sampled-data systems", Trans. AIEE II 79 (1961) 555, from memory; checked by direct summation).
    """
    q = require_positive("digit", digit)
    k = np.arange(1, TERMS + 1, dtype=np.float64)
    weights = (-1.0) ** k / (math.pi * k) * np.exp(-2.0 * (math.pi * k * deviation / q) ** 2)
    return float(q * np.dot(weights, np.sin(2.0 * math.pi * k * level / q)))


def two_sided_spread(values: NDArray[np.float64]) -> float:
    """Return how far a fiftieth of some values, two at least, lie from their median on the nearer side.

    Parameters
    ----------
    values : ndarray, shape (n,)
        Four or more.
    """
    ordered = np.sort(values)
    beyond = max(2, math.ceil(LEAST_SHARE * ordered.size))
    middle = float(np.median(ordered))
    return min(middle - float(ordered[beyond - 1]), float(ordered[-beyond]) - middle)


def rounding_uncertainty(
    deviation: float, digit: float, level: float | None = None, spread: float = math.inf
) -> float:
    """Return the standard uncertainty that rounding leaves in the mean of a window.

    Parameters
    ----------
    deviation : float
        Standard deviation of the rounded readings.
    digit : float
        Step of the display in the same unit; 0 where there is none.
    level : float, optional
        Mean of the rounded readings, where they are multiples of `digit`; None where they were shifted or
        scaled since, so that the digits may lie anywhere.
    spread : float
        Their `two_sided_spread`. Within half a digit some spikes scatter the readings, and no noise carries
        the others over the steps.

    Returns
    -------
    float
        digit/sqrt(12) where the readings scatter hardly more than a display that changes between two digits,
        for it scatters by p(1 - p) squared digits however small the noise is (p: the share of the upper
        one, a quarter at most). Else the root mean square of `rounding_bias` over all levels, which is next
        to nothing: the noise then carries the readings over the steps, and the scatter holds what rounding
        adds to it. Counting a digit as well would count it twice.
    """
    q = require_positive("digit", digit, zero_allowed=True)
    if q == 0.0:
        return 0.0
    still, variance = q / math.sqrt(12.0), (deviation / q) ** 2
    if variance < _least_variance(None if level is None else level / q) or not spread > LEAST_SPREAD * q:
        return still
    # The readings scatter by what rounding adds, too: a twelfth of a squared digit (Sheppard's correction).
    carried = q / (math.pi * math.sqrt(2.0)) * math.exp(-2.0 * math.pi**2 * (variance - 1.0 / 12.0))
    return min(still, carried)


def _least_variance(level: float | None) -> float:
    """Return the variance, in squared digits, that only noise as large as the digit reaches."""
    if level is None:
        return LARGEST_EDGE_VARIANCE + LEAST_EXCESS_ANYWHERE
    upper = level % 1.0
    return upper * (1.0 - upper) + LEAST_EXCESS
