"""Where the parts of the chart lie in its widget. No painting."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QRect

__all__ = ["Places"]

AXIS_WIDTH = 58
STRIP_HEIGHT = 46
AXIS_HEIGHT = 34
RULER_HEIGHT = 30
RULER_FROM = 170
"""In a lower chart the curve needs the room of the phases."""

RIGHT_MARGIN = 14
LABELS_WIDTH = 46
"""Voltages are written up to here; what is left of the axis belongs to flags at the very beginning."""

OVERHANG = 8
"""The lowest voltage's label reaches so far below the curve. No two places overlap: what changes in one
leaves the picture of the others as it is."""


@dataclass(frozen=True, slots=True)
class Places:
    """Rectangles in pixels of the widget: flags, the curve, time, and phases where it is high enough."""

    strip: QRect
    view: QRect
    voltages: QRect
    times: QRect
    ruler: QRect

    @classmethod
    def of(cls, width: int, height: int) -> Places:
        """Return the places in a widget of that size; the curve's is empty where there is no room."""
        wide = max(width - AXIS_WIDTH - RIGHT_MARGIN, 0)
        ruler_height = RULER_HEIGHT if height >= RULER_FROM else 0
        high = max(height - STRIP_HEIGHT - AXIS_HEIGHT - ruler_height, 0)
        foot = STRIP_HEIGHT + high
        return cls(
            strip=QRect(AXIS_WIDTH, 0, wide, STRIP_HEIGHT),
            view=QRect(AXIS_WIDTH, STRIP_HEIGHT, wide, high),
            voltages=QRect(0, 0, LABELS_WIDTH, foot + OVERHANG),
            times=QRect(0, foot + OVERHANG, width, AXIS_HEIGHT - OVERHANG),
            ruler=QRect(AXIS_WIDTH, foot + AXIS_HEIGHT, wide, ruler_height),
        )
