"""The bar along the bottom of the Run page, and the path of the steps in it."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from gui.fonts import font
from gui.pages.run_foot import RunFoot
from gui.theme import Theme
from gui.widgets.sheet_path import DISC, GAP, PathStep, SheetPath

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


@pytest.mark.parametrize("end", ["show_saving", "show_failed"])
def test_the_row_stands_still_when_the_run_ends(theme: Theme, qtbot: QtBot, end: str) -> None:
    foot = RunFoot(theme)
    qtbot.addWidget(foot)
    foot.resize(1366, foot.height())
    foot.show()
    before = places(foot)
    getattr(foot, end)()
    assert places(foot) == before


def places(foot: RunFoot) -> list[tuple[int, int]]:
    layout = foot.layout()
    assert layout is not None
    layout.activate()
    buttons: tuple[QWidget, ...] = (foot.next, foot.kinds, foot.tag, foot.stop)
    return [(one.x(), one.width()) for one in buttons]
