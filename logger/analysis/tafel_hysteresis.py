"""Whether a Tafel run going up and coming down again met the same electrodes."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from logger.analysis.errors_in_both import fit_errors_in_both
from logger.analysis.refusal import Refused
from logger.analysis.tafel_points import checked_points, tafel_basis
from logger.analysis.uncertainty import coverage_factor

__all__ = ["Hysteresis", "tafel_hysteresis"]


@dataclass(frozen=True, slots=True)
class Hysteresis:
    """How far the falling branch lies from the rising one.

    Attributes
    ----------
    offset_V : float
        Voltage on the way down minus voltage on the way up, at the same current.
    standard_uncertainty_V : float
    degrees_of_freedom : float
        Infinite where the given uncertainties explain the scatter.
    is_shown : bool
        True where the 95 % interval of the offset leaves out zero: the electrodes changed during the run, or
        points were taken before they had settled.
    """

    offset_V: float
    standard_uncertainty_V: float
    degrees_of_freedom: float
    is_shown: bool


def tafel_hysteresis(
    current_A: ArrayLike,
    voltage_V: ArrayLike,
    *,
    voltage_uncertainty_V: ArrayLike | None = None,
    current_uncertainty_A: ArrayLike | None = None,
    with_ohmic: bool = True,
) -> Hysteresis:
    """Compare the way up with the way down.

    Parameters
    ----------
    current_A, voltage_V : array_like, shape (n,)
        Settled points in the order in which they were taken.
    voltage_uncertainty_V, current_uncertainty_A, with_ohmic
        As in `logger.analysis.tafel.fit_tafel`.

    Returns
    -------
    Hysteresis

    Raises
    ------
    Refused
        The currents went one way only, there are too few points (two more than the line has parameters), or
        as in `fit_tafel`.

    Notes
    -----
    One Tafel line is fitted to all points, with one more parameter: the offset of those reached by lowering
    the current from those reached by raising it. The first point takes the side of the second, and a
    current that was not changed keeps its side.
    """
    points = checked_points(current_A, voltage_V, voltage_uncertainty_V, current_uncertainty_A, None)
    down = _reached_by_lowering(points.log_density)
    parameters = 4 if with_ohmic else 3
    if points.log_density.size <= parameters or down.all() or not down.any():
        raise Refused(
            "points of the Tafel line",
            points.log_density.size,
            f"a comparison of both ways needs more than {parameters}, some up and some down",
            "raise the current step by step and lower it again",
        )
    basis = tafel_basis(points.unit_A, with_ohmic, down.astype(np.float64))
    fit = fit_errors_in_both(points.log_density, points.voltage_V, points.u_log, points.u_V, basis)
    scale = fit.reduced_chi_square
    is_explained = points.has_weights and scale <= 1.0
    variance = float(fit.covariance[-1, -1]) * (1.0 if is_explained else scale)
    freedom = math.inf if is_explained else float(fit.degrees_of_freedom)
    offset_V, uncertainty_V = float(fit.parameters[-1]), math.sqrt(variance)
    is_shown = abs(offset_V) > coverage_factor(0.95, freedom) * uncertainty_V
    return Hysteresis(offset_V, uncertainty_V, freedom, is_shown)


def _reached_by_lowering(log_density: NDArray[np.float64]) -> NDArray[np.bool_]:
    steps = np.diff(log_density)
    sides = np.zeros(log_density.size, dtype=np.bool_)
    for k, step in enumerate(steps.tolist(), start=1):
        sides[k] = sides[k - 1] if step == 0.0 else step < 0.0
        if k == 1:
            sides[0] = sides[1]
    return sides
