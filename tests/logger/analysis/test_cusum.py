"""The cumulative sum chart, against published run lengths and deterministic alarms."""

import numpy as np
import pytest

from drivers.simulated.portable_noise import normals
from logger.analysis.cusum import cusum_alarm, one_sided_sums
from logger.analysis.refusal import Refused


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


@pytest.mark.parametrize(("shift", "length"), [(0.0, 168.0), (0.5, 26.6), (1.0, 8.38), (2.0, 3.34)])
def test_average_run_lengths(shift, length):
    """Lucas & Crosier 1982, table 1: h 4, k 0.5, two-sided."""
    random = np.random.default_rng(1982)
    runs = [cusum_alarm(shift + random.normal(size=3000), limit=4.0).index + 1 for _ in range(1500)]
    assert np.mean(runs) == pytest.approx(length, rel=0.12)


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
