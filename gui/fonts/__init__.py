"""The type of the program: Inter, shipped with it under the Open Font License (OFL.txt).

Digits are tabular, so that a changing number does not jump.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path

from PySide6.QtGui import QFont, QFontDatabase, QFontMetricsF

__all__ = ["FAMILY", "WEIGHTS", "font", "font_within", "load_fonts", "paper_font"]

FAMILY = "Inter"
WEIGHTS = {
    "light": QFont.Weight.Light,
    "regular": QFont.Weight.Normal,
    "medium": QFont.Weight.Medium,
    "semibold": QFont.Weight.DemiBold,
}

_loaded: list[int] = []


def load_fonts() -> None:
    """Make the shipped fonts known to Qt. Needs an application object; may be called again."""
    if _loaded:
        return
    _loaded.extend(
        QFontDatabase.addApplicationFont(str(file)) for file in sorted(Path(__file__).parent.glob("*.otf"))
    )


def font(size_px: float, weight: str = "regular") -> QFont:
    """Return the program's font with tabular digits; the size is in device-independent pixels."""
    made = paper_font(weight)
    made.setPixelSize(max(1, round(size_px)))
    return made


def font_within(texts: Iterable[str], room_px: float, size_px: int) -> QFont:
    """Return the program's font at `size_px`, or the largest below in which each text fits `room_px`.

    For numbers that must stand whole in a narrow place: with its first digit cut off, one reads as another.
    """
    words = tuple(texts)
    for size in range(size_px, 1, -1):
        if all(_width(text, size) <= room_px for text in words):
            return font(size)
    return font(1)


@lru_cache(maxsize=1024)
def _width(text: str, size_px: int) -> float:
    """Pixels that a text takes; an axis asks for the same ones picture after picture."""
    return QFontMetricsF(font(size_px)).horizontalAdvance(text)


def paper_font(weight: str = "regular") -> QFont:
    """Return the program's font with tabular digits, its size still to be set."""
    made = QFont(FAMILY)
    made.setWeight(WEIGHTS[weight])
    made.setFeature(QFont.Tag("tnum"), 1)
    return made
