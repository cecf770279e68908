"""What stands in the window while nothing is recorded and no recording is open yet."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from gui.fonts import font

__all__ = ["StartPage"]


class StartPage(QWidget):
    """Says what is being opened, or offers what can be done.

    Attributes
    ----------
    open_wanted, lesson_wanted : emitted with nothing.
    """

    open_wanted = Signal()
    lesson_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words = QLabel()
        self._words.setFont(font(17))
        self._words.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._offers = QWidget()
        row = QHBoxLayout(self._offers)
        for words, signal in (
            ("Open recordings …  (Ctrl+O)", self.open_wanted),
            ("Simulated lesson  (Ctrl+L)", self.lesson_wanted),
        ):
            button = QPushButton(words)
            button.setFont(font(14, "medium"))
            button.clicked.connect(lambda _checked=False, signal=signal: signal.emit())
            row.addWidget(button)
        layout = QVBoxLayout(self)
        layout.addStretch(2)
        layout.addWidget(self._words)
        layout.addSpacing(12)
        layout.addWidget(self._offers, 0, Qt.AlignmentFlag.AlignHCenter)
        layout.addStretch(3)
        self.show_opening("")

    def show_opening(self, name: str) -> None:
        """Say that `name` is being opened; empty: nothing is, so offer what can be done."""
        self._words.setText(f"Opening {name} …" if name else "No recording is open.")
        self._offers.setVisible(not name)
