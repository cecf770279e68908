"""What becomes of an export that is still written when the window is closed."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from gui.widgets.question import TITLE_PX, WORDS_PX, Question
from gui.widgets.text_label import text_label
from gui.words import translate

__all__ = ["ExportQuestion"]


class ExportQuestion(Question):
    """Asks whether to cancel what is written; Esc and Enter go on writing."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(
            translate("Export question", "Cancel the export?"),
            translate("Export question", "Cancel it and close"),
            translate("Export question", "Go on writing"),
            parent,
        )
        words = translate("Export question", "An export is still being written.")
        self.words.addWidget(text_label(words, TITLE_PX, weight="semibold"))
        words = translate("Export question", "The recording itself is saved. Cancelled, it leaves no file.")
        self.words.addWidget(text_label(words, WORDS_PX))
