"""Single readings far from those around them: told apart from noise, named, and never left out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import ArrayLike, NDArray

from logger.analysis.refusal import Refused, require_positive

__all__ = ["MAD_TO_DEVIATION", "StrayReadings", "stray_readings"]

MAD_TO_DEVIATION = 1.4826022185
"""Standard deviation over median absolute deviation of a normal distribution: 1/Phi^-1(3/4)."""

FEWEST = 5
PIECE = 4096


@dataclass(frozen=True, slots=True)
class StrayReadings:
    """What stands out of a series.

    Attributes
    ----------
    indices : tuple of int
        Places of the stray values, oldest first.
    medians, deviations : ndarray, shape (n,)
        Around every value: the median, and the median absolute deviation scaled to a standard deviation.
    mean_without : float
        Mean of the other values: shown beside the mean of all, never instead of it.
    furthest : float
        Distance of the value furthest from its median, with its sign.
    """

    indices: tuple[int, ...]
    medians: NDArray[np.float64]
    deviations: NDArray[np.float64]
    mean_without: float
    furthest: float


def stray_readings(values: ArrayLike, *, span: int | None = None, limit: float = 3.0) -> StrayReadings:
    """Find the values that lie far from the median of those around them.

    Parameters
    ----------
    values : array_like, shape (n,)
        n five or more, finite, oldest first.
    span : int, optional
        How many values are looked at around each, at the ends the first or last so many: more than twice
        what may stand out together (a bubble). None: all of them.
    limit : float
        In scaled median absolute deviations. Of normal values 0.27 % lie beyond the usual 3.

    Raises
    ------
    Refused
        Fewer than five values, one that is not finite, or a limit that is not positive.

    Notes
    -----
    Where more than half of the values around one are alike the deviation is zero and nothing is called
    stray: the step of a display would make every other value one.

    References
    ----------
    Hampel, F. R., "The influence curve and its role in robust estimation", J. Am. Stat. Assoc. 69 (1974) 383.
    """
    series = np.asarray(values, dtype=np.float64)
    require_positive("limit for stray readings", limit)
    if series.ndim != 1 or series.size < FEWEST or not np.isfinite(series).all():
        raise Refused(
            "values of the window",
            series.size,
            "too few, or one is not a finite number",
            f"give {FEWEST} or more, without overload",
        )
    medians, deviations = _around(series, min(series.size, max(FEWEST, span or series.size)))
    distance = series - medians
    is_stray = (np.abs(distance) > limit * deviations) & (deviations > 0.0)
    return StrayReadings(
        indices=tuple(np.flatnonzero(is_stray).tolist()),
        medians=medians,
        deviations=deviations,
        mean_without=float(series[~is_stray].mean()),
        furthest=float(distance[np.argmax(np.abs(distance))]),
    )


def _around(series: NDArray[np.float64], span: int) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return median and scaled deviation of the `span` values around each, shapes (n,)."""
    windows = sliding_window_view(series, span)
    medians, deviations = np.empty(len(windows)), np.empty(len(windows))
    for first in range(0, len(windows), PIECE):
        part = windows[first : first + PIECE]
        middle = np.median(part, axis=1)
        medians[first : first + PIECE] = middle
        deviations[first : first + PIECE] = np.median(np.abs(part - middle[:, None]), axis=1)
    nearest = np.clip(np.arange(series.size) - span // 2, 0, len(windows) - 1)
    return medians[nearest], MAD_TO_DEVIATION * deviations[nearest]
