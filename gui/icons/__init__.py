"""The signs of the program: own SVG line drawings, painted in whatever colour is asked for."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from PySide6.QtCore import QByteArray, QRectF, QSize, Qt
from PySide6.QtGui import QIcon, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer

__all__ = ["ICON_NAMES", "icon"]

FOLDER = Path(__file__).parent
ICON_NAMES = tuple(sorted(file.stem for file in FOLDER.glob("*.svg")))
PIXELS = (20, 40, 60)
"""Rendered once for screens of 100, 200 and 300 %."""


@lru_cache(maxsize=128)
def icon(name: str, colour: str) -> QIcon:
    """Return the drawing `name` (a file of this folder) in `colour` (``#rrggbb``).

    Raises
    ------
    FileNotFoundError : there is no such drawing.
    """
    text = (FOLDER / f"{name}.svg").read_text(encoding="utf-8").replace("#000", colour)
    renderer = QSvgRenderer(QByteArray(text.encode()))
    made = QIcon()
    for pixels in PIXELS:
        picture = QPixmap(QSize(pixels, pixels))
        picture.fill(Qt.GlobalColor.transparent)
        painter = QPainter(picture)
        try:
            renderer.render(painter, QRectF(0, 0, pixels, pixels))
        finally:
            painter.end()
        made.addPixmap(picture)
    return made
