"""A line or paragraph of text in one of the letters of the program."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from gui.fonts import font

__all__ = ["text_label"]


def text_label(
    text: str = "",
    size_px: float = 13.0,
    *,
    look: str = "",
    weight: str = "regular",
    wraps: bool = False,
    selectable: bool = False,
) -> QLabel:
    """Return a label.

    Parameters
    ----------
    look : its colour in the style sheet of `gui.theme`; empty for ink.
    wraps : a longer text breaks into lines instead of asking for width.
    selectable : the text can be marked and copied.
    """
    label = QLabel(text)
    label.setFont(font(size_px, weight))
    label.setProperty("look", look)
    label.setWordWrap(wraps)
    if selectable:
        label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
