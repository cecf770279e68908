"""The way to the view for the wall, which fills the screen, and back."""

from __future__ import annotations

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QWidget

from gui.page_list import RUN
from gui.page_stack import PageStack
from gui.run_watch import RunWatch

__all__ = ["WallSwitch"]


class WallSwitch(QObject):
    """Shows the wall in place of the header and the pages of `window`; any other page ends that."""

    def __init__(self, window: QWidget, header: QWidget, stack: PageStack, watch: RunWatch) -> None:
        super().__init__(window)
        self._window, self._header, self._stack, self._watch = window, header, stack, watch
        self._before: QWidget | None = None
        stack.shown.connect(self._leave)
        stack.wall.left.connect(self.toggle)

    @property
    def is_on(self) -> bool:
        """Tell whether the wall is in front."""
        return self._stack.currentWidget() is self._stack.wall

    def toggle(self) -> None:
        """Fill the screen; the same key, or Esc, leads back."""
        if self.is_on:
            before, self._before = self._before, None
            pages = map(self._stack.widget, range(self._stack.count()))
            page = next((page for page in pages if page is before), None)
            if page is None:  # it has gone meanwhile, as a recording that was closed
                self._stack.show_named(RUN)
            else:
                self._stack.bring(page)
            return
        self._before = self._stack.currentWidget()
        self._header.hide()
        self.show_words()
        self._stack.bring(self._stack.wall)
        self._window.setWindowState(self._window.windowState() | Qt.WindowState.WindowFullScreen)

    def show_words(self) -> None:
        """Bring its words up to date."""
        self._watch.show_wall(self._stack.wall, self._stack.run_page)

    def _leave(self) -> None:
        if not self.is_on and self._header.isHidden():
            self._header.show()
            self._window.setWindowState(self._window.windowState() & ~Qt.WindowState.WindowFullScreen)
