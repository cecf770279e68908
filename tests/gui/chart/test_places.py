"""The parts of the chart do not overlap: each keeps its picture while another is painted."""

from __future__ import annotations

import itertools

import pytest

from gui.chart.places import Places


@pytest.mark.parametrize("size", [(1600, 900), (260, 170), (260, 128), (60, 40), (0, 0)])
def test_no_two_places_overlap(size: tuple[int, int]) -> None:
    places = Places.of(*size)
    parts = (places.strip, places.view, places.voltages, places.times, places.ruler)
    for one, other in itertools.combinations(parts, 2):
        assert not one.intersects(other)
    assert all(part.width() >= 0 and part.height() >= 0 for part in parts)


def test_the_curve_has_what_is_left() -> None:
    places = Places.of(1000, 500)
    assert (places.view.left(), places.view.top()) == (58, 46)
    assert places.view.right() == 1000 - 14 - 1
    assert places.ruler.bottom() == 500 - 1


def test_a_low_chart_gives_the_room_of_the_phases_to_the_curve() -> None:
    assert Places.of(260, 169).ruler.height() == 0
    assert Places.of(260, 169).view.height() > Places.of(260, 170).view.height() > 50
    assert Places.of(260, 128).view.height() >= 48
