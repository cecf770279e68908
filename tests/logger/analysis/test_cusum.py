"""The cumulative sum chart, against published run lengths and deterministic alarms."""

import numpy as np
import pytest
from scipy.signal import lfilter

from drivers.simulated.portable_noise import normals
from logger.analysis.cusum import cusum_alarm, one_sided_sums
from logger.analysis.refusal import Refused
from tests.logger.analysis.run_lengths import one_sided_run_length, two_sided_run_length


@pytest.mark.parametrize(
    ("shift", "index", "total"), [(-1.0, 322, 8.247401), (-2.0, 306, 8.534129), (-4.0, 302, 9.890969)]
)
def test_a_fall_is_found(shift, index, total):
    """Portable noise g_1..g_600 with a shift from index 300; digits from an independent script."""
    values = normals(600)
    assert cusum_alarm(values) is None
    values[300:] += shift
    alarm = cusum_alarm(values)
    assert (alarm.index, alarm.is_upward) == (index, False)
    assert alarm.sum_at_alarm == pytest.approx(total, abs=1e-6)
    assert 295 <= alarm.began <= 305


@pytest.mark.parametrize(("limit", "index"), [(5.0, 564), (8.0, 3735)])
def test_false_alarms_do_happen(limit, index):
    assert cusum_alarm(normals(5000), limit=limit).index == index


SHIFTS = (0.0, 0.5, 1.0, 2.0, 4.0)

# Two-sided charts, k 0.5: limit and the run lengths at the shifts above, by the chain of Brook and Evans with
# 400 states (an independent script).
RUN_LENGTHS = {
    4.0: (167.681, 26.630, 8.383, 3.343, 1.708),
    5.0: (465.426, 37.996, 10.376, 4.009, 2.013),
    8.0: (9481.01, 83.999, 16.372, 6.009, 2.836),
    10.0: (70103.8, 124.658, 20.372, 7.343, 3.393),
}
LUCAS_CROSIER = (168.0, 26.6, 8.38, 3.34, 1.71)  # 1982, table 1: limit 4, as quoted by the R package spc


def test_the_chain_gives_the_published_run_lengths():
    """The reference itself: Brook & Evans 1972 (117.59, 3.75), Vance 1986 (124.66, 20.37), Lucas."""
    assert one_sided_run_length(3.0, 0.5) == pytest.approx(117.595, abs=5e-3)
    assert one_sided_run_length(3.0, 0.5) == pytest.approx(117.59, rel=1e-4)
    assert one_sided_run_length(3.0, 0.5, 1.5) == pytest.approx(3.74911, abs=5e-5)
    assert one_sided_run_length(3.0, 0.5, 1.5) == pytest.approx(3.75, abs=6e-3)
    assert one_sided_run_length(10.0, 0.0) == pytest.approx(124.658, abs=5e-3)
    assert one_sided_run_length(10.0, 0.0) == pytest.approx(124.66, abs=6e-3)
    assert one_sided_run_length(10.0, 0.0, 0.5) == pytest.approx(20.3719, abs=5e-4)
    assert one_sided_run_length(10.0, 0.0, 0.5) == pytest.approx(20.37, abs=6e-3)
    lengths = [two_sided_run_length(4.0, 0.5, shift) for shift in SHIFTS]
    assert lengths == pytest.approx(LUCAS_CROSIER, rel=3e-3)


@pytest.mark.parametrize("limit", RUN_LENGTHS)
def test_the_run_lengths_of_the_chain(limit):
    found = [two_sided_run_length(limit, 0.5, shift) for shift in SHIFTS]
    assert found == pytest.approx(RUN_LENGTHS[limit], rel=1e-5, abs=6e-4)


@pytest.mark.parametrize(("limit", "words"), [(5.0, 7.8), (8.0, 2.6 * 60), (10.0, 19.5 * 60)])
def test_how_often_a_false_alarm_comes_at_one_value_a_second(limit, words):
    """In minutes: 7.8 min, 2.6 h and 19.5 h."""
    assert two_sided_run_length(limit, 0.5) / 60.0 == pytest.approx(words, rel=0.02)


def mean_run_length(limit, shift, runs, longest, seed=1982):
    random = np.random.default_rng(seed)
    alarms = [cusum_alarm(shift + random.normal(size=longest), limit=limit) for _ in range(runs)]
    return np.mean([one.index + 1 for one in alarms])


@pytest.mark.parametrize(
    ("limit", "shift", "longest", "runs"),
    [
        (4.0, 0.0, 3000, 1500),
        (4.0, 0.5, 600, 1500),
        (4.0, 1.0, 200, 1500),
        (4.0, 2.0, 100, 1500),
        (4.0, 4.0, 50, 1500),
        (5.0, 0.0, 8000, 800),
        (5.0, 1.0, 200, 1500),
        (8.0, 0.5, 2000, 1500),
        (8.0, 2.0, 100, 1500),
        (10.0, 1.0, 300, 1500),
    ],
)
def test_our_chart_runs_as_long_as_the_chain_says(limit, shift, longest, runs):
    """An alarm goes off at the end of a run whose length scatters by about its own mean."""
    expected = two_sided_run_length(limit, 0.5, shift)
    assert mean_run_length(limit, shift, runs, longest) == pytest.approx(expected, rel=4 / np.sqrt(runs))


def test_a_one_sided_chart_of_ours_runs_as_long_as_brook_and_evans_say():
    """Limit 3, k 0.5: 117.59 without a shift."""
    random = np.random.default_rng(1972)
    lengths = []
    for _ in range(1500):
        over = np.flatnonzero(one_sided_sums(random.normal(size=2000), 0.5) > 3.0)
        lengths.append(over[0] + 1)
    assert np.mean(lengths) == pytest.approx(117.59, rel=4 / np.sqrt(1500))


@pytest.mark.parametrize(("phi", "length"), [(0.5, 49.0), (0.8, 30.0)])
def test_values_that_resemble_their_neighbours_raise_false_alarms(phi, length):
    """Why block means are charted: limit 5 promises 465 values (800 runs of another script: 49 and 30)."""
    random = np.random.default_rng(5)
    lengths = []
    for _ in range(800):
        steps = np.r_[random.normal(), np.sqrt(1 - phi * phi) * random.normal(size=1499)]
        lengths.append(cusum_alarm(lfilter([1.0], [1.0, -phi], steps), limit=5.0).index + 1)
    assert np.mean(lengths) == pytest.approx(length, rel=0.15)


@pytest.mark.parametrize(("shift", "found"), [(0.0, []), (-1.0, [299]), (-2.0, [299]), (-4.0, [300])])
def test_ruptures_finds_the_same_change(shift, found):
    """Pelt with the l2 cost, least length 10, penalty 3 ln 600; the chart's beginning lies beside it."""
    ruptures = pytest.importorskip("ruptures")
    values = normals(600)
    values[300:] += shift
    search = ruptures.Pelt(model="l2", min_size=10, jump=1).fit(values)
    assert search.predict(pen=3.0 * np.log(600.0)) == [*found, 600]
    alarm = cusum_alarm(values)
    assert (alarm is None) is (not found)
    if alarm is not None:
        assert abs(alarm.began - found[0]) <= 1


def test_sums_equal_the_slow_recursion():
    values, total, slow = normals(300), 0.0, []
    for value in values:
        total = max(0.0, total + value - 0.5)
        slow.append(total)
    assert one_sided_sums(values, 0.5) == pytest.approx(slow, abs=1e-12)


def test_a_rise_is_told_from_a_fall():
    assert cusum_alarm(np.r_[np.zeros(50), np.full(50, 3.0)]).is_upward


def test_nothing_has_no_alarm():
    assert cusum_alarm(np.empty(0)) is None


def test_a_missing_value_is_refused():
    with pytest.raises(Refused):
        cusum_alarm([0.0, np.nan])
