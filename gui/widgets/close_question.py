"""The one question the window asks: what becomes of the run when the window is closed."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QDialog, QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from gui.fonts import font
from gui.numbers import clock_text
from gui.words import translate

__all__ = ["CloseQuestion"]

EVERY_MS = 500


class CloseQuestion(QDialog):
    """Asks whether to end the run; the time it shows goes on. Esc and Enter keep recording.

    Parameters
    ----------
    now_s : returns the run time in seconds.
    """

    def __init__(self, now_s: Callable[[], float], parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Dialog | Qt.WindowType.FramelessWindowHint)
        self._now_s = now_s
        self.setWindowModality(Qt.WindowModality.WindowModal)
        self.setWindowTitle("Galvanote")
        self.setAccessibleName(translate("Close question", "End the run?"))
        self.text = QLabel()
        self.text.setFont(font(17, "semibold"))
        words = QLabel(translate("Close question", "End it and save it, or go on recording?"))
        words.setFont(font(14.5))
        self.stop = QPushButton(translate("Close question", "Stop and save"))
        self.keep = QPushButton(translate("Close question", "Keep recording"))
        self.keep.setProperty("look", "primary")
        self.keep.setDefault(True)
        for button, answer in ((self.stop, self.accept), (self.keep, self.reject)):
            button.setFont(font(14.5, "medium"))
            button.setMinimumHeight(44)
            button.clicked.connect(answer)
        self._build(words)
        self._timer = QTimer(self)
        self._timer.timeout.connect(self._show_time)
        self._timer.start(EVERY_MS)
        self.finished.connect(self._timer.stop)
        self._show_time()
        self.keep.setFocus()

    def _build(self, words: QLabel) -> None:
        frame = QFrame()
        frame.setProperty("look", "sheet")
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addStretch(1)
        row.addWidget(self.stop)
        row.addWidget(self.keep)
        inner = QVBoxLayout(frame)
        inner.setContentsMargins(28, 24, 28, 22)
        inner.setSpacing(8)
        inner.addWidget(self.text)
        inner.addWidget(words)
        inner.addSpacing(14)
        inner.addLayout(row)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(frame)

    def _show_time(self) -> None:
        self.text.setText(
            translate("Close question", "The recording has been running for {time}.").format(
                time=clock_text(self._now_s())
            )
        )
