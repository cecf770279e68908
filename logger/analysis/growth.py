"""How the voltage decays while the catalyst grows: four models, chosen by information, refused when unfit."""

from __future__ import annotations

import math
import warnings
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from logger.analysis.refusal import Refused

__all__ = [
    "FEWEST_POINTS",
    "MODELS",
    "DecayFit",
    "DecayModel",
    "fit_decay",
    "fit_decays",
    "least_squares_fit",
    "select_decay",
]

Floats = NDArray[np.float64]

FEWEST_POINTS = 20
MOST_EVALUATIONS = 150
"""A fit that suits the data arrives within some fifty; one that runs away never does."""

LARGEST_RELATIVE_UNCERTAINTY = 0.5
SIMPLER_WITHIN = 2.0
SMALLEST_BETA, LARGEST_BETA = 0.2, 1.5
LONGEST_TIME_CONSTANT = 20.0
"""Times the length of the data: a longer one is a straight line that found a name."""


@dataclass(frozen=True, slots=True)
class DecayModel:
    """A law of decay: linear in some parameters, with `shapes` (times and exponents) in the others.

    `columns` gives the columns that the linear parameters multiply, for times (n,) and the shape
    parameters. `names` are all parameters, linear ones first; `starts` the shapes to start from, in
    lengths of the data (exponents as they are).
    """

    name: str
    names: tuple[str, ...]
    shapes: int
    columns: Callable[..., Floats]
    starts: tuple[tuple[float, ...], ...]
    is_time: tuple[bool, ...]

    def __call__(self, times_s: Floats, *parameters: float) -> Floats:
        """Return the voltage at `times_s`."""
        linear = len(self.names) - self.shapes
        value: Floats = self.columns(times_s, *parameters[linear:]) @ np.asarray(parameters[:linear])
        return value


def _exponential(times_s: Floats, tau: float) -> Floats:
    return np.column_stack([np.ones_like(times_s), np.exp(-times_s / tau)])


def _two_exponentials(times_s: Floats, first: float, second: float) -> Floats:
    return np.column_stack([np.ones_like(times_s), np.exp(-times_s / first), np.exp(-times_s / second)])


def _stretched(times_s: Floats, tau: float, beta: float) -> Floats:
    return np.column_stack([np.ones_like(times_s), np.exp(-((times_s / tau) ** beta))])


def _logarithmic(times_s: Floats, start: float) -> Floats:
    return np.column_stack([np.ones_like(times_s), -np.log10(1.0 + times_s / start)])


MODELS: tuple[DecayModel, ...] = (
    DecayModel(
        "exponential",
        ("settling_voltage_V", "fall_V", "time_constant_s"),
        1,
        _exponential,
        ((0.05,), (0.2,), (0.7,), (3.0,)),
        (True,),
    ),
    DecayModel(
        "two exponentials",
        (
            "settling_voltage_V",
            "first_fall_V",
            "second_fall_V",
            "first_time_constant_s",
            "second_time_constant_s",
        ),
        2,
        _two_exponentials,
        ((0.02, 0.2), (0.05, 0.17), (0.05, 0.5), (0.1, 1.0), (0.1, 0.3)),
        (True, True),
    ),
    DecayModel(
        "stretched exponential",
        ("settling_voltage_V", "fall_V", "time_constant_s", "beta"),
        2,
        _stretched,
        ((0.05, 0.6), (0.2, 0.6), (0.2, 1.0), (0.7, 1.0)),
        (True, False),
    ),
    DecayModel(
        "logarithmic",
        ("first_voltage_V", "slope_V_per_decade", "start_s"),
        1,
        _logarithmic,
        ((0.001,), (0.01,), (0.1,), (0.5,)),
        (True,),
    ),
)
"""V = Vinf + A exp(-t/tau); two of those; Vinf + A exp(-(t/tau)^beta); and V0 - s log10(1 + t/t0), which
has no settling voltage (Tafel's law for a catalyst that grows evenly)."""


@dataclass(frozen=True, slots=True)
class DecayFit:
    """One model fitted.

    `parameters` and `standard_uncertainties` by name; `residual_sum` of squares; `aicc` the information
    criterion corrected for few points; `refusal` is empty or says why the fit must not be reported.
    """

    model: DecayModel
    parameters: dict[str, float]
    standard_uncertainties: dict[str, float]
    residual_sum: float
    aicc: float
    refusal: str


def least_squares_fit(
    function: Callable[..., Floats],
    x: ArrayLike,
    y: ArrayLike,
    starts: tuple[tuple[float, ...], ...],
    most_evaluations: int = 4000,
) -> tuple[Floats, Floats, float]:
    """Fit a curve from several starts and keep the least sum of squares.

    Parameters
    ----------
    function : callable
        ``function(x, *parameters)``.
    x, y : array_like, shape (n,)
    starts : tuple of tuple of float
        Three or more: from a single one a fit may end at a wrong answer without any sign of it.

    most_evaluations : int
        A start that has not arrived by then is given up.

    Returns
    -------
    parameters : ndarray, shape (k,)
    covariance : ndarray, shape (k, k)
        Scaled by the residual variance; infinite where a parameter is not determined.
    residual_sum : float

    Raises
    ------
    Refused
        No start led to a finite answer.
    """
    from scipy.optimize import OptimizeWarning, curve_fit  # imported late: only fits need it

    times, values = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    best: tuple[Floats, Floats, float] | None = None
    for start in starts:
        try:
            with warnings.catch_warnings(), np.errstate(all="ignore"):
                warnings.simplefilter("ignore", OptimizeWarning)
                found, covariance = curve_fit(
                    function, times, values, p0=start, maxfev=most_evaluations, ftol=1e-12, xtol=1e-12
                )
                total = float(((values - function(times, *found)) ** 2).sum())
        except (RuntimeError, ValueError):
            continue  # this start leads nowhere; another may
        if np.isfinite(total) and (best is None or total < best[2]):
            best = found, covariance, total
    if best is None:
        raise Refused("fit", "none", "no start led to an answer", "more points, or another model")
    return best


def fit_decay(model: DecayModel, times_s: ArrayLike, voltage_V: ArrayLike) -> DecayFit:
    """Fit one model.

    Parameters
    ----------
    model : DecayModel
    times_s : array_like, shape (n,)
        Seconds since the salt was added, zero or more.
    voltage_V : array_like, shape (n,)
        With noise that does not repeat from point to point: average readings first.

    Returns
    -------
    DecayFit
        With a `refusal` where a parameter is not determined (its standard uncertainty exceeds half of it),
        lies at the edge of what makes sense, or has the wrong sign.

    Raises
    ------
    Refused
        Fewer than 20 points, or no start led to an answer.

    Notes
    -----
    AICc = n ln(RSS/n) + 2K + 2K(K + 1)/(n - K - 1), K the number of parameters and one for the variance.

    References
    ----------
    Burnham, K. P. and Anderson, D. R., "Model Selection and Multimodel Inference" (2002), from memory.
    """
    times, volts = np.asarray(times_s, dtype=np.float64), np.asarray(voltage_V, dtype=np.float64)
    n, count = volts.size, len(model.names) + 1
    if n < FEWEST_POINTS or times.shape != volts.shape:
        raise Refused("points of the fit", n, "so few do not tell models apart", f"give {FEWEST_POINTS}")
    length_s = float(times[-1] - times[0])
    starts = tuple(_full_start(model, times, volts, shapes, length_s) for shapes in model.starts)
    found, covariance, total = least_squares_fit(model, times, volts, starts, MOST_EVALUATIONS)
    if model.name == "two exponentials" and found[3] > found[4]:
        order = [0, 2, 1, 4, 3]
        found, covariance = found[order], covariance[np.ix_(order, order)]
    deviations = np.sqrt(np.diag(covariance))
    aicc = n * math.log(max(total, 1e-300) / n) + 2 * count + 2 * count * (count + 1) / (n - count - 1)
    return DecayFit(
        model=model,
        parameters=dict(zip(model.names, found.tolist(), strict=True)),
        standard_uncertainties=dict(zip(model.names, deviations.tolist(), strict=True)),
        residual_sum=total,
        aicc=aicc,
        refusal=_refusal(model, found, deviations, length_s),
    )


def fit_decays(times_s: ArrayLike, voltage_V: ArrayLike) -> tuple[DecayFit, ...]:
    """Fit all models; one that leads to no answer is left out. See `fit_decay`."""
    fits = []
    for model in MODELS:
        try:
            fits.append(fit_decay(model, times_s, voltage_V))
        except Refused:
            if np.size(voltage_V) < FEWEST_POINTS:
                raise
    return tuple(fits)


def select_decay(fits: tuple[DecayFit, ...]) -> tuple[DecayFit | None, tuple[DecayFit, ...]]:
    """Choose among fits: the least AICc, or a simpler one that cannot be told from it.

    Returns
    -------
    chosen : DecayFit or None
        None where every fit is refused.
    rivals : tuple of DecayFit
        The others within 2 of the least AICc.
    """
    sound = [one for one in fits if not one.refusal]
    if not sound:
        return None, ()
    least = min(one.aicc for one in sound)
    near = [one for one in sound if one.aicc - least < SIMPLER_WITHIN]
    chosen = min(near, key=lambda one: (len(one.model.names), one.aicc))
    return chosen, tuple(one for one in near if one is not chosen)


def _full_start(
    model: DecayModel, times: Floats, volts: Floats, shapes: tuple[float, ...], length_s: float
) -> tuple[float, ...]:
    """Complete the shapes of a start by the linear parameters that fit best to them."""
    actual = [one * length_s if is_time else one for one, is_time in zip(shapes, model.is_time, strict=True)]
    linear, *_ = np.linalg.lstsq(model.columns(times, *actual), volts, rcond=None)
    return (*linear.tolist(), *actual)


def _refusal(model: DecayModel, found: Floats, deviations: Floats, length_s: float) -> str:
    if not np.isfinite(deviations).all():
        return "a parameter is not determined by the data"
    for name, value, deviation in zip(model.names, found.tolist(), deviations.tolist(), strict=True):
        if name not in ("settling_voltage_V", "first_voltage_V") and value <= 0.0:
            return f"{name} came out negative"
        if deviation > LARGEST_RELATIVE_UNCERTAINTY * abs(value):
            return f"{name} is not determined: {value:.3g} with a standard uncertainty of {deviation:.2g}"
        if name.endswith(("time_constant_s", "start_s")) and value > LONGEST_TIME_CONSTANT * length_s:
            return f"{name} is far longer than the data"
        if name == "beta" and not SMALLEST_BETA < value <= LARGEST_BETA:
            return f"beta lies outside {SMALLEST_BETA:g} to {LARGEST_BETA:g}"
    return ""
