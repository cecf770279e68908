"""A small plot of points and a line, for the column beside the curve."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from gui.findings.plot_data import PlotData
from gui.fonts import font, font_within
from gui.theme import Theme

__all__ = ["SmallPlot"]

LEFT, RIGHT, TOP, BOTTOM = 46.0, 8.0, 22.0, 40.0
TEXT_PX = 12


class SmallPlot(QWidget):
    """Paints a `PlotData`; has no gestures."""

    def __init__(self, theme: Theme, name: str, height: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme, self._height = theme, height
        self.data: PlotData | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(name)
        theme.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        """As high as was asked for."""
        return QSize(320, self._height)

    def show_data(self, data: PlotData | None, description: str = "") -> None:
        """Show data; the description says the same in words."""
        self.data = data
        self.setAccessibleDescription(description)
        self.setVisible(data is not None)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint axes, line and points."""
        if self.data is None:
            return
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            area = QRectF(LEFT, TOP, self.width() - LEFT - RIGHT, self.height() - TOP - BOTTOM)
            self._paint_axes(painter, area, self.data)
            self._paint_points(painter, area, self.data)
        finally:
            painter.end()

    def _place(self, area: QRectF, x: float, y: float) -> QPointF:
        assert self.data is not None
        across, up = self.data.horizontal, self.data.vertical
        return QPointF(
            area.left() + (x - across.low) / (across.high - across.low) * area.width(),
            area.bottom() - (y - up.low) / (up.high - up.low) * area.height(),
        )

    def _paint_axes(self, painter: QPainter, area: QRectF, data: PlotData) -> None:
        colours = self._theme.colours
        middle = Qt.AlignmentFlag.AlignVCenter
        painter.setFont(font_within((text for _, text in data.vertical.marks), LEFT - 7, TEXT_PX))
        for value, text in data.vertical.marks:
            y = round(self._place(area, data.horizontal.low, value).y()) + 0.5
            painter.setPen(QPen(QColor(colours.rule), 1))
            painter.drawLine(QLineF(area.left(), y, area.right(), y))
            painter.setPen(QColor(colours.quiet))
            painter.drawText(QRectF(0, y - 9, LEFT - 7, 18), Qt.AlignmentFlag.AlignRight | middle, text)
        painter.setFont(font(TEXT_PX))
        painter.setPen(QColor(colours.quiet))
        for value, text in data.horizontal.marks:
            x = self._place(area, value, data.vertical.low).x()
            place = QRectF(x - 40, area.bottom() + 3, 80, 18)
            painter.drawText(place, Qt.AlignmentFlag.AlignHCenter | middle, text)
        painter.drawText(
            QRectF(0, 0, self.width(), 18), Qt.AlignmentFlag.AlignLeft | middle, data.vertical.words
        )
        below = QRectF(LEFT, area.bottom() + 20, area.width(), 18)
        painter.drawText(below, Qt.AlignmentFlag.AlignRight | middle, data.horizontal.words)
        if data.shows_zero:
            y = self._place(area, 0.0, 0.0).y()
            painter.setPen(QPen(QColor(colours.outline), 1))
            painter.drawLine(QLineF(area.left(), y, area.right(), y))

    def _paint_points(self, painter: QPainter, area: QRectF, data: PlotData) -> None:
        colours = self._theme.colours
        radius = 1.7 if data.x.size > 40 else 4.0
        if data.half_y.size:
            painter.setPen(QPen(QColor(colours.curve), 1.2))
            for x, y, half in zip(data.x, data.y, data.half_y, strict=True):
                painter.drawLine(QLineF(self._place(area, x, y - half), self._place(area, x, y + half)))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.curve))
        for x, y in zip(data.x, data.y, strict=True):
            painter.drawEllipse(self._place(area, x, y), radius, radius)
        if data.line_x.size:
            painter.setPen(QPen(QColor(colours.ink), 1.5))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            points = [self._place(area, x, y) for x, y in zip(data.line_x, data.line_y, strict=True)]
            painter.drawPolyline(QPolygonF(points))
