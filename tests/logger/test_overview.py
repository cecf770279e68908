"""The looks at a curve are exact: every column against a slow second implementation."""

from __future__ import annotations

import threading
import tracemalloc

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drivers.samples import Samples
from logger.overview import FLAT_LIMIT, STRETCH_KEPT_S, Overview, gap_between
from logger.overview_layers import BUCKETS
from logger.recording import Gap


def block(times_s: np.ndarray, values: np.ndarray, channel: str = "cell_voltage") -> Samples:
    return Samples(channel, times_s, values, np.zeros(times_s.size, np.uint8))


def irregular_run(seed: int, count: int) -> tuple[np.ndarray, np.ndarray]:
    """Samples of a run whose rate changes by a thousand, with holes, equal times, spikes and overload."""
    rng = np.random.default_rng(seed)
    rate = np.repeat(10.0 ** rng.uniform(0, 3, count // 500 + 1), 500)[:count]
    steps = rng.exponential(1 / rate)
    steps[rng.random(count) < 0.05] = 0.0
    steps[rng.random(count) < 0.0005] = 60.0
    values = 2.25 + 0.01 * rng.standard_normal(count)
    values[rng.random(count) < 0.001] = 27.0
    values[rng.random(count) < 0.002] = np.inf
    values[rng.random(count) < 0.002] = -np.inf
    return np.cumsum(steps), values


def brute_force(
    times_s: np.ndarray, values: np.ndarray, edges_s: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Column by column, sample by sample: finite values with edge <= time < next edge."""
    low, high = np.full(edges_s.size - 1, np.nan), np.full(edges_s.size - 1, np.nan)
    numbers = np.searchsorted(times_s, edges_s)
    for i in range(edges_s.size - 1):
        part = values[numbers[i] : numbers[i + 1]]
        part = part[np.isfinite(part)]
        if part.size:
            low[i], high[i] = part.min(), part.max()
    return low, high


def fed(times_s: np.ndarray, values: np.ndarray, seed: int, **limits: int) -> Overview:
    """An overview fed with blocks of random lengths."""
    rng = np.random.default_rng(seed)
    overview = Overview(**limits)
    begin = 0
    while begin < values.size:
        end = begin + int(10 ** rng.uniform(0, 4))
        overview.add(block(times_s[begin:end], values[begin:end]))
        begin = end
    return overview


def wrong_columns(overview: Overview, times_s: np.ndarray, values: np.ndarray, edges_s: np.ndarray) -> int:
    low, high = brute_force(times_s, values, edges_s)
    columns = overview.columns(edges_s)
    same = ((columns.low == low) & (columns.high == high)) | (np.isnan(low) & ~columns.has_data)
    return int((~same).sum())


def random_edges(times_s: np.ndarray, rng: np.random.Generator) -> np.ndarray:
    span = times_s[-1] * 10.0 ** rng.uniform(-5, 0.2)
    left = rng.uniform(-0.1, 1.0) * times_s[-1]
    return left + np.arange(1 + int(rng.integers(1, 1600))) * (span / 1600)


@settings(max_examples=60)
@given(seed=st.integers(0, 10_000), count=st.sampled_from([1, 63, 64, 65, 1000, 4097, 70_000, 300_000]))
def test_every_column_equals_brute_force(seed: int, count: int) -> None:
    times_s, values = irregular_run(seed, count)
    rng = np.random.default_rng(seed)
    for overview in (fed(times_s, values, seed), Overview.of(times_s, values)):
        for _ in range(3):
            assert wrong_columns(overview, times_s, values, random_edges(times_s, rng)) == 0


def test_long_runs_are_exact_by_way_of_the_levels() -> None:
    """2 million samples in one view are far beyond what is reduced flat."""
    times_s, values = irregular_run(7, 2_000_000)
    overview = Overview.of(times_s, values)
    assert wrong_columns(overview, times_s, values, np.linspace(-1, times_s[-1] + 1, 1537)) == 0


@pytest.mark.parametrize("kind", ["f4", "f8", "i2", "i4"])
def test_levels_keep_the_samples_own_type_and_are_exact(kind: str) -> None:
    values = (1000 * np.random.default_rng(1).standard_normal(70_000)).astype(kind)
    levels = Overview.of(np.arange(70_000.0), values).levels()
    assert sorted(levels) == list(BUCKETS)
    for bucket, level in levels.items():
        rows = values[: values.size // bucket * bucket].reshape(-1, bucket)
        assert level.dtype == values.dtype
        assert np.array_equal(level, np.stack([rows.min(1), rows.max(1)]))


@settings(max_examples=25)
@given(seed=st.integers(0, 10_000))
def test_where_samples_are_no_longer_held_a_bucket_belongs_to_the_column_it_begins_in(seed: int) -> None:
    times_s, values = irregular_run(seed, 400_000)
    overview = fed(times_s, values, seed, samples_kept=4096, most_samples_kept=4096, buckets_kept=256)
    seen_s = times_s.copy()
    for bucket, kept in ((1, 4096), *((b, 256) for b in BUCKETS)):
        count = times_s.size // bucket
        next_bucket = {1: 64, 65536: 65536}.get(bucket, bucket * 4)
        first = max(0, count - kept)
        held = -(-first * bucket // next_bucket) * next_bucket
        if bucket == 1:
            fine_from = held
            continue
        coarse = seen_s[held:fine_from]
        seen_s[held:fine_from] = times_s[held:fine_from:bucket].repeat(bucket)[: coarse.size]
        fine_from = held
        if held == 0:
            break
    rng = np.random.default_rng(seed)
    for _ in range(5):
        assert wrong_columns(overview, seen_s, values, random_edges(times_s, rng)) == 0


def test_memory_is_bounded_however_long_the_run() -> None:
    overview = Overview(samples_kept=4096, most_samples_kept=4096, buckets_kept=256)
    for i in range(300):
        times_s = np.arange(i * 10_000.0, (i + 1) * 10_000.0)
        overview.add(block(times_s, np.sin(times_s)))
    held = sum(r._data.nbytes for layer in overview._layers for r in (layer.times, layer.low, layer.high))
    assert held < 200_000
    assert len(overview) == 3_000_000
    assert overview.count_between(-1, 1e9) == 3_000_000
    # All of it is still shown, in columns wide enough for the buckets still held of the oldest part.
    assert overview.columns(np.linspace(0, 3_000_000, 101)).has_data.all()
    assert overview.samples_between(2_999_000, 3_000_000) is not None
    assert overview.samples_between(1_000, 2_000) is None


def test_the_memory_of_the_samples_is_there_from_the_first_one_on() -> None:
    """So a run that goes on takes no more for them, also once the oldest make room."""
    overview = Overview(samples_kept=4096, most_samples_kept=65_536, buckets_kept=1024)
    rings = overview._raw.times, overview._raw.low
    for i in range(200):  # at one a second: 4096 reach back far enough
        overview.add(block(np.arange(100.0 * i, 100.0 * (i + 1)), np.ones(100)))
        assert [ring._data.nbytes for ring in rings] == [8 * 4096, 8 * 4096]


@pytest.mark.parametrize("size", [7, 1000, 50_000])
def test_more_samples_are_held_where_they_come_quickly(size: int) -> None:
    """All of the last ten minutes at 100 a second, what memory allows at 500 a second."""
    for rate, held_s in ((100, STRETCH_KEPT_S), (500, 65_536 / 500)):
        overview = Overview(samples_kept=4096, most_samples_kept=65_536, buckets_kept=1024)
        times_s = np.arange(1500 * rate) / rate
        for begin in range(0, times_s.size, size):
            overview.add(block(times_s[begin : begin + size], times_s[begin : begin + size]))
        found = overview.samples_between(times_s[-1] - held_s + 0.01, times_s[-1])
        assert found is not None
        assert np.array_equal(*found)
        assert overview._raw.times._data.size <= 65_536
        assert overview.columns(np.linspace(0, 1500, 101)).has_data.all()


def test_a_spike_of_one_sample_is_seen_at_every_zoom() -> None:
    """The table "does the picture lie" of the chart study: 40 isolated spikes, one at the very end."""
    times_s = np.arange(1_000_000) / 100.0
    values = np.full(times_s.size, 2.0)
    spikes = np.append(np.arange(39) * 25_000 + 777, 999_999)
    values[spikes] = 2.5
    values[spikes[:-1] + 2] = np.inf
    for overview in (fed(times_s, values, 3), Overview.of(times_s, values)):
        for width in (100, 777, 1600, 5000):
            edges_s = np.linspace(0, 10_000, width + 1)
            shown = overview.columns(edges_s).high == 2.5
            assert shown.sum() == np.unique(np.searchsorted(edges_s, times_s[spikes], "right")).size


def test_a_fixed_grid_of_columns_does_not_shimmer_while_following() -> None:
    """Once a column is past, later samples never change it."""
    times_s, values = irregular_run(11, 50_000)
    overview, width_s = Overview(), times_s[-1] / 700
    before: dict[int, tuple[float, float]] = {}
    for begin in range(0, values.size, 997):
        overview.add(block(times_s[begin : begin + 997], values[begin : begin + 997]))
        past = int(times_s[min(begin + 996, values.size - 1)] / width_s)
        left = max(0, past - 300)
        columns = overview.columns(np.arange(left, past + 1) * width_s)
        now = {left + i: pair for i, pair in enumerate(zip(columns.low, columns.high, strict=True))}
        assert all(
            np.array_equal(now[i], before[i], equal_nan=True)
            for i in now.keys() & before.keys()
            if i < past - 1
        )
        before = now


def test_overload_is_marked_and_never_a_value() -> None:
    overview = Overview()
    values = np.array([2.0, np.inf, np.inf, 2.1, -np.inf])
    overview.add(block(np.arange(5.0), values))
    overview.add(block(np.arange(5.0, 8.0), np.array([-np.inf, 2.2, np.inf])))
    assert overview.overloads_s.tolist() == [[1.0, 2.0], [4.0, 5.0], [7.0, 7.0]]
    columns = overview.columns(np.arange(9.0))
    assert columns.has_data.tolist() == [True, False, False, True, False, False, True, False]
    assert overview.last == (7.0, np.inf)


def test_a_look_at_a_long_run_with_overload_copies_little_of_it() -> None:
    """What a picture needs at most stays with the process: it had grown for hours with such a run."""
    times_s, values = irregular_run(5, FLAT_LIMIT)
    values[FLAT_LIMIT // 3 : FLAT_LIMIT // 2] = np.inf
    overview = Overview.of(times_s, values)
    edges_s = np.linspace(times_s[0], times_s[-1] + 1, 1001)
    tracemalloc.start()
    try:
        overview.columns(edges_s)
        _, most = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert most < values.nbytes / 3
    assert wrong_columns(overview, times_s, values, edges_s) == 0


def test_samples_between_brings_one_neighbour_at_either_side() -> None:
    overview = Overview.of(np.arange(10.0), np.arange(10.0) * 2)
    found = overview.samples_between(3.5, 6.0)
    assert found is not None
    times_s, values = found
    assert times_s.tolist() == [3.0, 4.0, 5.0, 6.0]
    assert values.tolist() == [6.0, 8.0, 10.0, 12.0]
    assert overview.count_between(3.5, 6.0) == 2


def test_an_empty_overview_shows_nothing() -> None:
    overview = Overview()
    assert overview.extent_s is None
    assert overview.last is None
    assert not overview.columns(np.arange(5.0)).has_data.any()
    found = overview.samples_between(0, 1)
    assert found is not None
    assert found[0].size == 0
    assert Overview.of(np.empty(0), np.empty(0)).extent_s is None


def test_other_channels_are_passed_over() -> None:
    overview = Overview("cell_voltage")
    overview.add(block(np.arange(3.0), np.ones(3), channel="stack_voltage"))
    assert len(overview) == 0


def test_gaps_are_a_table_and_break_the_line() -> None:
    overview = Overview()
    overview.set_gaps([Gap(5.0, 9.0, "cell_voltage", "unplugged"), Gap(1.0, 2.0, "other", "unplugged")])
    assert overview.gaps_s.tolist() == [[5.0, 9.0]]
    assert gap_between(overview.gaps_s, [3.0, 4.0, 5.0, 9.0, 10.0]).tolist() == [False, False, True, False]


def test_reader_and_recorder_threads_do_not_disturb_each_other() -> None:
    """A reader always sees whole blocks: here every block carries both -1 and +1."""
    overview = Overview(samples_kept=4096, most_samples_kept=4096, buckets_kept=256)
    pair = np.tile([-1.0, 1.0], 500)

    def record() -> None:
        for i in range(400):
            overview.add(block(i + np.arange(1000) / 1000, pair))

    thread = threading.Thread(target=record)
    thread.start()
    looks = 0
    while thread.is_alive() or not looks:
        columns = overview.columns(np.arange(0.0, 401.0))
        assert set(columns.low[columns.has_data]) <= {-1.0}
        assert set(columns.high[columns.has_data]) <= {1.0}
        looks += 1
    thread.join()
    assert overview.extent_s is not None
    assert overview.extent_s[1] == pytest.approx(399.999)


@pytest.mark.parametrize("kept", [64 * 64, 64 * 1000, 64 * 67 + 8, None])
def test_columns_of_many_samples_are_exact_by_way_of_the_levels(
    kept: int | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With a low limit short runs go by the levels too: whole ones, dropped beginnings, empty columns."""
    monkeypatch.setattr("logger.overview.FLAT_LIMIT", 2000)
    wrong = 0
    for seed in range(25):
        rng = np.random.default_rng(seed)
        times_s, values = irregular_run(seed, int(rng.integers(1, 60_000)))
        limits = (
            {}
            if kept is None
            else {"samples_kept": kept, "most_samples_kept": 1 << 18, "buckets_kept": 1 << 12}
        )
        overview = Overview.of(times_s, values) if kept is None else fed(times_s, values, seed, **limits)
        held_s = float(times_s[max(values.size - (kept or values.size), 0)])
        left_s = rng.uniform(held_s, times_s[-1]) if held_s > times_s[0] else rng.uniform(-20, times_s[-1])
        edges_s = left_s + np.linspace(0, rng.uniform(0.1, 1.3), 40) * (times_s[-1] - left_s + 1)
        wrong += wrong_columns(overview, times_s, values, edges_s)
    assert wrong == 0
