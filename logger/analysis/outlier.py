"""Grubbs' test: whether one of several values, or two that hide each other, lie off beyond chance."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from logger.analysis.refusal import Refused, require_within

__all__ = ["FEWEST_VALUES", "GrubbsTest", "critical_grubbs", "grubbs_test", "second_outlier"]

FEWEST_VALUES = 3
FEWEST_FOR_TWO = 6
"""Of fewer, two that lie off are no exception but nearly half of the set (chosen for this, no source)."""

Verdict = Literal["none", "straggler", "outlier"]


@dataclass(frozen=True, slots=True)
class GrubbsTest:
    """The value furthest from the mean, judged.

    Attributes
    ----------
    index : int
        Its place among the values.
    statistic : float
        |value - mean| / standard deviation.
    critical5, critical1 : float
        What chance exceeds in 5 % and in 1 % of such sets.
    verdict : {"none", "straggler", "outlier"}
        ``straggler`` beyond the 5 % value, ``outlier`` beyond the 1 % value, in the words of ISO 5725-2. A
        reason to look for a cause; no value is ever left out for it.
    """

    index: int
    statistic: float
    critical5: float
    critical1: float
    verdict: Verdict


def critical_grubbs(count: int, significance: float, *, two_sided: bool = True) -> float:
    """Return the critical value of Grubbs' statistic.

    Parameters
    ----------
    count : int
        Number of values, 3 or more.
    significance : float
        0.05 or 0.01, for example.
    two_sided : bool
        True: the value may lie off on either side. False: on the side that was named beforehand.

    Raises
    ------
    Refused
        Fewer than three values, or a significance not between 0 and 1.

    Notes
    -----
    G = (n - 1)/sqrt(n) sqrt(t^2/(n - 2 + t^2)), t the upper significance/(2n) point of Student's t with
    n - 2 degrees of freedom (one-sided: significance/n).

    References
    ----------
    F. E. Grubbs, Ann. Math. Stat. 21 (1950) 27; NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1;
    ISO 5725-2 (one outlying observation).
    """
    if count < FEWEST_VALUES:
        raise Refused("values for an outlier test", count, "two values only differ", "give three or more")
    share = require_within(
        "significance", significance, 1e-12, 1.0 - 1e-12, "it is a probability between 0 and 1"
    )
    from scipy.special import stdtrit  # imported late, as in logger.analysis.uncertainty

    t = float(stdtrit(count - 2, 1.0 - share / ((2.0 if two_sided else 1.0) * count)))
    return (count - 1) / math.sqrt(count) * math.sqrt(t * t / (count - 2 + t * t))


def grubbs_test(values: ArrayLike) -> GrubbsTest:
    """Judge the value that lies furthest from the mean.

    Parameters
    ----------
    values : array_like, shape (n,)
        n three or more, finite; taken as normally distributed.

    Raises
    ------
    Refused
        Fewer than three values, or one is not finite.
    """
    series = np.asarray(values, dtype=np.float64)
    if series.ndim != 1 or not np.isfinite(series).all():
        raise Refused(
            "values for an outlier test",
            "one of them",
            "it is not a finite number",
            "leave it out, or find why it is missing",
        )
    critical5, critical1 = critical_grubbs(series.size, 0.05), critical_grubbs(series.size, 0.01)
    distance = np.abs(series - series.mean())
    index = int(np.argmax(distance))
    deviation = float(series.std(ddof=1))
    # Values that differ by rounding only have no outlier, whatever the ratio of two roundings says.
    is_flat = deviation <= 1e-12 * float(np.abs(series).max())
    statistic = 0.0 if is_flat else float(distance[index]) / deviation
    verdict: Verdict = "none"
    if statistic > critical5:
        verdict = "outlier" if statistic > critical1 else "straggler"
    return GrubbsTest(index, statistic, critical5, critical1, verdict)


def second_outlier(values: ArrayLike, first: GrubbsTest) -> GrubbsTest | None:
    """Judge what lies furthest off once the value that `first` names is set aside.

    Two values that lie off on one side widen the scatter so much that neither is told by Grubbs' test alone.

    Parameters
    ----------
    values : array_like, shape (n,)
        Those of which `first` is the test.

    Returns
    -------
    GrubbsTest or None
        Only where it is an outlier beyond the 1 % value, its index among all `values`; then both are. None
        with fewer than six.

    Notes
    -----
    Rosner's generalised extreme deviate with at most two outliers: its second critical value is Grubbs' of
    one value less. Chance brings out one or two in 1.8 % of sets of six, in 1.3 % of ten (by simulation).

    References
    ----------
    B. Rosner, Technometrics 25 (1983) 165; NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.3.
    """
    series = np.asarray(values, dtype=np.float64)
    if series.size < FEWEST_FOR_TWO:
        return None
    found = grubbs_test(np.delete(series, first.index))
    if found.verdict != "outlier":
        return None
    return replace(found, index=found.index + (found.index >= first.index))
