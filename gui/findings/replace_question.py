"""May an export replace what is there? Asked once, about every file that it concerns."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QFrame, QHBoxLayout, QVBoxLayout, QWidget

from gui.widgets.scroll_pane import scroll_pane
from gui.widgets.text_button import text_button
from gui.widgets.text_label import text_label
from gui.words import translate
from logger.export.overwriting import Overwriting

__all__ = ["ReplaceQuestion"]

WIDTH_PX = 460
LINES_SHOWN = 8
"""Names in view at once; more of them scroll."""


class ReplaceQuestion(QDialog):
    """Names the files that would be replaced and removed; Esc and Enter leave them as they are."""

    def __init__(self, concerned: Overwriting, parent: QWidget | None) -> None:
        super().__init__(parent, Qt.WindowType.Dialog | Qt.WindowType.FramelessWindowHint)
        self.setWindowModality(Qt.WindowModality.WindowModal)
        self.setWindowTitle("Galvanote")
        self.setAccessibleName(translate("Replace question", "Replace the files that are there?"))
        self.replace = text_button(translate("Replace question", "Replace"), size_px=14.5, height_px=44)
        self.keep = text_button(
            translate("Replace question", "Keep them"), "primary", size_px=14.5, height_px=44
        )
        self.keep.setDefault(True)
        self.replace.clicked.connect(self.accept)
        self.keep.clicked.connect(self.reject)
        self._build(concerned)
        self.keep.setFocus()

    def _build(self, concerned: Overwriting) -> None:
        frame = QFrame()
        frame.setProperty("look", "sheet")
        inner = QVBoxLayout(frame)
        inner.setContentsMargins(28, 24, 28, 22)
        inner.setSpacing(8)
        title = translate("Replace question", "Replace the files that are there?")
        inner.addWidget(text_label(title, 17, weight="semibold", wraps=True))
        words = translate("Replace question", "In {folder}, once the new ones are whole:")
        folder = next(iter((*concerned.replaced, *concerned.removed))).absolute().parent
        inner.addWidget(text_label(words.format(folder=folder), 14.5, wraps=True))
        self._add_names(inner, concerned.replaced)
        if concerned.removed:
            words = translate("Replace question", "Removed, since the new tables have no such file:")
            inner.addWidget(text_label(words, 14.5, wraps=True))
            self._add_names(inner, concerned.removed)
        inner.addSpacing(14)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addStretch(1)
        row.addWidget(self.replace)
        row.addWidget(self.keep)
        inner.addLayout(row)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(frame)
        self.setFixedWidth(WIDTH_PX)

    def _add_names(self, inner: QVBoxLayout, files: Sequence[Path]) -> None:
        names = text_label("\n".join(path.name for path in files), 14.5, weight="medium", wraps=True)
        names.setTextFormat(Qt.TextFormat.PlainText)
        names.setAlignment(Qt.AlignmentFlag.AlignTop)
        if len(files) <= LINES_SHOWN:
            inner.addWidget(names)
            return
        pane = scroll_pane(names, translate("Replace question", "Names of the files"))
        pane.setFixedHeight(LINES_SHOWN * names.fontMetrics().lineSpacing())
        inner.addWidget(pane)
