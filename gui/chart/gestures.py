"""What the mouse does on the curve: the wheel zooms time, dragging moves it."""

from __future__ import annotations

from typing import Any

import pyqtgraph as pg
from PySide6.QtCore import Qt, Signal

__all__ = ["TimeViewBox"]

WHEEL_STEP = 120.0
ZOOM_PER_STEP = 1.25


class TimeViewBox(pg.ViewBox):
    """A view whose range is only ever set by the chart; gestures are reported, not acted on.

    Attributes
    ----------
    zoomed : factor (above 1 shows more time) and the place of the pointer, 0 left to 1 right.
    dragged : share of the width by which the curve was dragged to the right.
    """

    zoomed = Signal(float, float)
    dragged = Signal(float)

    def __init__(self) -> None:
        super().__init__(enableMenu=False, enableMouse=False, defaultPadding=0.0)
        self.disableAutoRange()

    def wheelEvent(self, event: Any, axis: int | None = None) -> None:
        """Zoom time about the pointer, whatever axis the wheel is over."""
        steps = event.delta() / WHEEL_STEP
        share = min(max(event.pos().x() / max(self.width(), 1.0), 0.0), 1.0)
        self.zoomed.emit(ZOOM_PER_STEP**-steps, share)
        event.accept()

    def mouseDragEvent(self, event: Any, axis: int | None = None) -> None:
        """Move time by the way the pointer went."""
        if event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        event.accept()
        self.dragged.emit((event.pos().x() - event.lastPos().x()) / max(self.width(), 1.0))
