"""Recordings in the window: how they are chosen and opened, and where their findings come to stand."""

from __future__ import annotations

import threading
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget

from gui.focused import is_typed_into
from gui.message_words import load_wordings
from gui.notice_board import INFO_PASSES_S
from gui.opening import Opening
from gui.page_stack import PageStack
from gui.pages.page import PageHost
from gui.recordings_folder import recordings_folder
from gui.run_desk import RunDesk
from gui.session import Finished
from gui.shelf.recent_files import RecentFiles
from gui.undoing import Undoing
from gui.words import translate
from logger.vetting import get_ready

if TYPE_CHECKING:
    from gui.pages.findings_page import FindingsPage
    from logger.recording import Recording

__all__ = ["RecordingDesk"]


def _findings_page_class() -> type[FindingsPage]:
    """Load the page and all that it shows: a fifth of what the window takes to start, and not needed then."""
    from gui.pages.findings_page import FindingsPage

    return FindingsPage


def _load() -> None:
    import numpy.ma  # noqa: F401 - np.unique loads it when it is called first

    from logger.reader import load_library

    load_library()
    load_wordings()
    _findings_page_class()


class RecordingDesk(QObject):
    """Opens recordings and adds their pages to the stack; a run in progress stays in front of them."""

    def __init__(
        self, host: PageHost, stack: PageStack, desk: RunDesk, undoing: Undoing, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self._host, self._stack, self._desk, self._undoing, self._window = host, stack, desk, undoing, parent
        self._opening = Opening(host, stack.start_page, self)
        self._opening.opened.connect(self._take_opened)
        self._asked_at_turn = 0
        self._closing: list[FindingsPage] = []

    def get_ready(self) -> None:
        """Load what reads recordings and shows findings, on a thread: nobody is to wait for it later."""
        threading.Thread(target=_load, name="load the findings").start()

    def choose(self) -> None:
        """Let the user choose recordings to open."""
        self.get_ready()
        get_ready()
        names, _filter = QFileDialog.getOpenFileNames(
            self._window,
            translate("Window", "Open recordings"),
            str(recordings_folder(self._host.settings)),
            translate("Window", "Recordings (*.h5)"),
        )
        for name in names:
            self._host.open_file(Path(name))

    def open(self, path: Path) -> None:
        """Open a recording and show its findings, after those asked for before.

        One that is open already comes to the front: a second page of it, and its findings, would be without
        what is changed on the first. Who turns to another page meanwhile stays there, and is told.
        """
        self._asked_at_turn = self._stack.turns
        self._opening.ask(path)

    def add(self, finished: Finished) -> None:
        """Show the findings of a recording, beside those already open.

        A run may end by itself: who types on another page goes on there, and is told.
        """
        page = self._add_page(finished)
        if self._desk.is_running:
            return
        is_on_run = self._stack.currentWidget() is self._stack.run_page
        if not is_on_run and is_typed_into(self._window.focusWidget()):
            self._tell_open(finished, page, translate("Window", "{name} is open."))
        else:
            self._stack.bring(page)

    def _take_opened(self, finished: Finished, is_first: bool) -> None:
        page = self._page_of(finished.recording)
        if page in self._closing:
            self._closing.remove(page)
        if page is None:
            page = self._add_page(finished)
        else:
            page.follow_file(finished)
        if self._desk.is_running:
            self._tell_open(finished, page, translate("Window", "{name} is open; the run goes on."))
        elif is_first and self._stack.turns == self._asked_at_turn:
            self._stack.bring(page)
        elif is_first:
            self._tell_open(finished, page, translate("Window", "{name} is open."))

    def _page_of(self, recording: Recording) -> FindingsPage | None:
        """Return the page of a recording, if it is open."""
        return next((page for page in self._stack.findings_pages if page.is_of(recording)), None)

    def _add_page(self, finished: Finished) -> FindingsPage:
        page = _findings_page_class()(self._host, finished)
        page.cautions_wanted.connect(self._stack.show_cautions)
        page.folder_wanted.connect(
            lambda: QDesktopServices.openUrl(QUrl.fromLocalFile(str(finished.recording.path.parent)))
        )
        self._undoing.watch(page)
        self._stack.add_findings_page(page)
        return page

    def close_in_front(self) -> None:
        """Close the recording in front as soon as nothing of it is kept, worked out or written any more."""
        page = self._stack.findings_in_front
        if page is None or not page.begin_to_close():
            return
        if page not in self._closing:
            self._closing.append(page)
        self.frame()
        if page in self._closing:
            text = translate("Window", "{name} is closed as soon as what goes on with it is done.")
            name = page.finished.recording.path.name
            self._host.tell("closing", "info", text.format(name=name), passes_after_s=INFO_PASSES_S)

    def frame(self) -> None:
        """Close what waits for it, once that is at rest; called once a frame.

        Not while a dialog or a menu is open, which may be of the page or of the list of the recordings. Where
        a change was refused meanwhile the page stays, with the bar that says so.
        """
        if QApplication.activeModalWidget() is not None or QApplication.activePopupWidget() is not None:
            return
        for page in [page for page in self._closing if page.is_at_rest]:
            self._closing.remove(page)
            self._host.untell("closing")
            if not page.was_refused_since:
                self._close(page)

    def _close(self, page: FindingsPage) -> None:
        page.close_for_good()
        self._host.untell(_key(page.finished))
        RecentFiles(self._host.settings).add(page.finished.recording.path)  # the shelf finds it open no more
        self._stack.remove_findings_page(page)

    def save_picture(self) -> None:
        """Save the picture of the findings in front beside their recording."""
        page = self._stack.findings_in_front
        if page is not None:
            page.save_picture()

    def _tell_open(self, finished: Finished, page: FindingsPage, text: str) -> None:
        """Something else stays in front; say where the recording is."""
        action = (translate("Window", "Show its findings"), lambda: self._stack.bring(page))
        words = text.format(name=finished.recording.path.name)
        self._host.tell(_key(finished), "info", words, (action,), passes_after_s=INFO_PASSES_S)


def _key(finished: Finished) -> str:
    return f"open {finished.recording.path}"
