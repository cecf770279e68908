"""States while readings come in: the same as afterwards, however the readings are cut into blocks."""

import math

import numpy as np
from hypothesis import example, given, settings
from hypothesis import strategies as st

from logger.analysis.state_follower import StateFollower
from logger.analysis.states import recognise_states, state_thresholds

LIMITS = state_thresholds(1.231181, 26.967623)


def follow(times, values, cuts=()):
    follower = StateFollower(LIMITS)
    for part in zip(np.split(times, cuts), np.split(values, cuts), strict=True):
        follower.add(*part)
    return follower


stretches = st.lists(
    st.tuples(
        st.sampled_from([26.9, 23.5, 6.0, 3.9, 2.2, 1.33, 0.9, 0.07, 0.01, math.nan, -2.2]),
        st.integers(1, 25),
        st.sampled_from([0.4, 0.4, 0.4, 40.0]),
    ),
    min_size=1,
    max_size=25,
)


@settings(max_examples=300)
@example([(math.nan, 2, 0.4), (26.9, 1, 40.0)], [])  # lost readings right before a gap
@given(stretches, st.lists(st.integers(0, 400), max_size=12))
def test_equals_the_states_found_afterwards(parts, cuts):
    values = np.concatenate([np.full(count, value) for value, count, _ in parts])
    steps = np.concatenate([np.r_[first, np.full(count - 1, 0.4)] for _, count, first in parts])
    # Enough regular readings first: a gap is told by the usual interval.
    values, steps = np.r_[np.full(150, 26.9), values], np.r_[np.full(150, 0.4), steps]
    times = np.cumsum(steps)
    follower = follow(times, values, sorted(cuts))
    assert follower.intervals == recognise_states(times, values, LIMITS)


def test_poor_contact_is_believed_after_five_seconds():
    times = 0.5 * np.arange(40)
    values = np.where(times < 10, 2.2, 6.0)
    follower = StateFollower(LIMITS)
    seen = []
    for k in range(40):
        follower.add(times[k : k + 1], values[k : k + 1])
        seen.append(follower.state)
    first = seen.index("poor_contact")
    assert 15.0 <= times[first] <= 16.0
    assert follower.since_s == 10.5  # the median of three shows it one reading late


def test_before_the_first_reading_there_is_no_state():
    follower = StateFollower(LIMITS)
    assert follower.state == "no_reading"
    assert follower.since_s is None
    assert follower.intervals == ()
    assert follower.add(np.empty(0), np.empty(0)).size == 0


def test_tells_which_readings_electrolyse():
    times = np.arange(12.0)
    values = np.repeat([26.9, 2.2, math.nan], 4)
    assert StateFollower(LIMITS).add(times, values).tolist() == [False] * 5 + [True] * 3 + [False] * 4


def test_memory_stays_bounded():
    follower = StateFollower(LIMITS)
    values = np.tile(np.repeat([26.9, 2.2], 4), 3000)
    follower.add(np.arange(float(values.size)), values)
    assert len(follower.intervals) == 2000
