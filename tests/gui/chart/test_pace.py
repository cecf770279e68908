"""When what comes by itself is drawn."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from gui.chart.pace import Pace


class Clocks:
    """Both clocks of `gui.chart.pace`, standing until told to go on."""

    def __init__(self) -> None:
        self.host_s, self.thread_s = 100.0, 7.0

    def monotonic(self) -> float:
        return self.host_s

    def thread_time(self) -> float:
        return self.thread_s

    def work(self, pace: Pace, name: str, own_s: float, others_s: float = 0.0) -> None:
        """Let work take processor time, and more by the clock where others have the processor."""
        with pace.work(name):
            self.thread_s += own_s
            self.host_s += own_s + others_s


@pytest.fixture
def clocks(monkeypatch: pytest.MonkeyPatch) -> Clocks:
    clocks = Clocks()
    monkeypatch.setattr("gui.chart.pace.time", clocks)
    return clocks


def test_the_first_picture_is_due_at_once(clocks: Clocks, qtbot: QtBot) -> None:
    pace = Pace()
    with qtbot.waitSignal(pace.due):
        pace.ask()


def test_a_picture_that_took_long_is_followed_by_a_longer_rest(clocks: Clocks) -> None:
    pace = Pace()
    clocks.work(pace, "drawing", 0.010)
    clocks.work(pace, "painting", 0.010)
    clocks.host_s += 0.029
    assert 0 < pace.rest_s < 0.002, "20 ms of work, so 30 ms of rest: two fifths of a core"
    clocks.host_s += 0.002
    assert pace.rest_s == 0


def test_what_other_programs_take_does_not_lengthen_the_rest(clocks: Clocks) -> None:
    pace = Pace()
    clocks.work(pace, "painting", 0.004, others_s=0.040)
    assert pace.rest_s == pytest.approx(0.006)


def test_a_clock_that_ticks_rarely_still_gives_two_fifths_of_a_core(clocks: Clocks) -> None:
    """Pictures of 4 ms, of which a clock of 16 ms sees one in four: in the long run 6 ms of rest each."""
    pace, rests_s = Pace(), 0.0
    for k in range(400):
        clocks.work(pace, "painting", 0.016 if k % 4 == 0 else 0.0)
        rests_s += pace.rest_s
    assert rests_s / 400 == pytest.approx(0.0064, rel=0.1)


def test_whoever_asks_during_the_rest_is_answered_once_when_it_is_over(clocks: Clocks, qtbot: QtBot) -> None:
    pace = Pace()
    told: list[str] = []
    pace.due.connect(lambda: told.append("due"))
    clocks.work(pace, "painting", 0.001)
    pace.ask()
    pace.ask()
    assert not told, "the clock stands: the rest goes on"
    qtbot.waitUntil(lambda: bool(told))
    assert told == ["due"]
    clocks.host_s += 1.0
    pace.ask()
    assert told == ["due", "due"]
