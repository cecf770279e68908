"""The bar along the bottom of the Run page, and the path of the steps in it."""

from __future__ import annotations

from itertools import combinations

import pytest
from PySide6.QtCore import QPoint, QRect
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QApplication, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from gui.fonts import font
from gui.pages.run_foot import RunFoot
from gui.theme import Theme
from gui.widgets.sheet_path import DISC, GAP, PathStep, SheetPath
from tests.gui.languages import speaking

STEPS = tuple(
    PathStep(words, "now" if i == 3 else "done" if i < 3 else "to_do")
    for i, words in enumerate(
        (
            "Connect everything, cell dry",
            "Pour in the buffer",
            "Add the metal salt",
            "Lift the electrodes out",
            "Swap in fresh buffer",
            "Put the electrodes back in, as deep as before",
        )
    )
)


def room_used(path: SheetPath) -> float:
    return sum(room + 8 + GAP for _step, room in path._rooms() if room) + len(STEPS) * (2 * DISC + 8)


@pytest.mark.parametrize("width", [700, 900, 1040, 1140])
def test_no_step_is_cut_off_while_there_is_room(theme: Theme, qtbot: QtBot, width: int) -> None:
    path = SheetPath(theme)
    qtbot.addWidget(path)
    path.resize(width, path.height())
    path.show_steps(STEPS)
    written = QFontMetricsF(font(13.5))
    cut = [s.words for s, room in path._rooms() if 0 < room < written.horizontalAdvance(s.words)]
    assert room_used(path) <= width
    assert not cut or room_used(path) > width - 6, f"{width - room_used(path):.0f} pixels lie idle"


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("width", [683, 1040, 1280, 1366, 1920])
def test_the_next_step_is_read_whole_where_there_is_room(
    qapp: QApplication, theme: Theme, qtbot: QtBot, width: int, language: str
) -> None:
    with speaking(qapp, language):
        foot = RunFoot(theme)
    qtbot.addWidget(foot)
    foot.resize(width, foot.height())
    foot.show()
    QApplication.processEvents()
    others = [one for one in (foot.kinds, foot.tag, foot.stop) if one.isVisible()]
    places_before = [one.x() for one in others]
    for words in ("Stir", "Pour the phosphate buffer in up to the upper mark, slowly", "W" * 200):
        foot.show_sheet(STEPS, words, "until settled", is_time=False)
        QApplication.processEvents()
        assert [one.x() for one in others] == places_before, "nothing is moved under a hand"
        idle = others[0].x() - foot.next.geometry().right()
        is_whole = foot.next.width() >= foot.next.sizeHint().width()
        assert is_whole or idle <= 2 * 12 + 1, f"{idle} pixels lie idle"


@pytest.mark.parametrize(
    "ends",
    [
        ("show_saving",),
        ("show_failed",),
        ("show_saving", "show_saved"),
        ("show_saving", "show_failed"),
        ("show_ending", "show_failed"),
    ],
)
def test_the_row_stands_still_when_the_run_ends(theme: Theme, qtbot: QtBot, ends: tuple[str, ...]) -> None:
    foot = RunFoot(theme)
    qtbot.addWidget(foot)
    foot.resize(1366, foot.height())
    foot.show()
    before = places(foot)
    for end in ends:
        getattr(foot, end)()
    assert places(foot) == before


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("width", [1280, 1366, 1920])
def test_a_hand_in_a_glove_hits_everything_along_the_bottom(
    qapp: QApplication, theme: Theme, qtbot: QtBot, language: str, width: int
) -> None:
    """WCAG 2.2, 2.5.5: 44 by 44 pixels."""
    with speaking(qapp, language):
        foot = RunFoot(theme)
        qtbot.addWidget(foot)
        foot.resize(width, foot.height())
        foot.show()
        foot.show_sheet(STEPS, STEPS[3].words, "in 2:29", is_time=False)
        buttons = [one for one in foot.findChildren(QPushButton) if one.isVisible()]
        assert {foot.skip, foot.repeat, foot.plan, foot.next, foot.tag, foot.stop} <= set(buttons)
        small = {one.accessibleName(): one.size() for one in buttons if min(*one.size().toTuple()) < 44}
        assert not small
        places = [QRect(one.mapTo(foot, QPoint()), one.size()) for one in buttons]
        assert all(foot.rect().contains(place) for place in places)
        assert not [pair for pair in combinations(places, 2) if pair[0].intersects(pair[1])]


def places(foot: RunFoot) -> list[tuple[int, int]]:
    layout = foot.layout()
    assert layout is not None
    layout.activate()
    buttons: tuple[QWidget, ...] = (foot.next, foot.kinds, foot.tag, foot.stop)
    return [(one.x(), one.width()) for one in buttons]
