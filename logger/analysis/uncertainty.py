"""Uncertainty of a result from the uncertainties of what went into it (GUM, first order).

Reference: JCGM 100:2008, Evaluation of measurement data - Guide to the expression of uncertainty in
measurement (GUM).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from logger.analysis.coverage_interval import coverage_factor, coverage_half_width
from logger.analysis.refusal import Refused, require_finite, require_positive

__all__ = [
    "Combined",
    "Component",
    "combine",
    "correlated_standard_uncertainty",
    "coverage_factor",
    "degrees_of_freedom_of_estimate",
    "rectangular_standard_uncertainty",
]

DOMINANT_SHARE = 0.5
"""Share of the variance from which on rectangular components decide the shape of the sum."""


@dataclass(frozen=True, slots=True)
class Component:
    """One line of an uncertainty budget.

    Attributes
    ----------
    name : str
        Where the uncertainty comes from, in words for people.
    standard_uncertainty : float
        Of the input, in the input's own unit, zero or more.
    sensitivity : float
        Change of the result per unit of the input.
    degrees_of_freedom : float
        How well the uncertainty itself is known; infinity where it is taken as exact.
    evaluation : {"A", "B"}
        A: from the scatter of repeated readings. B: from anything else (a specification, a guess).
    shape : {"normal", "rectangular"}
        How the error is distributed: about zero, or anywhere within limits that are sqrt(3) standard
        uncertainties away.
    """

    name: str
    standard_uncertainty: float
    sensitivity: float = 1.0
    degrees_of_freedom: float = math.inf
    evaluation: Literal["A", "B"] = "B"
    shape: Literal["normal", "rectangular"] = "normal"

    def __post_init__(self) -> None:
        require_positive(f"standard uncertainty of {self.name}", self.standard_uncertainty, zero_allowed=True)
        require_finite(f"sensitivity to {self.name}", self.sensitivity)
        if math.isnan(self.degrees_of_freedom) or self.degrees_of_freedom <= 0:
            raise Refused(
                f"degrees of freedom of {self.name}",
                self.degrees_of_freedom,
                "there must be more than zero",
                "give a number above zero, or infinity",
            )

    @property
    def contribution(self) -> float:
        """The share of the result's standard uncertainty, in the unit of the result."""
        return abs(self.sensitivity) * self.standard_uncertainty


@dataclass(frozen=True, slots=True)
class Combined:
    """A combined uncertainty.

    Attributes
    ----------
    standard_uncertainty : float
        Combined standard uncertainty, in the unit of the result.
    degrees_of_freedom : float
        Effective ones after Welch and Satterthwaite; infinity where every component is taken as exact.
    probability : float
        Coverage of the expanded uncertainty, for example 0.95.
    coverage_factor : float
        Half-width of the coverage interval over the standard uncertainty; see `combine`.
    components : tuple of Component
        The budget.
    """

    standard_uncertainty: float
    degrees_of_freedom: float
    probability: float
    coverage_factor: float
    components: tuple[Component, ...]

    @property
    def expanded_uncertainty(self) -> float:
        """Half-width of the coverage interval, in the unit of the result."""
        return self.coverage_factor * self.standard_uncertainty

    def interval(self, value: float) -> tuple[float, float]:
        """Return the coverage interval around `value`."""
        return value - self.expanded_uncertainty, value + self.expanded_uncertainty


def combine(components: Iterable[Component], probability: float = 0.95) -> Combined:
    """Combine uncorrelated components.

    Parameters
    ----------
    components : iterable of Component
        The budget. Components of zero are allowed and stay in the list.
    probability : float
        Coverage wanted, between 0 and 1.

    Returns
    -------
    Combined

    Raises
    ------
    Refused
        The probability lies outside 0 to 1.

    Notes
    -----
    u^2 = sum (c_i u_i)^2 (JCGM 100, equation 10); nu = u^4 / sum ((c_i u_i)^4 / nu_i) (equation G.2b).
    The effective degrees of freedom are not rounded down.

    The coverage factor is that of Student's distribution with those degrees of freedom, as long as the sum of
    the errors is nearly normal, which needs that no error of another shape dominates (G.2.3). Where the
    rectangular components make up more than half of u^2, the distributions are convolved (JCGM 101): one
    rectangle alone then has 1.645 in the place of 1.960, and two equal ones have 1.902.
    """
    budget = tuple(components)
    standard = _root_sum_of_squares(budget)
    freedom = _effective_degrees_of_freedom(budget, standard)
    return Combined(standard, freedom, probability, _factor(budget, standard, freedom, probability), budget)


def _root_sum_of_squares(budget: Sequence[Component]) -> float:
    return math.hypot(*(c.contribution for c in budget))


def _factor(budget: Sequence[Component], standard: float, freedom: float, probability: float) -> float:
    """Return the coverage factor: by convolution where rectangles dominate, else Student's."""
    rectangles = [c for c in budget if c.shape == "rectangular"]
    # Roots are compared: the square of a wild reading would overflow.
    if _root_sum_of_squares(rectangles) <= math.sqrt(DOMINANT_SHARE) * standard:
        return coverage_factor(probability, freedom)
    rest = [c for c in budget if c.shape == "normal"]
    scale = _root_sum_of_squares(rest)
    half_width = coverage_half_width(
        scale,
        _effective_degrees_of_freedom(rest, scale),
        [math.sqrt(3.0) * c.contribution for c in rectangles],
        probability,
    )
    return half_width / standard


def _effective_degrees_of_freedom(budget: Sequence[Component], standard: float) -> float:
    if standard == 0.0:
        return math.inf
    # Shares are divided by the total first: the fourth power of a nanovolt would underflow.
    total = sum((c.contribution / standard) ** 4 / c.degrees_of_freedom for c in budget)
    return 1.0 / total if total > 0.0 else math.inf


def correlated_standard_uncertainty(sensitivities: ArrayLike, covariance: ArrayLike) -> float:
    """Return the standard uncertainty of a result from correlated inputs.

    Parameters
    ----------
    sensitivities : array_like, shape (n,)
        Partial derivatives of the result.
    covariance : array_like, shape (n, n)
        Covariance matrix of the inputs.

    Returns
    -------
    float
        sqrt(c' S c), JCGM 100 equation 13.

    Raises
    ------
    Refused
        Shapes do not fit, a value is not finite, or the matrix is no covariance matrix.
    """
    slopes = np.asarray(sensitivities, dtype=np.float64)
    matrix = np.asarray(covariance, dtype=np.float64)
    if slopes.ndim != 1 or matrix.shape != (slopes.size, slopes.size):
        raise Refused(
            "covariance matrix",
            f"shape {matrix.shape}",
            f"there are {slopes.shape} sensitivities",
            "give one row and one column for each input",
        )
    if not (np.isfinite(slopes).all() and np.isfinite(matrix).all()):
        raise Refused("covariance matrix", "a value in it", "it is not a finite number", "give numbers")
    variance = float(slopes @ matrix @ slopes)
    # Rounding may leave a variance of zero slightly negative; more than that is no covariance.
    if variance < -1e-12 * float(np.abs(slopes) @ np.abs(matrix) @ np.abs(slopes)):
        raise Refused(
            "covariance matrix",
            "the matrix",
            "it gives a negative variance",
            "give a positive semidefinite one",
        )
    return math.sqrt(max(variance, 0.0))


def rectangular_standard_uncertainty(half_width: float) -> float:
    """Return the standard uncertainty of limits +- `half_width` between which nothing is preferred.

    Half-width over the square root of three (JCGM 100, 4.3.7).
    """
    return require_positive("half-width of the limits", half_width, zero_allowed=True) / math.sqrt(3.0)


def degrees_of_freedom_of_estimate(relative_uncertainty: float) -> float:
    """Return the degrees of freedom of a standard uncertainty that is itself known to `relative_uncertainty`.

    1 / (2 r^2); an uncertainty known to 20 % has 12.5 (JCGM 100, G.4.2, equation G.3).
    """
    ratio = require_positive(
        "relative uncertainty of an uncertainty", relative_uncertainty, zero_allowed=True
    )
    return math.inf if ratio == 0.0 else 1.0 / (2.0 * ratio * ratio)
