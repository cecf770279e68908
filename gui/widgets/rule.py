"""A thin line between two parts of a page."""

from __future__ import annotations

from PySide6.QtWidgets import QFrame

__all__ = ["rule"]


def rule() -> QFrame:
    """Return a line; its direction and colour come from the style sheet of `gui.theme`."""
    line = QFrame()
    line.setProperty("look", "rule")
    line.setFixedHeight(1)  # a layout does not ask the style sheet
    return line
