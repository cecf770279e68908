"""How a cell's voltage falls after its current is interrupted: ohmic drop and a logarithm an electrode."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from logger.analysis.refusal import Refused

__all__ = ["FEWEST_AFTER", "Relaxation", "RelaxationFit", "fall_V", "fit_relaxation"]

FEWEST_AFTER = 50

_STARTS = (0.003, 0.03, 0.3, 3.0)
"""Time constants to start from, as shares of the record; pairs of them for two electrodes."""

_LARGEST_DOUBT = 1.0  # of the natural logarithm of a slope or a time constant


@dataclass(frozen=True, slots=True)
class Relaxation:
    """One electrode that discharges its double layer through its own reaction.

    Attributes
    ----------
    slope_V_per_decade : float
        Tafel slope b.
    time_constant_s : float
        theta in b log10(1 + t/theta).
    capacitance_F : float
        theta I ln(10)/b.
    """

    slope_V_per_decade: float
    time_constant_s: float
    capacitance_F: float


@dataclass(frozen=True, slots=True)
class RelaxationFit:
    """The fitted fall; `drop_uncertainty_V` is for residuals that do not hang together."""

    drop_V: float
    drop_uncertainty_V: float
    relaxations: tuple[Relaxation, ...]
    residuals_V: NDArray[np.float64]


def fall_V(
    since_s: NDArray[np.float64], drop_V: float, electrodes: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return the fall of the voltage; `electrodes`, shape (k, 2), are rows of slope and time constant."""
    fall = np.full(since_s.shape, drop_V)
    for slope_V, time_constant_s in electrodes:
        fall += slope_V / math.log(10.0) * np.log1p(since_s / time_constant_s)
    return fall


def fit_relaxation(
    since_s: NDArray[np.float64], fallen_V: NDArray[np.float64], current_A: float, electrodes: int
) -> RelaxationFit:
    """Fit the fall of one electrode or of two.

    Parameters
    ----------
    since_s, fallen_V : ndarray, shape (n,)
        Time since the break in seconds, above zero, and the fall of the voltage in volts, n at least 50.
    current_A : float
        Current before the break, for the capacitances.
    electrodes : int
        1 or 2.

    Returns
    -------
    RelaxationFit
        The best of several starts, the faster electrode first.

    Raises
    ------
    Refused
        The samples do not determine so many electrodes. Fewer are no way out: the one left out would be
        counted as ohmic.
    """
    fits = [_from_start(since_s, fallen_V, current_A, start) for start in combinations(_STARTS, electrodes)]
    found = [one for one in fits if one is not None]
    if not found:
        raise Refused(
            "fall of the voltage after the break",
            "its shape",
            f"the samples do not show how {electrodes} electrode(s) relax",
            "sample faster or with less noise, average several breaks, and look for a bouncing switch or a "
            "filter in the board",
        )
    return min(found, key=lambda one: float(one.residuals_V @ one.residuals_V))


def _from_start(
    since_s: NDArray[np.float64], fallen_V: NDArray[np.float64], current_A: float, shares: tuple[float, ...]
) -> RelaxationFit | None:
    """Fit from one start; None where it does not end at electrodes that are known well enough."""
    from scipy.optimize import least_squares  # imported late: it takes long to load

    count = len(shares)
    constants_s = np.array(shares) * since_s[-1]
    columns = np.column_stack([np.log1p(since_s / one) for one in constants_s]) / math.log(10.0)
    design = np.column_stack([np.ones_like(since_s), columns])
    first = np.linalg.lstsq(design, fallen_V, rcond=None)[0]
    slopes_V = np.maximum(first[1:], 1e-3)

    # Logarithms of slopes and constants: both stay above zero, and their sizes do not matter.
    def electrodes(unknown: NDArray[np.float64]) -> NDArray[np.float64]:
        return np.exp(np.clip(unknown[1:], -60.0, 60.0)).reshape(count, 2)

    def misfit(unknown: NDArray[np.float64]) -> NDArray[np.float64]:
        return fall_V(since_s, float(unknown[0]), electrodes(unknown)) - fallen_V

    def slopes(unknown: NDArray[np.float64]) -> NDArray[np.float64]:
        derivatives = [np.ones_like(since_s)]
        for slope_V, time_constant_s in electrodes(unknown):
            per_decade = slope_V / math.log(10.0)
            derivatives.append(per_decade * np.log1p(since_s / time_constant_s))
            derivatives.append(-per_decade * since_s / (since_s + time_constant_s))
        return np.column_stack(derivatives)

    begin = np.concatenate([[first[0]], np.log(np.column_stack([slopes_V, constants_s])).ravel()])
    result = least_squares(
        misfit, begin, jac=slopes, method="lm", xtol=1e-14, ftol=1e-14, gtol=1e-14, max_nfev=400
    )
    return _described(result.x, electrodes(result.x), slopes(result.x), misfit(result.x), current_A)


def _described(
    unknown: NDArray[np.float64],
    electrodes: NDArray[np.float64],
    slopes: NDArray[np.float64],
    residuals: NDArray[np.float64],
    current_A: float,
) -> RelaxationFit | None:
    n, parameters = slopes.shape
    squares = float(residuals @ residuals)
    singular, right = np.linalg.svd(slopes, full_matrices=False)[1:]
    if singular[-1] <= 1e-10 * singular[0]:
        return None
    inverse = right.T / singular
    doubt = np.sqrt(np.diag(inverse @ inverse.T) * squares / (n - parameters))
    if (doubt[1:] > _LARGEST_DOUBT).any():  # of logarithms: shares of the quantities themselves
        return None
    relaxations = [
        Relaxation(float(b), float(theta), float(theta) * current_A * math.log(10.0) / float(b))
        for b, theta in electrodes
    ]
    return RelaxationFit(
        drop_V=float(unknown[0]),
        drop_uncertainty_V=float(doubt[0]),
        relaxations=tuple(sorted(relaxations, key=lambda one: one.time_constant_s)),
        residuals_V=residuals,
    )
