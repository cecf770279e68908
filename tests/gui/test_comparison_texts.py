"""What several runs say together, as the shelf words it."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QApplication, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from gui.shelf.comparison_texts import caution_texts
from gui.shelf.comparison_view import ComparisonView
from gui.theme import Theme
from logger.analysis.run_comparison import compare_runs
from tests.gui.languages import speaking
from tests.logger.analysis.test_run_comparison import one

FOLDER = "/home/teacher/Class 9b/"


def test_a_run_that_is_left_out_says_why_in_its_own_line_only() -> None:
    found = compare_runs([one(250, "a"), one(251, "b", left_out=("it shows no voltage saved",))])
    assert "left_out" in {caution.code for caution in found.cautions}
    assert not [text for text in caution_texts(found, {}) if "voltage saved" in text]


def test_runs_are_called_by_the_names_of_the_table_and_not_by_their_paths() -> None:
    runs = [one(v, n, file=f"{FOLDER}{n}.h5") for v, n in ((250, "a"), (251, "b"), (252, "c"), (400, "d"))]
    said = caution_texts(compare_runs(runs), {run.file: f"Strip {run.uuid}" for run in runs})
    assert [text for text in said if text.startswith("“Strip d” lies off the others")]
    assert not [text for text in said if FOLDER in text]


@pytest.mark.parametrize(("count", "words"), [(1, "Eine Messung mit Salz kann"), (2, "2 Messungen mit Salz")])
def test_too_few_runs_are_told_in_german_whether_one_or_two(
    qapp: QApplication, count: int, words: str
) -> None:
    found = compare_runs([one(2, "blank", "blank"), *(one(250 + k, f"a{k}") for k in range(count))])
    with speaking(qapp, "de"):
        assert [text for text in caution_texts(found, {}) if text.startswith(words)]


@pytest.mark.parametrize("language", ["en", "de"])
def test_the_heading_takes_its_last_room_while_runs_are_read(
    qapp: QApplication, theme: Theme, qtbot: QtBot, language: str
) -> None:
    with speaking(qapp, language):
        view = ComparisonView(theme)
        qtbot.addWidget(view)
        view.show_runs([], [Path(f"{number}.h5") for number in range(8)])
        reading = view._heading.text()
        room = view._heading.minimumWidth()
        assert "8" in reading
        assert QFontMetricsF(view._heading.font()).horizontalAdvance(reading) <= room


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("width", [705, 791, 1340])
def test_the_way_to_take_all_ticks_away_stands_beside_the_heading(
    qapp: QApplication, theme: Theme, qtbot: QtBot, language: str, width: int
) -> None:
    """Of windows 1280, 1366 and 1920 pixels wide; the report stays beside what the runs are aligned at."""
    with speaking(qapp, language):
        view = ComparisonView(theme)
        qtbot.addWidget(view)
        view.resize(width, 600)
        view.show_runs([], [Path(f"{number}.h5") for number in range(8)])
        view.show()
        clear = next(one for one in view.findChildren(QPushButton) if one is not view.report)

        def middle(widget: QWidget) -> float:
            return float(widget.mapTo(view, widget.rect().center()).y())

        assert clear.text() in ("Take all ticks away", "Alle Kreuze wegnehmen")
        assert middle(clear) == pytest.approx(middle(view._heading), abs=2)
        assert middle(view.report) == pytest.approx(middle(view.align), abs=2)
