"""Files dropped on the window: recordings are opened or compared, a bench is shown, anything else is told."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QEvent, QMimeData, QObject
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QWidget

from gui.notice_board import INFO_PASSES_S
from gui.page_list import BENCH, SHELF
from gui.page_stack import PageStack
from gui.pages.page import Page, PageHost
from gui.words import translate
from logger.vetting import get_ready

__all__ = ["FileDrops"]

RECORDINGS = (".h5", ".h5.journal")
BENCH_FILES = (".toml",)
MOST_NAMES = 3


class FileDrops(QObject):
    """Lets files be dropped on `window`. The page in front may take them; else their kind decides."""

    def __init__(self, window: QWidget, host: PageHost, stack: PageStack) -> None:
        super().__init__(window)
        self._host, self._stack = host, stack
        window.setAcceptDrops(True)
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take drags with files in them; text and pictures from elsewhere are refused by the pointer."""
        if event.type() not in (QEvent.Type.DragEnter, QEvent.Type.Drop) or not isinstance(event, QDropEvent):
            return super().eventFilter(watched, event)
        paths = _files_of(event.mimeData())
        if not paths:
            event.ignore()
            return True
        event.acceptProposedAction()
        if event.type() == QEvent.Type.Drop:
            self.take(paths)
        else:
            get_ready()  # while the files are carried to where they are let go
        return True

    def take(self, paths: Sequence[Path]) -> None:
        """Give files to the page in front, or to the page that their kind belongs to."""
        page = self._stack.currentWidget()
        if isinstance(page, Page) and page.take_files(paths):
            return
        recordings = [path for path in paths if path.name.endswith(RECORDINGS) and not path.is_dir()]
        if any(path.is_dir() for path in paths) or len(recordings) > 1:
            self._take_on(SHELF, paths)
        elif recordings:
            self._host.open_file(recordings[0])
        elif any(path.name.endswith(BENCH_FILES) for path in paths):
            self._take_on(BENCH, paths)
        else:
            self._tell_strange(paths)

    def _take_on(self, name: str, paths: Sequence[Path]) -> None:
        self._host.show_page(name)
        page = self._stack.currentWidget()
        if isinstance(page, Page):
            page.take_files(paths)

    def _tell_strange(self, paths: Sequence[Path]) -> None:
        text = translate(
            "File drops", "Recordings end in .h5, bench files in .toml; what was dropped is neither: {names}"
        )
        names = ", ".join(path.name for path in paths[:MOST_NAMES])
        self._host.tell("dropped", "info", text.format(names=names), passes_after_s=INFO_PASSES_S)


def _files_of(dragged: QMimeData) -> list[Path]:
    return [Path(url.toLocalFile()) for url in dragged.urls() if url.isLocalFile()]
