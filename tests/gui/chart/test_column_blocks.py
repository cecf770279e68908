"""Columns put together fill the same as one by one."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from gui.chart.column_blocks import HIGH_ENOUGH, in_blocks

HEIGHT = 3 * HIGH_ENOUGH
COLUMNS = 200


def filled(bounds: NDArray[np.int64]) -> NDArray[np.int64]:
    """How often each pixel is filled, by brute force."""
    found = np.zeros((COLUMNS + 80, HEIGHT), dtype=np.int64)
    for first, top, last, bottom in bounds:
        found[first : last + 1, top:bottom] += 1
    return found


@settings(max_examples=60, deadline=None)
@given(
    number=st.lists(st.integers(0, COLUMNS - 1), unique=True, min_size=1, max_size=COLUMNS).map(sorted),
    is_band=st.booleans(),
    seed=st.integers(0, 1000),
)
def test_the_same_is_filled_and_nothing_twice(number: list[int], is_band: bool, seed: int) -> None:
    random = np.random.default_rng(seed)
    numbers = np.arange(3, 150) if is_band else np.array(number, dtype=np.int64)
    top = random.integers(0, 25, numbers.size)
    bottom = random.integers(2 * HIGH_ENOUGH if is_band else 25, HEIGHT, numbers.size)
    one_by_one = np.stack([numbers, top, numbers, bottom], axis=1)
    assert np.array_equal(filled(in_blocks(numbers, top, bottom)), filled(one_by_one))


def test_a_band_has_far_fewer_rows_to_paint() -> None:
    number = np.arange(320)
    top = 100 + np.random.default_rng(1).integers(0, 10, number.size)
    bounds = in_blocks(number, top, np.full(number.size, 500))
    assert (bounds[:, 3] - bounds[:, 1]).sum() < 0.1 * (500 - top).sum()


def test_low_columns_stay_as_they_are() -> None:
    number = np.arange(320)
    top = np.full(number.size, 100)
    bottom = top + HIGH_ENOUGH - 1
    assert np.array_equal(in_blocks(number, top, bottom), np.stack([number, top, number, bottom], axis=1))


def test_what_has_nothing_in_common_stays_as_it_is() -> None:
    number = np.arange(16)
    top = 250 * number
    bounds = in_blocks(number, top, top + 200)
    assert np.array_equal(bounds, np.stack([number, top, number, top + 200], axis=1))
    assert in_blocks(number[:0], top[:0], top[:0]).shape == (0, 4)
