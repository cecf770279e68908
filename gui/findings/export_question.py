"""What becomes of an export that is still written when the window is closed."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QFrame, QHBoxLayout, QVBoxLayout, QWidget

from gui.widgets.text_button import text_button
from gui.widgets.text_label import text_label
from gui.words import translate

__all__ = ["ExportQuestion"]


class ExportQuestion(QDialog):
    """Asks whether to cancel what is written; Esc and Enter go on writing."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Dialog | Qt.WindowType.FramelessWindowHint)
        self.setWindowModality(Qt.WindowModality.WindowModal)
        self.setWindowTitle("Galvanote")
        self.setAccessibleName(translate("Export question", "Cancel the export?"))
        self.cancel = text_button(
            translate("Export question", "Cancel it and close"), size_px=14.5, height_px=44
        )
        self.keep = text_button(
            translate("Export question", "Go on writing"), "primary", size_px=14.5, height_px=44
        )
        self.keep.setDefault(True)
        self.cancel.clicked.connect(self.accept)
        self.keep.clicked.connect(self.reject)
        self._build()
        self.keep.setFocus()

    def _build(self) -> None:
        frame = QFrame()
        frame.setProperty("look", "sheet")
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addStretch(1)
        row.addWidget(self.cancel)
        row.addWidget(self.keep)
        inner = QVBoxLayout(frame)
        inner.setContentsMargins(28, 24, 28, 22)
        inner.setSpacing(8)
        words = translate("Export question", "An export is still being written.")
        inner.addWidget(text_label(words, 17, weight="semibold"))
        words = translate("Export question", "The recording itself is saved. Cancelled, it leaves no file.")
        inner.addWidget(text_label(words, 14.5))
        inner.addSpacing(14)
        inner.addLayout(row)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(frame)
