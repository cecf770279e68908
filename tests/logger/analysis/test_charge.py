"""Charge from irregular samples with gaps."""

import time

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from logger.analysis.charge import charge, gap_limit_s
from logger.analysis.refusal import Refused

# Worked example, independent hand computation: 1.13175 C, of which 0.7245 C in the gap from 30 to 100 s.
TIMES_S = [0, 10, 25, 30, 100, 110]
CURRENT_A = 1e-3 * np.array([10, 10.2, 10.1, 10.3, 10.4, 10.2])


def slow_charge(
    times: NDArray[np.float64], current: NDArray[np.float64], limit_s: float
) -> tuple[float, float]:
    """A second implementation: one interval after the other. Returns sampled and gap charge."""
    sampled = gap = 0.0
    for k in range(len(times) - 1):
        step = times[k + 1] - times[k]
        piece = 0.5 * (current[k] + current[k + 1]) * step
        if step > limit_s:
            gap += piece
        else:
            sampled += piece
    return sampled, gap


def test_the_worked_example() -> None:
    got = charge(TIMES_S, CURRENT_A, greatest_current_A=0.011)
    assert got.best_C == pytest.approx(1.13175, abs=1e-12)
    assert got.low_C == pytest.approx(0.40725, abs=1e-12)
    assert got.best_C - got.low_C == pytest.approx(0.7245, abs=1e-12)
    assert got.high_C == pytest.approx(0.40725 + 0.011 * 70, abs=1e-12)
    assert (got.gaps, got.bridged_gaps, got.gap_s, got.sampled_s) == (1, 1, 70.0, 40.0)
    assert got.gap_limit_s == 50.0


def test_it_agrees_with_the_trapezoid_of_scipy_where_there_is_no_gap() -> None:
    integrate = pytest.importorskip("scipy.integrate")
    rng = np.random.default_rng(7)
    times = np.cumsum(rng.uniform(0.1, 2.0, 5000))
    current = rng.normal(2e-3, 1e-4, 5000)
    got = charge(times, current)
    assert got.best_C == pytest.approx(integrate.trapezoid(current, times), rel=1e-12)
    assert got.low_C == got.best_C == got.high_C
    assert got.gaps == 0


@given(st.lists(st.tuples(st.floats(0.0, 200.0), st.floats(1e-4, 1e-2)), min_size=2, max_size=40))
def test_it_agrees_with_the_slow_way(parts: list[tuple[float, float]]) -> None:
    times = np.cumsum([step for step, _ in parts])
    current = np.array([value for _, value in parts])
    got = charge(times, current, greatest_current_A=1e-2)
    sampled, gap = slow_charge(times, current, got.gap_limit_s)
    assert got.low_C == pytest.approx(sampled, rel=1e-9, abs=1e-12)
    assert got.best_C == pytest.approx(sampled + gap, rel=1e-9, abs=1e-12)
    assert got.high_C is not None
    assert got.low_C - 1e-12 <= got.best_C <= got.high_C * (1 + 1e-9) + 1e-12


def test_a_run_need_not_begin_at_zero() -> None:
    later = charge(np.array(TIMES_S) + 1000.0, CURRENT_A)
    assert (later.sampled_s, later.gap_s) == (40.0, 70.0)
    assert later.best_C == pytest.approx(1.13175, abs=1e-12)


def test_a_step_as_long_as_the_limit_is_no_gap() -> None:
    assert charge([0, 1, 2, 12], [1e-3] * 4).gaps == 0
    assert charge([0, 1, 2, 12.001], [1e-3] * 4).gaps == 1


def test_an_event_inside_a_gap_forbids_the_bridge() -> None:
    for moment in (30.0, 60.0, 100.0):
        got = charge(TIMES_S, CURRENT_A, events_s=[moment])
        assert got.best_C == got.low_C
        assert got.bridged_gaps == 0
    assert charge(TIMES_S, CURRENT_A, events_s=[29.0, 101.0]).bridged_gaps == 1


def test_a_gap_beside_an_open_cell_is_not_bridged() -> None:
    active = [True, True, True, True, False, False]
    got = charge(TIMES_S, CURRENT_A, electrolysing=active)
    assert got.best_C == got.low_C
    assert got.low_C == pytest.approx(0.30425, abs=1e-12)  # 0 to 30 s alone, by hand


def test_without_the_supply_the_upper_bound_of_a_gap_is_not_known() -> None:
    assert charge(TIMES_S, CURRENT_A).high_C is None


def test_an_open_cell_carries_no_current_even_on_an_overloaded_meter() -> None:
    current = np.array([np.inf, -np.inf, 2e-3, 2e-3])
    got = charge([0, 1, 2, 3], current, electrolysing=[False, False, True, True])
    assert got.best_C == pytest.approx(0.5 * 2e-3 + 2e-3)
    assert got.missing_samples == 0


def test_a_missing_reading_is_never_a_zero() -> None:
    current = np.array([2e-3, np.nan, 2e-3, 2e-3])
    got = charge([0, 1, 2, 3], current, electrolysing=[True, False, True, True])
    assert got.best_C == pytest.approx(6e-3)
    assert got.missing_samples == 1


def test_a_long_stretch_of_missing_readings_is_a_gap() -> None:
    times = np.arange(100.0)
    current = np.full(100, 2e-3)
    current[20:60] = np.nan
    got = charge(times, current, greatest_current_A=3e-3)
    assert got.gaps == 1
    assert got.gap_s == 41.0
    assert got.best_C == pytest.approx(99 * 2e-3)
    assert got.low_C == pytest.approx(58 * 2e-3)


def test_exact_duplicates_and_simultaneous_samples_are_counted_and_add_nothing() -> None:
    plain = charge([0, 1, 2], [1e-3, 1e-3, 2e-3])
    doubled = charge([0, 1, 1, 2, 2], [1e-3, 1e-3, 1e-3, 2e-3, 3e-3])
    assert doubled.best_C == plain.best_C
    assert (doubled.repeated_samples, doubled.simultaneous_samples) == (1, 1)


def test_reversed_leads_give_the_magnitude_and_say_so() -> None:
    got = charge(TIMES_S, -CURRENT_A, greatest_current_A=0.011)
    assert got.is_reversed
    assert got.best_C == pytest.approx(1.13175, abs=1e-12)
    assert not charge(TIMES_S, CURRENT_A).is_reversed


def test_noise_around_zero_is_no_reversed_current() -> None:
    current = np.random.default_rng(3).normal(0, 1e-6, 1000)
    current -= current.mean() + 1e-8
    got = charge(np.arange(1000.0), current)
    assert got.best_C < 0
    assert not got.is_reversed


def test_the_gap_limit_follows_the_median_step() -> None:
    assert gap_limit_s(np.array([1.0, 1.0, 1.0])) == 10.0
    assert gap_limit_s(np.array([4.0, 4.0, 100.0])) == 20.0
    assert gap_limit_s(np.array([0.0, 0.0, 0.0, 4.0, 4.0])) == 20.0
    assert gap_limit_s(np.array([0.0])) == 10.0


def test_ten_million_samples_take_well_under_a_second() -> None:
    count = 10_000_000
    times = np.arange(count) * 0.01
    current = np.full(count, 2e-3)
    active = np.ones(count, dtype=bool)
    quickest = min(_seconds(times, current, active) for _ in range(3))
    assert quickest < 1.0


def _seconds(times: NDArray[np.float64], current: NDArray[np.float64], active: NDArray[np.bool_]) -> float:
    began = time.thread_time()
    got = charge(times, current, electrolysing=active)
    assert got.best_C == pytest.approx(2e-3 * times[-1], rel=1e-9)
    return time.thread_time() - began


@pytest.mark.parametrize(
    ("times_s", "current_A", "words"),
    [
        ([0, 2, 1], [1, 1, 1], r"1 after 2 \(sample 2\) is refused, time must not run backwards"),
        ([0, 1], [1, 1, 1], "vectors of one length"),
        ([[0, 1]], [[1, 1]], "vectors of one length"),
        ([0, np.nan], [1, 1], "not a finite number"),
        ([0], [1], "at least two samples"),
        ([], [], "at least two samples"),
        ([0, 1, 2], [np.nan, 1, np.nan], "at least two samples"),
    ],
)
def test_samples_that_are_no_record_are_refused(
    times_s: list[float], current_A: list[float], words: str
) -> None:
    with pytest.raises(Refused, match=words):
        charge(times_s, current_A)


def test_a_mask_of_another_length_and_an_impossible_supply_are_refused() -> None:
    with pytest.raises(Refused, match="electrolysing"):
        charge([0, 1], [1, 1], electrolysing=[True])
    with pytest.raises(Refused, match="greatest current"):
        charge([0, 1], [1, 1], greatest_current_A=0.0)
