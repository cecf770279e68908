"""The list of moments: which of many are in view."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QListWidget
from pytestqt.qtbot import QtBot

from gui.findings.moment_pane import MomentPane
from gui.theme import Theme
from gui.widgets.moment_list import MomentList
from logger.moments import new_moment

MANY = tuple(new_moment(10.0 * i, "note", f"foam {i}") for i in range(60))


def listed(inside: MomentList) -> QListWidget:
    (found,) = inside.findChildren(QListWidget)
    return found


@pytest.fixture
def running(theme: Theme, qtbot: QtBot) -> MomentList:
    made = MomentList(theme)
    qtbot.addWidget(made)
    return made


@pytest.mark.parametrize("is_shown_first", [True, False])
def test_a_finished_run_is_listed_from_its_first_moment(
    theme: Theme, qtbot: QtBot, is_shown_first: bool
) -> None:
    pane = MomentPane(theme)
    qtbot.addWidget(pane)
    if is_shown_first:
        pane.resize(400, 400)
        pane.show()
    pane.list.show_moments(MANY)
    pane.resize(400, 500)
    pane.show()
    bar = listed(pane.list).verticalScrollBar()
    qtbot.waitUntil(lambda: bar.maximum() > 0)
    assert bar.value() == 0


def test_a_run_in_progress_keeps_its_newest_moment_in_view(running: MomentList, qtbot: QtBot) -> None:
    running.resize(400, 300)
    running.show()
    running.show_moments(MANY)
    running.resize(400, 200)
    bar = listed(running).verticalScrollBar()
    qtbot.waitUntil(lambda: bar.value() == bar.maximum() > 0)
