"""Several runs of the same experiment, and runs against blanks."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from logger.analysis.refusal import Refused
from logger.analysis.uncertainty import coverage_factor

__all__ = ["FEWEST_REPLICATES", "AgainstBlanks", "Replicates", "against_blanks", "replicates"]

FEWEST_REPLICATES = 3
"""Fewer runs than this say little about how well the experiment repeats (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Replicates:
    """What several values say together, in their own unit.

    Attributes
    ----------
    count : int
        Number of values, two or more.
    mean, standard_deviation : float
        The latter with count - 1: how far single runs scatter.
    standard_uncertainty : float
        Of the mean, from the scatter alone.
    degrees_of_freedom : float
        count - 1.
    coverage_factor : float
        Student t for 95 %.
    expanded_uncertainty : float
        Half-width of the 95 % interval of the mean.
    """

    count: int
    mean: float
    standard_deviation: float
    standard_uncertainty: float
    degrees_of_freedom: float
    coverage_factor: float
    expanded_uncertainty: float

    @property
    def interval95(self) -> tuple[float, float]:
        """The 95 % interval of the mean."""
        return self.mean - self.expanded_uncertainty, self.mean + self.expanded_uncertainty


@dataclass(frozen=True, slots=True)
class AgainstBlanks:
    """The difference of runs and blanks, in their own unit.

    Attributes
    ----------
    difference : float
        Mean of the runs minus mean of the blanks.
    standard_uncertainty, degrees_of_freedom : float
        Of the difference, after Welch.
    interval95 : tuple of float
        Student interval of the difference.
    p_value : float
        Two-sided: how often two groups that do not differ would look as different as this.
    """

    difference: float
    standard_uncertainty: float
    degrees_of_freedom: float
    interval95: tuple[float, float]
    p_value: float


def replicates(values: ArrayLike) -> Replicates:
    """Return mean, scatter and 95 % interval of replicate runs.

    Parameters
    ----------
    values : array_like, shape (n,)
        One value for each run, n two or more, finite.

    Raises
    ------
    Refused
        Fewer than two values, or one is not finite.

    Notes
    -----
    JCGM 100:2008, 4.2 (Type A evaluation).
    """
    series = _checked("replicate runs", values)
    deviation = float(series.std(ddof=1))
    uncertainty = deviation / math.sqrt(series.size)
    factor = coverage_factor(0.95, float(series.size - 1))
    return Replicates(
        count=int(series.size),
        mean=float(series.mean()),
        standard_deviation=deviation,
        standard_uncertainty=uncertainty,
        degrees_of_freedom=float(series.size - 1),
        coverage_factor=factor,
        expanded_uncertainty=factor * uncertainty,
    )


def against_blanks(values: ArrayLike, blanks: ArrayLike) -> AgainstBlanks:
    """Compare runs with blanks (same handling, no metal salt) whose scatter may differ.

    Parameters
    ----------
    values, blanks : array_like, shape (n,) and (m,)
        One value for each run, two or more of each, finite.

    Raises
    ------
    Refused
        Fewer than two values of a kind, one is not finite, or neither group scatters at all.

    Notes
    -----
    B. L. Welch, Biometrika 34 (1947) 28; degrees of freedom after Satterthwaite.
    """
    runs, blank_runs = _checked("runs", values), _checked("blank runs", blanks)
    variances = [float(series.var(ddof=1)) / series.size for series in (runs, blank_runs)]
    variance = sum(variances)
    if variance == 0.0:
        raise Refused(
            "runs and blank runs",
            "no scatter",
            "all values of each group are equal",
            "give the values as measured",
        )
    # Shares first, so that squares of tiny variances cannot underflow.
    shares = [part / variance for part in variances]
    freedom = 1.0 / (shares[0] ** 2 / (runs.size - 1) + shares[1] ** 2 / (blank_runs.size - 1))
    difference = float(runs.mean() - blank_runs.mean())
    uncertainty = math.sqrt(variance)
    half = coverage_factor(0.95, freedom) * uncertainty
    return AgainstBlanks(
        difference=difference,
        standard_uncertainty=uncertainty,
        degrees_of_freedom=freedom,
        interval95=(difference - half, difference + half),
        p_value=_two_sided_p(difference / uncertainty, freedom),
    )


def _two_sided_p(t_value: float, freedom: float) -> float:
    from scipy.special import stdtr  # imported late, as in logger.analysis.uncertainty

    return 2.0 * float(stdtr(freedom, -abs(t_value)))


def _checked(quantity: str, values: ArrayLike) -> NDArray[np.float64]:
    series = np.asarray(values, dtype=np.float64)
    if series.ndim != 1 or series.size < 2:
        raise Refused(
            quantity, series.size, "scatter cannot be seen from it", "give two runs at least, better three"
        )
    if not np.isfinite(series).all():
        raise Refused(
            quantity, "a value", "it is not a finite number", "leave out the run, or analyse it again"
        )
    return series
