"""All cautions on one page, to be read before the first run."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from gui.message_words import message_words
from gui.widgets.scroll_pane import scroll_pane
from gui.widgets.text_button import text_button
from gui.widgets.text_label import text_label
from gui.words import translate
from logger.cautions import CAUTIONS, DEFERENCE

__all__ = ["CautionsPage"]

WIDTH = 720
SCROLL_BAR = 8
MOST_OF_IT = 1000


class CautionsPage(QWidget):
    """Texts and a way back.

    Attributes
    ----------
    left : emitted with nothing when the user goes back (button or Esc).
    """

    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        heading = translate("Cautions", "Cautions")
        column = QWidget()
        column.setMaximumWidth(WIDTH)
        layout = QVBoxLayout(column)
        layout.setContentsMargins(28, 6, 28, 24)
        layout.setSpacing(4)
        layout.addWidget(text_label(message_words(DEFERENCE), 15, wraps=True, selectable=True))
        layout.addSpacing(10)
        for title, text in CAUTIONS:
            layout.addWidget(
                text_label(message_words(title), 15, weight="semibold", wraps=True, selectable=True)
            )
            layout.addWidget(text_label(message_words(text), 15, wraps=True, selectable=True))
            layout.addSpacing(10)
        self._back = text_button(translate("Cautions", "Back (Esc)"), size_px=14)
        self._back.clicked.connect(self.left)
        layout.addStretch(1)
        head = QHBoxLayout()  # above what scrolls: the way back is in sight whatever the height
        head.setContentsMargins(28, 18, 28 + SCROLL_BAR, 0)
        head.setSpacing(16)
        head.addWidget(text_label(heading, 26, weight="semibold", wraps=True, selectable=True), 1)
        head.addWidget(self._back)
        scroll = scroll_pane(column, heading)
        whole = QWidget()
        whole.setMaximumWidth(WIDTH + SCROLL_BAR)  # a bar that comes must not push the column aside
        below = QVBoxLayout(whole)
        below.setContentsMargins(0, 0, 0, 0)
        below.setSpacing(0)
        below.addLayout(head)
        below.addWidget(scroll, 1)
        outer = QHBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addStretch(1)
        outer.addWidget(whole, MOST_OF_IT)
        outer.addStretch(1)
        self.setFocusProxy(self._back)

    def hasHeightForWidth(self) -> bool:
        """No: the window decides the height, and the texts scroll; the window must not scroll as well."""
        return False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc goes back."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)
