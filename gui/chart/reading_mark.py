"""What is read off: a hairline at its time, a ring round each reading, and a card that tells it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRect, QRectF
from PySide6.QtGui import QColor, QPainter, QPen

from gui.chart.frame import Frame
from gui.chart.part import Part
from gui.chart.reading_card import Card
from gui.theme import Colours

__all__ = ["Marked", "ReadingMark", "Ring", "Spot"]

RING = 5.5
REACH_OF_RING = 9
AWAY = 14.0
EDGE = 6.0


@dataclass(frozen=True, slots=True)
class Ring:
    """A reading of run `run`; `value` None where only its place is known, which has no ring."""

    time_s: float
    value: float | None
    run: int = 0


@dataclass(frozen=True, slots=True)
class Spot:
    """A time that is read off, and the readings there."""

    time_s: float
    rings: tuple[Ring, ...]


@dataclass(frozen=True, slots=True)
class Marked:
    """What is read off, what it is compared with, and what is said of both."""

    here: Spot
    since: Spot | None
    card: Card
    spoken: str


def _ink(colours: Colours, _run: int) -> str:
    return colours.ink


class ReadingMark(Part):
    """Paints what is read off, and what it is compared with.

    Where it moves, only the places are painted again where it was and where it is: the rest of the curve
    keeps its picture. `ring_colour` gives the colour of a run's rings.
    """

    def __init__(self, ring_colour: Callable[[Colours, int], str] = _ink) -> None:
        super().__init__()
        self._ring_colour = ring_colour
        self._marked: Marked | None = None
        self._is_cursor = False
        self._painted: list[QRect] = []
        self.is_shown = False

    def show_marked(self, marked: Marked | None, *, is_cursor: bool) -> None:
        """Take what to paint; `is_cursor` where the keyboard moves it."""
        if (marked, is_cursor) != (self._marked, self._is_cursor):
            self._marked, self._is_cursor = marked, is_cursor
            self.is_shown, self.is_stale = marked is not None, True

    def stale_places(self) -> list[QRect]:
        """Return where it was painted last and where it will be."""
        before = self._painted
        self._painted = [] if self.frame is None else [*self._places(self.frame)]
        corner = self.place.topLeft()
        return [rect.translated(corner).intersected(self.ground) for rect in (*before, *self._painted)]

    def paint(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Paint hairlines, rings and the card."""
        if self._marked is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self._marked.since is not None:
            self._paint_spot(painter, self._marked.since, frame, colours, is_other=True)
        self._paint_spot(painter, self._marked.here, frame, colours, is_other=False)
        self._marked.card.paint(painter, self.card_place(frame), colours)

    def _paint_spot(
        self, painter: QPainter, spot: Spot, frame: Frame, colours: Colours, *, is_other: bool
    ) -> None:
        if not frame.shows(spot.time_s):
            return
        x = round(frame.x(spot.time_s)) + 0.5
        pen = QPen(QColor(colours.ink if self._is_cursor else colours.outline), 1)
        if is_other:
            pen.setDashPattern([2, 3])
        painter.setPen(pen)
        painter.drawLine(QLineF(x, 0, x, frame.height))
        painter.setBrush(QColor(colours.paper))
        for ring in spot.rings:
            y = -1.0 if ring.value is None else frame.y(ring.value)
            if 0 <= y <= frame.height and frame.shows(ring.time_s):
                painter.setPen(QPen(QColor(self._ring_colour(colours, ring.run)), 1.8))
                painter.drawEllipse(QPointF(round(frame.x(ring.time_s)) + 0.5, y), RING, RING)

    # ------------------------------------------------------------ where

    def _places(self, frame: Frame) -> list[QRect]:
        """Rectangles that the mark covers, in pixels of its place."""
        if self._marked is None:
            return []
        found = [self.card_place(frame).adjusted(-2, -2, 2, 2).toAlignedRect()]
        for spot in (self._marked.here, self._marked.since):
            if spot is not None and frame.shows(spot.time_s):
                # The readings of several runs lie a little beside the time that is read off.
                times_s = [spot.time_s, *(ring.time_s for ring in spot.rings)]
                places = [round(frame.x(time_s)) for time_s in times_s]
                left, right = min(places) - REACH_OF_RING, max(places) + REACH_OF_RING
                found.append(QRect(left, 0, right - left + 1, round(frame.height) + 1))
        return found

    def card_place(self, frame: Frame) -> QRectF:
        """Beside the hairline where there is room, at the top unless what is read off is there."""
        assert self._marked is not None
        here = self._marked.here
        width, height = self._marked.card.size(frame.width - 2 * EDGE, frame.height)
        x = min(max(frame.x(here.time_s), 0.0), frame.width)
        left = x + AWAY if x + AWAY + width <= frame.width - EDGE else x - AWAY - width
        heights = [frame.y(ring.value) for ring in here.rings if ring.value is not None]
        at_top = sum(y < height + 4 * EDGE for y in heights)
        at_foot = sum(y > frame.height - height - 4 * EDGE for y in heights)
        top = frame.height - height - 2 * EDGE if at_top and at_top >= at_foot else EDGE
        return QRectF(
            min(max(left, EDGE), frame.width - EDGE - width),
            max(min(top, frame.height - height - 1), 0.5),
            width,
            height,
        )
