"""The moments of a finished run: a list to change them in, and a button for one that was forgotten."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from gui.theme import Theme
from gui.widgets.moment_list import MomentList
from gui.widgets.text_button import text_button
from gui.widgets.text_label import text_label
from gui.words import translate

__all__ = ["MomentPane"]

LIST_HEIGHT = 200


class MomentPane(QWidget):
    """Holds `list` and `add`; what they ask for is done by the page."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.list = MomentList(
            theme, empty=translate("Findings", "No moments were tagged."), is_growing=False
        )
        self.list.setMinimumHeight(LIST_HEIGHT)
        self.add = text_button(translate("Findings", "Add a moment"))
        self.add.setToolTip(
            translate("Findings", "Adds a note in the middle of what the curve shows; then say when and what")
        )
        hint = translate(
            "Findings",
            "Drag a flag above the curve to move its moment. The findings follow each change, the file keeps "
            "what was before, and Ctrl+Z takes it back.",
        )
        row = QHBoxLayout()
        row.addWidget(self.add)
        row.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(self.list, 1)
        layout.addLayout(row)
        layout.addWidget(text_label(hint, 12.5, look="quiet", wraps=True))
