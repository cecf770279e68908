"""Flags keep apart, near their moments, and labels stand where there is room."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gui.chart.flag_layout import PITCH, Flag
from gui.chart.flag_layout import lay_out as lay_out_places


def lay_out(
    places: list[float], label_widths: list[float], width: float, first_index: int = 0
) -> tuple[Flag, ...]:
    return lay_out_places(np.array(places), label_widths.__getitem__, width, first_index)


@given(places=st.lists(st.floats(0, 900), min_size=1, max_size=40))
def test_flags_never_overlap_and_stay_in_order_on_the_strip(places: list[float]) -> None:
    places = sorted(places)
    flags = lay_out(places, [80.0] * len(places), 900.0)
    assert [f.anchor_x for f in flags] == [places[f.index] for f in flags]
    assert all(b.index > a.index for a, b in itertools.pairwise(flags))
    assert all(b.x - a.x >= PITCH - 1e-6 for a, b in itertools.pairwise(flags))
    assert all(0 <= f.x <= 900 for f in flags)
    without = set(range(len(places))) - {f.index for f in flags}
    reach = 4 * PITCH
    assert all(sum(abs(other - places[i]) <= reach for other in places) > 8 for i in without)


@given(
    places=st.lists(st.floats(0, 400) | st.integers(0, 400).map(float), max_size=40),
    repeated=st.integers(1, 3),
)
def test_who_has_no_flag_has_more_neighbours_than_fit(places: list[float], repeated: int) -> None:
    places = sorted(places * repeated)[:40]
    flags = lay_out(places, [0.0] * len(places), 900.0)
    reach = 4 * PITCH
    crowded = [sum(x - reach <= other <= x + reach for other in places) > 8 for x in places]
    assert [f.index for f in flags] == [i for i, is_one in enumerate(crowded) if not is_one]


def test_flags_with_room_stand_on_their_moments() -> None:
    flags = lay_out([10.0, 200.0, 500.0], [50.0, 50.0, 50.0], 900.0)
    assert [f.x for f in flags] == [10.0, 200.0, 500.0]
    assert all(f.label_room == 50.0 for f in flags)


def test_a_crowd_spreads_evenly_around_its_moments() -> None:
    flags = lay_out([300.0, 300.0, 300.0], [50.0] * 3, 900.0)
    assert [f.x for f in flags] == pytest.approx([300 - PITCH, 300, 300 + PITCH])
    assert [bool(f.label_room) for f in flags] == [False, False, True]


def test_a_label_that_would_be_cut_to_nothing_is_left_out() -> None:
    flags = lay_out([100.0, 100.0 + PITCH + 30], [120.0, 60.0], 900.0)
    assert flags[0].label_room == 0.0
    assert flags[1].label_room == 60.0


def test_a_crowd_becomes_ticks_and_a_moment_apart_from_it_keeps_its_flag() -> None:
    """Sixty notes in a quarter of a run pushed the flag of the salt far from where it was added."""
    crowd = [3.4 * i for i in range(60)]
    (flag,) = lay_out([*crowd, 600.0], [80.0] * 61, 1300.0)
    assert (flag.index, flag.x, flag.anchor_x) == (60, 600.0, 600.0)


def test_a_label_ends_where_a_crowd_begins() -> None:
    crowd = [300.0 + 2 * i for i in range(20)]
    flag, *rest = lay_out([200.0, *crowd], [250.0] * 21, 1300.0)
    assert rest == []
    assert 0 < flag.label_room < 300.0 - 200.0


def test_more_than_fit_side_by_side_become_ticks() -> None:
    assert lay_out([float(i) for i in range(400)], [10.0] * 400, 900.0) == ()


def test_numbers_go_on_where_earlier_moments_are_out_of_view() -> None:
    assert [f.index for f in lay_out([5.0, 50.0], [0.0, 0.0], 900.0, first_index=7)] == [7, 8]
