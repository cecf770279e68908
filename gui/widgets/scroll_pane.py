"""A part of a page that scrolls where the window is too low for it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget

__all__ = ["scroll_pane"]


class _SteadyPane(QScrollArea):
    """A pane that leaves the room of its scroll bar where none is needed."""

    def __init__(self) -> None:
        super().__init__()
        self.verticalScrollBar().rangeChanged.connect(self._keep_room)

    def _keep_room(self, least: int, most: int) -> None:
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
    takes_focus : keys can scroll it; not wanted where all that is in it takes the focus itself.
    keeps_width : what is in it keeps its width where its scroll bar comes or goes, with a bar of the window
        for example: nothing moves under a hand.
    """
    pane = _SteadyPane() if keeps_width else QScrollArea()
    pane.setWidget(inner)
    pane.setWidgetResizable(True)
    pane.setFrameShape(QFrame.Shape.NoFrame)
    pane.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    pane.setAccessibleName(name)
    if not takes_focus:
        pane.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    return pane
