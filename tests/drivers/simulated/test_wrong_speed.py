"""Bytes read at another speed than they were sent with."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drivers.simulated.wrong_speed import at_wrong_speed


@given(st.binary(max_size=60))
def test_at_the_right_speed_nothing_changes(data: bytes):
    assert at_wrong_speed(data, 9600, 9600) == data


@given(st.binary(max_size=60))
def test_two_percent_off_still_reads_right(data: bytes):
    """A byte is resynchronised at its start bit; half a bit over ten bits is 5 % (common practice)."""
    assert at_wrong_speed(data, 9600, 9600 * 1.02) == data
    assert at_wrong_speed(data, 9600, 9600 / 1.02) == data


def test_by_hand_at_half_and_double_speed():
    """U is 0 10101010 1: sent at twice the reading speed, every second bit is looked at."""
    assert at_wrong_speed(b"\xff", 2400, 9600) == b"\xf8"  # start bit four wide: 0 000 11111
    assert at_wrong_speed(b"\x00", 2400, 9600)[:1] == b"\x00"
    assert len(at_wrong_speed(b"U" * 100, 9600, 2400)) < 40


@pytest.mark.parametrize("read_baud", [1200, 4800, 9600, 115200])
def test_text_becomes_something_else(read_baud: int):
    text = b"+1.234 V\r\n" * 30
    assert text[:10] not in at_wrong_speed(text, 2400, read_baud)
