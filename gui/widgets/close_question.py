"""What becomes of the run when the window is closed."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QWidget

from gui.numbers import clock_text
from gui.widgets.question import TITLE_PX, WORDS_PX, Question
from gui.widgets.text_label import text_label
from gui.words import translate

__all__ = ["CloseQuestion"]

EVERY_MS = 500


class CloseQuestion(Question):
    """Asks whether to end the run; the time it shows goes on. Esc and Enter keep recording.

    Parameters
    ----------
    now_s : returns the run time in seconds.
    """

    def __init__(self, now_s: Callable[[], float], parent: QWidget) -> None:
        super().__init__(
            translate("Close question", "End the run?"),
            translate("Close question", "Stop and save"),
            translate("Close question", "Keep recording"),
            parent,
        )
        self._now_s = now_s
        self.text = text_label("", TITLE_PX, weight="semibold")
        self.words.addWidget(self.text)
        words = translate("Close question", "End it and save it, or go on recording?")
        self.words.addWidget(text_label(words, WORDS_PX))
        self._timer = QTimer(self)
        self._timer.timeout.connect(self._show_time)
        self._timer.start(EVERY_MS)
        self.finished.connect(self._timer.stop)
        self._show_time()

    def _show_time(self) -> None:
        self.text.setText(
            translate("Close question", "The recording has been running for {time}.").format(
                time=clock_text(self._now_s())
            )
        )
