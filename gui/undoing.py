"""What the menu does to moments, undo and redo: it belongs to the page in front that has moments."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QUndoStack

from gui.menu import WindowMenu
from gui.page_stack import PageStack
from gui.pages.run_page import RunPage
from gui.run_desk import RunDesk
from gui.words import translate

if TYPE_CHECKING:
    from gui.pages.findings_page import FindingsPage

__all__ = ["Undoing"]


class Undoing(QObject):
    """Says in the menu what would be undone, and lets the page do what is wanted."""

    def __init__(self, stack: PageStack, desk: RunDesk, menu: WindowMenu, parent: QObject) -> None:
        super().__init__(parent)
        self._stack, self._desk, self._menu = stack, desk, menu
        self._nothing = QUndoStack(self)
        menu.undo_wanted.connect(self._undo)
        menu.redo_wanted.connect(self._redo)
        menu.pictures_wanted.connect(self._open_pictures)
        stack.shown.connect(self.show_words)
        self.show_words()

    def watch(self, page: RunPage | FindingsPage) -> None:
        """Follow what is done on a page."""
        page.acts.changed.connect(self.show_words)
        self.show_words()

    def show_words(self) -> None:
        """Say in the menu what would be undone and redone now."""
        page = self._page()
        stack = self._nothing if page is None else page.acts.stack
        for action, can, words, text in (
            (self._menu.undo, stack.canUndo(), translate("Menu", "Undo"), stack.undoText()),
            (self._menu.redo, stack.canRedo(), translate("Menu", "Redo"), stack.redoText()),
        ):
            action.setEnabled(can)
            action.setText(f"{words}: {text}" if can and text else words)

    def _page(self) -> RunPage | FindingsPage | None:
        """Return the recording in front; else the run that goes on, whatever page is shown over it."""
        page = self._stack.findings_in_front
        return page or (self._stack.run_page if self._desk.is_running else None)

    def _undo(self) -> None:
        page = self._page()
        if page is not None:
            page.undo()

    def _open_pictures(self) -> None:
        page = self._page()
        if page is not None:
            if isinstance(page, RunPage):
                self._stack.bring(page)
            page.open_pictures()

    def _redo(self) -> None:
        page = self._page()
        if page is not None:
            page.redo()
