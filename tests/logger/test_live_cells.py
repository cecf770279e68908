"""Bounded stores of a run in progress."""

import numpy as np
import pytest

from logger.live_cells import LiveCells
from logger.running_charge import RunningCharge


def feed(cells, times, values, size):
    for begin in range(0, times.size, size):
        cells.add(times[begin : begin + size], values[begin : begin + size])


@pytest.mark.parametrize("size", [1, 7, 1000, 100_000])
def test_recent_cells_do_not_depend_on_the_blocks(size):
    times = np.arange(5000) / 30.0
    values = np.sin(times)
    cells = LiveCells(0.1, 400, forget=True)
    feed(cells, times, values, size)
    found_times, found = cells.last(30.0, -np.inf)
    numbers = np.floor(times / 0.1).astype(int)
    slow = np.array([values[numbers == one].mean() for one in np.unique(numbers)])
    assert found.size >= 298
    assert found == pytest.approx(slow[-found.size :], abs=1e-12)
    assert found_times[-1] - found_times[0] == pytest.approx(30.0, abs=0.2)


@pytest.mark.parametrize("size", [1, 13, 5000])
def test_the_whole_run_stays_in_bounded_memory(size):
    times = np.arange(20_000) / 4.0
    values = np.cos(times / 300.0)
    cells = LiveCells(0.1, 256, forget=False)
    feed(cells, times, values, size)
    found_times, found = cells.between(0.0, np.inf)
    assert len(cells) <= 256
    assert cells.step_s == pytest.approx(0.1 * 2**8)
    assert found == pytest.approx(np.cos(found_times / 300.0), abs=1e-3)
    # Joining keeps the weights: the mean of all readings is exact.
    counts = np.diff(np.searchsorted(times, np.r_[found_times - cells.step_s / 2, np.inf]))
    assert np.average(found, weights=counts) == pytest.approx(values.mean(), abs=2e-3)


def test_no_cell_is_made_where_nothing_was_read():
    cells = LiveCells(0.1, 100, forget=True)
    cells.add(np.array([0.05, 9.95]), np.array([1.0, 2.0]))
    assert len(cells) == 2
    assert cells.last(5.0, -np.inf)[1].tolist() == [2.0]


def test_nothing_before_a_given_time_is_returned():
    cells = LiveCells(0.1, 100, forget=True)
    assert cells.last(10.0, 0.0)[0].size == 0
    cells.add(np.arange(0, 5, 0.1) + 0.05, np.ones(50))
    assert cells.last(10.0, 4.0)[0].min() >= 4.0


@pytest.mark.parametrize("size", [1, 3, 100])
def test_running_charge_equals_the_trapezoid(size):
    """Chemistry of the check: t 0 10 25 30 100 110 s, I 10 10.2 10.1 10.3 10.4 10.2 mA gives 1.13175 C."""
    times = np.array([0.0, 10, 25, 30, 100, 110])
    current = 1e-3 * np.array([10.0, 10.2, 10.1, 10.3, 10.4, 10.2])
    passed = RunningCharge()
    for k in range(0, 6, size):
        part = slice(k, k + size)
        passed.add(times[part], current[part], np.ones(6, dtype=bool)[part])
    assert passed.total_C == pytest.approx(1.13175, abs=1e-9)


@pytest.mark.parametrize("size", [1, 2, 100])
def test_nothing_is_added_through_a_lift_out(size):
    times = np.arange(8.0)
    active = np.array([1, 1, 1, 0, 0, 1, 1, 1], dtype=bool)
    passed = RunningCharge()
    for k in range(0, 8, size):
        part = slice(k, k + size)
        passed.add(times[part], np.full(8, 0.002)[part], active[part])
    assert passed.total_C == pytest.approx(4 * 0.002)


def test_cells_that_are_moved_in_pieces_stay_what_they_were():
    """More cells than are moved at a time, of one reading each."""
    times_s = np.arange(20_000) * 0.1 + 0.05
    for size in (1, 700, 2500):
        cells = LiveCells(0.1, 2500, forget=True)
        for begin in range(0, times_s.size, size):
            cells.add(times_s[begin : begin + size], np.sin(times_s[begin : begin + size]))
        found_s, values = cells.last(250.0, 0.0)
        assert np.allclose(found_s, times_s[-found_s.size :])
        assert np.allclose(values, np.sin(found_s))
        assert found_s.size >= 2499
