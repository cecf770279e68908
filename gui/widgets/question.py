"""The form of every question that the window asks: words on a sheet, and two buttons."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QFrame, QHBoxLayout, QVBoxLayout, QWidget

from gui.widgets.text_button import text_button

__all__ = ["TITLE_PX", "WORDS_PX", "Question"]

TITLE_PX, WORDS_PX = 17, 14.5
ABOVE_BUTTONS = 14


class Question(QDialog):
    """Asks whether to do something; Esc and Enter leave everything as it is.

    Parameters
    ----------
    name : what is asked, for who does not see it.
    act, keep : the words on the buttons that do it and that leave everything as it is.

    Attributes
    ----------
    act, keep : those buttons.
    words : the layout to add the words to.
    """

    def __init__(self, name: str, act: str, keep: str, parent: QWidget | None) -> None:
        super().__init__(parent, Qt.WindowType.Dialog | Qt.WindowType.FramelessWindowHint)
        self.setWindowModality(Qt.WindowModality.WindowModal)
        self.setWindowTitle("Galvanote")
        self.setAccessibleName(name)
        self.act = text_button(act, size_px=WORDS_PX)
        self.keep = text_button(keep, "primary", size_px=WORDS_PX)
        self.keep.setDefault(True)
        self.act.clicked.connect(self.accept)
        self.keep.clicked.connect(self.reject)
        self.words = QVBoxLayout()
        self.words.setSpacing(8)
        self._build()
        self.keep.setFocus()

    def _build(self) -> None:
        frame = QFrame()
        frame.setProperty("look", "sheet")
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addStretch(1)
        row.addWidget(self.act)
        row.addWidget(self.keep)
        inner = QVBoxLayout(frame)
        inner.setContentsMargins(28, 24, 28, 22)
        inner.setSpacing(8)
        inner.addLayout(self.words)
        inner.addSpacing(ABOVE_BUTTONS)
        inner.addLayout(row)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(frame)
