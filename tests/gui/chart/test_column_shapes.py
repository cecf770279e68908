"""Which pixels a curve fills, beside brute force."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from gui.chart.column_shapes import Columns, columns_of_lines, shapes

THICK = 1.7


@settings(max_examples=100)
@given(
    count=st.integers(1, 40),
    points=st.integers(2, 60),
    breaks=st.floats(0, 0.5),
    seed=st.integers(0, 1000),
)
def test_lines_fill_the_columns_they_pass_through(count: int, points: int, breaks: float, seed: int) -> None:
    random = np.random.default_rng(seed)
    x = np.sort(random.uniform(-0.3 * count, 1.3 * count, points))
    y = random.uniform(0, 100, points)
    is_joined = random.uniform(size=points - 1) >= breaks
    found = columns_of_lines(x, y, is_joined, count)
    for k in range(count):
        inside = (x >= k) & (x < k + 1)
        heights = y[inside].tolist()
        for edge in (k, k + 1):
            after = int(np.searchsorted(x, edge, side="right"))
            if 0 < after < points and is_joined[after - 1]:
                heights.append(float(np.interp(edge, x, y)))
        at = np.flatnonzero(found.number == k)
        assert at.size == bool(heights)
        if heights:
            assert np.allclose((found.top[at[0]], found.bottom[at[0]]), (min(heights), max(heights)))


def test_nothing_joins_columns_over_a_break() -> None:
    x, y = np.array([0.2, 1.4, 2.3, 3.6]), np.array([10.0, 20.0, 60.0, 70.0])
    found = columns_of_lines(x, y, np.array([True, False, True]), 4)
    assert found.number.tolist() == [0, 1, 2, 3]
    assert found.is_joined.tolist() == [True, False, True]


def columns(top: np.ndarray, bottom: np.ndarray, number: np.ndarray | None = None) -> Columns:
    number = np.arange(top.size) if number is None else number
    return Columns(number, top, bottom, np.diff(number) == 1)


@settings(max_examples=100)
@given(
    before=st.integers(1, 40),
    after=st.integers(1, 40),
    gap=st.integers(1, 60),
    height=st.sampled_from([1.0, 20.0, 200.0]),
    seed=st.integers(0, 1000),
)
def test_what_lies_beyond_a_gap_changes_nothing_before_it(
    before: int, after: int, gap: int, height: float, seed: int
) -> None:
    """Readings after a gap changed how the noise before it is filled, which kept its picture: a seam."""
    random = np.random.default_rng(seed)
    number = np.r_[0:before, before + gap + 16 : before + gap + 16 + after]
    middle, size = random.uniform(0, height, number.size), random.uniform(0, 60, number.size)
    whole = columns(middle - size, middle + size, number)
    alone = columns(whole.top[:before], whole.bottom[:before])
    found, wanted = shapes(whole, THICK, 1.0), shapes(alone, THICK, 1.0)
    part = slice(wanted.number.size)
    assert np.array_equal(found.number[part], wanted.number)
    assert np.array_equal(found.is_inside[part], wanted.is_inside)
    smooth = ~wanted.is_inside
    assert np.array_equal(found.is_thicket[part][smooth], wanted.is_thicket[smooth])


def test_a_single_reading_between_overloads_is_a_dot_also_beside_other_columns() -> None:
    """A column that is joined to none of its neighbours was not drawn at all."""
    number = np.arange(5)
    top = np.array([10.0, 40.0, 70.0, 71.0, 20.0])
    is_joined = np.array([False, False, True, False])
    found = shapes(Columns(number, top, top, is_joined), THICK, 1.0)
    assert found.number.size == 0
    assert found.segments.tolist() == [[2.5, 70.0, 3.5, 71.0]]
    assert found.dots.tolist() == [[0.0, 10.0, 1.0, 10.0], [1.0, 40.0, 2.0, 40.0], [4.0, 20.0, 5.0, 20.0]]


def test_a_flat_curve_is_a_line_and_a_lone_column_a_dot() -> None:
    number = np.array([0, 1, 2, 3, 7])
    flat = np.full(5, 30.0)
    found = shapes(columns(flat, flat + 0.5, number), THICK, 1.0)
    assert found.number.size == 0
    assert found.segments[:, 0].tolist() == [0.5, 1.5, 2.5]
    assert found.dots.tolist() == [[7.0, 30.25, 8.0, 30.25]]


def test_far_neighbours_in_noise_are_stretched_until_they_touch() -> None:
    top = np.array([10.0, 60.0, 10.0, 60.0])
    found = shapes(columns(top, top + 20), THICK, 1.0)
    assert len(found.segments) == 0
    for at in range(3):
        assert max(found.top[at], found.top[at + 1]) <= min(found.bottom[at], found.bottom[at + 1])


@settings(max_examples=200)
@given(
    count=st.integers(2, 80),
    apart=st.sampled_from([0.5, 1.0, 2.0, 3.0, 5.0, 30.0]),
    height=st.sampled_from([0.0, 1.0, 2.0, 4.0, 30.0]),
    seed=st.integers(0, 1000),
)
def test_every_column_is_drawn_and_none_parts_from_its_neighbour(
    count: int, apart: float, height: float, seed: int
) -> None:
    random = np.random.default_rng(seed)
    middle = apart * random.choice([0.0, 1.0, random.uniform()], count) + 50
    half = 0.5 * height * random.choice([0.0, 1.0, random.uniform()], count)
    found = shapes(columns(middle - half, middle + half), THICK, 1.0)
    filled = {int(n): (t, b) for n, t, b in zip(found.number, found.top, found.bottom, strict=True)}
    filled |= {int(n): (y - THICK / 2, y + THICK / 2) for n, y, _, _ in found.dots}
    lines = {int(left) for left in found.segments[:, 0]}
    ends = lines | {k + 1 for k in lines}
    filled = {int(k): (middle[k] - THICK / 2, middle[k] + THICK / 2) for k in ends} | filled
    assert set(filled) == set(range(count))
    for k in set(range(count - 1)) - lines:
        (top, bottom), (next_top, next_bottom) = filled[k], filled[k + 1]
        assert min(bottom, next_bottom) >= max(top, next_top) - 1e-9


def test_a_flicker_of_the_last_digit_is_drawn_where_it_crowds() -> None:
    """Flat columns that are stretched half-way to their neighbours would be too low to be filled."""
    middle = np.tile([10.0, 12.0], 20)
    found = shapes(columns(middle, middle), THICK, 1.0)
    assert len(found.segments) == middle.size - 1


def test_noise_is_a_thicket_and_a_slope_is_not() -> None:
    noise = np.random.default_rng(2).uniform(0, 300, 200)
    assert shapes(columns(noise, noise + 20), THICK, 1.0).is_thicket.mean() > 0.9
    slope = 900 * np.exp(-np.arange(200) / 20.0)
    steep = shapes(columns(slope, np.append(900.0, slope[:-1])), THICK, 1.0)
    assert steep.number.size > 20
    assert not steep.is_thicket.any()


def test_the_inside_of_a_band_is_told_from_a_spike() -> None:
    top, bottom = np.full(50, 100.0), np.full(50, 200.0)
    top[20] = -200.0
    found = shapes(columns(top, bottom), THICK, 1.0)
    assert np.flatnonzero(~found.is_inside).tolist() == [20]
