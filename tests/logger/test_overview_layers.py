"""A guess where a time must lie finds the same as a search."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logger.overview_layers import count_less


@settings(max_examples=200)
@given(
    count=st.integers(1, 5000),
    limits=st.integers(0, 300),
    jitter=st.sampled_from([0.0, 1e-9, 0.3, 30.0]),
    begin=st.floats(-1.5, 1.5),
    span=st.sampled_from([0.0, 1e-6, 0.01, 1.0, 4.0, 1e9]),
    seed=st.integers(0, 1000),
)
def test_the_guess_finds_what_a_search_finds(
    count: int, limits: int, jitter: float, begin: float, span: float, seed: int
) -> None:
    random = np.random.default_rng(seed)
    times = np.sort(np.arange(count) + jitter * random.standard_normal(count))
    sought = count * (begin + span * np.linspace(0, 1, limits))
    assert np.array_equal(count_less(times, sought), np.searchsorted(times, sought))


@pytest.mark.parametrize("of_times", [np.ones(500), np.repeat(np.arange(50.0), 10), np.arange(500.0) ** 3])
def test_equal_and_uneven_times(of_times: np.ndarray) -> None:
    sought = np.sort(np.concatenate([of_times, of_times + 0.5, [-1.0, 1e12]]))
    assert np.array_equal(count_less(of_times, sought), np.searchsorted(of_times, sought))
