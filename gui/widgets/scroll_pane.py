"""A part of a page that scrolls where the window is too low for it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget

__all__ = ["scroll_pane"]


def scroll_pane(inner: QWidget, name: str = "", *, takes_focus: bool = True) -> QScrollArea:
    """Return a frameless pane around `inner` that scrolls up and down, never sideways.

    Parameters
    ----------
    name : what screen readers call it.
    takes_focus : keys can scroll it; not wanted where all that is in it takes the focus itself.
    """
    pane = QScrollArea()
    pane.setWidget(inner)
    pane.setWidgetResizable(True)
    pane.setFrameShape(QFrame.Shape.NoFrame)
    pane.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    pane.setAccessibleName(name)
    if not takes_focus:
        pane.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    return pane
