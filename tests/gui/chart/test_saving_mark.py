"""The words over the curve: those of a level give way to what was saved, and none is cut off."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from gui.chart.frame import Frame
from gui.chart.notes import Level, Notes, Saving
from gui.chart.saving_mark import SavingMark, _arrow
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


OUTSIDE = 60


def unclipped(size: tuple[int, int], level: Level, saving: Saving | None = None) -> QImage:
    """Return what is painted for the curve's place and for some rows above and below it, which it clips."""
    width, height = size
    mark = SavingMark()
    times_s, values = lesson(570)
    columns = Overview.of(times_s, values).columns(np.linspace(0.0, 600.0, width + 1))
    mark.show_notes(Notes(levels=(level,), saving=saving), columns, 1.0)
    image = QImage(width, height + 2 * OUTSIDE, QImage.Format.Format_RGB32)
    image.fill(LIGHT.paper)
    painter = QPainter(image)
    painter.translate(0, OUTSIDE)
    mark.paint(painter, Frame(width, height, 0.0, 600.0, 2.2, 2.32), LIGHT)
    painter.end()
    return image


def is_cut_off(image: QImage) -> bool:
    """Tell whether something but half a line's thickness lies above or below the curve's place."""
    paper, height = image.pixel(0, 0), image.height()
    rows = [*range(OUTSIDE - 2), *range(height - OUTSIDE + 2, height)]
    return any(image.pixel(x, y) != paper for y in rows for x in range(image.width()))


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("size", [SMALL, (600, 46), LARGE])
def test_words_of_a_level_near_the_rim_stand_whole(size: tuple[int, int]) -> None:
    """In a low window the words below the settled level at the end of the run were cut."""
    assert not is_cut_off(unclipped(size, Level(480.0, 570.0, 2.205, 0.002, "2.205 V after")))
    assert not is_cut_off(unclipped(size, Level(190.0, 284.0, 2.315, 0.002, "2.315 V before")))


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("size", [SMALL, (600, 46), LARGE])
def test_words_of_a_level_out_of_sight_are_not_half_seen(size: tuple[int, int]) -> None:
    above = Level(190.0, 284.0, 2.321, 0.002, "2.321 V before")
    assert unclipped(size, above) == unclipped(size, replace(above, text=""))


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("size", [SMALL, (600, 46), LARGE])
def test_words_of_the_saving_at_a_rim_stand_whole(size: tuple[int, int]) -> None:
    level = Level(190.0, 284.0, 2.32, 0.002, "")
    assert not is_cut_off(unclipped(size, level, Saving(level, 570.0, 2.27, "saved so far", "50 ± 5 mV")))


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("size", [(270, 130), LARGE])
def test_words_of_the_last_level_leave_the_arrow_free(size: tuple[int, int]) -> None:
    """In the smallest window the voltage afterwards stood over the head of the arrow."""
    width, height = size
    frame = Frame(width, height, 0.0, 600.0, 2.2, 2.32)
    before = Level(190.0, 284.0, 2.30, 0.002, "")
    after = Level(480.0, 598.0, 2.202, 0.002, "2.202 V after")
    saving = Saving(before, 598.0, 2.202, "saved", "98 ± 5 mV")
    mark = SavingMark()
    times_s, values = lesson(598)
    columns = Overview.of(times_s, values).columns(np.linspace(0.0, 600.0, width + 1))
    mark.show_notes(Notes(levels=(before, after), saving=saving), columns, 1.0)
    image = QImage(width, height, QImage.Format.Format_RGB32)
    image.fill(LIGHT.paper)
    painter = QPainter(image)
    mark.paint(painter, frame, LIGHT)
    painter.end()
    words, (x, top, bottom) = mark._taken[-1], _arrow(saving, frame)
    assert len(mark._taken) == 3, "the words of both, and the arrow"
    assert words.top() >= top
    assert words.bottom() <= max(bottom, frame.height)
    assert words.right() <= x - 5


@pytest.mark.usefixtures("qapp")
def test_words_of_a_level_that_others_follow_leave_the_arrow_free() -> None:
    """With other resistors after it the arrow fell onto the words of the voltage afterwards."""
    width, height = LARGE
    frame = Frame(width, height, 0.0, 900.0, 1.7, 2.32)
    before = Level(190.0, 284.0, 2.25, 0.002, "")
    after = Level(480.0, 570.0, 2.0, 0.002, "2.000 V after")
    saving = Saving(before, 570.0, 2.0, "saved", "250 ± 2 mV")
    mark = SavingMark()
    times_s = np.arange(0.0, 900.0)
    overview = Overview.of(times_s, np.where(times_s < 570, 2.0, 1.9))
    columns = overview.columns(np.linspace(0.0, 900.0, width + 1))
    mark.show_notes(Notes(levels=(before, after), saving=saving), columns, 1.0)
    image = QImage(width, height, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    mark.paint(painter, frame, LIGHT)
    painter.end()
    words, (x, top, bottom) = mark._taken[-1], _arrow(saving, frame)
    assert words.left() == frame.x(570.0) + 6
    assert not words.intersects(QRectF(x - 5, top, 10, bottom - top))
