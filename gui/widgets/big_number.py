"""The voltage, readable across a room."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QSize
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from gui.fonts import font
from gui.theme import Theme
from gui.words import translate

__all__ = ["USUAL_PX", "BigNumber"]

USUAL_PX = 112
"""Height of the numeral in a window of a school laptop."""
UNIT_SHARE = 0.36
STALE_LINE_PX = 20


class BigNumber(QWidget):
    """A thin large numeral with its unit; grey, with its age beside it, when it is stale."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._text, self._unit, self._stale = "", "V", ""
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self._height = USUAL_PX
        self.setMaximumHeight(USUAL_PX)
        self.setMinimumHeight(64)
        self.setAccessibleName(translate("Live panel", "Voltage now"))
        theme.changed.connect(self.update)

    def show_value(self, text: str, unit: str = "V", stale: str = "") -> None:
        """Show `text`; `stale` tells in words how old it is, empty when it is fresh."""
        if (text, unit, stale) == (self._text, self._unit, self._stale):
            return
        self._text, self._unit, self._stale = text, unit, stale
        self.setAccessibleDescription(f"{text} {unit} {stale}".strip())
        self.update()

    def ask_for(self, height_px: int) -> None:
        """Ask for so many pixels of height; the numeral fills them where the width allows."""
        if height_px != self._height:
            self._height = height_px
            self.setMaximumHeight(height_px)
            self.updateGeometry()

    def sizeHint(self) -> QSize:
        """As high as the largest numeral."""
        return QSize(340, self._height)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint as large as the width allows."""
        colours = self._theme.colours
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            height = self.height() - (STALE_LINE_PX if self._stale else 0)
            size = self._size_that_fits(float(height))
            baseline = height / 2 + size * 0.364
            digits = font(size, "light")
            painter.setFont(digits)
            painter.setPen(QColor(colours.quiet if self._stale else colours.ink))
            painter.drawText(QPointF(-size * 0.05, baseline), self._text)
            right = QFontMetricsF(digits).horizontalAdvance(self._text) + size * 0.04
            painter.setFont(font(size * UNIT_SHARE))
            painter.setPen(QColor(colours.quiet))
            painter.drawText(QPointF(right, baseline), self._unit)
            if self._stale:
                painter.setFont(font(13, "medium"))
                painter.setPen(QColor(colours.warning))
                painter.drawText(QPointF(1, self.height() - 5), self._stale)
        finally:
            painter.end()

    def _size_that_fits(self, size: float) -> float:
        width = QFontMetricsF(font(size, "light")).horizontalAdvance(self._text)
        width += QFontMetricsF(font(size * UNIT_SHARE)).horizontalAdvance(self._unit) + size * 0.06
        return size * min(1.0, self.width() / width) if width > 0 else size
