"""Mouse and keys on eight runs laid over one another, as hands move them: real events of a virtual screen."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.gui.hand import Hand
from tests.gui.screen_desk import display as display

pytestmark = pytest.mark.screen

PROGRAM = """
import sys
import numpy as np
from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtWidgets import QApplication
from gui.shelf.overlay_chart import OverlayChart
from gui.shelf.overlay_picture import curve_place
from gui.shelf.overlay_view import OverlayRun
from gui.theme import Theme
from logger.overview import Overview
from logger.reading_off import Reading

def tell(*words):
    print(*words, flush=True)

def tell_read(word):
    here = chart.reading.reader.here
    if here is None:
        tell(word)
    else:
        tell(word, here.time_s, *(one.number if isinstance(one, Reading) else -1 for one in here.readings))

class ToldChart(OverlayChart):
    def mouseReleaseEvent(self, event):
        super().mouseReleaseEvent(event)
        tell("looked", *self.view.stretch)
        tell_read("up")

    def mouseMoveEvent(self, event):
        super().mouseMoveEvent(event)
        tell_read("pointed")

    def wheelEvent(self, event):
        super().wheelEvent(event)
        tell("looked", *self.view.stretch)

    def keyReleaseEvent(self, event):
        super().keyReleaseEvent(event)
        if event.key() not in (Qt.Key.Key_Control, Qt.Key.Key_Shift):
            tell_read("key")

application = QApplication(sys.argv)
chart = ToldChart(Theme(application, "light"))
chart.resize(900, 500)
times_s = np.arange(3000) * 0.5
chart.show_runs(
    [OverlayRun(Overview.of(times_s, 2.2 - times_s / 1e4), 500.0 * (n == 7), "x", n) for n in range(8)],
    "Begin",
)
chart.show()
chart.activateWindow()
chart.setFocus()

def tell_places():
    place = curve_place(chart.width(), chart.height())
    middle = chart.mapToGlobal(place.center())
    tell("places", middle.x(), middle.y(), place.width())

QTimer.singleShot(300, tell_places)
sys.exit(application.exec())
"""
NONE_THERE = -1


@pytest.fixture
def hand(display: str) -> Iterator[Hand]:
    with Hand(display, PROGRAM) as made:
        yield made


def test_keys_read_eight_runs_off(hand: Hand) -> None:
    """Seven run from 0 to 1499.5 s, the eighth from -500 to 999.5 s; a step is a pixel, five readings."""
    hand.told("places")
    hand.do("search", "--sync", "--onlyvisible", "--name", ".*", "windowfocus", "--sync")

    def key(name: str) -> list[float]:
        hand.do("key", name)
        return hand.told("key")["key"]

    at_s, *numbers = key("Return")
    assert at_s == pytest.approx(500.0, abs=0.5)
    assert numbers == [2 * at_s] * 7 + [2 * at_s + 1000]
    right_s, *numbers = key("Right")
    assert right_s - at_s == pytest.approx(2.5, abs=0.5)
    assert numbers == [2 * right_s] * 7 + [2 * right_s + 1000]
    assert key("Home") == [-500.0, *[NONE_THERE] * 7, 0]
    assert key("End") == [1499.5, *[2999] * 7, NONE_THERE]
    assert 1499.5 - key("ctrl+Left")[0] == pytest.approx(200.0, abs=1.0)
    assert key("Escape") == []


def test_the_mouse_points_clicks_turns_the_wheel_and_drags(hand: Hand) -> None:
    x, y, width = (int(number) for number in hand.told("places")["places"])
    hand.do("mousemove", x, y)
    at_s, *numbers = hand.told("pointed")["pointed"]
    assert at_s == pytest.approx(500.0, abs=3.0)
    assert numbers == [2 * at_s] * 7 + [2 * at_s + 1000]
    hand.do("click", 4)  # the wheel, one step
    left_s, right_s = hand.told("looked")["looked"]
    assert right_s - left_s == pytest.approx(1999.5 / 1.25, rel=0.01)
    hand.drag((x, y), 80)
    told = hand.told("up")
    earlier_s, _ = told["looked"]
    assert left_s - earlier_s == pytest.approx(80 / width * (right_s - left_s), rel=0.05)
    assert told["up"] == []  # a drag reads nothing off
    hand.do("mousemove", x, y, "click", 1)
    clicked_s = hand.told("up")["up"][0]
    assert clicked_s == pytest.approx((earlier_s + earlier_s + right_s - left_s) / 2, abs=3.0)
