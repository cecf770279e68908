"""Where a label may stand on a plot without lying over the curve or over another label."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from logger.export.drawing import Rect, Shape, Text
from logger.export.letter_widths import text_width_mm

__all__ = ["Box", "LabelRoom", "Place", "box_of"]

MM_PER_POINT = 25.4 / 72
ABOVE, BELOW = 0.78, 0.24
"""How far letters reach above and below their base line, as shares of the type's size."""

IN_THE_WAY = 1e6
"""More than any number of columns: a label rather lies over the curve than over another label."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on paper in millimetres, y downwards."""

    left_mm: float
    right_mm: float
    top_mm: float
    bottom_mm: float

    def meets(self, other: Box) -> bool:
        """Tell whether both have points in common."""
        return (
            self.left_mm < other.right_mm
            and other.left_mm < self.right_mm
            and self.top_mm < other.bottom_mm
            and other.top_mm < self.bottom_mm
        )


@dataclass(frozen=True, slots=True)
class Place:
    """Where a text may begin, end or be centred, by its `anchor`, on its base line."""

    x_mm: float
    y_mm: float
    anchor: str = "left"


class LabelRoom:
    """Knows the curve and the labels set so far.

    Parameters
    ----------
    inside : the frame that labels have to stay in.
    x_mm, top_mm, bottom_mm : shape (m,); where the curve is, column by column.
    """

    def __init__(
        self,
        inside: Box,
        x_mm: NDArray[np.float64],
        top_mm: NDArray[np.float64],
        bottom_mm: NDArray[np.float64],
    ) -> None:
        self._inside = inside
        self._x_mm, self._top_mm, self._bottom_mm = x_mm, top_mm, bottom_mm
        self._taken: list[Box] = []

    def take(self, box: Box) -> None:
        """Keep later labels off `box`."""
        self._taken.append(box)

    def set(
        self, text: str, size_pt: float, colour: str, weight: str, places: Iterable[Place]
    ) -> list[Shape]:
        """Return the label at the first of `places` that is free, else at the one least in the way.

        Where none is free the label gets a pale ground, so that it can be read over the curve.
        """
        width_mm = text_width_mm(text, size_pt, weight)
        boxes = [(place, _box(place, width_mm, size_pt)) for place in places]
        costs = [self._cost(box) for _, box in boxes]
        cost = min(costs)
        place, box = boxes[costs.index(cost)]
        self.take(box)
        ground: list[Shape] = []
        if cost:
            ground = [
                Rect(
                    box.left_mm - 0.5, box.top_mm, width_mm + 1.0, box.bottom_mm - box.top_mm, "#ffffff",
                    opacity=0.85,
                )
            ]  # fmt: skip
        return [*ground, Text(place.x_mm, place.y_mm, text, size_pt, colour, place.anchor, weight)]

    def _cost(self, box: Box) -> float:
        frame = self._inside
        outside = (
            box.left_mm < frame.left_mm
            or box.right_mm > frame.right_mm
            or box.top_mm < frame.top_mm
            or box.bottom_mm > frame.bottom_mm
        )
        in_the_way = IN_THE_WAY * (2 * outside + sum(box.meets(other) for other in self._taken))
        over = (self._x_mm >= box.left_mm) & (self._x_mm <= box.right_mm)
        over &= (self._top_mm <= box.bottom_mm) & (self._bottom_mm >= box.top_mm)
        return in_the_way + float(np.count_nonzero(over))


def box_of(text: Text) -> Box:
    """Return the room that a text takes."""
    place = Place(text.x_mm, text.y_mm, text.anchor)
    return _box(place, text_width_mm(text.text, text.size_pt, text.weight), text.size_pt)


def _box(place: Place, width_mm: float, size_pt: float) -> Box:
    left = place.x_mm - {"left": 0.0, "middle": 0.5, "right": 1.0}[place.anchor] * width_mm
    size_mm = size_pt * MM_PER_POINT
    return Box(left, left + width_mm, place.y_mm - ABOVE * size_mm, place.y_mm + BELOW * size_mm)
