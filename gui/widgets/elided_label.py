"""A label that gives way: what does not fit is said shorter or cut with dots; the tool tip tells all."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

from gui.tips import tip

__all__ = ["ElidedLabel"]


class ElidedLabel(QLabel):
    """Takes the width of its text where there is room, and less where there is not.

    Parameters
    ----------
    shortest : pixels it asks for at least, unless its text needs less.
    """

    def __init__(self, shortest: int = 24, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setTextFormat(Qt.TextFormat.PlainText)  # as painted: of markup the tags were not measured
        self._shortest = shortest
        self._shorter: tuple[str, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)

    def minimumSizeHint(self) -> QSize:
        """A few letters."""
        whole = super().minimumSizeHint()
        return QSize(min(self._shortest, whole.width()), whole.height())

    def ask_for(self, shortest: int) -> None:
        """Ask for so many pixels at least."""
        if shortest != self._shortest:
            self._shortest = shortest
            self.updateGeometry()

    def show_text(self, text: str, *shorter: str) -> None:
        """Change the text; where it has no room, the first of `shorter` that has stands in its place."""
        if (text, shorter) != (self.text(), self._shorter):
            self._shorter = shorter
            self.setText(text)
            self.update()

    def fitting_text(self) -> str:
        """Return what of the text is shown in the room there is."""
        metrics, room = QFontMetricsF(self.font()), float(self.contentsRect().width())
        texts = (self.text(), *self._shorter)
        fits = next((text for text in texts if metrics.horizontalAdvance(text) <= room), None)
        return metrics.elidedText(texts[-1], Qt.TextElideMode.ElideRight, room) if fits is None else fits

    def shortest_width(self) -> float:
        """Return the pixels that the shortest of its texts takes."""
        return QFontMetricsF(self.font()).horizontalAdvance((self.text(), *self._shorter)[-1])

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint what fits."""
        fits = self.fitting_text()
        whole = tip(self.text()) if fits != self.text() else ""
        if whole != self.toolTip():
            self.setToolTip(whole)
        painter = QPainter(self)
        try:
            painter.setPen(self.palette().windowText().color())
            painter.drawText(self.contentsRect(), self.alignment(), fits)
        finally:
            painter.end()
