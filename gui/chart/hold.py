"""The part of a chart that the left button holds, from the press until it is let go."""

from __future__ import annotations

from PySide6.QtCore import QPointF
from PySide6.QtWidgets import QApplication

from gui.chart.part import Part

__all__ = ["Hold"]


class Hold:
    """Hands the mouse on to the part it was pressed on; a hand that only trembles drags nothing.

    All points are in pixels of the chart.
    """

    def __init__(self) -> None:
        self._part: Part | None = None
        self._pressed_at: QPointF | None = None  # until the hand has clearly moved

    @property
    def is_held(self) -> bool:
        """Tell whether anything is held."""
        return self._part is not None

    def take(self, part: Part | None, at: QPointF) -> None:
        """The button went down on `part`; None where nothing takes it."""
        self._part, self._pressed_at = part, at
        if part is not None:
            part.press(at - part.place.topLeft())

    def drag(self, at: QPointF) -> bool:
        """The mouse has moved; return whether what is held has gone with it."""
        if self._part is None:
            return False
        if self._pressed_at is not None:
            if (at - self._pressed_at).manhattanLength() < QApplication.startDragDistance():
                return False
            self._pressed_at = None
        self._part.drag(at - self._part.place.topLeft())
        return True

    def release(self, at: QPointF) -> None:
        """The button went up."""
        part, self._part = self._part, None
        if part is not None:
            part.release(at - part.place.topLeft())
