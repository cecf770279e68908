"""The list of moments: which of many are in view."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QListView
from pytestqt.qtbot import QtBot

from gui.findings.moment_pane import MomentPane
from gui.theme import Theme
from gui.widgets.moment_list import MomentList
from logger.moments import new_moment

MANY = tuple(new_moment(10.0 * i, "note", f"foam {i}") for i in range(60))


def listed(inside: MomentList) -> QListView:
    (found,) = inside.findChildren(QListView)
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


# ---------------------------------------------------------------- what a change touches


class Touched:
    """Notes what the list is told of its rows."""

    def __init__(self, inside: MomentList) -> None:
        model = listed(inside).model()
        self.told: list[tuple[str, int, int]] = []
        model.modelReset.connect(lambda: self.told.append(("reset", 0, 0)))
        model.rowsInserted.connect(lambda _parent, first, last: self.told.append(("in", first, last)))
        model.rowsRemoved.connect(lambda _parent, first, last: self.told.append(("out", first, last)))
        model.layoutChanged.connect(lambda: self.told.append(("order", 0, 0)))


def spoken(inside: MomentList) -> list[str]:
    model = listed(inside).model()
    return [model.index(row, 0).data() for row in range(model.rowCount())]


def test_a_moment_that_comes_or_goes_touches_no_other(running: MomentList) -> None:
    """A list made anew at each of many undos held the window up, and took the place of who reads aloud."""
    running.show_moments(MANY)
    touched = Touched(running)
    running.show_moments(MANY[:-1])
    running.show_moments((*MANY[:20], *MANY[22:-1]))
    running.show_moments(MANY[:-1])
    running.show_moments(MANY)
    assert touched.told == [("out", 59, 59), ("out", 20, 21), ("in", 20, 21), ("in", 59, 59)]
    assert spoken(running)[20:22] == ["21, 3:20.0, Note: foam 20", "22, 3:30.0, Note: foam 21"]


def test_words_to_be_read_aloud_are_made_when_they_are_asked_for(
    running: MomentList, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[str] = []
    monkeypatch.setattr("gui.widgets.moment_model.label_words", lambda one: made.append(one.id) or one.label)
    running.show_moments(MANY)
    assert made == []
    assert spoken(running)[59] == "60, 9:50.0, Note: foam 59"
    assert len(made) == len(MANY)


def test_the_chosen_moment_stays_chosen_when_others_come_and_go_or_it_moves(running: MomentList) -> None:
    heard: list[str] = []
    running.show_moments(MANY)
    running.choose(MANY[30].id)
    running.chosen_changed.connect(heard.append)
    running.show_moments(MANY[5:])
    assert spoken(running)[25] == "26, 5:00.0, Note: foam 30"
    moved = MANY[30].edited(time_s=3.0)
    running.show_moments((MANY[0], moved, *MANY[1:30], *MANY[31:]))
    assert running.chosen_id == MANY[30].id
    assert listed(running).currentIndex().row() == 1
    assert spoken(running)[:2] == ["1, 0:00.0, Note: foam 0", "2, 0:03.0, Note: foam 30"]
    assert "" not in heard, "not even for a moment"


def test_no_neighbour_is_chosen_when_the_chosen_moment_goes(running: MomentList) -> None:
    """A key that removes, held a little long, would take one after the other."""
    heard: list[str] = []
    running.show_moments(MANY)
    running.choose(MANY[30].id)
    running.chosen_changed.connect(heard.append)
    running.show_moments((*MANY[:30], *MANY[31:]))
    assert running.chosen_id is None
    assert heard == [""]
