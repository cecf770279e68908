"""The end of the window: what it has to ask, and to wait for, before it may go."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from gui.findings.export_question import ExportQuestion
from gui.jobs import Jobs
from gui.run_desk import RunDesk
from gui.widgets.close_question import CloseQuestion

__all__ = ["Leaving"]


class Leaving(QObject):
    """Never loses a run: while one is recorded it asks, while one is saved it waits.

    Attributes
    ----------
    agreed : emitted with nothing when what held the window was given up, so that it may go at once.
    """

    agreed = Signal()

    def __init__(self, window: QWidget, desk: RunDesk, jobs: Jobs) -> None:
        super().__init__(window)
        self._window, self._desk, self._jobs = window, desk, jobs
        self.question: CloseQuestion | ExportQuestion | None = None

    def may_close(self) -> bool:
        """Return whether nothing holds the window; else ask, or go by itself when all is saved."""
        desk = self._desk
        if not desk.is_busy:
            if self._jobs.is_exporting and self.question is None:
                self._ask(ExportQuestion(self._window), self.agreed.emit)
            return not self._jobs.is_exporting
        if desk.session is not None and desk.session.state == "saving":
            desk.leaves_when_saved = True
        elif desk.session is not None and desk.session.state == "opening":
            desk.stop_and_leave()  # nothing is recorded yet that anybody could be asked about
        elif not desk.leaves_when_saved and self.question is None:
            self._ask(CloseQuestion(desk.now_s, self._window), desk.stop_and_leave)
        return False

    def frame(self) -> None:
        """Take a question back whose run or export is over meanwhile; called once a frame."""
        is_export = isinstance(self.question, ExportQuestion)
        if self.question is not None and not (self._jobs.is_exporting if is_export else self._desk.is_busy):
            self.question.reject()

    def end(self) -> None:
        """Take the question back: the window goes, whatever would be answered."""
        if self.question is not None:
            self.question.reject()

    def _ask(self, question: CloseQuestion | ExportQuestion, agree: Callable[[], None]) -> None:
        self.question = question
        question.accepted.connect(agree)
        question.finished.connect(self._drop_question)
        question.open()

    def _drop_question(self) -> None:
        if self.question is not None:
            self.question.deleteLater()
            self.question = None
