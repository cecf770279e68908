"""The line along the top: nothing in it moves under a hand, and the words give way in their order."""

from __future__ import annotations

from itertools import pairwise

import pytest
from PySide6.QtWidgets import QApplication, QMenu, QWidget
from pytestqt.qtbot import QtBot

from gui.fonts import font
from gui.page_list import PAGES
from gui.theme import Theme
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.header import Header

NAMES = tuple(entry.name for entry in PAGES)
SOURCE = (
    "good",
    ("Handheld meter, 2.9 readings/s, last 0.2 s ago", "Handheld meter, last 0.2 s ago", "last 0.2 s"),
)
LONG = "A run with a very long title that nobody has shortened, for bench four of the second class"


@pytest.fixture
def header(theme: Theme, qtbot: QtBot) -> Header:
    menu = QMenu()
    made = Header(theme, menu)
    qtbot.addWidget(made)
    qtbot.addWidget(menu)
    made.show()
    return made


def lay_out(header: Header, width: int) -> None:
    header.resize(width, header.height())
    QApplication.processEvents()


def places(header: Header) -> list[int]:
    return [header._tabs[name].x() for name in NAMES]


@pytest.mark.parametrize("width", [1920, 1440, 1366, 1280, 960])
def test_the_pages_keep_their_places(header: Header, width: int) -> None:
    """Whatever stands beside them, and before there are findings too."""
    header.show_run(
        "Strip 4", ("12:30 running, saved to disk 0.2 s ago", "12:30 running"), is_simulated=False
    )
    header.show_pages([name for name in NAMES if name != "findings"], "run")
    header.show_source(None)
    lay_out(header, width)
    before = places(header)
    assert not header._tabs["findings"].isEnabled()
    header.show_run(
        LONG, ("2026-11-25, 09:10, 27:00 long, 3330 readings", "2026-11-25, 09:10"), is_simulated=True
    )
    header.show_pages(NAMES, "findings")
    header.show_files(["a.h5", "a file with a long name.h5"], 1, visible=True)
    header.show_source(SOURCE)
    lay_out(header, width)
    assert places(header) == before
    assert header._tabs["findings"].isEnabled()


@pytest.mark.parametrize("width", [1920, 1440, 1366, 1280, 1180, 960, 800])
def test_nothing_lies_over_another(header: Header, width: int) -> None:
    header.show_run(
        LONG, ("2026-11-25, 09:10, 27:00 long, 3330 readings", "2026-11-25, 09:10"), is_simulated=True
    )
    header.show_pages(NAMES, "findings")
    header.show_files(["a.h5", "b.h5"], 1, visible=True)
    header.show_source(SOURCE)
    lay_out(header, width)
    parts = (header._title, header._files, header._about, *header._tabs.values(), header._pill, header.light)
    shown = [part for part in (*parts, header._menu) if part.isVisible()]
    edges = [(_left(part, header), _left(part, header) + part.width()) for part in shown]
    assert all(right <= left for (_, right), (left, _) in pairwise(edges)), edges
    assert edges[-1][1] <= width


def _left(part: QWidget, header: Header) -> int:
    return part.mapTo(header, part.rect().topLeft()).x()


def test_a_run_without_a_title_leaves_no_gap_where_it_would_stand(header: Header) -> None:
    header.show_run("Strip 4", ("not recording",), is_simulated=False)
    lay_out(header, 1366)
    left = header._title.x()
    header.show_run("", ("not recording",), is_simulated=False)
    lay_out(header, 1366)
    assert header._about.x() == left


def test_the_age_of_the_last_reading_stays_longest(header: Header) -> None:
    header.show_run("Strip 4", ("12:30 running",), is_simulated=False)
    header.show_pages(NAMES, "run")
    header.show_source(SOURCE)
    shown = []
    for width in (1920, 1280, 800):
        lay_out(header, width)
        shown.append(header.light._words.fitting_text())
    assert shown[0] == SOURCE[1][0]
    assert all("last 0.2 s" in words for words in shown)


def test_invented_data_stay_marked(header: Header) -> None:
    header.show_pages(NAMES, "run")
    header.show_run("Strip 4", ("12:30 running",), is_simulated=True)
    header.show_source(SOURCE)
    found = []
    for width in (1920, 1280, 800, 560):
        lay_out(header, width)
        assert header._pill.isVisible()
        found.append(header._pill.text())
    assert found == ["Simulated, invented data", "Simulated", "Simulated", "Simulated"]


def test_a_label_says_the_longest_that_fits(qtbot: QtBot, theme: Theme) -> None:
    label = ElidedLabel()
    label.setFont(font(13))
    qtbot.addWidget(label)
    label.show_text("12:30 running, saved to disk 0.2 s ago", "12:30 running")
    for width, words in ((400, "12:30 running, saved to disk 0.2 s ago"), (120, "12:30 running")):
        label.resize(width, 20)
        assert label.fitting_text() == words
    label.resize(60, 20)
    assert label.fitting_text().endswith("…")
    assert label.fitting_text().startswith("12")
