"""The words over the curve: those of a level give way to what was saved, and none is cut off."""

from __future__ import annotations

import numpy as np
import pytest
from PySide6.QtGui import QImage, QPainter

from gui.chart.frame import Frame
from gui.chart.notes import Level, Notes, Saving
from gui.chart.saving_mark import SavingMark
from gui.theme import LIGHT
from logger.overview import Overview
from tests.gui.fakes import lesson

SMALL, LARGE = (270, 84), (890, 420)
"""The curve's place in pixels: the school laptop at 200 %, and at 100 %."""


def painted(size: tuple[int, int], text: str, *, saved: bool) -> QImage:
    """Return what stands over the curve of a lesson 570 s long, whose level ends at 284 s."""
    width, height = size
    frame = Frame(width, height, 0.0, 600.0, 2.2, 2.32)
    level = Level(190.0, 284.0, 2.252, 0.002, text)
    saving = Saving(level, 570.0, 2.215, "saved so far", "31 ± 5 mV") if saved else None
    mark = SavingMark()
    times_s, values = lesson(570)
    columns = Overview.of(times_s, values).columns(np.linspace(0.0, 600.0, width + 1))
    mark.show_notes(Notes(levels=(level,), saving=saving), columns, 1.0)
    image = QImage(width, height, QImage.Format.Format_RGB32)
    image.fill(LIGHT.paper)
    painter = QPainter(image)
    mark.paint(painter, frame, LIGHT)
    painter.end()
    return image


@pytest.mark.usefixtures("qapp")
def test_where_both_have_no_room_what_was_saved_is_written_alone() -> None:
    """On a school laptop at 200 % the two stood over one another."""
    assert painted(SMALL, "2.252 V before", saved=True) == painted(SMALL, "", saved=True)
    assert painted(SMALL, "2.252 V before", saved=False) != painted(SMALL, "", saved=False)
    assert painted(LARGE, "2.252 V before", saved=True) != painted(LARGE, "", saved=True)


@pytest.mark.usefixtures("qapp")
def test_words_wider_than_the_picture_end_in_an_ellipsis() -> None:
    long = "2.252 V before, not settled, chosen by hand, and more"
    ends_alike = painted(SMALL, long + " still", saved=False)
    assert painted(SMALL, long, saved=False) == ends_alike
    paper = QImage(1, 1, QImage.Format.Format_RGB32)
    paper.fill(LIGHT.paper)
    right = SMALL[0] - 1
    bare = painted(SMALL, "", saved=False)
    levels_line = {y for y in range(SMALL[1]) if bare.pixel(right, y) != paper.pixel(0, 0)}
    written = {y for y in range(SMALL[1]) if ends_alike.pixel(right, y) != paper.pixel(0, 0)}
    assert written == levels_line
