"""Mouse and keys on the chart, as hands move them: real events of a virtual screen."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from gui.chart.time_window import BEYOND_END
from tests.gui.hand import Hand
from tests.gui.screen_desk import display as display

pytestmark = pytest.mark.screen

RUN_S = 900.0

PROGRAM = """
import sys
import numpy as np
from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtWidgets import QApplication
from gui.chart.chart import Chart
from gui.chart.notes import Notes
from gui.theme import Theme
from logger.moments import new_moment
from logger.overview import Overview

def tell(*words):
    print(*words, flush=True)

class ToldChart(Chart):
    def mouseReleaseEvent(self, event):
        super().mouseReleaseEvent(event)
        tell("up")

    def keyReleaseEvent(self, event):
        super().keyReleaseEvent(event)
        if event.key() not in (Qt.Key.Key_Control, Qt.Key.Key_Shift):
            here, since = self.reading.reader.here, self.reading.reader.since
            tell("key", *(one.number for one in (here, since) if one is not None))

application = QApplication(sys.argv)
chart = ToldChart(Theme(application, "light"))
chart.resize(900, 500)
chart.strip.is_movable = True
times_s = np.arange(0, 900.0, 0.3)
chart.show_overview(Overview.of(times_s, 2.2 - times_s / 1e4), is_live=False)
chart.show_notes(Notes((new_moment(300.0, "note", "here"),)))
chart.show()
chart.activateWindow()
chart.setFocus()

def tell_places():
    chart.refresh(900.0)
    flag = chart.mapToGlobal(chart.places.strip.topLeft() + QPoint(round(chart.frame.x(300.0)), 19))
    middle = chart.mapToGlobal(chart.places.view.center())
    tell("places", flag.x(), flag.y(), middle.x(), middle.y(), chart.frame.width)

chart.moment_chosen.connect(lambda _id: tell("chosen"))
chart.moment_moved.connect(lambda _id, time_s: tell("moved", time_s))
chart.looked.connect(lambda: tell("looked", *chart.window_of_time.stretch(1000)))
QTimer.singleShot(300, tell_places)
sys.exit(application.exec())
"""


@pytest.fixture
def hand(display: str) -> Iterator[Hand]:
    with Hand(display, PROGRAM) as made:
        yield made


def test_flag_wheel_and_curve_follow_the_hand(hand: Hand) -> None:
    flag_x, flag_y, middle_x, middle_y, width = (int(n) for n in hand.told("places")["places"])
    hand.do("mousemove", flag_x, flag_y, "click", 1)
    assert "chosen" in hand.told("up")
    hand.drag((flag_x, flag_y), 100)
    (moved_s,) = hand.told("up")["moved"]
    assert moved_s == pytest.approx(300.0 + 100 / width * BEYOND_END * RUN_S, abs=3.0)
    hand.do("mousemove", middle_x, middle_y, "click", 4)  # the wheel, one step
    left_s, right_s = hand.told("looked")["looked"]
    assert right_s - left_s == pytest.approx(BEYOND_END * RUN_S / 1.25, rel=0.01)
    hand.drag((middle_x, middle_y), 80)
    earlier_left_s, earlier_right_s = hand.told("up")["looked"]
    assert earlier_right_s - earlier_left_s == pytest.approx(right_s - left_s, rel=1e-6)
    assert left_s - earlier_left_s == pytest.approx(80 / width * (right_s - left_s), rel=0.05)


def test_keys_read_values_off(hand: Hand) -> None:
    """900 s with a reading each 0.3 s, in 828 pixels: several readings a pixel until it is zoomed into."""
    hand.told("places")
    hand.do("search", "--sync", "--onlyvisible", "--name", ".*", "windowfocus", "--sync")

    def key(*names: str) -> list[float]:
        for name in names:
            hand.do("key", name)
            numbers = hand.told("key")["key"]
        return numbers

    (middle,) = key("Return")
    assert abs(middle - BEYOND_END * 1500) < 30
    (right,) = key("Right")
    assert 3 <= right - middle <= 5
    assert key("Home") == [0]
    assert key("Left") == [0]
    assert key("End") == [2999]
    (tenth,) = key("ctrl+Left")
    assert 2999 - tenth == pytest.approx(300, abs=10)
    key(*["plus"] * 12)
    assert key("Right") == [tenth + 1]
    here, since = key("Return", "Left", "shift+Left")[:2]
    assert (here, since) == (tenth - 1, tenth + 1)
    assert key("Escape") == [tenth - 1]
    assert key("Escape") == []
