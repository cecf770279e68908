"""A large button that shows which key does the same."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget

from gui.fonts import font
from gui.theme import Theme

__all__ = ["KeyButton"]

PADDING = 20
CAP_PADDING = 9


class KeyButton(QPushButton):
    """Words, a second smaller line if any, and the key on a cap at the right.

    Parameters
    ----------
    look : "primary" (filled), "moment" (outlined in the colour of moments) or "flat" (small, for what is
        needed less often); see `gui.theme`.
    """

    def __init__(
        self, theme: Theme, words: str, key: str, look: str, *, hint: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._theme, self._words, self._key, self._hint = theme, words, key, hint
        self._look = look
        self._is_small = look == "flat"
        self._padding = 8 if self._is_small else PADDING
        self._size = 13 if self._is_small else 17
        self.setProperty("look", look)
        self.setAccessibleName(words)
        self.setAccessibleDescription(f"{hint} Key: {key}".strip())
        self.setToolTip(f"{words} ({key})")
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def show_words(self, words: str, hint: str = "") -> None:
        """Change what the button says."""
        if (words, hint) != (self._words, self._hint):
            self._words, self._hint = words, hint
            self.setAccessibleName(words)
            self.updateGeometry()
            self.update()

    def show_key(self, key: str) -> None:
        """Change which key does the same at present."""
        if key != self._key:
            self._key = key
            self.setToolTip(f"{self._words} ({key})")
            self.setAccessibleDescription(f"{self._hint} Key: {key}".strip())
            self.updateGeometry()
            self.update()

    def sizeHint(self) -> QSize:
        """Room for words and key cap."""
        words = QFontMetricsF(self._words_font()).horizontalAdvance(self._words)
        hint = QFontMetricsF(font(12.5)).horizontalAdvance(self._hint)
        width = max(words, hint) + self._cap_width() + 2 * self._padding + (10 if self._is_small else 16)
        return QSize(round(width), 30 if self._is_small else 60 if self._hint else 54)

    def _words_font(self) -> QFont:
        return font(self._size, "medium" if self._is_small else "semibold")

    def _cap_font(self) -> QFont:
        return font(11.5 if self._is_small else 13, "medium")

    def _cap_width(self) -> float:
        side = 6 if self._is_small else CAP_PADDING
        return QFontMetricsF(self._cap_font()).horizontalAdvance(self._key) + 2 * side

    def _colour(self) -> QColor:
        colours = self._theme.colours
        if not self.isEnabled():
            return QColor(colours.outline)
        names = {"primary": colours.paper, "moment": colours.moment}
        return QColor(names.get(self._look, colours.ink if self.underMouse() else colours.quiet))

    def paintEvent(self, event: QPaintEvent) -> None:
        """The style's ground, then words and cap."""
        super().paintEvent(event)
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            height = 18.0 if self._is_small else 23.0
            cap_width = self._cap_width()
            right = self.width() - self._padding + (2 if self._is_small else 4)
            cap = QRectF(right - cap_width, (self.height() - height) / 2, cap_width, height)
            room = QRectF(self._padding, 0, cap.left() - self._padding - 4, self.height())
            painter.setPen(self._colour())
            painter.setFont(self._words_font())
            if self._hint:
                painter.drawText(room.adjusted(0, -18, 0, 0), Qt.AlignmentFlag.AlignVCenter, self._words)
                painter.setFont(font(12.5))
                painter.drawText(room.adjusted(0, 24, 0, 0), Qt.AlignmentFlag.AlignVCenter, self._hint)
            else:
                painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, self._words)
            painter.setPen(QPen(self._colour(), 1.2))
            painter.drawRoundedRect(cap, height / 4, height / 4)
            painter.setFont(self._cap_font())
            painter.drawText(cap, Qt.AlignmentFlag.AlignCenter, self._key)
        finally:
            painter.end()
