"""A label that gives way: what does not fit ends in an ellipsis, and the tool tip tells the rest."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

__all__ = ["ElidedLabel"]


class ElidedLabel(QLabel):
    """Takes the width of its text where there is room, and less where there is not.

    Parameters
    ----------
    shortest : pixels it asks for at least.
    """

    def __init__(self, shortest: int = 24, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shortest = shortest
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)

    def minimumSizeHint(self) -> QSize:
        """A few letters."""
        whole = super().minimumSizeHint()
        return QSize(min(self._shortest, whole.width()), whole.height())

    def show_text(self, text: str) -> None:
        """Change the text."""
        if text != self.text():
            self.setText(text)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint what fits."""
        fits = QFontMetricsF(self.font()).elidedText(
            self.text(), Qt.TextElideMode.ElideRight, float(self.contentsRect().width())
        )
        tip = self.text() if fits != self.text() else ""
        if tip != self.toolTip():
            self.setToolTip(tip)
        painter = QPainter(self)
        try:
            painter.setPen(self.palette().windowText().color())
            painter.drawText(self.contentsRect(), self.alignment(), fits)
        finally:
            painter.end()
