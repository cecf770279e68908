"""Columns filled row by row fill the same as one by one."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from gui.chart.column_rows import ROWS, Band

HEIGHT = 5 * ROWS
COLUMNS = 200

Bounds = NDArray[np.int64]


def one_by_one(bounds: Bounds) -> NDArray[np.int64]:
    """How often each pixel is filled, by brute force."""
    found = np.zeros((HEIGHT, COLUMNS + 1), dtype=np.int64)
    for first, top, last, bottom in bounds:
        found[top:bottom, first : last + 1] += 1
    return found


def by_rows(bounds: Bounds) -> NDArray[np.int64]:
    band = Band(bounds)
    found = one_by_one(band.rectangles())
    for column, row, is_filled in band.strips():
        assert len(is_filled) <= ROWS
        rows, columns = is_filled.shape
        found[row : row + rows, column : column + columns] += is_filled
    return found


def columns(number: NDArray[np.int64], top: NDArray[np.int64], bottom: NDArray[np.int64]) -> Bounds:
    return np.stack([number, top, number, bottom], axis=1)


@settings(max_examples=100)
@given(
    number=st.lists(st.integers(0, COLUMNS - 1), unique=True, min_size=1, max_size=COLUMNS).map(sorted),
    has_holes=st.booleans(),
    highest=st.sampled_from([25, ROWS, 3 * ROWS]),
    seed=st.integers(0, 1000),
)
def test_the_same_is_filled_and_nothing_twice(
    number: list[int], has_holes: bool, highest: int, seed: int
) -> None:
    random = np.random.default_rng(seed)
    numbers = np.array(number, dtype=np.int64) if has_holes else np.arange(3, 150)
    top = random.integers(0, highest, numbers.size)
    bottom = np.maximum(random.integers(HEIGHT - highest, HEIGHT, numbers.size), top + 1)
    bounds = columns(numbers, top, bottom)
    assert np.array_equal(by_rows(bounds), one_by_one(bounds))


@settings(max_examples=50)
@given(
    above=st.integers(1, HEIGHT - 1), highest=st.sampled_from([25, ROWS, 3 * ROWS]), seed=st.integers(0, 1000)
)
def test_a_band_that_was_scrolled_out_of_the_window_is_filled_alike(
    above: int, highest: int, seed: int
) -> None:
    """Rows were counted without a sign: the picture was not painted, by a fault of the program."""
    random = np.random.default_rng(seed)
    top = random.integers(0, highest, 120)
    bottom = np.maximum(random.integers(HEIGHT - highest, HEIGHT, top.size), top + 1)
    there = columns(np.arange(top.size), top, bottom)
    scrolled = there - np.array([0, above, 0, above])
    back = Band(scrolled)
    found = one_by_one(back.rectangles() + np.array([0, above, 0, above]))
    for column, row, is_filled in back.strips():
        rows, width = is_filled.shape
        found[row + above : row + above + rows, column : column + width] += is_filled
    assert np.array_equal(found, one_by_one(there))


def test_a_column_two_pixels_wide_has_both() -> None:
    bounds = np.array([[4, 10, 4, 90], [5, 20, 6, 80], [7, 15, 7, 95]])
    assert np.array_equal(by_rows(bounds), one_by_one(bounds))


def test_a_band_has_its_rows_in_common_and_one_with_a_hole_has_none() -> None:
    number = np.arange(50)
    top = 20 + number % 7
    bounds = columns(number, top, np.full(number.size, 200))
    assert Band(bounds).rectangles()[0].tolist() == [0, 26, 49, 200]
    with_hole = Band(np.delete(bounds, 20, axis=0)).rectangles()
    assert np.array_equal(with_hole[:, 0], with_hole[:, 2])


def test_no_rows_are_told_for_spikes_of_a_few_columns() -> None:
    number = np.arange(COLUMNS)
    top, bottom = 100 + number % 7, np.full(COLUMNS, 200)
    top[[20, 90]], bottom[[50, 51]] = 3, HEIGHT  # columns that reach far out of the band
    top[120], bottom[120] = 10, 30  # and one that lies outside it as a whole
    bounds = columns(number, top, bottom)
    rows = {row + k for _, row, is_filled in Band(bounds).strips() for k in range(len(is_filled))}
    assert rows <= set(range(100, 200))
    assert np.array_equal(by_rows(bounds), one_by_one(bounds))


def test_only_a_band_is_worth_it() -> None:
    number = np.arange(COLUMNS)
    assert Band(columns(number, number % 9, np.full(COLUMNS, 100))).is_dense
    assert not Band(columns(number, number, number + 10)).is_dense
