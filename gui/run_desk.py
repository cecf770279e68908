"""One run in the window: how it begins, how it ends, and that nothing ends before it is saved."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal

from gui.pages.run_page import RunPage
from gui.session import Finished, Plan, Session
from gui.theme import Theme

__all__ = ["RunDesk"]


class RunDesk(QObject):
    """Owns the session and its page; at most one run at a time.

    Attributes
    ----------
    began : emitted with the `RunPage` of a run that begins.
    finished : emitted with the `Finished` of a run that has been saved.
    failed : emitted with the `Session` of a run that could not begin or be saved.
    may_leave : emitted with an exit status when the window was to go and nothing holds it any longer.
    """

    began = Signal(object)
    finished = Signal(object)
    failed = Signal(object)
    may_leave = Signal(int)

    def __init__(
        self, theme: Theme, make_session: Callable[[Plan], Session], parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._theme, self._make_session = theme, make_session
        self.session: Session | None = None
        self.page: RunPage | None = None
        self.leaves_when_saved = False
        self._state_seen = ""
        self._next: Plan | None = None
        self._saved_late: list[Session] = []
        self._not_saved: list[Session] = []
        self._leaves_unsaved = False

    @property
    def is_busy(self) -> bool:
        """Tell whether a run is being opened, recorded or saved."""
        return self.session is not None and not self.session.is_over

    @property
    def is_running(self) -> bool:
        """Tell whether readings are being recorded."""
        return self.session is not None and self.session.state == "running"

    @property
    def unsaved(self) -> tuple[Session, ...]:
        """The runs that have ended and could not be saved, oldest first."""
        return tuple(session for session in self._not_saved if session.can_save_again)

    def now_s(self) -> float:
        """Return the run time in seconds; 0 without a run."""
        return self.session.now_s if self.session is not None else 0.0

    def speed(self) -> float:
        """Return how many seconds of the run pass in one second; 1 without a run."""
        return self.session.speed if self.session is not None else 1.0

    def begin(self, plan: Plan) -> None:
        """Begin to record `plan`, unless a run goes on."""
        if self.is_busy:
            return
        self.session = self._make_session(plan)
        self._state_seen = ""
        self.page = RunPage(self._theme, self.session)
        self.session.before_stop = self.page.foot.entry.settle
        self.page.stop_wanted.connect(self.stop)
        self.began.emit(self.page)

    def save_and_begin(self, plan: Plan) -> None:
        """End and save the run that goes on, then begin `plan`; not where it could not be saved.

        A run that is still being opened may fail at that: then nothing has to be saved first.
        """
        if self.is_busy:
            self._next = plan
            self.stop()
        else:
            self.begin(plan)

    def stop(self) -> None:
        """End the run, save it, and find what it shows; one that is still being opened is given up."""
        if self.session is not None and self.page is not None and not self.session.is_over:
            if self.session.state == "opening":
                self.page.show_ending()
            else:
                self.page.show_saving()
            self.session.stop()

    def save_again(self, session: Session) -> None:
        """Try once more to save a run that could not be saved; another one may have begun meanwhile."""
        session.save_again()
        if session is self.session:
            self._state_seen = ""  # what fails again before the next frame is told again, too
        else:
            self._saved_late.append(session)

    def stop_and_leave(self, *, even_unsaved: bool = False) -> None:
        """Save what there is, then go; never asks, and gives up what is still being opened.

        A run that cannot be saved holds the window once more, so that its bar is seen, unless `even_unsaved`.
        """
        self.leaves_when_saved, self._next = True, None
        self._leaves_unsaved |= even_unsaved  # who is told to go from outside goes, whatever is answered then
        if self.session is None or self.session.is_over:
            self.may_leave.emit(1 if self.session is not None and self.session.state == "failed" else 0)
        else:
            self.stop()

    def close(self) -> None:
        """Wait until everything is saved; a run that is still being opened is given up."""
        self.stop()
        self.wait()
        if self.session is not None:
            self.session.poll()  # it may have begun all the same, and can be ended only now
            self.wait()

    def wait(self) -> None:
        """Wait for what is being saved."""
        for session in (self.session, *self._saved_late):
            if session is not None:
                session.close()

    def frame(self) -> None:
        """Let the run go on, and tell what has become of it; called once a frame."""
        if self.session is None:
            return
        self._look_at_saved_late()
        self.session.poll()
        if self.session.state != self._state_seen:
            self._state_seen = self.session.state
            self._take_state(self.session)

    def _look_at_saved_late(self) -> None:
        over = [session for session in self._saved_late if session.is_over]
        self._saved_late = [session for session in self._saved_late if not session.is_over]
        for session in over:
            if session.finished is not None:
                self.finished.emit(session.finished)
            else:
                self._tell_failed(session)

    def _tell_failed(self, session: Session) -> None:
        if session not in self.unsaved:
            self._not_saved = [*self.unsaved, session]
        self.failed.emit(session)

    def _take_state(self, session: Session) -> None:
        assert self.page is not None
        if session.state == "saving":
            self.page.show_saving()
        elif session.state == "failed":
            self.page.show_failed()
            self._tell_failed(session)
            if session.can_save_again:
                self._next = None
                self.leaves_when_saved &= self._leaves_unsaved
            self._go_on(session, 1)
        elif session.state == "finished" and isinstance(session.finished, Finished):
            self.page.show_saved()
            self.finished.emit(session.finished)
            self._go_on(session, 0)

    def _go_on(self, session: Session, status: int) -> None:
        """Begin the run that was to follow, or go; who closed the window meanwhile wants no other run."""
        following, self._next = self._next, None
        if following is not None and not self.leaves_when_saved:
            self.begin(following)
            return
        if self.leaves_when_saved or session.plan.duration_s is not None:
            self.may_leave.emit(status)
