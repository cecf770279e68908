"""The drawn curve touches everything that was measured and nothing that was not."""

from __future__ import annotations

import numpy as np

from logger.overview import Overview
from logger.recording import Gap
from logger.trace import trace


def test_few_samples_are_drawn_themselves() -> None:
    times_s = np.arange(10.0)
    found = trace(Overview.of(times_s, times_s / 10), 0.0, 0.1, 100)
    assert found.number.size == 0
    assert len(found.lines) == 1
    assert found.lines[0][1].tolist() == (times_s / 10).tolist()


def test_a_line_breaks_at_gaps_and_overload() -> None:
    times_s = np.arange(8.0)
    values = np.array([2.0, 2.1, 2.2, np.inf, 2.4, 2.5, 2.6, 2.7])
    overview = Overview.of(times_s, values, gaps=[Gap(5.2, 5.9, "cell_voltage", "unplugged")])
    lines = trace(overview, 0.0, 0.1, 100).lines
    assert [v.tolist() for _, v in lines] == [[2.0, 2.1, 2.2], [2.4, 2.5], [2.6, 2.7]]


def test_dense_columns_touch_their_neighbours_and_never_leave_out_a_sample() -> None:
    times_s = np.arange(100_000) / 100
    values = 2 + 0.2 * np.sin(times_s / 50) + 0.001 * np.random.default_rng(0).standard_normal(times_s.size)
    found = trace(Overview.of(times_s, values), 0.0, 1.0, 1000)
    assert found.number.tolist() == list(range(1000))
    low_V, high_V = found.touching_V()
    assert (low_V <= found.columns.low).all()
    assert (high_V >= found.columns.high).all()
    assert (low_V[1:] <= high_V[:-1]).all()
    assert (high_V[1:] >= low_V[:-1]).all()
    # Stretching ends half-way to the neighbour: no column reaches beyond its neighbours' samples.
    beyond = np.maximum(found.columns.high[:-2], found.columns.high[2:])
    assert (high_V[1:-1] <= np.maximum(beyond, found.columns.high[1:-1])).all()


def test_columns_do_not_join_over_a_gap_but_do_over_a_slow_stretch() -> None:
    fast = np.arange(0, 100, 0.1)
    times_s = np.concatenate([fast, [110.0], 120 + fast, 260 + fast])
    values = np.full(times_s.size, 2.0)
    overview = Overview.of(times_s, values, gaps=[Gap(219.9, 260.0, "cell_voltage", "unplugged")])
    found = trace(overview, 0.0, 1.0, 400)
    spans = [(round(float(t[0])), round(float(t[1]))) for t, _ in found.lines]
    assert spans == [(100, 110), (110, 120)]


def test_nothing_recorded_draws_nothing() -> None:
    found = trace(Overview(), 0.0, 1.0, 10)
    assert found.lines == ()
    assert found.number.size == 0
