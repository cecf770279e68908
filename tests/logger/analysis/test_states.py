"""Recognising what the cell is doing. Example: Vs 27 V, R + r 12 006 ohm, Rin 10 Mohm, 22 degC."""

import itertools
import math
import time

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logger.analysis.refusal import Refused
from logger.analysis.states import (
    StateInterval,
    open_circuit_from_readings_V,
    recognise_states,
    reversed_samples,
    state_thresholds,
)

OPEN_CIRCUIT_V = 27.0 * 10e6 / (10e6 + 12006.0)
LIMITS = state_thresholds(1.231181, OPEN_CIRCUIT_V)


def states_of(*values, interval_s=1.0, hold=8):
    """The states of a recording that holds each value for some samples."""
    readings = np.repeat(np.array(values, dtype=float), hold)
    times = interval_s * np.arange(readings.size)
    return [one.state for one in recognise_states(times, readings, LIMITS)]


def test_thresholds_of_the_example():
    """Open circuit 26.967623 V: a voltage divider. 0.90 of it, and E_rev + 0.15 and + 0.05 V."""
    assert pytest.approx(26.967623, abs=1e-6) == OPEN_CIRCUIT_V
    assert LIMITS.open_enter_V == pytest.approx(24.27086, abs=1e-5)
    assert LIMITS.electrolysing_V == pytest.approx(1.381181, abs=1e-6)
    assert LIMITS.below_V == pytest.approx(1.281181, abs=1e-6)


@pytest.mark.parametrize(
    ("voltage", "state"),
    [
        (26.97, "open"),
        (-26.97, "open"),
        (-2.10, "electrolysing"),
        (0.012, "touching"),
        (0.90, "below_reversible"),
        (2.25, "electrolysing"),
        (6.0, "poor_contact"),
        (math.nan, "no_reading"),
        (math.inf, "no_reading"),
        (-math.inf, "no_reading"),
    ],
)
def test_truth_table(voltage, state):
    assert states_of(voltage) == [state]


@pytest.mark.parametrize(("before", "state"), [(2.25, "electrolysing"), (0.9, "below_reversible")])
def test_a_voltage_inside_the_band_keeps_the_state_before(before, state):
    assert states_of(before, 1.30) == [state]


@pytest.mark.parametrize(
    ("path", "expected"),
    [
        ((26.9, 23.5), ["open"]),  # above 0.85 of the open voltage
        ((26.9, 22.0), ["open", "poor_contact"]),
        ((6.0, 3.9), ["poor_contact"]),
        ((6.0, 3.7), ["poor_contact", "electrolysing"]),
        ((2.2, 3.9), ["electrolysing"]),
        ((2.2, 4.1), ["electrolysing", "poor_contact"]),
        ((0.01, 0.07), ["touching"]),
        ((0.01, 0.2), ["touching", "below_reversible"]),
        ((0.9, 0.07), ["below_reversible"]),
        ((2.2, 0.01, 2.2), ["electrolysing", "touching", "electrolysing"]),
        ((26.9, 2.2, 26.9, 2.2), ["open", "electrolysing", "open", "electrolysing"]),
    ],
)
def test_hysteresis(path, expected):
    assert states_of(*path) == expected


def test_poor_contact_and_below_reversible_must_last_five_seconds():
    assert states_of(2.2, 6.0, 2.2, interval_s=0.5, hold=8) == ["electrolysing"]
    assert states_of(2.2, 6.0, 2.2, interval_s=1.0) == ["electrolysing", "poor_contact", "electrolysing"]
    assert states_of(2.2, 0.9, 2.2, interval_s=0.5, hold=8) == ["electrolysing"]


def test_one_wild_reading_is_no_state():
    values = np.full(40, 2.2)
    values[10], values[20], values[30] = 26.9, 0.0, math.nan
    assert [one.state for one in recognise_states(np.arange(40.0), values, LIMITS)] == ["electrolysing"]


def test_intervals_join_and_cover_the_recording():
    values = np.repeat([26.9, 2.2, math.nan, 2.2, 0.001], 20)
    found = recognise_states(np.arange(100.0), values, LIMITS)
    assert found[0].begin_s == 0.0
    assert found[-1].end_s == 99.0
    assert all(one.end_s == other.begin_s for one, other in itertools.pairwise(found))
    assert [one.state for one in found] == [
        "open",
        "electrolysing",
        "no_reading",
        "electrolysing",
        "touching",
    ]


def test_a_gap_is_no_reading():
    times = np.r_[np.arange(0, 30.0), np.arange(60, 90.0)]
    found = recognise_states(times, np.full(60, 2.2), LIMITS)
    assert found == (
        StateInterval("electrolysing", 0.0, 29.0),
        StateInterval("no_reading", 29.0, 60.0),
        StateInterval("electrolysing", 60.0, 89.0),
    )


def test_no_samples_have_no_state():
    assert recognise_states(np.empty(0), np.empty(0), LIMITS) == ()


def test_reversed_leads_need_three_readings_in_a_row():
    assert reversed_samples(np.array([2.2, -2.2, 2.2, -2.2, -2.2, 2.2])) == 0
    assert reversed_samples(np.array([-2.2, -2.2, -2.2, -2.2])) == 2
    assert reversed_samples(np.full(50, -0.05)) == 0


def test_a_stack_too_low_to_tell_an_open_cell_is_refused():
    with pytest.raises(Refused, match="open cell cannot be told"):
        state_thresholds(1.231181, 4.5)
    assert state_thresholds(1.231181, None).open_enter_V == math.inf


def test_open_voltage_is_read_off_only_where_it_can_be_nothing_else():
    values = np.full(100, 2.2)
    assert open_circuit_from_readings_V(values) is None
    values[5] = 30.0  # a single wild reading
    assert open_circuit_from_readings_V(values) is None
    values[40:60] = -26.9
    assert open_circuit_from_readings_V(values) == pytest.approx(26.9)
    assert open_circuit_from_readings_V(np.full(10, math.inf)) is None


def slow_states(values):
    """The table of thresholds as a state machine, reading by reading, without the durations."""
    state, sure, found = None, None, []
    last = []
    for value in values:
        if not math.isfinite(value):
            found.append("no_reading")
            continue
        last = [*last[-2:], abs(value)]
        z = sorted(last)[1] if len(last) == 3 else last[-1]
        order = ["touching", "below_reversible", "electrolysing", "poor_contact", "open"]
        bands = [
            (LIMITS.touching_enter_V, LIMITS.touching_leave_V),
            (LIMITS.below_V, LIMITS.electrolysing_V),
            (LIMITS.poor_leave_V, LIMITS.poor_enter_V),
            (LIMITS.open_leave_V, LIMITS.open_enter_V),
        ]
        inside = next((k for k, (low, high) in enumerate(bands) if low <= z < high), None)
        if inside is None:
            sure = state = order[sum(z >= high for _, high in bands)]
        else:
            state = sure if sure in order[inside : inside + 2] else order[inside]
        found.append(state)
    return found


voltages = st.sampled_from(
    [26.9, 23.5, 22.0, 6.0, 4.1, 3.9, 3.7, 2.2, 1.33, 1.2, 0.9, 0.2, 0.07, 0.01, math.nan, -2.2]
)


@settings(max_examples=200)
@given(st.lists(voltages, min_size=1, max_size=60))
def test_equals_a_slow_state_machine(values):
    """Each value is held for ten readings of a second, and looked at when it has lasted nine."""
    readings = np.repeat(values, 10)
    found = recognise_states(np.arange(float(readings.size)), readings, LIMITS)
    slow = slow_states(readings)
    begins = [one.begin_s for one in found]
    for at in range(9, readings.size, 10):
        assert found[np.searchsorted(begins, at, side="right") - 1].state == slow[at]


def test_ten_million_samples_take_seconds():
    random = np.random.default_rng(0)
    values = 2.25 + 0.002 * random.standard_normal(10_000_000)
    values[4_000_000:4_100_000] = 26.9
    times = 0.01 * np.arange(values.size)
    began = time.thread_time()
    found = recognise_states(times, values, LIMITS)
    assert time.thread_time() - began < 8.0  # about 1 s; the margin is for a busy machine
    assert [one.state for one in found] == ["electrolysing", "open", "electrolysing"]


def test_negative_overload_is_no_reversed_lead() -> None:
    """What a meter shows beyond its range says nothing of the leads."""
    values = np.concatenate([np.full(50, 2.25), np.full(50, -np.inf), np.full(50, 2.0)])
    assert reversed_samples(values) == 0
    assert reversed_samples(-values[:50]) == 48
