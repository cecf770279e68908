"""May an export replace what is there? Asked once, about every file that it concerns."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from gui.widgets.question import TITLE_PX, WORDS_PX, Question
from gui.widgets.scroll_pane import scroll_pane
from gui.widgets.text_label import text_label
from gui.words import translate
from logger.export.overwriting import Overwriting

__all__ = ["ReplaceQuestion"]

WIDTH_PX = 460
LINES_SHOWN = 8
"""Names in view at once; more of them scroll."""


class ReplaceQuestion(Question):
    """Names the files that would be replaced and removed; Esc and Enter leave them as they are."""

    def __init__(self, concerned: Overwriting, parent: QWidget | None) -> None:
        title = translate("Replace question", "Replace the files that are there?")
        super().__init__(
            title,
            translate("Replace question", "Replace"),
            translate("Replace question", "Keep them"),
            parent,
        )
        self.words.addWidget(text_label(title, TITLE_PX, weight="semibold", wraps=True))
        words = translate("Replace question", "In {folder}, once the new ones are whole:")
        folder = next(iter((*concerned.replaced, *concerned.removed))).absolute().parent
        self.words.addWidget(text_label(words.format(folder=folder), WORDS_PX, wraps=True))
        self._add_names(concerned.replaced)
        if concerned.removed:
            words = translate("Replace question", "Removed, since the new tables have no such file:")
            self.words.addWidget(text_label(words, WORDS_PX, wraps=True))
            self._add_names(concerned.removed)
        self.setFixedWidth(WIDTH_PX)

    def _add_names(self, files: Sequence[Path]) -> None:
        names = text_label("\n".join(path.name for path in files), WORDS_PX, weight="medium", wraps=True)
        names.setTextFormat(Qt.TextFormat.PlainText)
        names.setAlignment(Qt.AlignmentFlag.AlignTop)
        if len(files) <= LINES_SHOWN:
            self.words.addWidget(names)
            return
        pane = scroll_pane(names, translate("Replace question", "Names of the files"))
        pane.setFixedHeight(LINES_SHOWN * names.fontMetrics().lineSpacing())
        self.words.addWidget(pane)
