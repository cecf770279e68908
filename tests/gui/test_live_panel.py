"""The column beside the curve: how much of the page it takes."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication, QListView, QPushButton
from pytestqt.qtbot import QtBot

from gui.pages.live_panel import LivePanel
from gui.pages.run_foot import HEIGHT as FOOT_HEIGHT
from gui.pages.run_page import ABOVE
from gui.theme import Theme
from gui.widgets.moment_list import ROW_HEIGHT
from logger.moments import new_moment
from tests.gui.languages import speaking
from tests.gui.test_live_texts import VIEW


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


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize(("page_height", "least_px"), [(712, 44), (1024, 44), (664, 28)])
def test_the_buttons_above_the_moments_are_as_high_as_there_is_room(
    qapp: QApplication, theme: Theme, qtbot: QtBot, language: str, page_height: int, least_px: int
) -> None:
    """At 44 pixels a hand in a glove hits them (WCAG 2.2, 2.5.5); two moments stay in view below them."""
    with speaking(qapp, language):
        panel = LivePanel(theme)
        qtbot.addWidget(panel)
        panel.take_room(1366, page_height)
        panel.show_voltage(2.033, 0.1)
        panel.show_view(VIEW, "Splitting water.")
        panel.moments.show_moments(tuple(new_moment(10.0 * i, "note", f"foam {i}") for i in range(5)))
        panel.resize(panel.width(), page_height - FOOT_HEIGHT - ABOVE)
        panel.show()
        buttons = panel.moments.findChildren(QPushButton)
        assert len(buttons) == 3
        for button in buttons:
            assert button.height() >= least_px
            assert button.width() >= 44
            assert button.width() >= button.sizeHint().width()
        (moments,) = panel.moments.findChildren(QListView)
        assert moments.height() >= 2 * ROW_HEIGHT
        needed = panel.heightForWidth(panel.width())
        assert needed <= panel.height(), "the column scrolls, and the last moment is cut"
