"""A band looks the same however its columns are filled."""

from __future__ import annotations

import numpy as np
import pytest
from PySide6.QtGui import QColor, QImage, QPainter
from pytestqt.qtbot import QtBot

from gui.chart.curve_stroke import CurveStroke
from gui.chart.frame import Frame
from logger.overview import Overview
from logger.trace import trace

WIDTH, HEIGHT = 320, 200
COUNT = 400_000


def picture(values: np.ndarray, scale: float) -> np.ndarray:
    """The stroke of samples a second apart, on white: pixels, `scale` to one of the design."""
    image = QImage(round(400 * scale), round(260 * scale), QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(scale)
    image.fill(QColor("white"))
    frame = Frame(WIDTH, HEIGHT, 0.0, float(values.size), 1.9, 2.3)
    columns = int(WIDTH * scale)
    found = trace(Overview.of(np.arange(float(values.size)), values), 0.0, values.size / columns, columns)
    painter = QPainter(image)
    painter.translate(40, 30)
    CurveStroke(painter, frame, WIDTH / columns, QColor(20, 90, 160)).stroke(found)
    painter.end()
    pixels = np.frombuffer(image.constBits(), np.uint32).reshape(image.height(), image.width())
    return pixels.copy()


@pytest.mark.parametrize("scale", [1.0, 1.25, 2.0])
@pytest.mark.parametrize("kind", ["band", "band with a hole", "beyond the view", "on a slope"])
def test_rows_and_columns_give_the_same_picture(
    kind: str, scale: float, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    noise = np.random.default_rng(3).standard_normal(COUNT)
    values = 2.1 + 0.03 * noise
    if kind == "band with a hole":
        values[COUNT // 3 : COUNT // 2] = np.inf
    elif kind == "beyond the view":
        values += 0.15
    elif kind == "on a slope":
        values += np.linspace(-0.08, 0.08, COUNT)
    by_rows = picture(values, scale)
    masks = []
    monkeypatch.setattr("gui.chart.curve_stroke.draw_mask", lambda *drawn: masks.append(drawn))
    picture(values, scale)
    assert masks, "nothing was filled by rows"
    monkeypatch.setattr("gui.chart.column_rows.Band.is_dense", False)
    assert np.array_equal(by_rows, picture(values, scale))
