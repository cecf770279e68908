"""A button with words on it."""

from __future__ import annotations

from PySide6.QtWidgets import QPushButton

from gui.fonts import font

__all__ = ["LOW_PX", "TARGET_PX", "text_button"]

TARGET_PX = 44
"""Height of what a hand in a glove is to hit (WCAG 2.2, 2.5.5)."""

LOW_PX = 28
"""Height where there is no room for that: in a low window, and on a bar that tells how far something is."""


def text_button(
    words: str, look: str = "", *, size_px: float = 13.5, height_px: int = TARGET_PX, tip: str = ""
) -> QPushButton:
    """Return a button.

    Parameters
    ----------
    look : ``primary``, ``flat`` or empty, of the style sheet of `gui.theme`.
    height_px : the least height. The style sheet gives none: it would put its own in place of this one.
    tip : what it does, also for screen readers, where the words are too short to say it.
    """
    button = QPushButton(words)
    button.setFont(font(size_px, "medium"))
    button.setProperty("look", look)
    button.setMinimumHeight(height_px)
    if tip:
        button.setToolTip(tip)
        button.setAccessibleName(tip)
    return button
