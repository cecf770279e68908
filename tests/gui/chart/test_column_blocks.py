"""Columns put together fill the same as one by one."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from gui.chart.column_blocks import BLOCK, in_blocks

HEIGHT, FINE = 60, 4


def filled(rects: NDArray[np.float64], columns: int) -> NDArray[np.bool_]:
    """Which quarters of pixels are filled, by brute force."""
    found = np.zeros((columns, HEIGHT * FINE), dtype=bool)
    for left, top, width, height in rects:
        begin, end = round(top * FINE), round((top + height) * FINE)
        found[round(left) : round(left + width), begin:end] = True
    return found


@settings(max_examples=60, deadline=None)
@given(
    number=st.lists(st.integers(0, 6 * BLOCK), unique=True, max_size=6 * BLOCK).map(sorted),
    is_band=st.booleans(),
    seed=st.integers(0, 1000),
)
def test_the_same_is_filled(number: list[int], is_band: bool, seed: int) -> None:
    random = np.random.default_rng(seed)
    numbers = np.arange(4 * BLOCK) if is_band else np.array(number, dtype=np.int64)
    top = np.round(random.uniform(0, 25, numbers.size) * FINE) / FINE
    bottom = np.round(random.uniform(26, HEIGHT, numbers.size) * FINE) / FINE
    rects = np.stack([numbers.astype(float), top, np.ones(numbers.size), bottom - top], axis=1)
    columns = 6 * BLOCK + 1
    assert np.array_equal(filled(in_blocks(numbers, rects), columns), filled(rects, columns))


def test_a_band_has_far_fewer_rows_to_paint() -> None:
    number = np.arange(10 * BLOCK)
    top = 100 + np.random.default_rng(1).uniform(0, 10, number.size)
    rects = np.stack([number.astype(float), top, np.ones(number.size), np.full(number.size, 400.0)], axis=1)
    assert in_blocks(number, rects)[:, 3].sum() < 0.2 * rects[:, 3].sum()


def test_what_has_nothing_in_common_stays_as_it_is() -> None:
    number = np.arange(BLOCK)
    rects = np.stack([number.astype(float), 50.0 * number, np.ones(BLOCK), np.full(BLOCK, 40.0)], axis=1)
    assert np.array_equal(in_blocks(number, rects), rects)
    assert in_blocks(number[:0], rects[:0]).shape == (0, 4)
