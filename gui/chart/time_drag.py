"""Dragging the curve moves it in time; a click on it reads it off there."""

from __future__ import annotations

from PySide6.QtCore import QPointF, Signal

from gui.chart.part import Part

__all__ = ["TimeDrag"]


class TimeDrag(Part):
    """Takes the mouse over the whole curve, and paints nothing.

    Attributes
    ----------
    dragged : share of the width by which the curve was dragged to the right.
    clicked : pixels from the left edge at which the button was pressed and let go.
    """

    dragged = Signal(float)
    clicked = Signal(float)

    def __init__(self) -> None:
        super().__init__()
        self._from_x = 0.0
        self._has_moved = False

    def takes(self, at: QPointF) -> bool:
        """Everywhere."""
        return True

    def press(self, at: QPointF) -> None:
        """Take hold of the curve."""
        self._from_x, self._has_moved = at.x(), False

    def drag(self, at: QPointF) -> None:
        """Move time by the way the pointer went."""
        by, self._from_x, self._has_moved = at.x() - self._from_x, at.x(), True
        self.dragged.emit(by / max(self.place.width(), 1))

    def release(self, at: QPointF) -> None:
        """Let go of the curve; where it was not moved, it was clicked."""
        if not self._has_moved:
            self.clicked.emit(self._from_x)
