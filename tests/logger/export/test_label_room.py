"""Labels keep off the curve and off one another."""

from __future__ import annotations

import numpy as np

from logger.export.drawing import Rect, Text
from logger.export.label_room import Box, LabelRoom, Place


def room() -> LabelRoom:
    """A curve across the middle of a frame of 100 by 40 mm."""
    x = np.arange(0.0, 100.0, 0.1)
    return LabelRoom(Box(0, 100, 0, 40), x, np.full(x.size, 19.5), np.full(x.size, 20.5))


def test_the_first_place_that_is_free_is_taken() -> None:
    (label,) = room().set("2.250 V", 8, "#000", "regular", [Place(10, 20), Place(10, 12), Place(10, 30)])
    assert isinstance(label, Text)
    assert label.y_mm == 12


def test_a_second_label_keeps_off_the_first_and_inside_the_frame() -> None:
    one = room()
    one.set("2.250 V", 8, "#000", "regular", [Place(10, 12)])
    (label,) = one.set(
        "2.250 V", 8, "#000", "regular", [Place(12, 12), Place(95, 12), Place(12, 45), Place(30, 12)]
    )
    assert isinstance(label, Text)
    assert (label.x_mm, label.y_mm) == (30, 12)


def test_where_nothing_is_free_it_gets_a_ground_to_be_read_on() -> None:
    ground, label = room().set("2.250 V", 8, "#000", "regular", [Place(10, 20)])
    assert isinstance(ground, Rect)
    assert isinstance(label, Text)
    assert ground.x_mm <= label.x_mm
    assert ground.y_mm < label.y_mm < ground.y_mm + ground.height_mm
