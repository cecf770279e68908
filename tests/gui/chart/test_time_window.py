"""Following and looking back: one state, told by one control."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gui.chart.time_window import GROWTH, TimeWindow


def live(now_s: float) -> TimeWindow:
    window = TimeWindow()
    window.run_spans(0.0, now_s, is_live=True)
    return window


@given(now_s=st.floats(0, 1e6))
def test_the_whole_run_is_in_the_picture_and_fills_most_of_it(now_s: float) -> None:
    left_s, right_s = live(now_s).stretch(1000)
    assert left_s == 0.0
    assert right_s > now_s
    assert now_s < 30 or now_s / right_s > 1 / (1.02 * GROWTH) - 1e-9


def test_the_whole_run_is_not_rescaled_with_every_sample() -> None:
    window = TimeWindow()
    shown = set()
    for i in range(10_000):
        window.run_spans(0.0, i / 10, is_live=True)
        shown.add(window.stretch(900))
    assert len(shown) < 60


def test_while_following_a_zoomed_stretch_keeps_its_length_and_the_newest_sample() -> None:
    window = live(600.0)
    window.zoom(0.1, at_s=10.0)
    assert window.is_following
    for now_s in (600.0, 700.0, 5000.0):
        window.run_spans(0.0, now_s, is_live=True)
        left_s, right_s = window.stretch(1000)
        assert left_s < now_s < right_s
        assert right_s - left_s == pytest.approx(window.stretch(10)[1] - window.stretch(10)[0])


def test_a_moving_stretch_moves_by_whole_columns() -> None:
    window = live(600.0)
    window.zoom(0.1, at_s=600.0)
    starts = []
    for i in range(500):
        window.run_spans(0.0, 600.0 + i * 0.0137, is_live=True)
        left_s, right_s = window.stretch(1000)
        starts.append(left_s / ((right_s - left_s) / 1000))
    assert all(start == pytest.approx(round(start), abs=1e-6) for start in starts)


def test_looking_back_ends_following_and_new_samples_do_not_move_the_picture() -> None:
    window = live(600.0)
    window.zoom(0.2, at_s=300.0)
    window.move(-100.0)
    assert not window.is_following
    seen = window.stretch(1000)
    window.run_spans(0.0, 900.0, is_live=True)
    assert window.stretch(1000) == seen
    window.follow()
    assert window.stretch(1000)[1] > 900.0


def test_zooming_while_standing_still_keeps_the_pointers_time_in_place() -> None:
    window = live(600.0)
    window.toggle_following()
    left_s, right_s = window.stretch(1000)
    at_s = left_s + 0.25 * (right_s - left_s)
    window.zoom(0.5, at_s)
    left_s, right_s = window.stretch(1000)
    assert (at_s - left_s) / (right_s - left_s) == pytest.approx(0.25, abs=0.002)


def test_zooming_out_far_enough_shows_the_whole_run_again() -> None:
    window = live(600.0)
    window.toggle_following()
    window.zoom(0.1, 300.0)
    window.zoom(1000.0, 300.0)
    assert window.shows_whole_run


@given(moves=st.lists(st.floats(-1e5, 1e5), max_size=8), factors=st.lists(st.floats(0.01, 100), max_size=8))
def test_some_of_the_run_always_stays_in_the_picture(moves: list[float], factors: list[float]) -> None:
    window = live(600.0)
    window.toggle_following()
    for factor in factors:
        window.zoom(factor, 300.0)
    for by_s in moves:
        window.move(by_s)
    left_s, right_s = window.stretch(1000)
    assert left_s < 600.0
    assert right_s > 0.0


def test_a_finished_run_ends_just_before_the_edge() -> None:
    window = TimeWindow(is_live=False)
    window.run_spans(0.0, 1000.0, is_live=False)
    left_s, right_s = window.stretch(1000)
    assert left_s == 0.0
    assert 1000.0 < right_s < 1030.0
