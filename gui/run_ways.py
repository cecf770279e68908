"""The ways from menu and keys to the run: a lesson, tagging, steps, a second copy, the live file."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog

from gui.job import Job
from gui.kind_words import kind_words
from gui.menu import WindowMenu
from gui.message_words import message_sentence
from gui.missing_folder import tell_missing_folder
from gui.notice_board import INFO_PASSES_S
from gui.numbers import clock_text, plain
from gui.page_list import RUN
from gui.page_stack import PageStack
from gui.pages.page import PageHost
from gui.pages.run_page import RunPage
from gui.picture_desk import PictureDesk
from gui.recordings_folder import FolderMissing, new_recording
from gui.run_desk import RunDesk
from gui.session import Plan
from gui.stamping import DIGIT_KINDS, STEP
from gui.tagging import StepOffer
from gui.words import translate
from logger.errors import LoggerError
from logger.moments import Moment

__all__ = ["LIVE_KEY", "RunWays"]

LIVE_KEY = "live_file"
OFFER_PASSES_S = 20.0


class RunWays(QObject):
    """Turns what menu, keys and page ask for into calls to the page of the run."""

    def __init__(
        self, host: PageHost, stack: PageStack, desk: RunDesk, menu: WindowMenu, parent: QObject
    ) -> None:
        super().__init__(parent)
        self._host, self._stack, self._desk, self._menu = host, stack, desk, menu
        self._offer: StepOffer | None = None
        self._pictures: PictureDesk | None = None
        menu.tag_wanted.connect(lambda: self.stamp("note", desk.now_s()))
        menu.next_wanted.connect(lambda: self.stamp(STEP, desk.now_s()))
        menu.kinds_wanted.connect(lambda: self._with_page(lambda page: page.foot.open_kinds(), shows=True))
        menu.words_wanted.connect(lambda: self._with_page(RunPage.words_for_newest, shows=True))
        menu.skip_wanted.connect(lambda: self._with_page(lambda page: page.tagging.skip_step()))
        menu.repeat_wanted.connect(lambda: self._with_page(lambda page: page.tagging.repeat_step()))
        menu.plan_wanted.connect(lambda: self._with_page(RunPage.plan_steps, shows=True))
        menu.to_step_wanted.connect(self._take_offer)
        menu.second_wanted.connect(self.choose_second_folder)
        menu.lesson_wanted.connect(self.begin_lesson)
        menu.live.setChecked(bool(host.settings.value(LIVE_KEY, False, type=bool)))
        menu.live_turned.connect(self._turn_live)

    def take_page(self, page: RunPage) -> None:
        """Serve the page of a run that begins."""
        self._offer = None
        page.removed.connect(self._tell_removed)
        page.offered.connect(self._tell_offer)
        self._pictures = PictureDesk(self._host, page.acts, page)
        page.pictures_wanted.connect(self._pictures.open)

    def begin_lesson(self) -> None:
        """Record the simulated lesson, unless a run goes on."""
        from gui.demo import demo_plan

        if self._desk.is_busy:
            if self._desk.session is not None and self._desk.session.state == "saving":
                text = translate("Window", "The run before is still being saved. Try again in a moment.")
            else:
                text = translate("Window", "A run is being recorded. Stop and save it first (Ctrl+E).")
            self._host.tell("lesson", "info", text, passes_after_s=INFO_PASSES_S)
            return
        try:
            self._host.begin(demo_plan(new_recording(self._host.settings)))
        except FolderMissing as error:
            tell_missing_folder(self._host, str(error))
        except LoggerError as error:
            self._host.tell("lesson", "warning", message_sentence(str(error)))

    def with_live_file(self, plan: Plan) -> Plan:
        """Return `plan` with a live file beside the recording, if that is wanted and none is named."""
        if plan.live is not None or not self._menu.live.isChecked():
            return plan
        return replace(plan, live=plan.out.with_name(f"{plan.out.stem} live.h5"))

    def stamp(self, act: str, time_s: float) -> bool:
        """Do what a key stands for at run time `time_s`; return whether the key was used.

        A moment can be tagged from any page. Digits and the space bar mean other things on pages with
        fields and lists, so they count only where the run is in front.
        """
        page = self._stack.run_page
        if page is None or not self._desk.is_running:
            return False
        is_on_wall = self._stack.currentWidget() is self._stack.wall
        if not is_on_wall and self._stack.currentWidget() is not page:
            if act != "note":
                return False
            self._host.show_page(RUN)
        page.stamp(act, time_s, is_quiet=is_on_wall)
        return True

    def choose_second_folder(self) -> None:
        """Let a folder be chosen, best on another disk, for a second copy of the run."""
        session = self._desk.session
        if session is None or session.state not in ("running", "saving"):  # saving may wait for a full disk
            text = translate("Run ways", "A second copy can be begun while a run goes on.")
            self._host.tell("second", "info", text, passes_after_s=INFO_PASSES_S)
            return
        title = translate("Run ways", "Folder for the second copy, best on another disk")
        name = QFileDialog.getExistingDirectory(None, title)
        if not name:
            return

        def tell(_done: None, error: Exception | None) -> None:
            if error is None:
                text = translate("Run ways", "A second copy is kept in {folder}").format(folder=name)
                self._host.tell("second", "info", text, passes_after_s=INFO_PASSES_S)
            else:
                self._host.tell("second", "warning", message_sentence(str(error)))

        self._host.do(Job(lambda: session.keep_second_copy(Path(name)), tell, "second copy"))

    def _turn_live(self, on: bool) -> None:
        self._host.settings.setValue(LIVE_KEY, on)

    def _with_page(self, act: Callable[[RunPage], None], *, shows: bool = False) -> None:
        page = self._stack.run_page
        if page is not None and self._desk.is_running:
            if shows:
                self._host.show_page(RUN)
            act(page)

    def _tell_offer(self, offer: StepOffer) -> None:
        self._offer = offer
        by_s = offer.step_s - offer.moment.time_s
        text = (
            translate("Run ways", "“{kind}” lies {time} before a step of the voltage.")
            if by_s > 0
            else translate("Run ways", "“{kind}” lies {time} after a step of the voltage.")
        ).format(kind=kind_words(offer.moment.kind), time=plain(abs(by_s), 1, "s"))
        action = (translate("Run ways", "Move it to the step (G)"), self._take_offer)
        self._host.tell("step near", "info", text, (action,), passes_after_s=OFFER_PASSES_S)

    def _take_offer(self) -> None:
        page, offer, self._offer = self._stack.run_page, self._offer, None
        if page is not None and offer is not None:
            page.move_to(offer.moment.id, offer.step_s)

    def _tell_removed(self, moment: Moment) -> None:
        page = self._stack.run_page
        assert page is not None
        count = len(page.acts.pictures_of(moment.id))
        if count == 0:
            text = translate("Window", "Moment at {time} removed.")
        elif count == 1:
            text = translate("Window", "Moment at {time} removed; its picture stays in the file.")
        else:
            text = translate("Window", "Moment at {time} removed; its {count} pictures stay in the file.")
        text = text.format(time=clock_text(moment.time_s), count=count)
        action = (translate("Window", "Bring it back"), partial(page.bring_back, moment.id))
        self._host.tell("removed", "info", text, (action,), passes_after_s=OFFER_PASSES_S)


def digit_help() -> tuple[tuple[str, str], ...]:
    """Return each digit key with the kind it tags, for the help."""
    return tuple((str(number % 10), kind_words(kind)) for number, kind in enumerate(DIGIT_KINDS, start=1))
