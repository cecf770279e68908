"""Paints a drawing for paper with Qt. Works without a screen and without a window."""

from __future__ import annotations

import itertools
import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMarginsF, QPointF, QRectF, QSize, QSizeF, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetricsF,
    QGuiApplication,
    QImage,
    QImageIOHandler,
    QImageReader,
    QPageLayout,
    QPageSize,
    QPainter,
    QPdfWriter,
    QPen,
    QPolygonF,
)

from gui.fonts import FAMILY, WEIGHTS, load_fonts, paper_font
from logger.export.drawing import Bars, Disc, Drawing, Image, Line, Polygon, Polyline, Rect, Shape, Text
from logger.version import PROGRAM, VERSION

__all__ = ["paint_pdf", "paint_png"]

MM_PER_INCH = 25.4
POINTS_PER_INCH = 72.0
IMAGE_DPI = 200
NOT_SHOWN = "This picture cannot be shown."
PDF_DPI = 1200
"""Dots of a PDF page per inch: they are only the grid of its coordinates."""


def paint_png(drawing: Drawing, path: Path, dpi: int = 200) -> None:
    """Paint `drawing` as a PNG image of `dpi` dots per inch, which is noted in the file.

    Raises
    ------
    OSError : the file could not be written.
    """
    application = _application()
    load_fonts()
    ink = _Ink(dpi * drawing.magnification)
    image = QImage(
        round(drawing.width_mm * ink.scale), round(drawing.height_mm * ink.scale), QImage.Format.Format_RGB32
    )
    image.setDotsPerMeterX(round(dpi / MM_PER_INCH * 1000))
    image.setDotsPerMeterY(round(dpi / MM_PER_INCH * 1000))
    image.setText("Title", drawing.title)
    image.setText("Description", drawing.description)
    image.fill(QColor(drawing.background))
    painter = QPainter(image)
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setRenderHint(QPainter.RenderHint.TextAntialiasing)
        for shape in drawing.shapes:
            _paint(painter, shape, ink)
    finally:
        painter.end()
    # In memory first: on a full disk the writer of PNG files says so on the terminal, in words of its own.
    memory = QBuffer()
    memory.open(QIODevice.OpenModeFlag.WriteOnly)
    if not image.save(memory, "PNG"):  # type: ignore[call-overload]
        raise OSError(f"{path} could not be painted: its size takes too much memory")
    _write(memory, path)
    del application


def paint_pdf(pages: Sequence[Drawing], path: Path) -> None:
    """Paint each drawing on a page of its size; text stays text, in the program's own type.

    Raises
    ------
    OSError : the file could not be written.
    """
    application = _application()
    load_fonts()
    # In memory first: on a full disk the writer of PDF files stops without a word.
    memory = QBuffer()
    memory.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(memory)
    writer.setResolution(PDF_DPI)
    writer.setPdfVersion(QPdfWriter.PdfVersion.PdfVersion_1_6)
    writer.setTitle(pages[0].title)
    writer.setCreator(f"{PROGRAM} {VERSION}")
    painter: QPainter | None = None
    for page in pages:
        size_mm = QSizeF(page.width_mm * page.magnification, page.height_mm * page.magnification)
        paper = QPageSize(
            size_mm, QPageSize.Unit.Millimeter, matchPolicy=QPageSize.SizeMatchPolicy.ExactMatch
        )
        writer.setPageLayout(QPageLayout(paper, QPageLayout.Orientation.Portrait, QMarginsF()))
        if painter is None:
            painter = QPainter(writer)
        elif not writer.newPage():
            break
        if not painter.isActive():
            break
        for shape in page.shapes:
            _paint(painter, shape, _Ink(PDF_DPI * page.magnification, is_vector=True))
    is_whole = painter is not None and painter.isActive() and painter.end()
    if not is_whole:
        raise OSError(f"{path} could not be written")
    _write(memory, path)
    del application


def _write(memory: QBuffer, path: Path) -> None:
    path.write_bytes(memory.data().data())


@dataclass(frozen=True, slots=True)
class _Ink:
    """How millimetres become dots; `is_vector` tells that the picture may be enlarged later."""

    dpi: float
    is_vector: bool = False

    @property
    def scale(self) -> float:
        """Dots per millimetre."""
        return self.dpi / MM_PER_INCH


def _application() -> QGuiApplication:
    """Fonts need an application object; without one, make one that needs no screen."""
    running = QGuiApplication.instance()
    if isinstance(running, QGuiApplication):
        return running
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    return QGuiApplication(["galvanote"])


def _paint(painter: QPainter, shape: Shape, ink: _Ink) -> None:
    scale = ink.scale
    painter.setPen(Qt.PenStyle.NoPen)
    match shape:
        case Line():
            painter.setPen(_pen(shape.colour, shape.width_mm, scale, shape.dash_mm))
            painter.drawLine(
                QPointF(shape.x1_mm * scale, shape.y1_mm * scale),
                QPointF(shape.x2_mm * scale, shape.y2_mm * scale),
            )
        case Polyline():
            # Segment by segment: a joined line wider than a dot takes Qt seconds for a noisy curve.
            painter.setPen(_pen(shape.colour, shape.width_mm, scale))
            ends = [QPointF(x, y) for x, y in shape.points_mm * scale]
            painter.drawLines([p for pair in itertools.pairwise(ends) for p in pair])
        case Polygon():
            painter.setBrush(QColor(shape.fill))
            painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in shape.points_mm * scale]))
        case Rect():
            colour = QColor(shape.fill)
            colour.setAlphaF(shape.opacity)
            painter.setBrush(colour)
            rect = QRectF(
                shape.x_mm * scale, shape.y_mm * scale, shape.width_mm * scale, shape.height_mm * scale
            )
            painter.drawRoundedRect(rect, shape.radius_mm * scale, shape.radius_mm * scale)
        case Bars() if ink.is_vector:
            painter.setBrush(QColor(shape.fill))
            for outline in shape.outlines_mm():
                painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in outline * scale]))
        case Bars():
            _paint_bars(painter, shape, scale)
        case Disc():
            painter.setBrush(QColor(shape.fill))
            painter.drawEllipse(
                QPointF(shape.x_mm * scale, shape.y_mm * scale),
                shape.radius_mm * scale,
                shape.radius_mm * scale,
            )
        case Text():
            _paint_text(painter, shape, ink)
        case Image():
            _paint_image(painter, shape, ink)


def _paint_bars(painter: QPainter, bars: Bars, scale: float) -> None:
    """Columns on whole dots, or neighbours would shine through where they meet."""
    painter.setBrush(QColor(bars.fill))
    left = np.floor(bars.rows_mm[:, 0] * scale)
    right = np.ceil((bars.rows_mm[:, 0] + bars.width_mm) * scale)
    top, height = bars.rows_mm[:, 1] * scale, bars.rows_mm[:, 2] * scale
    painter.drawRects([QRectF(x, y, r - x, h) for x, y, r, h in zip(left, top, right, height, strict=True)])


def _paint_image(painter: QPainter, shape: Image, ink: _Ink) -> None:
    """Upright, with no more dots than paper of that size shows; a pale area where it cannot be decoded."""
    scale = ink.scale
    box = QRectF(shape.x_mm * scale, shape.y_mm * scale, shape.width_mm * scale, shape.height_mm * scale)
    dots = min(scale, IMAGE_DPI / MM_PER_INCH)
    image = _decoded(shape.data, QSizeF(shape.width_mm * dots, shape.height_mm * dots).toSize())
    if image.isNull():
        painter.fillRect(box, QColor("#eceae4"))
        _paint_text(painter, Text(shape.x_mm + 4, shape.y_mm + 8, NOT_SHOWN, 7.5, "#5e666b"), ink)
        return
    fit = QSizeF(image.size()).scaled(box.size(), Qt.AspectRatioMode.KeepAspectRatio)
    place = QRectF(QPointF(), fit)
    place.moveCenter(box.center())
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.drawImage(place, image)


def _decoded(data: bytes, most: QSize) -> QImage:
    """Return a picture as it is to be seen, within `most` dots; null where it cannot be decoded."""
    buffer = QBuffer()
    buffer.setData(QByteArray(data))
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(buffer)
    reader.setAutoTransform(True)
    is_turned = bool(reader.transformation() & QImageIOHandler.Transformation.TransformationRotate90)
    room, size = most.transposed() if is_turned else most, reader.size()
    if size.isValid() and (size.width() > room.width() or size.height() > room.height()):
        reader.setScaledSize(size.scaled(room, Qt.AspectRatioMode.KeepAspectRatio))
    return reader.read()


def _paint_text(painter: QPainter, shape: Text, ink: _Ink) -> None:
    scale = ink.scale
    font = _searchable_font(shape.weight) if ink.is_vector else paper_font(shape.weight)
    font.setPixelSize(max(1, round(shape.size_pt * ink.dpi / POINTS_PER_INCH)))
    painter.setFont(font)
    painter.setPen(QColor(shape.colour))
    width = QFontMetricsF(font).horizontalAdvance(shape.text)
    left = shape.x_mm * scale - {"left": 0.0, "middle": width / 2, "right": width}[shape.anchor]
    painter.drawText(QPointF(left, shape.y_mm * scale), shape.text)


def _searchable_font(weight: str) -> QFont:
    """The program's font without the features that put other glyphs in place of digits and colons.

    Qt notes no letter in a PDF for such glyphs: they could be neither searched, copied nor read aloud.
    """
    made = QFont(FAMILY)
    made.setWeight(WEIGHTS[weight])
    for feature in ("calt", "tnum"):
        made.setFeature(QFont.Tag(feature), 0)
    return made


def _pen(colour: str, width_mm: float, scale: float, dash_mm: tuple[float, ...] = ()) -> QPen:
    pen = QPen(QColor(colour), width_mm * scale)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap if dash_mm else Qt.PenCapStyle.RoundCap)
    if dash_mm:
        pen.setDashPattern([length / width_mm for length in dash_mm])
    return pen
