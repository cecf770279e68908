"""The one window: header, bars and pages, what they ask of one another, and who answers."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QSettings, QSize, Signal
from PySide6.QtGui import QCloseEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from gui.bar_places import BarPlaces
from gui.file_drops import FileDrops
from gui.focus_in_view import FocusInView
from gui.frame_clock import FrameClock
from gui.header_words import header_words
from gui.held_keys import HeldKeys, sends_pairs
from gui.icons import icon
from gui.job import Job
from gui.jobs import Jobs, wait_until_kept
from gui.language import SETTING, told_in
from gui.layout_items import forget_layout_items
from gui.leaving import Leaving
from gui.menu import WindowMenu
from gui.missing_folder import MissingFolder
from gui.notice_board import INFO_PASSES_S
from gui.page_list import RUN
from gui.page_stack import PageStack
from gui.pages.run_page import RunPage
from gui.program_faults import ProgramFaults
from gui.recording_desk import RecordingDesk
from gui.run_desk import RunDesk
from gui.run_news import RunNews
from gui.run_watch import RunWatch
from gui.run_ways import RunWays
from gui.session import Finished, Plan, Session
from gui.settings_watch import SettingsWatch
from gui.stamping import StampingKeys
from gui.theme import Theme, style_sheet
from gui.typed_in_view import TypedInView
from gui.undoing import Undoing
from gui.wall_switch import WallSwitch
from gui.widgets.header import Header
from gui.widgets.notice_bars import NoticeBars
from gui.widgets.page_pane import PagePane
from gui.window_keys import WindowKeys

if TYPE_CHECKING:
    from gui.pages.findings_page import FindingsPage

__all__ = ["Window"]

LARGEST_START = QSize(1480, 860)
TITLE_BAR = 48
"""Pixels that a desktop may put above a window."""
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
        self._jobs = Jobs()
        self._has_left = False
        self._texts_s = 0.0
        self._stamping: StampingKeys | None = None
        self.faults = ProgramFaults(self)
        self.menu = WindowMenu(theme, self, str(settings.value(SETTING, "system")))
        self.header = Header(theme, self.menu)
        self.bars = NoticeBars()
        self.desk = RunDesk(theme, lambda plan: Session(plan), self)
        self.stack = PageStack(self)
        self._bar_places = BarPlaces(self.bars, self.stack)
        self.ways = RunWays(self, self.stack, self.desk, self.menu, self)
        self.undoing = Undoing(self.stack, self.desk, self.menu, self)
        self.watch = RunWatch(self, self.desk, self.bars, settings, self.ways.choose_second_folder)
        self.news = RunNews(self, self.desk, self.watch, self.stack.show_cautions, self)
        self.recordings = RecordingDesk(self, self.stack, self.desk, self.undoing, self)
        self.wall_switch = WallSwitch(self, self.header, self.stack, self.watch)
        self._missing_folder = MissingFolder(self, lambda: self.bars.texts)
        self._settings_watch = SettingsWatch(self, settings)
        self.leaving = Leaving(self, self.desk, self._jobs)
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
        self._scroll = PagePane(self.stack)  # what does not fit a small window is scrolled to, never cut off
        self._typed_in_view = TypedInView(self, self._scroll)
        FocusInView(self)
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
        self.stack.shown.connect(self._offer_closing)
        self.stack.start_page.bench_wanted.connect(lambda: self.show_page("bench"))
        self.stack.start_page.open_wanted.connect(self.recordings.choose)
        self.stack.start_page.lesson_wanted.connect(self.ways.begin_lesson)
        self.desk.began.connect(self._take_run_page)
        self.desk.finished.connect(self.news.tell_finished)
        self.desk.finished.connect(self.add_findings)
        self.desk.failed.connect(lambda session: self.failed.emit(session.error))
        self.desk.failed.connect(self.news.tell_failed)
        self.desk.may_leave.connect(self._leave)
        self.leaving.agreed.connect(lambda: self._leave(0))
        menu = self.menu
        menu.open_wanted.connect(self.recordings.choose)
        menu.follow_wanted.connect(self._toggle_following)
        menu.whole_wanted.connect(self._whole_run)
        menu.stop_wanted.connect(self.stop)
        menu.save_pressed.connect(self._save_in_front)
        menu.close_wanted.connect(self.recordings.close_in_front)
        menu.picture_wanted.connect(self.recordings.save_picture)
        menu.cautions_wanted.connect(self.stack.show_cautions)
        menu.page_wanted.connect(self.show_page)
        menu.quit_wanted.connect(self.close)
        menu.settings_wanted.connect(self._show_settings)
        menu.wall_wanted.connect(self.wall_switch.toggle)
        menu.quiet_wanted.connect(self.watch.bell.silence)
        menu.sound_turned.connect(self.watch.turn_sound)
        menu.details_wanted.connect(self.faults.copy_details)
        menu.colours_chosen.connect(self._choose_colours)
        menu.language_chosen.connect(self._choose_language)

    def _save_in_front(self) -> None:
        """Save what is edited on the page in front; a run saves itself, which is told."""
        if not self.stack.save_in_front():
            self.news.tell_saved_already()

    def sizeHint(self) -> QSize:
        """All of a small screen, a comfortable part of a large one."""
        return self.screen().availableGeometry().size().boundedTo(LARGEST_START)

    def show_at_start(self) -> None:
        """Fill a small screen: a window as large as that would reach below its edge by its title bar."""
        free = self.screen().availableGeometry().size()
        # Also the size it has once it does not fill the screen any more.
        self.resize(self.sizeHint().boundedTo(free - QSize(0, TITLE_BAR)))
        if free.width() < LARGEST_START.width() or free.height() < LARGEST_START.height() + TITLE_BAR:
            self.showMaximized()
        else:
            self.show()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Let the bars leave room for the page."""
        super().resizeEvent(event)
        self._bar_places.fit(self.height())

    def showEvent(self, event: QShowEvent) -> None:
        """Watch the keys as soon as the window system knows the window."""
        super().showEvent(event)
        handle = self.windowHandle()
        if self._stamping is None and handle is not None:
            WindowKeys(handle)
            self._stamping = StampingKeys(handle, self.desk.now_s, self.desk.speed, self.ways.stamp)
            HeldKeys(handle, self.actions, pairs=sends_pairs())

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
        self._jobs.add(job)

    def show_page(self, name: str) -> None:
        """Show the page of that name (see `gui.page_list`)."""
        self.stack.show_named(name)

    def open_file(self, path: Path) -> None:
        """Open a recording and show its findings."""
        self.recordings.open(path)

    def add_findings(self, finished: Finished) -> None:
        """Show the findings of a recording, beside those already open."""
        self.recordings.add(finished)

    # ------------------------------------------------------------ a run

    def begin(self, plan: Plan) -> None:
        """Begin to record `plan`; only one run at a time."""
        self.desk.begin(self.ways.with_live_file(plan))

    def save_and_begin(self, plan: Plan) -> None:
        """End and save the run that goes on, then record `plan`."""
        self.desk.save_and_begin(self.ways.with_live_file(plan))
        self.show_page(RUN)

    def stop(self) -> None:
        """End the run, save it, and show what it shows; where none goes on, lead to what is not saved."""
        if self.desk.is_busy:
            self.desk.stop()
        else:
            self.news.tell_unsaved()

    def stop_and_quit(self) -> None:
        """Save what there is, then go; never asks."""
        self.desk.stop_and_leave(even_unsaved=True)

    def save_now(self) -> None:
        """Save and wait for it: the session of the user is ending."""
        self.desk.close()
        self._keep_changes()

    def _keep_changes(self) -> None:
        keeping = {page.keep_changes(): page for page in self.findings_pages}
        for job in wait_until_kept(keeping):
            keeping[job].note_late_keeping()
            self.do(job)  # where the window stays after all, it is told then

    def _take_run_page(self, page: RunPage) -> None:
        if self.session is not None:
            self.session.on_samples = self._clock.ring
        page.told.connect(self.tell)
        page.untold.connect(self.untell)
        page.announced.connect(self.news.announce_step)
        self.ways.take_page(page)
        self.undoing.watch(page)
        self.stack.take_run_page(page)
        self.news.forget_failure()
        self.news.tell_cautions()

    # ------------------------------------------------------------ once a frame

    def frame(self) -> None:
        """Let the run go on, and draw what is new."""
        forget_layout_items()
        self.desk.frame()
        self._jobs.frame()
        self.recordings.frame()
        self.leaving.frame()
        if not self.isMinimized():
            self.stack.frame()
            self._typed_in_view.frame()
        now = time.monotonic()
        if now - self._texts_s >= TEXT_EVERY_S:
            self._texts_s = now
            self._show_header()
            self.watch.follow()
            self.faults.tell_new()
            self._missing_folder.follow()
            self._settings_watch.follow()
            if self.wall_switch.is_on:
                self.wall_switch.show_words()

    def _show_header(self) -> None:
        page, findings = self.stack.currentWidget(), self.stack.findings_in_front
        self.header.show_pages(self.stack.names(), self.stack.present_name())
        names = [p.finished.recording.path.name for p in self.findings_pages]
        number = 0 if findings is None else self.findings_pages.index(findings)
        self.header.show_files(names, number, visible=findings is not None)
        words = header_words(page, self.session)
        self.header.show_run(words.title, words.about, is_simulated=words.is_simulated)
        self.header.show_source(words.light)
        title = f"{words.title} · Galvanote" if words.title else "Galvanote"
        if title != self.windowTitle():
            self.setWindowTitle(title)

    # ------------------------------------------------------------ what the menu asks

    def _toggle_following(self) -> None:
        page = self.stack.currentWidget()
        if isinstance(page, RunPage):
            page.chart.toggle_following()

    def _whole_run(self) -> None:
        page = self.stack.currentWidget()
        shown = page if isinstance(page, RunPage) else self.stack.findings_in_front
        if shown is not None:
            shown.chart.show_whole_run()

    def _offer_closing(self) -> None:
        self.menu.close_recording.setEnabled(self.stack.findings_in_front is not None)

    def _show_settings(self) -> None:
        if not self.wall_switch.is_on:  # which has no header
            self.header.open_menu(self.menu.first_setting)

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
        """Never lose a run: while one is recorded, ask; while one is saved, wait.

        A window that goes is asked once more, by Qt, and what it has given up holds it no longer.
        """
        if self._has_left or self.leaving.may_close():
            event.accept()
            self._leave(0)
        else:
            event.ignore()

    def _leave(self, status: int) -> None:
        if self._has_left:  # quitting closes the window, which leads here again
            return
        self._has_left = True
        self._clock.stop()
        self.watch.close()
        self.leaving.end()
        self._keep_changes()
        self._jobs.end()
        self.desk.wait()
        self.done.emit(status)
