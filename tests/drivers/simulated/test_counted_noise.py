import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import kstest

from drivers.simulated.counted_noise import counters_of_times, hashes, normals, uniforms


def test_hashes_are_the_sequence_of_splitmix64() -> None:
    # First outputs for seeds 1234567 and 0, as published with many implementations (from memory).
    first = hashes(1234567, np.arange(3, dtype=np.uint64)).tolist()
    assert first == [6457827717110365317, 3203168211198807973, 9817491932198370423]
    assert hashes(0, np.arange(1, dtype=np.uint64)).tolist() == [0xE220A8397B1DCDAF]


@pytest.mark.parametrize("rate", [1, 3, 10, 1000, 100000])
def test_draws_at_even_times_are_white_and_normal(rate: int) -> None:
    # 200 000 draws: standard error of the mean 0.0022, of the deviation 0.0016, of a correlation 0.0022.
    draws = normals(5, 0, counters_of_times(np.arange(200_000) / rate))
    assert abs(draws.mean()) < 0.010
    assert abs(draws.std() - 1) < 0.007
    for lag in (1, 2, 3, rate):
        assert abs(np.mean(draws[lag:] * draws[:-lag])) < 0.010
    assert kstest(draws, "norm").pvalue > 1e-4


def test_neighbouring_seeds_and_streams_are_unrelated() -> None:
    counters = np.arange(100_000, dtype=np.uint64)
    base = normals(7, 2, counters)
    for other in (normals(8, 2, counters), normals(7, 3, counters), normals(8, 1, counters)):
        assert abs(np.corrcoef(base, other)[0, 1]) < 0.015  # standard error 0.0032


@given(st.lists(st.floats(0, 1e6), max_size=50), st.integers(0, 50))
def test_a_draw_does_not_depend_on_its_neighbours(times_s: list[float], cut: int) -> None:
    times = np.array(times_s, dtype=np.float64)
    whole = normals(1, 0, counters_of_times(times))
    parts = [normals(1, 0, counters_of_times(part)) for part in (times[:cut], times[cut:])]
    assert np.array_equal(whole, np.concatenate(parts))


@given(st.integers(0, 2**64 - 1), st.integers(0, 2**64 - 1))
def test_uniforms_never_reach_their_ends(seed: int, counter: int) -> None:
    drawn = uniforms(seed, 0, np.array([counter], dtype=np.uint64))
    assert 0 < drawn[0] < 1


def test_both_zeros_are_the_same_instant() -> None:
    assert counters_of_times(np.array([0.0, -0.0])).tolist() == [0, 0]
