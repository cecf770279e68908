"""Where seconds and volts lie in the picture. No Qt."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

__all__ = ["FAR", "Frame"]

FAR = 1e4
"""Pixels beyond the view at which what is drawn is cut off, before Qt's arithmetic suffers."""


@dataclass(frozen=True, slots=True)
class Frame:
    """A rectangle of `width` by `height` pixels that shows [left_s, right_s] and [low_V, high_V]."""

    width: float
    height: float
    left_s: float
    right_s: float
    low_V: float
    high_V: float

    def x(self, time_s: Any) -> Any:
        """Pixels from the left edge; takes numbers and arrays."""
        return (time_s - self.left_s) * (self.width / (self.right_s - self.left_s))

    def time_s(self, x: float) -> float:
        """Run seconds at so many pixels from the left edge."""
        return self.left_s + x * (self.right_s - self.left_s) / self.width

    def y(self, voltage_V: Any) -> Any:
        """Pixels from the upper edge; takes numbers and arrays."""
        return (self.high_V - voltage_V) * (self.height / (self.high_V - self.low_V))

    def shows(self, time_s: float) -> bool:
        """Tell whether that time lies within the picture."""
        return self.left_s <= time_s <= self.right_s
