"""Base of everything painted in the chart: a rectangle of it, its pixels, and the mouse over it."""

from __future__ import annotations

from PySide6.QtCore import QObject, QPointF, QRect, Qt
from PySide6.QtGui import QPainter

from gui.chart.frame import Frame
from gui.theme import Colours

__all__ = ["Part"]


class Part(QObject):
    """Paints one rectangle of the chart; several may lie over one another.

    The chart paints what is stale, and asks the topmost part whether a press of the mouse is for it. All
    points are in pixels from the upper left corner of the part's place.
    """

    REACH = 0

    def __init__(self) -> None:
        super().__init__()
        self.place = QRect()
        self.ground = QRect()
        """Where it may paint, in pixels of the chart: its place, and a little to the left and right of it."""
        self.exposed = QRect()
        """What of it is being painted, in pixels of its place; the rest keeps its picture."""
        self.frame: Frame | None = None
        self.colours: Colours | None = None
        self.is_shown = True
        self.is_stale = True
        """Whether it has to be painted again; the chart resets it."""

    def put(self, place: QRect) -> None:
        """Take the rectangle to paint in, in pixels of the chart."""
        if place != self.place:
            self.place, self.is_stale = place, True
            self.ground = place.adjusted(-self.REACH, 0, self.REACH, 0)

    def show_frame(self, frame: Frame, colours: Colours) -> None:
        """Take the frame and colours to paint with from now on."""
        if (
            self.frame is None
            or colours is not self.colours
            or self.depends_on(frame) != self.depends_on(self.frame)
        ):
            self.is_stale = True
        self.frame, self.colours = frame, colours

    def depends_on(self, frame: Frame) -> object:
        """Return what of `frame` the picture of this part depends on."""
        return frame

    def show(self, is_shown: bool) -> None:
        """Be seen and take the mouse, or not."""
        if is_shown != self.is_shown:
            self.is_shown, self.is_stale = is_shown, True

    def stale_places(self) -> list[QRect]:
        """Return what has to be painted again where this part is stale, in pixels of the chart."""
        return [self.ground]

    def paint(self, painter: QPainter, frame: Frame, colours: Colours) -> None:
        """Paint; what lies beyond the ground is cut off."""

    # ------------------------------------------------------------ the mouse

    def takes(self, at: QPointF) -> bool:
        """Tell whether the mouse is for this part, here."""
        return False

    def press(self, at: QPointF) -> None:
        """The left button went down where this part takes it."""

    def drag(self, at: QPointF) -> None:
        """The mouse has clearly moved, the button still down."""

    def release(self, at: QPointF) -> None:
        """The button went up."""

    def cursor(self, at: QPointF) -> Qt.CursorShape:
        """Return how the pointer is to look where this part takes the mouse."""
        return Qt.CursorShape.ArrowCursor

    def tip(self, at: QPointF) -> str:
        """Return words about what lies under the pointer, if there are any."""
        return ""
