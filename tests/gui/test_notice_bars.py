"""Bars of the window: what is on them can be hit with gloves on, and they take little room."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton
from pytestqt.qtbot import QtBot

from gui.widgets.notice_bars import NoticeBars
from tests.gui.controls import assert_nothing_clips
from tests.gui.languages import speaking

SHORT = "The moment is gone."
LONG = (
    "The moment is gone; its picture stays in the recording. To remove it, too: undo, remove it first. " * 2
)


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize(
    ("width", "text", "button_px", "most_px"),
    [(1310, SHORT, 44, 50), (900, LONG, 44, 66), (330, LONG, 28, 260)],
)
def test_the_buttons_of_a_bar_are_as_high_as_it_is(
    qapp: QApplication, qtbot: QtBot, language: str, width: int, text: str, button_px: int, most_px: int
) -> None:
    """WCAG 2.2, 2.5.5; where they stand below the words the room goes to what the bar stands over."""
    with speaking(qapp, language):
        bars = NoticeBars()
        qtbot.addWidget(bars)
        bars.resize(width, 10)
        bars.show()
        bars.show_bar("removed", "info", text, [("Bring it back", lambda: None)])
        bars.resize(width, bars.sizeHint().height())
        qapp.processEvents()
        bars.resize(width, bars.sizeHint().height())
        buttons = bars.findChildren(QPushButton)
        assert len(buttons) == 2
        assert {one.height() for one in buttons} == {button_px}
        assert all(one.width() >= 44 for one in buttons)
        assert bars.height() <= most_px + 8  # and what keeps it off what stands below
        assert_nothing_clips(bars)


def test_the_buttons_of_a_bar_of_very_many_words_stay_in_the_window(qapp: QApplication, qtbot: QtBot) -> None:
    """Of a hundred changes that could not be written the bar was higher than the window."""
    bars = NoticeBars()
    qtbot.addWidget(bars)
    words = "Not in the file: " + "; ".join(f"{k}:00 Salt added: 3 drops" for k in range(100))
    bars.resize(640, 10)
    bars.show()
    bars.show_bar("changed", "warning", words, [("Try again", lambda: None)])
    qapp.processEvents()
    bars.resize(640, bars.sizeHint().height())
    assert bars.height() < 240  # of a window of 384
    assert bars.texts["changed"] == words
    (label,) = [one for one in bars.findChildren(QLabel) if one.text().startswith("Not in")]
    assert " … " in label.text()
    assert label.toolTip() == words


@pytest.mark.parametrize(
    "named",
    ["/" + "/".join(["folder"] * 200) + "/run.h5", "; ".join(f"{k}:00 Salt added" for k in range(100))],
)
def test_a_bar_that_is_cut_says_what_to_do(qapp: QApplication, qtbot: QtBot, named: str) -> None:
    """What to do stands at the end, and that was cut off; of a path nothing was left either."""
    bars = NoticeBars()
    qtbot.addWidget(bars)
    remedy = "could not be changed. Take the protection away, or change a copy of it."
    bars.resize(640, 10)
    bars.show()
    bars.show_bar("changed", "warning", f"It seems that {named} {remedy}")
    qapp.processEvents()
    (label,) = [one for one in bars.findChildren(QLabel) if one.text().startswith("It seems that")]
    assert label.text().endswith(remedy)
    assert label.text().startswith(f"It seems that {named[:200]}")
    assert len(label.text()) < 620


@pytest.mark.parametrize("name", ["x" * 500, "W" * 500, "-" * 500, "D:\\" + "Unterricht\\Chemie_10b\\" * 9])
def test_a_long_word_asks_for_no_more_room_than_a_small_window_has(qtbot: QtBot, name: str) -> None:
    """The page was as wide as the word; one that is laid out otherwise there ended the program."""
    bars = NoticeBars()
    qtbot.addWidget(bars)
    bars.resize(640, 10)
    bars.show()
    acts = [("Try again", lambda: None), ("Copy the words", lambda: None)]
    bars.show_bar("copy", "warning", f"The second copy in {name} cannot be written.", acts)
    assert bars.minimumSizeHint().width() <= 640
    assert bars.texts["copy"] == f"The second copy in {name} cannot be written."
