"""Flags over the curve: the chosen one is marked, and moments that crowd can still be reached."""

from __future__ import annotations

import numpy as np
import pytest
from PySide6.QtCore import QPointF
from PySide6.QtGui import QImage, QPainter
from pytestqt.qtbot import QtBot

from gui.chart.frame import Frame
from gui.chart.moment_strip import MIDDLE, MomentStrip
from gui.theme import LIGHT, Theme
from logger.moments import Moment, new_moment

WIDTH = 800
CROWD = tuple(new_moment(10.0 * i, "note", f"note {i}") for i in range(100))
FEW = tuple(new_moment(100.0 * i, "note", f"note {i}") for i in range(1, 6))


def frame() -> Frame:
    return Frame(WIDTH, 300, 0.0, 1000.0, 0.0, 1.0)


def strip(moments: tuple[Moment, ...]) -> MomentStrip:
    made = MomentStrip()
    made.show_moments(moments, frame(), LIGHT)
    return made


def painted(one: MomentStrip) -> np.ndarray:
    image = QImage(WIDTH, 46, QImage.Format.Format_RGB32)
    image.fill(0xFFFFFFFF)
    painter = QPainter(image)
    one.paint(painter, frame(), LIGHT)
    painter.end()
    return np.frombuffer(image.constBits(), np.uint32).reshape(46, WIDTH).copy()


def dragged(one: MomentStrip, at: QPointF, by: float, qtbot: QtBot) -> tuple[str, float]:
    """Drag what lies there by so many pixels; return which moment has moved, and to when."""
    with qtbot.waitSignal(one.moved) as told:
        one.press(at)
        one.drag(at + QPointF(by, 0.0))
        one.release(at + QPointF(by, 0.0))
    assert told.args is not None
    moment_id, time_s = told.args
    return moment_id, time_s


def test_ticks_that_crowd_can_be_read_and_clicked(theme: Theme, qtbot: QtBot) -> None:
    del theme
    one = strip(CROWD)
    at = QPointF(frame().x(370.0) + 1, MIDDLE)
    assert one.takes(at)
    assert one.tip(at).startswith("38  6:10")
    assert "note 37" in one.tip(at)
    with qtbot.waitSignal(one.chosen) as told:
        one.press(at)
        one.release(at)
    assert told.args == [CROWD[37].id]
    assert not one.takes(QPointF(frame().x(999.0) + 5.5, MIDDLE))


@pytest.mark.parametrize("moments", [FEW, CROWD])
def test_the_chosen_moment_is_marked_where_it_lies(moments: tuple[Moment, ...], theme: Theme) -> None:
    del theme
    one = strip(moments)
    before = painted(one)
    one.show_chosen(moments[2].id)
    assert one.is_stale
    changed = np.flatnonzero((painted(one) != before).any(axis=0))
    assert abs(changed.mean() - frame().x(moments[2].time_s)) < 2.0
    assert changed.size <= 26
    one.show_chosen("")
    assert (painted(one) == before).all()


def test_beside_a_crowd_of_ticks_a_moment_keeps_its_flag_and_both_can_be_clicked(
    theme: Theme, qtbot: QtBot
) -> None:
    del theme
    crowd = [new_moment(1.5 * i, "note", f"note {i}") for i in range(60)]  # too many even for the whole strip
    moments = (*crowd, new_moment(700.0, "salt_added"))
    one = strip(moments)
    for number, x in ((60, frame().x(700.0)), (24, frame().x(36.0))):
        at = QPointF(x, MIDDLE)
        assert one.tip(at).startswith(f"{number + 1}  ")
        with qtbot.waitSignal(one.chosen) as told:
            one.press(at)
            one.release(at)
        assert told.args == [moments[number].id]
    before = painted(one)
    one.show_chosen(moments[24].id)
    changed = np.flatnonzero((painted(one) != before).any(axis=0))
    assert abs(changed.mean() - frame().x(36.0)) < 2.0


def test_the_disc_of_a_chosen_moment_is_taken_and_not_the_tick_it_covers(theme: Theme, qtbot: QtBot) -> None:
    """Dragged by its edge, another moment went to where the hand had taken this one."""
    del theme
    one = strip(CROWD)
    one.is_movable, one.until_s = True, 1000.0
    one.show_chosen(CROWD[37].id)
    edge = QPointF(frame().x(CROWD[37].time_s) + 8.0, MIDDLE)  # the next tick lies there
    assert one.tip(edge).startswith("38  ")
    assert dragged(one, edge, 40.0, qtbot) == (CROWD[37].id, pytest.approx(CROWD[37].time_s + 50.0))
    one.show_chosen("")
    assert one.tip(edge).startswith("39  ")


def test_any_one_of_moments_at_the_same_instant_can_be_dragged_once_it_is_chosen(
    theme: Theme, qtbot: QtBot
) -> None:
    del theme
    same = tuple(new_moment(500.0, "note", f"note {i}") for i in range(20))
    one = strip(same)
    one.is_movable, one.until_s = True, 1000.0
    one.show_chosen(same[7].id)
    at = QPointF(frame().x(500.0), MIDDLE)
    assert dragged(one, at, 80.0, qtbot)[0] == same[7].id


def test_what_is_dragged_stays_the_same_when_an_earlier_moment_goes(theme: Theme, qtbot: QtBot) -> None:
    """Undone while a flag was held, and the flag's number was another moment's."""
    del theme
    one = strip(FEW)
    one.is_movable, one.until_s = True, 1000.0
    at = QPointF(frame().x(FEW[2].time_s), MIDDLE)
    one.press(at)
    one.drag(at + QPointF(40.0, 0.0))
    one.show_moments(FEW[1:], frame(), LIGHT)
    with qtbot.waitSignal(one.moved) as told:
        one.release(at + QPointF(40.0, 0.0))
    assert told.args is not None
    assert told.args[0] == FEW[2].id
