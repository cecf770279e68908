"""What is read off the curve is a reading as it was measured: against a plain search through all of them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drivers.samples import Quality, Samples
from logger.overview import Overview
from logger.reading_off import CurveReadings
from tests.logger.test_overview import irregular_run
from tests.logger.test_stored_overview import files, stored  # noqa: F401 - a fixture


def flagged(values: np.ndarray, seed: int) -> np.ndarray:
    rng = np.random.default_rng(seed)
    quality = np.where(rng.random(values.size) < 0.01, Quality.HOLD | Quality.SUSPECT, 0).astype(np.uint8)
    quality[np.isinf(values)] |= np.uint8(Quality.OVERLOAD)
    return quality


def recorded(times_s: np.ndarray, values: np.ndarray, quality: np.ndarray, **limits: int) -> Overview:
    overview = Overview(**limits)
    for begin in range(0, values.size, 777):
        part = slice(begin, begin + 777)
        overview.add(Samples("cell_voltage", times_s[part], values[part], quality[part]))
    return overview


@settings(max_examples=40)
@given(seed=st.integers(0, 10_000), count=st.sampled_from([1, 2, 65, 1500, 5000]), is_live=st.booleans())
def test_each_reading_is_what_a_plain_search_finds(seed: int, count: int, is_live: bool) -> None:
    times_s, values = irregular_run(seed, count)
    quality = flagged(values, seed)
    rng = np.random.default_rng(seed)
    overview = (
        recorded(times_s, values, quality) if is_live else Overview.of(times_s, values, quality=quality)
    )
    for at_s in rng.uniform(times_s[0] - 1, times_s[-1] + 1, 20):
        here = CurveReadings(overview).nearest(at_s)
        assert here is not None
        assert abs(here.time_s - at_s) == np.abs(times_s - at_s).min()
        assert (here.time_s, here.value) == (times_s[here.number], values[here.number])
        assert here.quality == quality[here.number]
        by_s = float(rng.choice([0.0, 0.001, 0.3, 100.0]))
        later = np.flatnonzero((times_s >= here.time_s + by_s) & (np.arange(count) > here.number))
        earlier = np.flatnonzero((times_s <= here.time_s - by_s) & (np.arange(count) < here.number))
        assert CurveReadings(overview).after(here, by_s).number == (later[0] if later.size else count - 1)
        assert CurveReadings(overview).before(here, by_s).number == (earlier[-1] if earlier.size else 0)
    first, last = CurveReadings(overview).first(), CurveReadings(overview).last()
    assert first is not None
    assert last is not None
    assert (first.number, last.number) == (0, count - 1)


def test_going_reading_by_reading_meets_each_one_once_and_stays_at_the_ends() -> None:
    times_s, values = irregular_run(3, 400)  # some of them at the same time
    overview = Overview.of(times_s, values)
    here = CurveReadings(overview).first()
    assert here is not None
    there = [here]
    for _ in range(405):
        there.append(CurveReadings(overview).after(there[-1]))
    assert [one.number for one in there] == [*range(400), *[399] * 6]
    back = [there[-1]]
    for _ in range(405):
        back.append(CurveReadings(overview).before(back[-1]))
    assert [one.number for one in back] == [*range(399, -1, -1), *[0] * 6]


def test_a_reading_is_found_again_under_its_number_while_more_come_in() -> None:
    times_s = np.arange(3000) / 10
    values = 2 + times_s / 1000
    overview = recorded(times_s[:1000], values[:1000], np.zeros(1000, np.uint8))
    here = CurveReadings(overview).nearest(42.0)
    overview.add(Samples("cell_voltage", times_s[1000:], values[1000:], np.zeros(2000, np.uint8)))
    assert here is not None
    assert overview.reading(here.number) == here
    assert CurveReadings(overview).after(here).time_s == times_s[421]


def test_what_is_no_longer_in_memory_is_a_place_without_a_value() -> None:
    times_s = np.arange(20_000) / 100
    values = np.full(times_s.size, 2.0)
    limits = {"samples_kept": 4096, "most_samples_kept": 4096, "buckets_kept": 1024}
    overview = recorded(times_s, values, np.zeros(times_s.size, np.uint8), **limits)
    old = CurveReadings(overview).nearest(20.0)
    assert old is not None
    assert old.value is None
    assert old.time_s == pytest.approx(20.0)
    later = CurveReadings(overview).after(old, 5.0)
    assert later.value is None
    assert later.time_s == pytest.approx(25.0)
    held = CurveReadings(overview).after(old, 150.0)
    assert (held.time_s, held.value) == (170.0, 2.0)
    assert CurveReadings(overview).last() == (19_999, 199.99, 2.0, Quality.GOOD)


def test_nothing_is_read_off_where_nothing_was_measured() -> None:
    for overview in (Overview(), Overview.of(np.empty(0), np.empty(0))):
        assert CurveReadings(overview).nearest(1.0) is None
        assert CurveReadings(overview).first() is None
        assert CurveReadings(overview).last() is None


def test_readings_that_stay_in_their_file_are_the_same(files) -> None:  # noqa: F811
    times_s, values, quality = files["columns"]
    overview = stored(files, "levels")
    whole = Overview.of(times_s, values, quality=quality)
    for at_s in np.random.default_rng(0).uniform(0, times_s[-1], 30):
        assert CurveReadings(overview).nearest(at_s) == CurveReadings(whole).nearest(at_s)
    here = overview.reading(100_050)
    assert here is not None
    assert (here.value, here.quality) == (np.inf, Quality.OVERLOAD)
    assert CurveReadings(overview).after(here).number == 100_051
    assert CurveReadings(overview).last() == CurveReadings(whole).last()
