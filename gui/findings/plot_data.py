"""What a small plot shows, and where the marks of its axes lie. No Qt."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from gui.numbers import plain
from logger.scale import marks, round_step

__all__ = ["Axis", "PlotData", "linear_axis", "log_axis"]

Vector = NDArray[np.float64]


def _empty() -> Vector:
    return np.empty(0)


@dataclass(frozen=True, slots=True)
class Axis:
    """Ends of an axis, its marks as (value, text), and its words. Values are as plotted."""

    low: float
    high: float
    marks: tuple[tuple[float, str], ...]
    words: str


@dataclass(frozen=True, slots=True, eq=False)
class PlotData:
    """Points, a line beside them, half-widths of error bars (0: none), and both axes."""

    x: Vector
    y: Vector
    horizontal: Axis
    vertical: Axis
    line_x: Vector = field(default_factory=_empty)
    line_y: Vector = field(default_factory=_empty)
    half_y: Vector = field(default_factory=_empty)
    shows_zero: bool = False


def linear_axis(values: Vector, words: str, count: float) -> Axis:
    """Return an axis that holds all finite `values` with a little room, and at most about `count` marks."""
    finite = values[np.isfinite(values)]
    low, high = (float(finite.min()), float(finite.max())) if finite.size else (0.0, 1.0)
    room = 0.06 * (high - low) or max(abs(high), 1.0) * 0.05
    low, high = low - room, high + room
    step = round_step(high - low, count)
    decimals = max(0, -math.floor(math.log10(step) + 1e-9))
    return Axis(low, high, tuple((v, plain(v, decimals)) for v in marks(low, high, step)), words)


def log_axis(logs: Vector, words: str) -> Axis:
    """Return an axis for decimal logarithms, marked at 1, 2 and 5 of each decade."""
    low, high = float(logs.min()), float(logs.max())
    room = max(0.08 * (high - low), 0.05)
    low, high = low - room, high + room
    found = []
    for decade in range(math.floor(low), math.ceil(high) + 1):
        for factor in (1, 2, 5):
            at = decade + math.log10(factor)
            if low <= at <= high:
                found.append((at, f"{factor * 10.0**decade:g}"))
    return Axis(low, high, tuple(found), words)
