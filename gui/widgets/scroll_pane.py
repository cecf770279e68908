"""A part of a page that scrolls where the window is too low for it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QFocusEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget

__all__ = ["scroll_pane"]


class _Pane(QScrollArea):
    """A pane that the keys can go to only where it scrolls; its bar then shows that they are there."""

    def __init__(self, *, takes_focus: bool, keeps_width: bool) -> None:
        super().__init__()
        self._takes_focus, self._keeps_width = takes_focus, keeps_width
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.verticalScrollBar().rangeChanged.connect(self._fit)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show on the bar that its keys scroll."""
        super().focusInEvent(event)
        self._mark("keys")

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Show the bar as it is without them."""
        super().focusOutEvent(event)
        self._mark("")

    def _mark(self, look: str) -> None:
        bar = self.verticalScrollBar()
        bar.setProperty("look", look)
        bar.style().unpolish(bar)
        bar.style().polish(bar)

    def _fit(self, least: int, most: int) -> None:
        if self._takes_focus:
            self.setFocusPolicy(Qt.FocusPolicy.StrongFocus if most > least else Qt.FocusPolicy.NoFocus)
        if self._keeps_width:  # leave the room of the bar where none is needed
            room = self.verticalScrollBar().sizeHint().width() if most <= least else 0
            if room != self.viewportMargins().right():
                self.setViewportMargins(0, 0, room, 0)


def scroll_pane(
    inner: QWidget, name: str = "", *, takes_focus: bool = True, keeps_width: bool = False
) -> QScrollArea:
    """Return a frameless pane around `inner` that scrolls up and down, never sideways.

    Parameters
    ----------
    name : what screen readers call it.
    takes_focus : keys can scroll it, where it scrolls at all; not wanted where all that is in it
        takes the focus itself.
    keeps_width : what is in it keeps its width where its scroll bar comes or goes, with a bar of the window
        for example: nothing moves under a hand.
    """
    pane = _Pane(takes_focus=takes_focus, keeps_width=keeps_width)
    pane.setWidget(inner)
    pane.setWidgetResizable(True)
    pane.setFrameShape(QFrame.Shape.NoFrame)
    pane.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    pane.setAccessibleName(name)
    return pane
