"""Equal steps without inventing readings."""

import numpy as np
import pytest

from logger.analysis.grid import uniform_grid


def test_regular_samples_stay_as_they_are():
    times = 10.0 + 0.4 * np.arange(500)
    values = np.sin(times)
    grid = uniform_grid(times, values)
    assert grid.step_s == pytest.approx(0.4)
    assert grid.values == pytest.approx(values)
    assert grid.times_s == pytest.approx(times)
    assert grid.missing == 0


def test_jitter_neither_loses_nor_doubles_a_sample():
    random = np.random.default_rng(1)
    times = 0.4 * np.arange(2000) + random.uniform(-0.08, 0.08, 2000)
    grid = uniform_grid(times, np.ones(2000))
    assert len(grid) == pytest.approx(2000, abs=10)
    assert grid.missing <= 10


def test_every_value_is_a_mean_of_samples_and_none_is_invented():
    random = np.random.default_rng(2)
    times = np.sort(random.uniform(0, 300, 400))
    values = random.normal(size=400)
    grid = uniform_grid(times, values)
    counts = [np.sum(np.abs(times - at) <= grid.step_s) for at in grid.times_s]
    assert min(counts) >= 1
    assert grid.values.min() >= values.min()
    assert grid.values.max() <= values.max()
    # Every sample is used exactly once: the weighted mean is kept.
    edges = np.searchsorted(times, grid.times_s)
    assert edges.size == len(grid)


def test_irregular_samples_get_wider_cells_until_nearly_all_are_occupied():
    random = np.random.default_rng(3)
    times = np.cumsum(random.exponential(0.5, 3000))
    grid = uniform_grid(times, np.ones(3000))
    assert grid.missing / (len(grid) + grid.missing) < 0.02


def test_many_samples_are_averaged_to_few_cells():
    times = np.arange(200_000) / 1000.0
    values = np.arange(200_000.0)
    grid = uniform_grid(times, values, most_cells=1000)
    assert len(grid) == 1000
    assert grid.step_s == pytest.approx(0.2)
    assert grid.values.mean() == pytest.approx(values.mean())


def test_a_gap_is_left_out_and_reported():
    times = np.r_[np.arange(0, 100, 0.5), np.arange(130, 200, 0.5)]
    grid = uniform_grid(times, np.ones(times.size))
    assert grid.longest_gap_s == pytest.approx(30.5)
    assert grid.missing == pytest.approx(60, abs=1)
    assert "tenth" in grid.gap_refusal
    assert grid.last(60.0).gap_refusal == ""


def test_a_short_gap_is_tolerated():
    times = np.r_[np.arange(0, 100, 0.5), np.arange(110, 200, 0.5)]
    assert uniform_grid(times, np.ones(times.size)).gap_refusal == ""


def test_the_tail_has_the_length_asked_for():
    times = 0.4 * np.arange(1000)
    tail = uniform_grid(times, times).last(100.0)
    assert tail.length_s == pytest.approx(100.0, abs=0.21)
    assert tail.times_s[-1] == times[-1]


def test_two_readings_at_one_time_share_a_cell():
    times = np.repeat(np.arange(100.0), 2)
    grid = uniform_grid(times, np.tile([1.0, 3.0], 100))
    assert len(grid) == 100
    assert grid.values == pytest.approx(np.full(100, 2.0))


@pytest.mark.parametrize("times", [[], [1.0], [1.0, 1.0]])
def test_one_time_is_no_grid(times):
    with pytest.raises(ValueError, match="times"):
        uniform_grid(np.array(times), np.ones(len(times)))
