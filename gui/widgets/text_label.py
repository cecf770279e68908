"""A line or paragraph of text in one of the letters of the program."""

from __future__ import annotations

import re

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget

from gui.fonts import font

__all__ = ["TextLabel", "breakable", "keep_together", "text_label"]

_UNITS = "[mµk]?V|[mµ]?A|m?W|[kM]?Ω|K|°C|%|[kM]?Hz|m?s|min|h|[mµ]?L|m?g|[mc]?m²?|m?C|[hk]?Pa|[kMG]i?B|mol"
_BEFORE_UNIT = re.compile(rf"(?<=\d) (?=(?:{_UNITS})(?![\w’']))")
_AROUND_SIGN = re.compile(r"(?<=\d) (?=± ?\d)|(?<=±) (?=\d)|(?<=<) (?=\d)")
_IN_UNIT = re.compile(rf"(?<=\d[ \u00a0])({_UNITS}|mol)/(?=min|cm²|h\b|L\b|K\b|s\b)")
_LONG_WORD = re.compile(r"[^ \n/]{20}(?=[^ \n/]{5})")
NO_BREAK, JOINER, BREAK = "\u00a0", "\u2060", "\u200b"


def keep_together(text: str) -> str:
    """Return `text` with no place for the end of a line between a number and its unit, or within either."""
    text = _IN_UNIT.sub(rf"\1/{JOINER}", text)
    return _AROUND_SIGN.sub(NO_BREAK, _BEFORE_UNIT.sub(NO_BREAK, text))


def breakable(text: str) -> str:
    """Return `text` with places for the end of a line in words too long for one: to be shown, not copied."""
    return _LONG_WORD.sub(rf"\g<0>{BREAK}", text)


class TextLabel(QLabel):
    """A label that breaks its lines where they are read well, and shows a "<b>" as it was written."""

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self._told = ""
        self.setText(text)

    def setText(self, text: str) -> None:
        """Show `text`."""
        if text != self._told:
            self._told = text
            super().setText(keep_together(text))


def text_label(
    text: str = "",
    size_px: float = 13.0,
    *,
    look: str = "",
    weight: str = "regular",
    wraps: bool = False,
    selectable: bool = False,
) -> TextLabel:
    """Return a label.

    Parameters
    ----------
    look : its colour in the style sheet of `gui.theme`; empty for ink.
    wraps : a longer text breaks into lines instead of asking for width.
    selectable : the text can be marked and copied.
    """
    label = TextLabel(text)
    label.setFont(font(size_px, weight))
    label.setProperty("look", look)
    label.setWordWrap(wraps)
    if selectable:
        label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
