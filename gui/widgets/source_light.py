"""Where readings come from, and whether they come."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from gui.fonts import font
from gui.theme import Theme
from gui.tips import tip
from gui.widgets.elided_label import ElidedLabel
from gui.words import translate

__all__ = ["SourceLight"]

DOT_GAP = 8
LOOKS = {"good": "settled", "warning": "warning", "danger": "danger"}


class _Dot(QWidget):
    """A disc when all is well, a ring with a bar through it when not: shape says it too, not only colour."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._theme = theme
        self.look = "good"
        self.setFixedSize(QSize(12, 12))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(getattr(self._theme.colours, LOOKS[self.look])))
            if self.look == "good":
                painter.drawEllipse(QPointF(6, 6), 4.7, 4.7)
            else:
                painter.drawPolygon([QPointF(6, 0.5), QPointF(11.5, 11), QPointF(0.5, 11)])
        finally:
            painter.end()


class SourceLight(QWidget):
    """The light and its words."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._dot, self._words = _Dot(theme), ElidedLabel(40)
        self._all_words: tuple[str, ...] = ("",)
        self._words.setFont(font(13))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(DOT_GAP)
        layout.addWidget(self._dot)
        layout.addWidget(self._words)
        self.setAccessibleName(translate("Header", "Source of the readings"))
        theme.changed.connect(self._dot.update)

    def show_source(self, look: str, words: Sequence[str]) -> None:
        """Take the look (good, warning, danger) and the words, longest first."""
        if self._all_words[0] != words[0]:
            self.setAccessibleDescription(words[0])
        self._all_words = tuple(words)
        if self._dot.look != look:
            self._dot.look = look
            self._dot.update()

    def fit(self, room: float) -> None:
        """Show as many of the words as there are pixels for, beside the dot."""
        metrics = QFontMetricsF(self._words.font())
        room -= self._dot.width() + DOT_GAP
        words = next((one for one in self._all_words if metrics.horizontalAdvance(one) <= room), None)
        self._words.show_text(words or self._all_words[-1])
        self.setToolTip(tip(self._all_words[0]) if words != self._all_words[0] else "")
