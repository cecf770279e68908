"""Recordings on their way into the window, one after the other, in the order in which they were asked for."""

from __future__ import annotations

from collections import deque
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from gui.long_job import LongJob
from gui.message_words import message_sentence
from gui.pages.page import PageHost
from gui.pages.start_page import StartPage
from gui.session import Finished, load_finished
from gui.words import translate
from logger.progress import Cancelled

__all__ = ["Opening"]


class Opening(QObject):
    """Opens recordings for `host`; the start page says which one is on its way.

    Attributes
    ----------
    opened : emitted with a `Finished` and with whether it is the first of those asked for together: later
        ones do not take its place in front.
    """

    opened = Signal(object, bool)

    def __init__(self, host: PageHost, start_page: StartPage, parent: QObject) -> None:
        super().__init__(parent)
        self._host, self._start_page = host, start_page
        self._waiting: deque[Path] = deque()
        self._present: Path | None = None
        self._begun = self._opened = 0

    def ask(self, path: Path) -> None:
        """Open `path` when those asked for before have been opened; it may be on its way already."""
        if path == self._present or path in self._waiting:
            return
        self._waiting.append(path)
        if self._present is None:
            self._next()
        else:
            self._show()

    def _next(self) -> None:
        if not self._waiting:
            self._present, self._begun, self._opened = None, 0, 0
            self._start_page.show_opening("")
            return
        path = self._present = self._waiting.popleft()
        self._begun += 1
        self._show()
        words = translate("Window", "Opening {name}").format(name=path.name)
        work = partial(load_finished, path)
        self._host.do(LongJob(self._host, words, work, partial(self._tell, path), "open a recording"))

    def _tell(self, path: Path, finished: Finished | None, error: Exception | None) -> None:
        if finished is not None:
            self._opened += 1
            self.opened.emit(finished, self._opened == 1)
        elif not isinstance(error, Cancelled):
            self._host.tell(f"open {path}", "warning", message_sentence(str(error)))
        self._next()

    def _show(self) -> None:
        if self._present is not None:
            self._start_page.show_opening(self._present.name, self._begun, self._begun + len(self._waiting))
