"""What the pages of the window scroll in where they do not fit."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget

__all__ = ["PagePane"]

MOST = 4
"""How often a page is fitted at one time: with a bar, without, and once more each."""


class PagePane(QScrollArea):
    """A pane whose page may ask for another height in another width.

    Its scroll bar takes room from the page, which may need none then, and need one again without it. Qt goes
    on with that, each time from within the last, until the stack is full and the program ends. Here the page
    is fitted a few times, and again when it asks for other room.
    """

    def __init__(self, pages: QWidget) -> None:
        super().__init__()
        self._depth = 0
        self.setWidget(pages)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the page to the room there is."""
        if self._depth < MOST:
            self._depth += 1
            super().resizeEvent(event)
            self._depth -= 1

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Fit the bars to the page where that has changed its size."""
        if event.type() != QEvent.Type.Resize:
            return super().eventFilter(watched, event)
        if self._depth < MOST:
            self._depth += 1
            super().eventFilter(watched, event)
            self._depth -= 1
        return False
