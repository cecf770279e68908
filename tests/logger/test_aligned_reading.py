"""What several runs read at one time: each its own reading, or none; against a plain search."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drivers.samples import Samples
from logger.aligned_reading import AlignedReading, AlignedReadings, AlignedRun, NoReading
from logger.overview import Overview
from logger.reading_off import Reading
from logger.recording import Gap
from tests.logger.test_overview import irregular_run


def run_of(times_s: np.ndarray, zero_s: float = 0.0, gaps: tuple[Gap, ...] = ()) -> AlignedRun:
    """A run whose voltage in millivolts is the number of the reading."""
    return AlignedRun(Overview.of(times_s, np.arange(times_s.size) / 1000, gaps=gaps), zero_s)


def one(run: AlignedRun, time_s: float) -> Reading:
    found = run.reading_at(time_s)
    assert isinstance(found, Reading)
    return found


def test_each_run_gives_its_own_reading_at_its_own_time() -> None:
    often, seldom = run_of(np.arange(0.0, 100.0, 0.25), 10.0), run_of(np.arange(0.0, 100.0, 7.0), 20.0)
    found = AlignedReadings((often, seldom)).at(31.6)
    assert found.time_s == 31.6
    # The first was measured at 41.5 s of its run, the second at 49 and 56 s of its own: 51.6 is nearer to 49.
    assert found.readings == (Reading(166, 31.5, 0.166), Reading(7, 29.0, 0.007))


def test_a_run_has_no_reading_before_it_begins_after_it_ends_and_in_a_gap() -> None:
    times_s = np.concatenate((np.arange(0.0, 10.0), np.arange(20.0, 30.0)))
    run = run_of(times_s, 5.0, (Gap(9.5, 19.5, "cell_voltage", "unplugged"),))
    mean_s = 29.0 / 19
    assert one(run, -5.0 - mean_s + 1e-9).number == 0
    assert run.reading_at(-5.0 - mean_s - 1e-9) is NoReading.NOT_BEGUN
    assert one(run, 24.0 + mean_s - 1e-9).number == 19
    assert run.reading_at(24.0 + mean_s + 1e-9) is NoReading.ENDED
    assert one(run, 4.0).number == 9  # measured there, at the very end of the gap
    assert run.reading_at(4.0 + 1e-9) is NoReading.IN_GAP
    assert run.reading_at(14.9) is NoReading.IN_GAP
    assert one(run, 15.0).number == 10
    assert AlignedRun(Overview(), 0.0).reading_at(1.0) is NoReading.NONE_AT_ALL
    assert AlignedReadings((AlignedRun(Overview(), 3.0),)).nearest(1.0) is None
    assert AlignedReadings(()).first() is AlignedReadings(()).last() is None


@settings(max_examples=60)
@given(
    seed=st.integers(0, 10_000),
    counts=st.lists(st.sampled_from([1, 2, 40, 900]), min_size=1, max_size=8),
    at=st.floats(-0.2, 1.2),
    by_s=st.sampled_from([0.0, 0.001, 0.3, 100.0]),
)
def test_steps_lead_to_what_a_plain_search_finds(
    seed: int, counts: list[int], at: float, by_s: float
) -> None:
    rng = np.random.default_rng(seed)
    all_times_s, runs = [], []
    for number, count in enumerate(counts):
        times_s, values = irregular_run(seed + number, count)
        zero_s = float(rng.uniform(times_s[0] - 5, times_s[-1]))
        runs.append(AlignedRun(Overview.of(times_s, values), zero_s))
        all_times_s.append(times_s - zero_s)
    joined = np.concatenate(all_times_s)
    readings = AlignedReadings(runs)
    wanted_s = float(joined.min() + at * (np.ptp(joined) + 1.0))
    here = readings.nearest(wanted_s)
    assert here is not None
    assert abs(here.time_s - wanted_s) == pytest.approx(np.abs(joined - wanted_s).min(), abs=1e-9)
    assert here.time_s in joined
    later = joined[(joined > here.time_s) & (joined >= here.time_s + by_s - 1e-9)]
    earlier = joined[(joined < here.time_s) & (joined <= here.time_s - by_s + 1e-9)]
    after, before = readings.after(here, by_s), readings.before(here, by_s)
    assert after.time_s == pytest.approx(later.min() if later.size else joined.max(), abs=1e-9)
    assert before.time_s == pytest.approx(earlier.max() if earlier.size else joined.min(), abs=1e-9)
    for one_run, times_s, reading in zip(runs, all_times_s, here.readings, strict=True):
        if isinstance(reading, Reading):
            assert abs(reading.time_s - here.time_s) == np.abs(times_s - here.time_s).min()
            measured = one_run.overview.reading(reading.number)
            assert measured is not None
            assert reading == measured._replace(time_s=measured.time_s - one_run.zero_s)
        else:
            outside = here.time_s < times_s.min() or here.time_s > times_s.max()
            assert outside


def test_steps_never_stand_still_where_a_sum_of_times_is_rounded() -> None:
    """0.1 + 0.2 is not 0.3: a time counted from zero and back again is not always the one it came from."""
    times_s = np.arange(1, 400) * 0.1
    for zero_s in (0.3, 1 / 3, 1e5 + 0.1, -math.pi):
        readings = AlignedReadings((run_of(times_s, zero_s), run_of(times_s, zero_s + 1e-3)))
        here: AlignedReading | None = readings.first()
        assert here is not None
        seen = [here.time_s]
        while readings.after(here).time_s > here.time_s:
            here = readings.after(here)
            seen.append(here.time_s)
        assert len(seen) == 2 * times_s.size
        back = [here.time_s]
        while readings.before(here).time_s < here.time_s:
            here = readings.before(here)
            back.append(here.time_s)
        assert back == seen[::-1]


def test_a_run_whose_file_cannot_be_read_there_says_so_and_ends_no_search_late() -> None:
    """A search in a damaged file finds no number; that is not taken for the beginning of the run."""

    class Broken(Overview):
        looks = 0

        def number_at(self, time_s: float) -> int:
            self.looks += 1
            return 0 if 10.0 < time_s < 90.0 else super().number_at(time_s)

    broken = Broken()
    times_s = np.arange(10_000) / 100
    broken.add(Samples("cell_voltage", times_s, np.full(10_000, 2.2), np.zeros(10_000, np.uint8)))
    run = AlignedRun(broken, 1.0)
    assert run.reading_at(50.0) is NoReading.UNREADABLE
    assert one(run, 5.0).number == 600
    assert run.later_s(50.0, 1.0) is None
    assert broken.looks < 20


def test_a_time_means_the_same_while_a_run_stays_at_its_zero() -> None:
    first, second = run_of(np.arange(10.0), 0.0), run_of(np.arange(10.0), 3.0)
    both = AlignedReadings((first, second))
    assert AlignedReadings((second,)).counts_like(both)
    assert both.counts_like(AlignedReadings((first, run_of(np.arange(5.0), 1.0))))
    assert not both.counts_like(AlignedReadings((first, AlignedRun(second.overview, 4.0))))
    assert not both.counts_like(AlignedReadings((run_of(np.arange(10.0), 0.0),)))
    assert not both.counts_like(AlignedReadings(()))


def test_nothing_is_read_where_no_run_is() -> None:
    both = AlignedReadings((run_of(np.arange(10.0), 0.0), run_of(np.arange(10.0), 3.0)))
    assert both.within(-3.5) is None
    assert both.within(9.5) is None
    assert both.within(-3.0) == both.first()
    assert both.within(9.0) == both.last()
    assert AlignedReadings(()).within(0.0) is None
