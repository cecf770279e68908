"""The time an input event has waited is found from the window system's stamps."""

from __future__ import annotations

import pytest

from gui.stamping import EventDelay


class Clock:
    def __init__(self) -> None:
        self.time_s = 1000.0

    def __call__(self) -> float:
        return self.time_s


def test_an_event_that_waited_is_told_from_one_that_did_not() -> None:
    clock = Clock()
    delay = EventDelay(clock)
    stamp_ms = 77_000  # the window system counts from somewhere else
    assert delay.of(stamp_ms) == 0.0
    for waited_s in (0.3, 0.0, 0.12, 2.0):
        clock.time_s += 1.0 + waited_s
        stamp_ms += 1000
        assert delay.of(stamp_ms) == pytest.approx(waited_s, abs=1e-9)
        clock.time_s -= waited_s


def test_a_first_event_that_waited_corrects_itself_with_the_next() -> None:
    clock = Clock()
    delay = EventDelay(clock)
    delay.of(5_000)  # had waited 0.4 s, which nobody can know yet
    clock.time_s += 1.0 - 0.4
    assert delay.of(6_000) == 0.0
    clock.time_s += 1.0 + 0.1
    assert delay.of(7_000) == pytest.approx(0.1)


@pytest.mark.parametrize("turns", [0, 1, 3])
@pytest.mark.parametrize("waited_s", [0.12, 2.5, 12.0])
def test_of_the_computers_own_clock_every_delay_is_told(turns: int, waited_s: float) -> None:
    """A program that stood still for longer than a second told none of its first key, after five of any."""
    clock = Clock()
    clock.time_s += turns * 2**32 / 1000  # the stamps have 32 bits
    delay = EventDelay(clock, shares_clock=True)
    clock.time_s += waited_s
    assert delay.of(1_000_000) == pytest.approx(waited_s, abs=1e-6)
    clock.time_s += 1.0
    assert delay.of(1_001_000 + round(waited_s * 1000)) == pytest.approx(0.0, abs=1e-6)
    clock.time_s += 20.0 + waited_s
    assert delay.of(1_021_000 + round(waited_s * 1000)) == pytest.approx(waited_s, abs=1e-6)


@pytest.mark.parametrize("stamp_ms", [77_000, 1_002_000])
def test_a_display_on_another_computer_has_another_clock(stamp_ms: int) -> None:
    """It was begun after ours, or before."""
    clock = Clock()
    delay = EventDelay(clock, shares_clock=True)
    assert delay.of(stamp_ms) == 0.0
    clock.time_s += 0.25
    assert delay.of(stamp_ms) == pytest.approx(0.25, abs=1e-6)


def test_a_clock_that_happens_to_lie_near_is_not_taken_for_the_computers_own() -> None:
    """Half a second beside it, every moment would be that much too early."""
    clock = Clock()
    delay = EventDelay(clock)
    for _ in range(3):
        assert delay.of(round(clock.time_s * 1000) - 500) == 0.0
        clock.time_s += 1.0


def test_without_stamps_nothing_is_taken_off() -> None:
    clock = Clock()
    delay = EventDelay(clock)
    for _ in range(5):
        clock.time_s += 1.0
        assert delay.of(0) == 0.0


def test_a_clock_that_jumps_begins_anew() -> None:
    clock = Clock()
    delay = EventDelay(clock)
    delay.of(2**32 - 1000)
    clock.time_s += 2.0
    assert delay.of(1_000) == 0.0  # the 32-bit stamp has wrapped
    clock.time_s += 1.25
    assert delay.of(2_000) == pytest.approx(0.25)
