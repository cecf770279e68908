"""The numbers at the axis stand there whole: with its first digit cut off, one reads as another."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QFont, QStaticText
from pytestqt.qtbot import QtBot

from gui.chart.axes import TEXT_PX, VoltageAxis
from gui.chart.frame import Frame
from gui.chart.places import LABELS_WIDTH
from gui.theme import LIGHT

SMALLEST_PX = 9
"""Smaller digits are not read from a chair."""


class Pencil:
    """Has the face of the painter that an axis needs, and keeps what it was to write."""

    def __init__(self) -> None:
        self.size_px = 0
        self.written: list[tuple[QPointF, QStaticText]] = []

    def setFont(self, font: QFont) -> None:
        self.size_px = font.pixelSize()

    def setPen(self, colour: QColor) -> None:
        pass

    def drawStaticText(self, place: QPointF, words: QStaticText) -> None:
        self.written.append((place, words))


def written(axis: VoltageAxis, low_V: float, high_V: float, step_V: float) -> Pencil:
    pencil = Pencil()
    axis.show_step(step_V)
    axis.paint(pencil, Frame(800.0, 1900.0, 0.0, 30.0, low_V, high_V), LIGHT)  # type: ignore[arg-type]
    return pencil


@pytest.mark.parametrize(
    ("low_V", "high_V", "step_V"),
    [(26.962, 26.974, 0.0005), (-26.974, -26.962, 0.002), (-26.974, -26.962, 0.0005), (-2.26, 2.26, 0.2)],
    ids=["dry on a tall screen", "dry, leads reversed", "both", "electrolysis"],
)
def test_no_digit_is_cut_off(qtbot: QtBot, low_V: float, high_V: float, step_V: float) -> None:
    """26.9740 V was written as 6.9740 on a tall screen, and −26.974 V without its sign on any."""
    pencil = written(VoltageAxis(), low_V, high_V, step_V)
    assert len(pencil.written) > 5
    for place, words in pencil.written:
        assert place.x() >= 0.0, words.text()
        assert place.x() + words.size().width() <= LABELS_WIDTH + 1e-6, words.text()
    assert pencil.size_px >= SMALLEST_PX


def test_numbers_that_fit_again_are_as_large_as_ever(qtbot: QtBot) -> None:
    """After the dry cell, the voltages of electrolysis are written in the usual size."""
    axis = VoltageAxis()
    assert written(axis, -26.974, -26.962, 0.0005).size_px < TEXT_PX
    assert written(axis, 2.24, 2.26, 0.002).size_px == TEXT_PX
