"""Grubbs' test against published tables and the example of the NIST handbook."""

import math

import numpy as np
import pytest

from logger.analysis.outlier import critical_grubbs, grubbs_test, second_outlier
from logger.analysis.refusal import Refused

# LibreTexts, Chemistry, "Critical Values for Grubbs's Test", n: (5 %, 1 %). Left out: n 7 at 5 %, where it
# prints 2.202 for 2.020 (digits swapped: the value would exceed those of 8 and 9), and n 15 at 1 %, printed
# the same as that of 14.
TABLE = {
    3: (1.155, 1.155),
    4: (1.481, 1.496),
    5: (1.715, 1.764),
    6: (1.887, 1.973),
    7: (None, 2.139),
    8: (2.126, 2.274),
    9: (2.215, 2.387),
    10: (2.290, 2.482),
    11: (2.355, 2.564),
    12: (2.412, 2.636),
    13: (2.462, 2.699),
    14: (2.507, 2.755),
    15: (2.549, None),
}


@pytest.mark.parametrize("count", TABLE)
def test_the_table(count: int) -> None:
    for printed, significance in zip(TABLE[count], (0.05, 0.01), strict=True):
        if printed is not None:
            # Some last digits are cut, others rounded.
            assert critical_grubbs(count, significance) == pytest.approx(printed, abs=1.1e-3)


def test_the_example_of_the_nist_handbook() -> None:
    # NIST/SEMATECH e-Handbook, 1.3.5.17.1 (Tietjen and Moore's uranium data): G 2.4687, one-sided 5 %: 2.032.
    values = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57]
    found = grubbs_test(values)
    assert found.statistic == pytest.approx(2.468765, abs=6e-7)
    assert (found.index, found.verdict) == (7, "outlier")
    assert critical_grubbs(8, 0.05, two_sided=False) == pytest.approx(2.031652, abs=6e-7)


@pytest.mark.parametrize("count", [4, 10])
def test_chance_exceeds_the_limit_as_often_as_stated(count: int) -> None:
    sets = np.random.default_rng(1).standard_normal((20_000, count))
    centred = np.abs(sets - sets.mean(axis=1, keepdims=True))
    statistics = centred.max(axis=1) / sets.std(axis=1, ddof=1)
    share = (statistics > critical_grubbs(count, 0.05)).mean()
    assert share == pytest.approx(0.05, abs=3 * math.sqrt(0.05 * 0.95 / 20_000))


@pytest.mark.parametrize(
    ("values", "verdict"),
    [
        ([254.6, 249.1, 258.3, 251.7], "none"),
        ([1.0, 1.1, 0.9, 1.0, 1.3], "none"),
        ([1.0, 1.1, 0.9, 1.0, 1.55], "straggler"),
        ([1.0, 1.1, 0.9, 1.0, -3.0], "outlier"),
        ([2.0, 2.0, 2.0], "none"),
        ([0.0, 0.0, 0.0], "none"),
        ([0.1 + 0.2, 0.3, 0.3, 0.3], "none"),
    ],
)
def test_verdicts(values, verdict: str) -> None:
    assert grubbs_test(values).verdict == verdict


@pytest.mark.parametrize(
    ("attempt", "words"),
    [
        (lambda: grubbs_test([1.0, 2.0]), "give three or more"),
        (lambda: grubbs_test([1.0, math.inf, 2.0]), "not a finite number"),
        (lambda: critical_grubbs(5, 0.0), "significance"),
        (lambda: critical_grubbs(5, 1.0), "significance"),
    ],
)
def test_what_cannot_be_tested_is_refused(attempt, words: str) -> None:
    with pytest.raises(Refused, match=words):
        attempt()


def test_the_second_critical_value_is_that_of_the_nist_handbook() -> None:
    # NIST/SEMATECH e-Handbook, 1.3.5.17.3 (Rosner's 54 values, 5 %), from memory.
    found = [critical_grubbs(count, 0.05) for count in (54, 53, 52)]
    assert found == pytest.approx([3.158794, 3.151430, 3.143890], abs=6e-6)


@pytest.mark.parametrize(
    ("values", "index"),
    [
        ([249.0, 248.0, 189.0, 248.4, 249.2, 250.0, 186.0, 249.1], 2),
        ([186.0, 249.0, 248.0, 248.4, 249.2, 250.0, 249.1, 189.0], 7),
        ([249.0, 310.0, 248.0, 248.4, 249.2, 250.0, 249.1, 190.0], 7),
        ([249.0, 248.0, 248.4, 249.2, 250.0, 249.1, 186.0], None),
        ([249.0, 248.0, 248.4, 249.2, 250.0, 249.1], None),
        ([249.0, 248.0, 248.4, 189.0, 186.0], None),
    ],
    ids=["masked", "first is far", "both sides", "one only", "none", "too few"],
)
def test_two_that_hide_each_other(values: list[float], index: int | None) -> None:
    found = second_outlier(values, grubbs_test(values))
    assert (None if found is None else found.index) == index


@pytest.mark.parametrize(("count", "most"), [(6, 0.018), (10, 0.0133)])
def test_chance_makes_one_or_two_outliers_as_rarely_as_stated(count: int, most: float) -> None:
    sets = np.random.default_rng(2).standard_normal((4_000, count))
    flagged = 0
    for values in sets:
        first = grubbs_test(values)
        flagged += first.verdict == "outlier" or second_outlier(values, first) is not None
    assert flagged / 4_000 == pytest.approx(most, abs=3 * math.sqrt(most / 4_000))
