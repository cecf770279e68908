"""What becomes of a run, told in bars: cautions where it begins, its next step, saved, failed."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject

from gui.message_words import message_sentences, message_words
from gui.notice_board import INFO_PASSES_S
from gui.pages.page import PageHost
from gui.run_desk import RunDesk
from gui.run_watch import FAILED, RunWatch
from gui.session import Finished, Session
from gui.words import translate
from logger.cautions import IN_SHORT

__all__ = ["RunNews"]

UNDERSTOOD_KEY = "cautions_understood"
OF_THE_RUN = ("removed", "step near", "sheet")
"""Bars that mean nothing once the run has ended."""


class RunNews(QObject):
    """Tells what the desk of the run has to tell, and what can be done about it."""

    def __init__(
        self,
        host: PageHost,
        desk: RunDesk,
        watch: RunWatch,
        show_cautions: Callable[[], None],
        parent: QObject,
    ) -> None:
        super().__init__(parent)
        self._host, self._desk, self._watch, self._show_cautions = host, desk, watch, show_cautions

    def tell_cautions(self) -> None:
        """Say what to take care of, until it was understood once."""
        if self._host.settings.value(UNDERSTOOD_KEY, False, type=bool):
            return
        actions = (
            (translate("Window", "All cautions"), self._show_cautions),
            (translate("Window", "Understood"), self._understand),
        )
        self._host.tell("cautions", "info", message_words(IN_SHORT), actions)

    def announce_step(self, text: str) -> None:
        """Say that it is time for the next step."""
        self._host.tell("sheet", "info", text)
        self._watch.announce(text)

    def tell_finished(self, finished: Finished) -> None:
        """Say where the run was saved."""
        text = translate("Window", "Saved as {path}").format(path=finished.recording.path)
        self._host.tell("saved", "info", text, passes_after_s=INFO_PASSES_S)
        self._forget_run()
        self._watch.alerts.call(text)

    def tell_failed(self, session: Session) -> None:
        """Say why a run could not begin or be saved, and offer to try that again.

        One that is not saved has a bar of its own, which stays when another run begins.
        """
        key = f"{FAILED} {session.plan.out}" if session.can_save_again else FAILED

        def try_again() -> None:
            self._host.untell(key)
            self._host.begin(session.plan)

        def save_again() -> None:
            self._host.untell(key)
            self._desk.save_again(session)

        actions: tuple[tuple[str, Callable[[], None]], ...] = (
            (translate("Window", "Try again"), try_again),
            (translate("Window", "To the bench"), lambda: self._host.show_page("bench")),
        )
        if session.can_save_again:  # another run of that name would be refused, and this one's curve be gone
            actions = ((translate("Window", "Save again"), save_again),)
        level = "info" if session.is_given_up else "danger"
        self._host.tell(key, level, message_sentences(session.errors), actions)
        self._forget_run()

    def _forget_run(self) -> None:
        """Take away what only a run that goes on can answer: one of before may be saved late."""
        for key in OF_THE_RUN if not self._desk.is_busy else ():
            self._host.untell(key)

    def tell_unsaved(self) -> None:
        """Offer once more to save what could not be saved: its bar may have been closed."""
        for session in self._desk.unsaved:
            self.tell_failed(session)

    def forget_failure(self) -> None:
        """Another run has begun: why one before it could not matters no more, nor another try of it."""
        self._host.untell(FAILED)

    def tell_saved_already(self) -> None:
        """Answer who wants to save: a run that could not be saved, or one that goes on."""
        self.tell_unsaved()
        if self._desk.is_running:
            text = translate(
                "Window", "Nothing to do: readings are saved to disk every second. Ctrl+E ends the run."
            )
            self._host.tell("saved", "info", text, passes_after_s=INFO_PASSES_S)

    def _understand(self) -> None:
        self._host.settings.setValue(UNDERSTOOD_KEY, True)
        self._host.untell("cautions")
