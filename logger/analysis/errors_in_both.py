"""Least squares where the abscissa is uncertain too: orthogonal distance regression of a linear model."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from logger.analysis.refusal import Refused

__all__ = ["Basis", "BothFit", "fit_errors_in_both", "straight_line"]

Basis = Callable[[NDArray[np.float64]], tuple[NDArray[np.float64], NDArray[np.float64]]]
"""From abscissas, shape (n,), the columns of the model and their derivatives, both of shape (n, p)."""

_MOST_STEPS = 500
_CONVERGED = 1e-12


@dataclass(frozen=True, slots=True)
class BothFit:
    """A fitted model y = sum p_k f_k(x).

    Attributes
    ----------
    parameters : ndarray, shape (p,)
    covariance : ndarray, shape (p, p)
        For the uncertainties as given, not scaled by the scatter.
    chi_square : float
        Weighted sum of the squared distances, in y and in x.
    degrees_of_freedom : int
        n - p.
    residuals : ndarray, shape (n,)
        y minus the model at the x as measured.
    """

    parameters: NDArray[np.float64]
    covariance: NDArray[np.float64]
    chi_square: float
    degrees_of_freedom: int
    residuals: NDArray[np.float64]

    @property
    def reduced_chi_square(self) -> float:
        """Chi-square per degree of freedom; NaN where there are none."""
        return self.chi_square / self.degrees_of_freedom if self.degrees_of_freedom else float("nan")


def straight_line(x: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return the basis of y = a + b x."""
    one = np.ones_like(x)
    return np.column_stack([one, x]), np.column_stack([0.0 * x, one])


def fit_errors_in_both(
    x: ArrayLike, y: ArrayLike, u_x: ArrayLike, u_y: ArrayLike, basis: Basis = straight_line
) -> BothFit:
    """Fit a model that is linear in its parameters to points uncertain in both coordinates.

    Parameters
    ----------
    x, y : array_like, shape (n,)
        Points, finite.
    u_x, u_y : array_like, shape (n,)
        Standard uncertainties; of `u_x` any may be zero, `u_y` above zero. All `u_x` zero: ordinary
        weighted least squares.
    basis : callable
        See `Basis`; a straight line by default.

    Returns
    -------
    BothFit

    Raises
    ------
    Refused
        Fewer points than parameters, points that do not determine them, or no convergence.

    Notes
    -----
    Minimises sum ((y - f(X))/u_y)^2 + ((x - X)/u_x)^2 over the parameters and the true abscissas X, by
    Gauss-Newton steps in which the X are eliminated: the weight of a point is 1/(u_y^2 + f'^2 u_x^2), taken
    at its X. The covariance is that of the last step.

    References
    ----------
    D. York et al., Am. J. Phys. 72 (2004) 367 (the straight line; from memory); P. T. Boggs and
    J. E. Rogers, Contemporary Mathematics 112 (1990) 186 (any model; from memory).
    """
    given, height = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    var_x, var_y = np.asarray(u_x, dtype=np.float64) ** 2, np.asarray(u_y, dtype=np.float64) ** 2
    columns, slopes = basis(given)
    parameters, _ = _weighted(columns, height, 1.0 / var_y)
    true = given
    for _ in range(_MOST_STEPS):
        slope = slopes @ parameters
        weights = 1.0 / (var_y + slope**2 * var_x)
        distance = height - columns @ parameters - slope * (given - true)
        step, covariance = _weighted(columns, distance, weights)
        parameters = parameters + step
        distance = distance - columns @ step
        true = given + var_x * slope * weights * distance
        # Judged in units of the parameters' own uncertainties: they differ by orders of magnitude.
        if np.all(np.abs(step) <= _CONVERGED * (np.abs(parameters) + np.sqrt(np.diag(covariance)))):
            return BothFit(
                parameters=parameters,
                covariance=covariance,
                chi_square=float(np.sum(weights * distance**2)),
                degrees_of_freedom=given.size - parameters.size,
                residuals=height - basis(given)[0] @ parameters,
            )
        columns, slopes = basis(true)
    raise Refused(
        "points of the fit",
        given.size,
        "the fit with uncertain abscissas did not converge",
        "give points that lie nearer to the model, or smaller uncertainties",
    )


def _weighted(
    columns: NDArray[np.float64], values: NDArray[np.float64], weights: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return solution and covariance of one weighted linear problem, by singular values."""
    root = np.sqrt(weights)
    design = columns * root[:, np.newaxis]
    scale = np.linalg.norm(design, axis=0)
    left, singular, right = np.linalg.svd(design / scale, full_matrices=False)
    if singular.size < columns.shape[1] or singular[-1] <= 1e-13 * singular[0]:
        raise Refused(
            "points of the fit",
            columns.shape[0],
            f"they do not determine {columns.shape[1]} parameters",
            "give more points, further apart",
        )
    inverse = right.T / singular
    solution = (inverse @ (left.T @ (root * values))) / scale
    return solution, (inverse @ inverse.T) / np.outer(scale, scale)
