"""The column beside the curve: how much of the page it takes."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from gui.pages.live_panel import LivePanel
from gui.theme import Theme


@pytest.fixture
def panel(theme: Theme, qtbot: QtBot) -> LivePanel:
    made = LivePanel(theme)
    qtbot.addWidget(made)
    made.number.show_value("2.033")
    return made


def room_of(panel: LivePanel, width: int, height: int) -> tuple[int, int]:
    panel.take_room(width, height)
    return panel.width(), panel.number.sizeHint().height()


def test_a_large_screen_shows_the_voltage_larger(panel: LivePanel) -> None:
    usual_width, usual_height = room_of(panel, 1366, 710)
    width, height = room_of(panel, 1920, 1024)
    assert width > 1.25 * usual_width
    assert height > 1.25 * usual_height
    assert panel.number.maximumHeight() >= height


def test_a_wide_but_low_window_keeps_its_height_for_the_words(panel: LivePanel) -> None:
    _, usual = room_of(panel, 1366, 710)
    assert room_of(panel, 1920, 600)[1] == usual


def test_a_small_window_gives_the_curve_its_share(panel: LivePanel) -> None:
    assert room_of(panel, 683, 340)[0] < room_of(panel, 1366, 710)[0]
