"""The row below the curve: its button is as high as a hand in a glove needs, and the row no higher."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from gui.pages.curve_row import CurveRow
from gui.theme import Theme
from tests.gui.languages import speaking


@pytest.mark.parametrize("language", ["en", "de"])
def test_the_way_back_to_following_is_hit_with_a_glove(
    qapp: QApplication, theme: Theme, qtbot: QtBot, language: str
) -> None:
    """WCAG 2.2, 2.5.5."""
    with speaking(qapp, language):
        row = CurveRow(theme)
        qtbot.addWidget(row)
        row.resize(900, row.sizeHint().height())
        row.show()
        assert row.follow.height() >= 44
        assert row.follow.width() >= 44
        assert row.height() <= row.follow.height() + 2
