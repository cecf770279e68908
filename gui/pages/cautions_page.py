"""All cautions on one page, to be read before the first run."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from gui.fonts import font
from logger.cautions import CAUTIONS, DEFERENCE

__all__ = ["CautionsPage"]

WIDTH = 720


class CautionsPage(QWidget):
    """Texts and a way back.

    Attributes
    ----------
    left : emitted with nothing when the user goes back (button or Esc).
    """

    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        column = QWidget()
        column.setMaximumWidth(WIDTH)
        layout = QVBoxLayout(column)
        layout.setContentsMargins(28, 24, 28, 24)
        layout.setSpacing(4)
        layout.addWidget(_label("Cautions", 26, "semibold"))
        layout.addWidget(_label(DEFERENCE, 15))
        layout.addSpacing(10)
        for title, text in CAUTIONS:
            layout.addWidget(_label(title, 15, "semibold"))
            layout.addWidget(_label(text, 15))
            layout.addSpacing(10)
        self._back = QPushButton("Back (Esc)")
        self._back.setFont(font(14, "medium"))
        self._back.clicked.connect(self.left)
        layout.addWidget(self._back, 0, Qt.AlignmentFlag.AlignLeft)
        layout.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidget(column)
        scroll.setWidgetResizable(True)
        scroll.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(scroll)
        self.setFocusProxy(self._back)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc goes back."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)


def _label(text: str, size: float, weight: str = "regular") -> QLabel:
    label = QLabel(text)
    label.setFont(font(size, weight))
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
