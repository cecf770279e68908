"""Replicate runs and blanks, against scipy."""

import math
from collections.abc import Callable

import pytest

from logger.analysis.refusal import Refused
from logger.analysis.replicates import against_blanks, replicates

RUNS_mV = [254.6, 249.1, 258.3, 251.7]
BLANKS_mV = [3.1, -1.4, 2.2]


def test_replicates_of_the_example() -> None:
    # Independent computation with scipy 1.17.1.
    got = replicates(RUNS_mV)
    assert got.count == 4
    assert got.mean == pytest.approx(253.425)
    assert got.standard_deviation == pytest.approx(3.950844, abs=6e-7)
    assert got.standard_uncertainty == pytest.approx(1.975422, abs=6e-7)
    assert got.degrees_of_freedom == 3
    assert got.coverage_factor == pytest.approx(3.182446, abs=6e-7)
    assert got.expanded_uncertainty == pytest.approx(6.286674, abs=6e-7)
    assert got.interval95 == pytest.approx((253.425 - 6.286674, 253.425 + 6.286674), abs=6e-7)


def test_runs_against_blanks_of_the_example() -> None:
    got = against_blanks(RUNS_mV, BLANKS_mV)
    assert got.difference == pytest.approx(252.125)
    assert got.degrees_of_freedom == pytest.approx(4.889332, abs=6e-7)
    assert got.interval95 == pytest.approx((245.89598, 258.35402), abs=6e-6)
    assert got.p_value == pytest.approx(2.2e-9, abs=5e-11)


def test_blanks_agree_with_scipy() -> None:
    stats = pytest.importorskip("scipy.stats")
    runs, blanks = [1.0, 2.5, 1.7], [0.9, 1.1, 2.2, 1.3, 0.2]
    theirs = stats.ttest_ind(runs, blanks, equal_var=False)
    interval = theirs.confidence_interval(0.95)
    ours = against_blanks(runs, blanks)
    assert ours.p_value == pytest.approx(theirs.pvalue, rel=1e-9)
    assert ours.degrees_of_freedom == pytest.approx(theirs.df, rel=1e-12)
    assert ours.interval95 == pytest.approx((interval.low, interval.high), rel=1e-9)


def test_replicates_agree_with_scipy() -> None:
    stats = pytest.importorskip("scipy.stats")
    theirs = stats.ttest_1samp(RUNS_mV, 0.0).confidence_interval(0.95)
    assert replicates(RUNS_mV).interval95 == pytest.approx((theirs.low, theirs.high), rel=1e-9)


def test_one_group_may_be_without_scatter() -> None:
    assert against_blanks([1.0, 2.0, 3.0], [0.0, 0.0]).degrees_of_freedom == pytest.approx(2.0)


@pytest.mark.parametrize(
    ("attempt", "words"),
    [
        (lambda: replicates([]), "replicate runs: 0"),
        (lambda: replicates([254.6]), "give two runs at least"),
        (lambda: replicates([254.6, math.nan]), "not a finite number"),
        (lambda: replicates([[1.0, 2.0]]), "replicate runs"),
        (lambda: against_blanks([1.0, 2.0], [1.0]), "blank runs: 1"),
        (lambda: against_blanks([1.0, 1.0], [2.0, 2.0]), "no scatter"),
    ],
)
def test_too_few_runs_are_refused(attempt: Callable[[], object], words: str) -> None:
    with pytest.raises(Refused, match=words):
        attempt()
