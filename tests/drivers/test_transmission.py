"""What is tried and said while no frames come."""

from __future__ import annotations

import pytest

from drivers.transmission import CONTROL_LINES, Transmission


def test_control_lines_are_tried_in_turn_while_nothing_is_heard():
    """Order and pace of the reference, 2b: (1,0), (1,1), (0,1), 1.2 s each."""
    line = Transmission(14)
    assert line.lines == (True, False)
    changes = [
        (hundredth / 100, line.lines) for hundredth in range(500) if line.changes_lines(hundredth / 100)
    ]
    assert [lines for _, lines in changes] == [(True, True), (False, True), (True, False), (True, True)]
    assert [time_s for time_s, _ in changes] == pytest.approx([1.2, 2.4, 3.6, 4.8], abs=0.03)
    assert set(CONTROL_LINES) == {(True, False), (True, True), (False, True)}


def test_lines_that_brought_a_frame_stay_for_good():
    line = Transmission(14)
    assert line.changes_lines(1.3)
    line.hear(14, 1, 1.5)
    assert not line.changes_lines(100.0)
    line.begin(200.0)
    assert line.lines == (True, True)
    assert not line.changes_lines(300.0)


def test_bytes_are_not_silence():
    line = Transmission(14)
    line.hear(3, 0, 1.0)
    assert not line.changes_lines(1.3)
    assert line.changes_lines(2.3)


def test_bytes_without_a_frame_are_told_after_three_seconds():
    line = Transmission(14)
    for tenth in range(1, 30):
        line.hear(5, 0, tenth / 10)
        assert not line.is_not_understood(tenth / 10)
    line.hear(5, 0, 3.0)
    assert line.is_not_understood(3.0)
    line.hear(14, 1, 3.1)
    assert not line.is_not_understood(3.1)
    line.hear(5, 0, 9.0)
    assert not line.is_not_understood(9.0), "one partial frame is not enough to say so"


def test_a_meter_that_never_sent_and_one_that_stopped_are_told_apart_and_once():
    line = Transmission(14)
    assert line.silence_hint("P", 3.0, 3.5) == ""
    first = line.silence_hint("P", 3.0, 3.7)
    assert "Nothing arrives from P" in first
    assert "transmit key" in first
    assert line.silence_hint("P", 3.0, 9.0) == ""
    line.hear(14, 1, 10.0)
    assert line.silence_hint("P", 3.0, 12.9) == ""
    stopped = line.silence_hint("P", 3.0, 13.5)
    assert "stopped sending 3 s ago" in stopped
    assert "power-off" in stopped
    assert line.silence_hint("P", 3.0, 20.0) == ""
    line.hear(14, 1, 21.0)
    assert line.silence_hint("P", 3.0, 25.0)
