"""What the start-up of a cell still leaves in the mean of a window that begins after it.

Once the electrodes are wet, the voltage comes down to its plateau like an exponential, and never quite gets
there. The readings before the window show how high it was and how fast it came down, and so what is left.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["tail_in_mean"]

Vector = NDArray[np.float64]

TIME_CONSTANTS = 12
SHORTEST_SHARE, LONGEST_SHARE = 1.0 / 60.0, 1.0 / 4.0
"""Time constants tried, as shares of the stretch looked at. What lasts longer looks like a drift in it."""

LEAST_VARIANCE = float(np.finfo(np.float64).eps) ** 2
"""Of a reading as a share of the largest one; less is lost in rounding."""


def tail_in_mean(times_s: Vector, values: Vector, begin_s: float, noise: float) -> float:
    """Return how far an exponential tail moves the mean of a window, as a root mean square.

    Parameters
    ----------
    times_s, values : ndarray, shape (n,)
        Readings from well before the window to its end, equally spaced but for a few, oldest first.
    begin_s : float
        Where the window begins.
    noise : float
        Standard deviation of one reading times the root of the inflation by its slow part; in the unit of the
        values, above zero.

    Returns
    -------
    float
        In the unit of the values, never negative.

    Notes
    -----
    c + b t + A exp(-t/tau) is fitted by least squares for each tau of a row, equally spaced in its
    logarithm. Each tau gives a mean of the tail over the window and its variance, and counts with its
    likelihood exp(-RSS/(2 noise^2)): the mean of squares over all of them is returned. The line keeps a
    drift of the cell from being taken for a tail. So no single time constant is trusted, and one that the
    noise hides adds to the result. That the tail is exponential is an assumption; one of several
    exponentials is underestimated where the slowest of them lasts longer than the window.
    """
    since_s = times_s - times_s[0]
    step_s = since_s[-1] / (since_s.size - 1)
    shortest_s = max(SHORTEST_SHARE * since_s[-1], 2.0 * step_s)
    constants_s = np.geomspace(shortest_s, LONGEST_SHARE * since_s[-1], TIME_CONSTANTS)
    decays = np.exp(-since_s / constants_s[:, np.newaxis])
    means = decays[:, times_s >= begin_s].mean(axis=1)
    slope = since_s - since_s.mean()
    slope /= np.linalg.norm(slope)
    rest = _without_line(values, slope)
    # Squares are taken of shares of the largest: that of a wild reading would overflow.
    unit = max(float(np.abs(rest).max()), noise)
    rest = rest / unit
    variance = max((noise / unit) ** 2, LEAST_VARIANCE)
    shapes = _without_line(decays, slope)
    squares = (shapes * shapes).sum(axis=1)
    heights = shapes @ rest / squares
    explained = heights * heights * squares
    weights = np.exp((explained - explained.max()) / (2.0 * variance))
    squared_tails = means * means * (heights * heights + variance / squares)
    return unit * float(np.sqrt(np.dot(weights, squared_tails) / weights.sum()))


def _without_line(rows: Vector, slope: Vector) -> Vector:
    """Return rows less their mean and their part along `slope`, centred and of length one."""
    level = rows - rows.mean(axis=-1, keepdims=True)
    rest: Vector = level - (level @ slope)[..., np.newaxis] * slope
    return rest
