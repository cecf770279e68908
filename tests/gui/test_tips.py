"""Other people's words in a tooltip are shown as they are."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QTextDocumentFragment
from PySide6.QtWidgets import QToolTip, QWidget
from pytestqt.qtbot import QtBot

from gui.tips import tip
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.moment_model import MomentModel
from logger.moments import new_moment

LABEL = '<b>2 drops</b> & <img src="x.png"> a < b'


@pytest.mark.parametrize("text", ["2 drops", "a & b", "a < b", LABEL, "<3", "a &lt;b&gt; c", "a  <b>"])
def test_a_text_is_shown_as_it_is(qtbot: QtBot, text: str) -> None:
    place = QWidget()
    qtbot.addWidget(place)
    QToolTip.showText(QPoint(0, 0), tip(text), place)
    given = QToolTip.text()
    shown = QTextDocumentFragment.fromHtml(given).toPlainText() if given.startswith("<qt>") else given
    assert shown == text


@pytest.mark.usefixtures("qapp")
def test_a_label_is_words_also_where_it_looks_like_markup() -> None:
    model = MomentModel()
    model.show((new_moment(61.0, "note", LABEL),))
    index = model.index(0, 0)
    assert LABEL in index.data(Qt.ItemDataRole.DisplayRole)
    assert "&lt;b&gt;2 drops" in index.data(Qt.ItemDataRole.ToolTipRole)


def test_a_title_that_is_cut_is_measured_and_told_as_it_is(qtbot: QtBot) -> None:
    """Of one that looks like markup the tags were neither measured nor shown."""
    label = ElidedLabel()
    qtbot.addWidget(label)
    label.show_text(LABEL)
    assert label.sizeHint().width() >= label.shortest_width()
    label.resize(60, 20)
    label.grab()
    shown = QTextDocumentFragment.fromHtml(label.toolTip()).toPlainText()
    assert shown == LABEL
