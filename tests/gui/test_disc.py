"""Numbered discs: the digits lie within, however many there are."""

from __future__ import annotations

import math

import pytest
from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QImage, QPainter

from gui.disc import paint_disc
from gui.theme import LIGHT, Theme

RADIUS = 20.0
SIDE = 60


@pytest.mark.parametrize("number", [1, 10, 88, 284, 888, 1888])
def test_no_digit_is_cut_by_the_edge(theme: Theme, number: int) -> None:
    """Seen in the pixels: outside nine tenths of the radius nothing has the colour of the digits."""
    del theme  # it loads the letters
    picture = QImage(SIDE, SIDE, QImage.Format.Format_ARGB32)
    picture.fill(QColor(LIGHT.moment))  # so that the edge of the disc has no colours of its own
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    paint_disc(painter, QPointF(SIDE / 2, SIDE / 2), RADIUS, number, LIGHT)
    painter.end()
    ground = QColor(LIGHT.moment).rgb()
    reach = max(
        math.hypot(x + 0.5 - SIDE / 2, y + 0.5 - SIDE / 2)
        for x in range(SIDE)
        for y in range(SIDE)
        if picture.pixel(x, y) != ground
    )
    assert reach < 0.95 * RADIUS
