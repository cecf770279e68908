"""The axes show the curve that matters, on round numbers, without jumping."""

from __future__ import annotations

import sys

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from logger.scale import (
    MIN_SPAN_V,
    clock_text,
    marks,
    parse_clock,
    round_step,
    steady_range,
    time_label,
    time_step,
    voltage_label,
    voltages_to_show,
)


def test_an_open_circuit_does_not_flatten_the_curve() -> None:
    """26.967623 V is the open circuit of the example supply in the project's chemistry notes, section 8."""
    low = np.concatenate([np.full(300, 26.967623), np.linspace(2.25, 1.99, 700)])
    assert voltages_to_show(low, low) == (pytest.approx(1.99), pytest.approx(2.25))


def test_a_column_that_holds_both_open_and_electrolysing_counts_with_its_lower_end() -> None:
    low, high = np.full(50, 2.0), np.full(50, 2.01)
    high[10] = 27.0
    assert voltages_to_show(low, high) == (2.0, 2.01)


def test_touching_leads_do_not_flatten_the_curve() -> None:
    values = np.append(np.full(500, 2.2), 0.005)
    assert voltages_to_show(values, values) == (2.2, 2.2)


def test_an_open_circuit_alone_is_shown() -> None:
    assert voltages_to_show(np.array([26.9]), np.array([27.0])) == (26.9, 27.0)


def test_no_data_has_no_range() -> None:
    empty = np.full(5, np.nan)
    assert voltages_to_show(empty, empty) is None


def test_reversed_leads_are_shown_alike() -> None:
    values = np.append(np.full(500, -2.2), -27.0)
    assert voltages_to_show(values, values) == (-2.2, -2.2)


def test_one_wild_reading_is_left_outside_but_a_transient_is_not() -> None:
    values = np.append(np.linspace(2.0, 2.3, 1000), 3.9)
    assert voltages_to_show(values, values) == (2.0, 2.3)
    transient = 2.25 + 0.08 * np.exp(-np.arange(240) / 30)
    assert voltages_to_show(transient, transient) == (pytest.approx(2.25, abs=1e-3), 2.33)


@given(low=st.floats(-3, 30), span=st.floats(0, 10))
def test_the_range_holds_what_is_wanted_with_room(low: float, span: float) -> None:
    bottom, top = steady_range((low, low + span), None)
    assert bottom < low <= low + span < top
    assert top - bottom >= MIN_SPAN_V


@pytest.mark.parametrize("voltage_V", [1e13, -1e15, 1e30, 1e300])
def test_a_voltage_of_damage_that_does_not_change_has_a_range(voltage_V: float) -> None:
    """The usual least span was nothing beside it, and the picture could not be drawn."""
    shown = voltages_to_show(np.full(3, voltage_V), np.full(3, voltage_V))
    assert shown is not None
    bottom, top = steady_range(shown, None)
    assert bottom < voltage_V < top
    assert round_step(top - bottom, 8) > 0
    assert len(marks(bottom, top, round_step(top - bottom, 8))) >= 3


def test_the_range_stays_until_the_curve_leaves_it_or_it_is_twice_too_wide() -> None:
    first = steady_range((2.00, 2.30), None)
    assert steady_range((2.01, 2.30), first) == first
    assert steady_range((2.15, 2.30), first) != first
    assert steady_range((1.97, 2.30), first)[0] < 1.97


def test_the_range_jumps_rarely_along_a_growth_curve() -> None:
    """1200 looks at an exponential fall of 250 mV: the axis may change some dozen times, not each look."""
    current, changes = None, 0
    for i in range(1, 1201):
        fitted = steady_range((2.25 - 0.25 * (1 - np.exp(-i / 300)), 2.25), current)
        changes += fitted != current
        current = fitted
    assert changes < 25


@given(span=st.floats(1e-6, 1e6), count=st.integers(2, 20))
def test_steps_are_1_2_5_and_few(span: float, count: int) -> None:
    step = round_step(span, count)
    assert float(f"{step:.6e}".split("e")[0]) in (1.0, 2.0, 5.0)
    assert span / step <= count * 1.000001
    assert round_step(span, count) <= span / count * 2.500001


@given(span_s=st.floats(0.01, 1e6), low=st.floats(0, 1e6))
def test_time_marks_are_few(span_s: float, low: float) -> None:
    step = time_step(span_s, 8)
    found = marks(low, low + span_s, step)
    assert len(found) <= 10
    assert all(low - 1e-5 * step <= m <= low + span_s + 1e-5 * step for m in found)


@pytest.mark.parametrize(
    ("time_s", "step_s", "text"),
    [
        (0, 300, "0 min"),
        (1200, 300, "20 min"),
        (750, 30, "12:30"),
        (750.25, 0.05, "12:30.25"),
        (5400, 1800, "90 min"),
        (9000, 1800, "2:30 h"),
        (10800, 3600, "3 h"),
    ],
)
def test_time_labels(time_s: float, step_s: float, text: str) -> None:
    assert time_label(time_s, step_s) == text


def test_voltage_labels_have_the_decimals_of_the_step_and_a_real_minus() -> None:
    assert voltage_label(2.25, 0.05) == "2.25"
    assert voltage_label(2.2, 0.1) == "2.20"
    assert voltage_label(2.251, 0.001) == "2.251"
    assert voltage_label(25.0, 5.0) == "25"
    assert voltage_label(-2.25, 0.05) == "−2.25"


def test_clock_text() -> None:
    assert clock_text(0) == "0:00"
    assert clock_text(1289.6) == "21:30"
    assert clock_text(3725) == "1:02:05"
    assert clock_text(59.97, 1) == "1:00.0"


@pytest.mark.parametrize(
    ("text", "time_s"), [("750", 750), ("12:30", 750), (" 12:30,5", 750.5), ("1:02:05", 3725), ("0", 0)]
)
def test_run_times_are_read_back(text: str, time_s: float) -> None:
    assert parse_clock(text) == time_s
    assert parse_clock(clock_text(time_s, 1)) == time_s


@pytest.mark.parametrize("text", ["", "abc", "-5", "1:-5", "1:2:3:4", "nan", "inf", "12:"])
def test_what_is_no_run_time_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="12:30"):
        parse_clock(text)


def test_voltages_of_a_damaged_file_get_short_labels_and_the_real_ones_stay():
    for highest_V in (1e12, 1e300, sys.float_info.max):
        found = voltages_to_show(np.array([-highest_V]), np.array([highest_V]))
        low_V, high_V = steady_range(found, None)
        step_V = round_step(high_V - low_V, 8)
        labels = [voltage_label(mark, step_V) for mark in marks(low_V, high_V, step_V)]
        assert 3 <= len(labels) == len(set(labels))
        assert all(len(label) <= 12 for label in labels), labels
    assert voltage_label(2e299, 2e299) == "2·10²⁹⁹"
    assert voltage_label(-1.2e300, 2e299) == "−1.2·10³⁰⁰"
    assert voltage_label(3500000.0, 500000.0) == "3500000"
