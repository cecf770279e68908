"""Moments of a run by keys and hands: kinds, words, flags, the offered step."""

from __future__ import annotations

import numpy as np
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from tests.gui.window_bench import CTRL, Bench
from tests.gui.window_bench import bench as bench


def test_digits_tag_kinds_without_asking_and_words_follow(bench: Bench) -> None:
    bench.run.clock.time_s = 130.0
    bench.press(Qt.Key.Key_7)
    assert not bench.page.foot.entry.isVisible()
    bench.run.clock.time_s = 140.0
    bench.press(Qt.Key.Key_L)
    bench.type("2 drops")
    bench.press(Qt.Key.Key_Return)
    assert [(m.kind, m.time_s, m.label) for m in bench.session.moments] == [("salt_added", 130.0, "2 drops")]


def test_a_kind_that_needs_a_number_asks_for_it(bench: Bench) -> None:
    bench.press(Qt.Key.Key_0)
    bench.type("22.5")
    bench.press(Qt.Key.Key_Return)
    assert [(m.kind, m.label) for m in bench.session.moments] == [("temperature", "22.5")]


def test_digits_are_text_while_typing_and_ctrl_digit_stamps_even_then(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("7 up")
    bench.press(Qt.Key.Key_7, CTRL)
    bench.press(Qt.Key.Key_Return)
    assert [(m.kind, m.label) for m in bench.session.moments] == [("note", "7 up"), ("salt_added", "")]


def test_digits_and_space_stay_with_other_pages(bench: Bench) -> None:
    bench.window.stack.show_cautions()
    bench.press(Qt.Key.Key_7)
    assert bench.session.moments == ()


def test_a_flag_is_dragged_along_the_strip_and_taken_back(bench: Bench) -> None:
    moment = bench.session.add_moment("note", "first", 50.0)
    bench.look()
    chart = bench.page.chart
    assert chart.frame is not None
    x = float(chart.frame.x(50.0))
    begin = chart.places.strip.topLeft() + QPoint(round(x), 19)
    end = begin + QPoint(120, 0)
    QTest.mousePress(chart, Qt.MouseButton.LeftButton, pos=begin)
    for share in (0.3, 0.7, 1.0):
        QTest.mouseMove(chart, begin + (end - begin) * share)
    QTest.mouseRelease(chart, Qt.MouseButton.LeftButton, pos=end)
    (moved,) = bench.session.moments
    assert moved.id == moment.id
    assert moved.time_s == pytest.approx(chart.frame.time_s(x + 120), abs=1.0)
    bench.press(Qt.Key.Key_Z, CTRL)
    assert bench.session.moments[0].time_s == 50.0
    bench.press(Qt.Key.Key_Z, CTRL | Qt.KeyboardModifier.ShiftModifier)
    assert bench.session.moments[0].time_s == pytest.approx(moved.time_s)


@pytest.mark.parametrize("zoomed", [False, True])
@pytest.mark.parametrize("by_x", [-3000, 3000])
def test_a_flag_dragged_beyond_the_run_stays_within_it(bench: Bench, by_x: int, zoomed: bool) -> None:
    """The view reaches beyond the present while a run goes on; there is nothing yet to mark."""
    moment = bench.session.add_moment("note", "first", 100.0)
    bench.look()
    chart = bench.page.chart
    if zoomed:
        for _ in range(3):
            bench.press(Qt.Key.Key_Plus)
        bench.look()
    assert chart.frame is not None
    now_s = bench.session.now_s
    begin = chart.places.strip.topLeft() + QPoint(round(chart.frame.x(100.0)), 19)
    QTest.mousePress(chart, Qt.MouseButton.LeftButton, pos=begin)
    QTest.mouseMove(chart, begin + QPoint(by_x // 2, 0))
    QTest.mouseMove(chart, begin + QPoint(by_x, 0))
    QTest.mouseRelease(chart, Qt.MouseButton.LeftButton, pos=begin + QPoint(by_x, 0))
    (moved,) = bench.session.moments
    assert moved.id == moment.id
    assert moved.time_s == pytest.approx(now_s if by_x > 0 else max(chart.frame.left_s, 0.0), abs=0.01)
    assert "moment" not in bench.window.bars.texts


def test_a_click_on_a_flag_opens_it(bench: Bench) -> None:
    bench.session.add_moment("note", "first", 50.0)
    bench.look()
    chart = bench.page.chart
    assert chart.frame is not None
    place = chart.places.strip.topLeft() + QPoint(round(chart.frame.x(50.0)), 19)
    QTest.mouseClick(chart, Qt.MouseButton.LeftButton, pos=place)
    assert bench.page.foot.entry.isVisible()
    bench.press(Qt.Key.Key_Escape)


def test_a_step_of_the_voltage_is_offered_and_taken_by_key(bench: Bench) -> None:
    times_s = 120 + np.arange(1, 60) / 3
    bench.run.push(times_s, np.where(times_s < 132.0, 2.2, 27.0))
    bench.session.add_moment("electrodes_out", "", 130.0)
    bench.look()
    assert "before a step" in bench.window.bars.texts["step near"]
    bench.press(Qt.Key.Key_G)
    assert bench.session.moments[-1].time_s == pytest.approx(132.0, abs=0.34)
    assert "step near" not in bench.window.bars.texts
    bench.press(Qt.Key.Key_Z, CTRL)
    assert bench.session.moments[-1].time_s == 130.0


def test_the_list_stays_where_it_was_scrolled_when_one_is_removed(bench: Bench) -> None:
    for i in range(40):
        bench.session.add_moment("note", f"no {i}", float(i))
    bench.look()
    listed = bench.page.panel.moments
    assert listed._list.verticalScrollBar().value() > 0  # the newest is in view
    listed._list.verticalScrollBar().setValue(3)
    bench.page.remove(bench.session.moments[5].id)
    assert listed._list.verticalScrollBar().value() == 3
