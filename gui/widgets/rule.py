"""A thin line between two parts of a page."""

from __future__ import annotations

from PySide6.QtWidgets import QFrame

__all__ = ["rule"]


def rule() -> QFrame:
    """Return a line; its direction and colour come from the style sheet of `gui.theme`."""
    line = QFrame()
    line.setProperty("look", "rule")
    return line
