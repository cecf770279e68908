"""The one window: header, bars and pages, and what they ask of one another."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QSettings, QSize, Qt, QUrl, Signal
from PySide6.QtGui import QCloseEvent, QDesktopServices, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QApplication, QFileDialog, QFrame, QScrollArea, QVBoxLayout, QWidget

from gui.bar_places import BarPlaces
from gui.file_drops import FileDrops
from gui.findings.export_question import ExportQuestion
from gui.frame_clock import FrameClock
from gui.header_words import header_words
from gui.icons import icon
from gui.job import Job
from gui.language import SETTING, told_in
from gui.log_book import LogBook
from gui.long_job import LongJob
from gui.menu import WindowMenu
from gui.message_words import message_sentence, message_words
from gui.notice_board import INFO_PASSES_S
from gui.page_list import RUN
from gui.page_stack import PageStack
from gui.pages.findings_page import FindingsPage
from gui.pages.run_page import RunPage
from gui.recordings_folder import new_recording
from gui.run_desk import RunDesk
from gui.run_watch import RunWatch
from gui.run_ways import RunWays
from gui.session import Finished, Plan, Session, load_finished
from gui.stamping import StampingKeys
from gui.theme import Theme, style_sheet
from gui.undoing import Undoing
from gui.widgets.close_question import CloseQuestion
from gui.widgets.header import Header
from gui.widgets.notice_bars import NoticeBars
from gui.words import translate
from logger.cautions import IN_SHORT
from logger.errors import LoggerError
from logger.export.picture import export_png
from logger.free_name import free_name
from logger.progress import Cancelled
from logger.vetting import get_ready

__all__ = ["Window"]

LARGEST_START = QSize(1480, 860)
TEXT_EVERY_S = 0.3
BELOW_HEADER = 8


class Window(QWidget):
    """Shows a run in progress, and recordings with their findings. It is the host of its pages.

    Attributes
    ----------
    done : emitted with the exit status when the window has saved everything and may go.
    failed : emitted with the reason when the run could not begin or be saved.
    """

    done = Signal(int)
    failed = Signal(str)

    def __init__(self, theme: Theme, settings: QSettings) -> None:
        super().__init__()
        self.setWindowTitle("Galvanote")
        self.theme, self.settings = theme, settings
        self._jobs: list[Job[Any]] = []
        self._has_left = False
        self._texts_s = 0.0
        self._stamping: StampingKeys | None = None
        self.log_book: LogBook | None = None
        self._question: CloseQuestion | ExportQuestion | None = None
        self.menu = WindowMenu(theme, self, str(settings.value(SETTING, "system")))
        self.header = Header(theme, self.menu)
        self.bars = NoticeBars()
        self.desk = RunDesk(theme, lambda plan: Session(plan), self)
        self.stack = PageStack(self)
        self._bar_places = BarPlaces(self.bars, self.stack)
        self.ways = RunWays(self, self.stack, self.desk, self.menu, self)
        self.undoing = Undoing(self.stack, self.desk, self.menu, self)
        self.watch = RunWatch(self, self.desk, self.bars, settings, self.ways.choose_second_folder)
        self.menu.sound.setChecked(self.watch.is_sound_on)
        self.setWindowIcon(icon("galvanote", "#000"))
        FileDrops(self, self, self.stack)
        self._build()
        self._bar_places.follow()
        self.stack.take_keys()
        self._connect()
        self._recolour()
        self._clock = FrameClock(self)
        self._clock.ticked.connect(self.frame)

    def _build(self) -> None:
        self._scroll = QScrollArea()  # what does not fit a small window is scrolled to, never cut off
        self._scroll.setWidget(self.stack)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.header)
        layout.addSpacing(BELOW_HEADER)
        layout.addWidget(self._scroll, 1)
        layout.addLayout(self._bar_places.below_pages)

    def _connect(self) -> None:
        self.theme.changed.connect(self._recolour)
        self.header.page_chosen.connect(self.show_page)
        self.header.file_chosen.connect(lambda i: self.stack.bring(self.findings_pages[i]))
        self.bars.focus_left.connect(self.stack.take_keys)
        self.stack.shown.connect(self._show_header)
        self.stack.shown.connect(self._leave_wall)
        self.stack.start_page.bench_wanted.connect(lambda: self.show_page("bench"))
        self.stack.start_page.open_wanted.connect(self.choose_files)
        self.stack.start_page.lesson_wanted.connect(self._lesson_again)
        self.desk.began.connect(self._take_run_page)
        self.desk.finished.connect(self._tell_finished)
        self.desk.failed.connect(self._tell_failed)
        self.desk.may_leave.connect(self._leave)
        menu = self.menu
        menu.open_wanted.connect(self.choose_files)
        menu.lesson_wanted.connect(self._lesson_again)
        menu.follow_wanted.connect(self._toggle_following)
        menu.whole_wanted.connect(self._whole_run)
        menu.stop_wanted.connect(self.stop)
        menu.save_pressed.connect(self._tell_saved)
        menu.picture_wanted.connect(self.save_picture)
        menu.cautions_wanted.connect(self.show_cautions)
        menu.page_wanted.connect(self.show_page)
        menu.quit_wanted.connect(self.close)
        menu.wall_wanted.connect(self._toggle_wall)
        menu.quiet_wanted.connect(self.watch.bell.silence)
        menu.sound_turned.connect(self.watch.turn_sound)
        menu.details_wanted.connect(self._copy_details)
        self.stack.wall.left.connect(self._toggle_wall)
        menu.colours_chosen.connect(self._choose_colours)
        menu.language_chosen.connect(self._choose_language)

    def sizeHint(self) -> QSize:
        """All of a small screen, a comfortable part of a large one."""
        return self.screen().availableGeometry().size().boundedTo(LARGEST_START)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Let the bars leave room for the page."""
        super().resizeEvent(event)
        self._bar_places.fit(self.height())

    def showEvent(self, event: QShowEvent) -> None:
        """Watch the keys as soon as the window system knows the window."""
        super().showEvent(event)
        handle = self.windowHandle()
        if self._stamping is None and handle is not None:
            self._stamping = StampingKeys(handle, self._now_s, self._speed, self.ways.stamp)

    # ------------------------------------------------------------ the host of the pages

    @property
    def session(self) -> Session | None:
        """The run in progress or the last one, if any."""
        return self.desk.session

    @property
    def run_page(self) -> RunPage | None:
        """The page of that run."""
        return self.stack.run_page

    @property
    def findings_pages(self) -> list[FindingsPage]:
        """The pages of the open recordings, oldest first."""
        return self.stack.findings_pages

    @property
    def open_findings(self) -> tuple[Finished, ...]:
        """The recordings that are open, oldest first."""
        return tuple(page.finished for page in self.findings_pages)

    def tell(
        self,
        key: str,
        level: str,
        text: str,
        actions: Sequence[tuple[str, Callable[[], None]]] = (),
        *,
        passes_after_s: float = 0.0,
    ) -> None:
        """Show a bar; a bar of the same key is replaced."""
        self.bars.show_bar(key, level, text, actions, passes_after_s=passes_after_s)

    def untell(self, key: str) -> None:
        """Take a bar away."""
        self.bars.drop(key)

    def do(self, job: Job[Any]) -> None:
        """Ask after `job` once a frame until it is over."""
        self._jobs.append(job)

    def show_page(self, name: str) -> None:
        """Show the page of that name (see `gui.page_list`)."""
        self.stack.show_named(name)

    # ------------------------------------------------------------ a run

    def begin(self, plan: Plan) -> None:
        """Begin to record `plan`; only one run at a time."""
        self.desk.begin(self.ways.with_live_file(plan))

    def save_and_begin(self, plan: Plan) -> None:
        """End and save the run that goes on, then record `plan`."""
        self.desk.save_and_begin(self.ways.with_live_file(plan))
        self.show_page(RUN)

    def stop(self) -> None:
        """End the run, save it, and show what it shows."""
        self.desk.stop()

    def stop_and_quit(self) -> None:
        """Save what there is, then go; never asks."""
        self.desk.stop_and_leave()

    def save_now(self) -> None:
        """Save and wait for it: the session of the user is ending."""
        self.desk.close()

    def _take_run_page(self, page: RunPage) -> None:
        if self.session is not None:
            self.session.on_samples = self._clock.ring
        page.told.connect(self.tell)
        page.untold.connect(self.untell)
        page.announced.connect(self._announce)
        self.ways.take_page(page)
        self.undoing.watch(page)
        self.stack.take_run_page(page)
        if not self.settings.value("cautions_understood", False, type=bool):
            actions = (
                (translate("Window", "All cautions"), self.show_cautions),
                (translate("Window", "Understood"), self._understand),
            )
            self.tell("cautions", "info", message_words(IN_SHORT), actions)

    def _tell_finished(self, finished: Finished) -> None:
        text = translate("Window", "Saved as {path}").format(path=finished.recording.path)
        self.tell("saved", "info", text, passes_after_s=INFO_PASSES_S)
        for key in ("removed", "step near", "sheet"):
            self.untell(key)
        self.watch.alerts.call(text)
        self.add_findings(finished)

    def _tell_failed(self, reason: str) -> None:
        self.failed.emit(reason)
        session = self.session
        assert session is not None

        def try_again() -> None:
            self.untell("failed")
            self.begin(session.plan)

        def save_again() -> None:
            self.untell("failed")
            self.desk.save_again()

        actions: tuple[tuple[str, Callable[[], None]], ...] = (
            (translate("Window", "Try again"), try_again),
            (translate("Window", "To the bench"), lambda: self.show_page("bench")),
        )
        if session.can_save_again:  # another run of that name would be refused, and this one's curve be gone
            actions = ((translate("Window", "Save again"), save_again),)
        self.tell("failed", "danger", message_sentence(reason), actions)

    def _now_s(self) -> float:
        return self.session.now_s if self.session is not None else 0.0

    def _speed(self) -> float:
        return self.session.speed if self.session is not None else 1.0

    def tell_no_folder(self, reason: str) -> None:
        """Say why nothing could be recorded at the start, and lead to where a folder is chosen."""
        action = (translate("Window", "Choose a folder"), lambda: self.show_page("bench"))
        self.tell("bench", "warning", message_sentence(reason), (action,))

    # ------------------------------------------------------------ once a frame

    def frame(self) -> None:
        """Let the run go on, and draw what is new."""
        self.desk.frame()
        self._jobs = [job for job in self._jobs if not job.poll()]
        if isinstance(self._question, ExportQuestion) and not self._is_exporting:
            self._question.reject()  # what it asks about is written meanwhile
        if not self.isMinimized():
            self.stack.frame()
        now = time.monotonic()
        if now - self._texts_s >= TEXT_EVERY_S:
            self._texts_s = now
            self._show_header()
            self.watch.follow()
            self._tell_faults()
            if self.stack.currentWidget() is self.stack.wall:
                self.watch.show_wall(self.stack.wall, self.run_page)

    def _announce(self, text: str) -> None:
        self.tell("sheet", "info", text)
        self.watch.announce(text)

    def _tell_faults(self) -> None:
        for fault in self.log_book.new_faults() if self.log_book is not None else ():
            text = translate("Window", "A fault of the program: {fault}. A recording goes on.")
            action = (translate("Window", "Copy details"), self._copy_details)
            self.tell("program fault", "warning", text.format(fault=fault), (action,))

    def _copy_details(self) -> None:
        details = self.log_book.details() if self.log_book is not None else LogBook(Path()).details()
        QApplication.clipboard().setText(details)
        text = translate("Window", "Details copied: versions, system, the end of the log.")
        self.tell("copied", "info", text, passes_after_s=INFO_PASSES_S)

    def _show_header(self) -> None:
        page = self.stack.currentWidget()
        self.header.show_pages(self.stack.names(), self.stack.present_name())
        names = [p.finished.recording.path.name for p in self.findings_pages]
        is_findings = isinstance(page, FindingsPage)
        number = self.findings_pages.index(page) if isinstance(page, FindingsPage) else 0
        self.header.show_files(names, number, visible=is_findings)
        words = header_words(page, self.session)
        self.header.show_run(words.title, words.about, is_simulated=words.is_simulated)
        self.header.show_source(words.light)
        title = f"{words.title} · Galvanote" if words.title else "Galvanote"
        if title != self.windowTitle():
            self.setWindowTitle(title)

    # ------------------------------------------------------------ findings

    def open_file(self, path: Path) -> None:
        """Open a recording and show its findings."""

        def tell(finished: Finished | None, error: Exception | None) -> None:
            if finished is not None:
                self.add_findings(finished)
                self._tell_beside_run(finished)
            elif not isinstance(error, Cancelled):
                self.tell(f"open {path}", "warning", message_sentence(str(error)))
            self.stack.start_page.show_opening("")

        self.stack.start_page.show_opening(path.name)
        words = translate("Window", "Opening {name}").format(name=path.name)
        self.do(LongJob(self, words, partial(load_finished, path), tell, "open a recording"))

    def _tell_beside_run(self, finished: Finished) -> None:
        """A run in progress stays in front; say where the recording is."""
        page = self.findings_pages[-1]
        if self.stack.currentWidget() is page:
            return
        path = finished.recording.path
        text = translate("Window", "{name} is open; the run goes on.").format(name=path.name)
        action = (translate("Window", "Show its findings"), lambda: self.stack.bring(page))
        self.tell(f"open {path}", "info", text, (action,), passes_after_s=INFO_PASSES_S)

    def choose_files(self) -> None:
        """Let the user choose recordings to open."""
        get_ready()
        names, _filter = QFileDialog.getOpenFileNames(
            self, translate("Window", "Open recordings"), "", translate("Window", "Recordings (*.h5)")
        )
        for name in names:
            self.open_file(Path(name))

    def add_findings(self, finished: Finished) -> None:
        """Show the findings of a recording, beside those already open."""
        page = FindingsPage(self, finished)
        page.picture_wanted.connect(self.save_picture)
        page.cautions_wanted.connect(self.show_cautions)
        page.folder_wanted.connect(
            lambda: QDesktopServices.openUrl(QUrl.fromLocalFile(str(finished.recording.path.parent)))
        )
        self.undoing.watch(page)
        self.stack.add_findings_page(page)
        if not self.desk.is_running:
            self.stack.bring(page)

    def save_picture(self) -> None:
        """Save the picture of the findings shown, beside the recording, under a name that is not taken."""
        page = self.stack.currentWidget()
        if not isinstance(page, FindingsPage):
            return
        recording, findings = page.finished.recording, page.finished.findings

        def save() -> Path:
            out = free_name(recording.path.with_suffix(".png"))
            export_png(recording, findings, out)
            return out

        def tell(out: Path | None, error: Exception | None) -> None:
            if error is None:
                text = translate("Window", "Picture saved as {path}").format(path=out)
                self.tell("picture", "info", text, passes_after_s=INFO_PASSES_S)
            else:
                self.tell("picture", "warning", message_sentence(str(error)))

        self.do(Job(save, tell, "save a picture"))

    # ------------------------------------------------------------ pages and words

    def show_cautions(self) -> None:
        """Show all cautions; Esc leads back."""
        self.stack.show_cautions()

    def _understand(self) -> None:
        self.settings.setValue("cautions_understood", True)
        self.untell("cautions")

    def _leave_wall(self) -> None:
        if self.stack.currentWidget() is not self.stack.wall and self.header.isHidden():
            self.header.show()
            self.setWindowState(self.windowState() & ~Qt.WindowState.WindowFullScreen)

    def _toggle_wall(self) -> None:
        """The view for the wall fills the screen; the same key, or Esc, leads back."""
        if self.stack.currentWidget() is self.stack.wall:
            self.show_page(RUN)
        else:
            self.header.hide()
            self.watch.show_wall(self.stack.wall, self.run_page)
            self.stack.bring(self.stack.wall)
            self.setWindowState(self.windowState() | Qt.WindowState.WindowFullScreen)

    def _toggle_following(self) -> None:
        page = self.stack.currentWidget()
        if isinstance(page, RunPage):
            page.chart.toggle_following()

    def _whole_run(self) -> None:
        page = self.stack.currentWidget()
        if isinstance(page, RunPage | FindingsPage):
            page.chart.show_whole_run()

    def _tell_saved(self) -> None:
        if self.desk.is_running:
            text = translate(
                "Window", "Nothing to do: readings are saved to disk every second. Ctrl+E ends the run."
            )
            self.tell("saved", "info", text, passes_after_s=INFO_PASSES_S)

    def _lesson_again(self) -> None:
        from gui.demo import demo_plan

        if self.desk.is_busy:
            text = translate("Window", "A run is being recorded. Stop and save it first (Ctrl+E).")
            self.tell("lesson", "info", text, passes_after_s=INFO_PASSES_S)
            return
        try:
            self.begin(demo_plan(new_recording(self.settings)))
        except LoggerError as error:
            self.tell("lesson", "warning", message_sentence(str(error)))

    def _choose_colours(self, choice: str) -> None:
        self.settings.setValue("colours", choice)
        self.theme.choose(choice)

    def _choose_language(self, choice: str) -> None:
        self.settings.setValue(SETTING, choice)
        self.tell("language", "info", told_in(choice), passes_after_s=INFO_PASSES_S)

    def _recolour(self) -> None:
        self.setStyleSheet(style_sheet(self.theme.colours))

    # ------------------------------------------------------------ the end

    def closeEvent(self, event: QCloseEvent) -> None:
        """Never lose a run: while one is recorded, ask; while one is saved, wait."""
        if not self.desk.is_busy and not self._is_exporting:
            event.accept()
            self._leave(0)
            return
        event.ignore()
        if not self.desk.is_busy:
            if self._question is None:
                self._ask_about_exports()
        elif self.session is not None and self.session.state == "saving":
            self.desk.leaves_when_saved = True
        elif not self.desk.leaves_when_saved and self._question is None:
            self._ask_to_stop()

    def _ask_to_stop(self) -> None:
        self._question = CloseQuestion(self._now_s, self)
        self._question.accepted.connect(self.stop_and_quit)
        self._question.finished.connect(self._drop_question)
        self._question.open()

    @property
    def _is_exporting(self) -> bool:
        return any(job.is_cancellable for job in self._jobs)

    def _ask_about_exports(self) -> None:
        self._question = ExportQuestion(self)
        self._question.accepted.connect(lambda: self._leave(0))
        self._question.finished.connect(self._drop_question)
        self._question.open()

    def _drop_question(self) -> None:
        if self._question is not None:
            self._question.deleteLater()
            self._question = None

    def _leave(self, status: int) -> None:
        if self._has_left:  # quitting closes the window, which leads here again
            return
        self._has_left = True
        self._clock.stop()
        self.watch.close()
        if self._question is not None:
            self._question.reject()
        for job in self._jobs:
            job.cancel()
        for job in self._jobs:
            job.wait(5.0)
        if self.session is not None:
            self.session.close()
        self.done.emit(status)
