"""A drawing becomes an image of the size and density asked for, also without a screen."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtGui import QColor, QFontMetricsF, QImage

from gui.fonts import WEIGHTS, load_fonts, paper_font
from gui.paper import paint_pdf, paint_png
from logger.export.drawing import Bars, Disc, Drawing, Line, Polygon, Polyline, Rect, Shape, Text
from logger.export.letter_widths import text_width_mm


def drawing(*shapes: Shape) -> Drawing:
    return Drawing(50.8, 25.4, shapes, "a title", "a description")


def painted(path: Path, *shapes: Shape, dpi: int = 200) -> QImage:
    paint_png(drawing(*shapes), path, dpi)
    return QImage(str(path))


def ink(image: QImage, left: int, top: int, right: int, bottom: int) -> int:
    """Number of dots in a rectangle that are not white."""
    white = QColor("#ffffff")
    return sum(image.pixelColor(x, y) != white for x in range(left, right) for y in range(top, bottom))


@pytest.mark.usefixtures("qapp")
def test_size_density_and_words_are_in_the_file(tmp_path: Path) -> None:
    image = painted(tmp_path / "a.png")
    assert (image.width(), image.height()) == (400, 200)
    assert image.dotsPerMeterX() == pytest.approx(200 / 0.0254, abs=1)
    assert image.text("Title") == "a title"
    assert image.text("Description") == "a description"
    assert ink(image, 0, 0, 400, 200) == 0


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize(
    "shape",
    [
        Line(10, 10, 40, 10, "#000000", 0.5),
        Line(10, 10, 40, 10, "#000000", 0.5, (1.0, 1.0)),
        Polyline(np.array([[10.0, 10.0], [20.0, 10.0], [40.0, 10.0]]), "#000000", 0.5),
        Polygon(np.array([[10.0, 9.0], [40.0, 9.0], [25.0, 12.0]]), "#000000"),
        Rect(10, 9, 30, 2, "#000000"),
        Bars(np.array([[10.0, 9.0, 2.0], [39.0, 9.0, 2.0]]), 1.0, "#000000"),
        Disc(25, 10, 2, "#000000"),
        Text(10, 10, "Water", 10, "#000000"),
    ],
    ids=lambda shape: type(shape).__name__,
)
def test_every_shape_leaves_ink_where_it_lies_and_nowhere_else(tmp_path: Path, shape: Shape) -> None:
    image = painted(tmp_path / "a.png", shape)
    assert ink(image, 70, 40, 330, 110) > 20
    assert ink(image, 0, 120, 400, 200) == 0


@pytest.mark.usefixtures("qapp")
def test_text_is_anchored_where_asked(tmp_path: Path) -> None:
    right = painted(tmp_path / "a.png", Text(25.4, 10, "Water", 10, "#000000", "right"))
    left = painted(tmp_path / "b.png", Text(25.4, 10, "Water", 10, "#000000", "left"))
    assert ink(right, 205, 0, 400, 200) == 0
    assert ink(left, 0, 0, 195, 200) == 0


@pytest.mark.usefixtures("qapp")
def test_a_path_that_cannot_be_written_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(OSError, match="No such file"):
        paint_png(drawing(), tmp_path / "missing" / "a.png", 100)


def test_it_paints_without_application_and_without_screen(tmp_path: Path) -> None:
    code = (
        "from gui.paper import paint_png; from logger.export.drawing import *; from pathlib import Path;"
        "paint_png(Drawing(20, 10, (Text(2, 5, 'mV', 8, '#000000'),), '', ''), Path('a.png'), 100)"
    )
    environment = {
        k: v for k, v in os.environ.items() if k not in ("DISPLAY", "QT_QPA_PLATFORM", "WAYLAND_DISPLAY")
    }
    environment["PYTHONPATH"] = os.pathsep.join(sys.path)
    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=tmp_path,
        env=environment,
        capture_output=True,
        text=True,
        timeout=60,
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert ink(QImage(str(tmp_path / "a.png")), 0, 0, 79, 39) > 10


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("weight", ["regular", "medium", "semibold"])
def test_widths_known_without_qt_are_those_of_the_font(weight: str) -> None:
    load_fonts()
    font = paper_font(weight)
    font.setPixelSize(1000)
    for text in ("Voltage saved", "1234567890", "±−µ°ΩÄöüßé…→", "Δηλ"):
        expected = QFontMetricsF(font).horizontalAdvance(text) / 1000
        # Kerning is left out, and Qt rounds advances to its own grid.
        assert text_width_mm(text, 72 / 25.4, weight) == pytest.approx(expected, rel=0.03)
    assert weight in WEIGHTS


@pytest.mark.usefixtures("qapp")
@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler-utils is not installed")
def test_a_pdf_has_pages_of_the_size_asked_for_and_text_that_can_be_found(tmp_path: Path) -> None:
    out = tmp_path / "a.pdf"
    first = drawing(Text(2, 10, "Saved 12:30: 0.248 ± 0.004 V, η −5 %", 6, "#000000"))
    paint_pdf([first, drawing(Text(5, 10, "second", 9, "#000000")).magnified(2)], out)
    told = subprocess.run(
        ["pdftotext", "-layout", out, "-"], capture_output=True, check=True, encoding="utf-8"
    ).stdout
    assert "Saved 12:30: 0.248 ± 0.004 V, η −5 %" in told
    assert "second" in told.split("\f")[1]
    pages = subprocess.run(
        ["pdfinfo", "-f", "1", "-l", "2", out], capture_output=True, check=True, encoding="utf-8"
    ).stdout
    assert re.search(r"Page +1 size: +144 x 72 pts", pages)
    assert re.search(r"Page +2 size: +288 x 144 pts", pages)
    assert re.search(r"Title: +a title", pages)


@pytest.mark.usefixtures("qapp")
def test_a_pdf_that_cannot_be_written_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(OSError, match="No such file"):
        paint_pdf([drawing()], tmp_path / "missing" / "a.pdf")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a device that is always full is Linux's")
def test_a_pdf_on_a_full_disk_is_an_error() -> None:
    # full(4): every write to /dev/full fails with ENOSPC.
    with pytest.raises(OSError, match="No space left"):
        paint_pdf([drawing(Text(5, 10, "first", 9, "#000000"))], Path("/dev/full"))
