"""Allan deviation of a voltage, and how long averaging it is worth while."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from logger.analysis.plateau import checked_series
from logger.analysis.refusal import Refused, require_positive
from logger.quantity import significant

__all__ = [
    "FEWEST_AVERAGES",
    "AllanPoint",
    "AveragingAdvice",
    "allan_deviation",
    "averaging_advice",
    "modified_allan_deviation",
    "overlapping_allan_deviation",
    "overlapping_allan_points",
]

FEWEST_AVERAGES = 8
"""Averages that a record must hold for the deviation between them to say anything (common practice, no
source)."""

RECORD_OVER_HUMP = 40.0
"""How much longer than its slowest noise a record must be to show that averages get steadier again: three
octaves beyond the hump, and an eighth of the record (common practice, no source)."""

_RATIO_OF_TIMES = 2.0**0.5
LEAST_DRIFT_EXPONENT = 0.75
"""Between that of a random walk, 0.5, and that of a drift, 1."""

_SURE = 2.0  # relative uncertainties by which a rise or a fall must exceed chance


@dataclass(frozen=True, slots=True)
class AllanPoint:
    """One point of the curve.

    Attributes
    ----------
    samples : int
        How many samples were averaged.
    time_s : float
        How long that takes.
    deviation : float
        Overlapping Allan deviation, in the unit of the values.
    relative_uncertainty : float
        Standard uncertainty of `deviation` over `deviation`, as for white noise.
    """

    samples: int
    time_s: float
    deviation: float
    relative_uncertainty: float


@dataclass(frozen=True, slots=True)
class AveragingAdvice:
    """How long to average.

    Attributes
    ----------
    time_s : float or None
        The shortest averaging time that is as good as any in the record; None where averaging does not help.
    deviation : float or None
        Allan deviation there, in the unit of the values: how far two neighbouring averages differ,
        over the square root of two.
    behaviour : {"falling", "floor", "rising", "wandering"}
        What the curve does at long times: still falls; stays level (flicker floor); rises again (drift);
        or rises from the first and does not come down.
    words : str
        The same for people.
    points : tuple of AllanPoint
        The curve.
    """

    time_s: float | None
    deviation: float | None
    behaviour: str
    words: str
    points: tuple[AllanPoint, ...]


def allan_deviation(values: ArrayLike, samples: int) -> float:
    """Return the plain Allan deviation of averages of `samples` samples.

    Parameters
    ----------
    values : array_like, shape (n,)
        Equally spaced samples, finite, any unit. They take the place of frequencies in the source.
    samples : int
        Samples in an average, 1 to n/2.

    Returns
    -------
    float
        In the unit of `values`.

    Raises
    ------
    Refused
        Too few samples for two averages, or one that is not finite.

    Notes
    -----
    sigma^2 = sum (a_(j+1) - a_j)^2 / (2 (k - 1)) over the k means a_j of consecutive blocks.

    References
    ----------
    W. J. Riley, Handbook of Frequency Stability Analysis, NIST Special Publication 1065 (2008), section
    5.2.1.
    """
    series = _series(values, samples, 2)
    blocks = series.size // samples
    means = series[: blocks * samples].reshape(blocks, samples).mean(axis=1)
    return _root_of_half_mean_square(np.diff(means))


def overlapping_allan_deviation(values: ArrayLike, samples: int) -> float:
    """Return the overlapping Allan deviation of averages of `samples` samples.

    The same quantity as `allan_deviation`, from averages that begin at every sample: steadier.
    Parameters, result and refusals as there; NIST SP 1065, section 5.2.4.
    """
    series = _series(values, samples, 2)
    return _root_of_half_mean_square(_overlapping_differences(_phase(series), samples))


def modified_allan_deviation(values: ArrayLike, samples: int) -> float:
    """Return the modified Allan deviation, which tells white phase noise from flicker of phase.

    Parameters and refusals as in `allan_deviation`, but three averages are needed; NIST SP 1065,
    section 5.2.5.
    """
    series = _series(values, samples, 3)
    differences = _overlapping_differences(_phase(series), samples)
    sums = np.cumsum(np.concatenate([[0.0], differences]))
    return _root_of_half_mean_square((sums[samples:] - sums[:-samples]) / samples)


def overlapping_allan_points(values: ArrayLike, interval_s: float) -> tuple[AllanPoint, ...]:
    """Return the overlapping Allan deviation at averaging times a factor sqrt(2) apart.

    Parameters
    ----------
    values : array_like, shape (n,)
        Equally spaced samples, n at least 30, finite.
    interval_s : float
        Their spacing in seconds.

    Returns
    -------
    tuple of AllanPoint
        Up to an eighth of the record.

    Raises
    ------
    Refused
        Fewer than 30 samples, one that is not finite, or a spacing that is not above zero.

    Notes
    -----
    The relative uncertainty is 1/sqrt(2 nu), with the equivalent degrees of freedom of white noise,
    nu = (3 (N - 1)/(2 m) - 2 (N - 2)/N) 4 m^2/(4 m^2 + 5), N = n + 1; NIST SP 1065, table 5.
    """
    series = checked_series(values)
    spacing_s = require_positive("spacing of the samples in s", interval_s)
    phase = _phase(series)
    points = []
    for samples in _numbers_of_samples(series.size // FEWEST_AVERAGES):
        deviation = _root_of_half_mean_square(_overlapping_differences(phase, samples))
        doubt = 1.0 / math.sqrt(2.0 * _equivalent_freedom(series.size + 1, samples))
        points.append(AllanPoint(samples, samples * spacing_s, deviation, doubt))
    return tuple(points)


def averaging_advice(values: ArrayLike, interval_s: float) -> AveragingAdvice:
    """Say how long this voltage is worth averaging.

    Parameters
    ----------
    values : array_like, shape (n,)
        A settled stretch, equally spaced samples, n at least 30, finite.
    interval_s : float
        Their spacing in seconds.

    Returns
    -------
    AveragingAdvice

    Raises
    ------
    Refused
        As `overlapping_allan_points`; or all values are equal, so that the display hides the noise.

    Notes
    -----
    Averaging helps while the curve falls. Neighbouring readings under slow noise (bubbles) agree only
    because they are neighbours: the curve first rises to a hump at about twice the correlation time. The
    fall after the last such hump counts. Of all times that are as good as the lowest point of that fall,
    within its uncertainty, the shortest is advised. A rise or fall must exceed two of its uncertainties to
    count as one. A rise is a drift only where its last octave is steeper than that of any noise: tau^1 under
    a drift, tau^0.5 under a random walk (NIST SP 1065 on power law noise, from memory).
    """
    points = overlapping_allan_points(values, interval_s)
    curve = np.array([one.deviation for one in points])
    if not curve.any():
        raise Refused(
            "readings",
            "all equal",
            "their noise does not show",
            "give readings of finer resolution, or take one digit over the square root of twelve",
        )
    doubt = np.array([one.relative_uncertainty for one in points])
    begin, lowest, hump = _last_fall(curve, doubt)
    if hump > lowest and (lowest == 0 or not _is_a_drift(points, hump)):
        return _wandering(points, points[lowest], points[hump])
    as_good = curve[begin : lowest + 1] * (1.0 - doubt[lowest]) <= curve[lowest]
    advised = points[begin + int(np.argmax(as_good))]
    behaviour = "rising" if hump > lowest else _falling_or_floor(advised, points[-1])
    return AveragingAdvice(
        advised.time_s, advised.deviation, behaviour, _words(behaviour, advised, points[-1]), points
    )


def _series(values: ArrayLike, samples: int, averages: int) -> NDArray[np.float64]:
    series = np.asarray(values, dtype=np.float64)
    if series.ndim != 1 or samples < 1 or series.size < averages * samples:
        raise Refused(
            "samples in the record",
            series.size,
            f"{averages} averages of {samples} need more",
            f"give a vector of {averages * max(samples, 1)} or more, and average 1 or more",
        )
    if not np.isfinite(series).all():
        raise Refused("readings in the record", "one of them", "it is not a finite number", "leave it out")
    return series


def _phase(series: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the running sum of the samples, shape (n + 1,); their mean is taken off to keep digits."""
    return np.concatenate([[0.0], np.cumsum(series - series.mean())])


def _overlapping_differences(phase: NDArray[np.float64], samples: int) -> NDArray[np.float64]:
    """Return the differences of neighbouring averages, one pair beginning at every sample."""
    second = phase[2 * samples :] - 2.0 * phase[samples:-samples] + phase[: -2 * samples]
    return np.asarray(second / samples, dtype=np.float64)


def _root_of_half_mean_square(differences: NDArray[np.float64]) -> float:
    return math.sqrt(0.5 * float(np.mean(differences**2)))


def _numbers_of_samples(most: int) -> list[int]:
    steps = int(math.log(most) / math.log(_RATIO_OF_TIMES) + 1e-9)
    return sorted({round(_RATIO_OF_TIMES**k) for k in range(steps + 1)})


def _equivalent_freedom(phases: int, samples: int) -> float:
    long = 1.5 * (phases - 1) / samples - 2.0 * (phases - 2) / phases
    return max(1.0, long * 4.0 * samples**2 / (4.0 * samples**2 + 5.0))


def _last_fall(curve: NDArray[np.float64], doubt: NDArray[np.float64]) -> tuple[int, int, int]:
    """Return where the last fall begins, where it is lowest, and the top of the rise behind it (or 0)."""
    begin = 0
    while True:
        lowest = begin + int(np.argmin(curve[begin:]))
        hump = lowest + int(np.argmax(curve[lowest:]))
        last = hump + int(np.argmin(curve[hump:]))
        rises = bool(curve[hump] > curve[lowest] * (1.0 + _SURE * doubt[hump]))
        falls = bool(curve[last] < curve[hump] * (1.0 - _SURE * doubt[last]))
        if not (rises and falls):
            top = begin + int(np.argmax(curve[begin : lowest + 1]))
            return top, lowest, hump if rises else 0
        begin = hump


def _is_a_drift(points: tuple[AllanPoint, ...], top: int) -> bool:
    """Tell whether the curve rises to its top as under a drift, in proportion to time, not as slow noise."""
    before = [one for one in points[:top] if one.samples <= points[top].samples / 2.0]
    if not before:
        return False
    octaves = math.log2(points[top].samples / before[-1].samples)
    return math.log2(points[top].deviation / before[-1].deviation) > LEAST_DRIFT_EXPONENT * octaves


def _falling_or_floor(advised: AllanPoint, last: AllanPoint) -> str:
    as_white_noise = advised.deviation * math.sqrt(advised.samples / last.samples)
    is_above = last.deviation > as_white_noise * (1.0 + _SURE * last.relative_uncertainty)
    return "floor" if is_above else "falling"


def _words(behaviour: str, advised: AllanPoint, last: AllanPoint) -> str:
    amount = f"average {advised.time_s:.3g} s"
    if behaviour == "rising":
        return f"{amount} and no longer: beyond that the voltage drifts"
    if behaviour == "floor":
        return f"{amount}: longer averages were no steadier, as far as this record tells"
    return (
        f"{amount} or longer: averaging still helped at {last.time_s:.3g} s, and the record tells no further"
    )


def _wandering(points: tuple[AllanPoint, ...], lowest: AllanPoint, hump: AllanPoint) -> AveragingAdvice:
    lasts, needed = significant(hump.time_s, 2, "s"), significant(RECORD_OVER_HUMP * hump.time_s, 2, "s")
    steadier = significant(lowest.time_s, 2, "s")
    if lowest.samples == 1:
        words = (
            f"averages of {lasts} differ more than single readings: the voltage drifts, or its noise is "
            f"slow; let it settle and record at least {needed}"
        )
    else:
        words = (
            f"averages of {lasts} differ more than those of {steadier}: the voltage drifts, or its noise is "
            f"slow; let it settle and record at least {needed}"
        )
    return AveragingAdvice(None, None, "wandering", words, points)
