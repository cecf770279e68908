"""Dragging the curve moves it in time."""

from __future__ import annotations

from PySide6.QtCore import QPointF, Signal

from gui.chart.part import Part

__all__ = ["TimeDrag"]


class TimeDrag(Part):
    """Takes the mouse over the whole curve, and paints nothing.

    Attributes
    ----------
    dragged : share of the width by which the curve was dragged to the right.
    """

    dragged = Signal(float)

    def __init__(self) -> None:
        super().__init__()
        self._from_x = 0.0

    def takes(self, at: QPointF) -> bool:
        """Everywhere."""
        return True

    def press(self, at: QPointF) -> None:
        """Take hold of the curve."""
        self._from_x = at.x()

    def drag(self, at: QPointF) -> None:
        """Move time by the way the pointer went."""
        by, self._from_x = at.x() - self._from_x, at.x()
        self.dragged.emit(by / max(self.place.width(), 1))
