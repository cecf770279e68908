"""The one window: header, bars, pages; and how a run in it begins and ends."""

from __future__ import annotations

import time
from pathlib import Path

from PySide6.QtCore import QSettings, QSize, Qt, QTimer, QUrl, Signal
from PySide6.QtGui import QCloseEvent, QDesktopServices, QShowEvent
from PySide6.QtWidgets import QApplication, QFileDialog, QMessageBox, QStackedWidget, QVBoxLayout, QWidget

from gui.findings_texts import heading
from gui.job import Job
from gui.live_texts import running_text, source_words
from gui.menu import WindowMenu
from gui.notice_board import INFO_PASSES_S, NoticeBoard
from gui.pages.cautions_page import CautionsPage
from gui.pages.findings_page import FindingsPage
from gui.pages.run_page import RunPage
from gui.pages.start_page import StartPage
from gui.session import Finished, Plan, Session, load_finished
from gui.stamping import StampingKey
from gui.theme import Theme, style_sheet
from gui.widgets.header import Header
from gui.widgets.notice_bars import NoticeBars
from logger.cautions import IN_SHORT
from logger.export.picture import export_png, is_simulated
from logger.moments import Moment
from logger.scale import clock_text

__all__ = ["Window"]

FRAME_MS = 16
LARGEST_START = QSize(1480, 860)
TEXT_EVERY_S = 0.3


class Window(QWidget):
    """Shows a run in progress, and recordings with their findings.

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
        self._theme, self._settings = theme, settings
        self.session: Session | None = None
        self.run_page: RunPage | None = None
        self.findings_pages: list[FindingsPage] = []
        self._jobs: list[Job] = []  # type: ignore[type-arg]
        self._quits_when_saved = self._has_left = False
        self._state_seen = ""
        self._texts_s = 0.0
        self._stamping: StampingKey | None = None
        self.menu = WindowMenu(theme, self)
        self.header = Header(theme, self.menu)
        self.bars = NoticeBars()
        self._board = NoticeBoard(self.bars, self._alarm)
        self.stack = QStackedWidget()
        self.start_page, self.cautions = StartPage(), CautionsPage()
        self.stack.addWidget(self.start_page)
        self.stack.addWidget(self.cautions)
        self._before_cautions: QWidget | None = None
        self._build()
        self._connect()
        self._recolour()
        self._timer = QTimer(self)
        self._timer.setObjectName("frame")
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self.frame)
        self._timer.start(FRAME_MS)

    def _build(self) -> None:
        bars = QVBoxLayout()
        bars.setContentsMargins(28, 8, 28, 0)
        bars.addWidget(self.bars)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.header)
        layout.addLayout(bars)
        layout.addWidget(self.stack, 1)

    def _connect(self) -> None:
        self._theme.changed.connect(self._recolour)
        self.header.page_chosen.connect(self.show_page)
        self.header.file_chosen.connect(lambda i: self._show(self.findings_pages[i]))
        self.cautions.left.connect(self._leave_cautions)
        self.start_page.open_wanted.connect(self.choose_files)
        self.start_page.lesson_wanted.connect(self._lesson_again)
        menu = self.menu
        menu.open_wanted.connect(self.choose_files)
        menu.lesson_wanted.connect(self._lesson_again)
        menu.tag_wanted.connect(lambda: self._stamp(self._now_s()))
        menu.kinds_wanted.connect(self._open_kinds)
        menu.follow_wanted.connect(self._toggle_following)
        menu.whole_wanted.connect(self._whole_run)
        menu.stop_wanted.connect(self.stop)
        menu.save_pressed.connect(self._tell_saved)
        menu.picture_wanted.connect(self.save_picture)
        menu.cautions_wanted.connect(self.show_cautions)
        menu.quit_wanted.connect(self.close)
        menu.colours_chosen.connect(self._choose_colours)

    def sizeHint(self) -> QSize:
        """All of a small screen, a comfortable part of a large one."""
        return self.screen().availableGeometry().size().boundedTo(LARGEST_START)

    def showEvent(self, event: QShowEvent) -> None:
        """Watch the keys as soon as the window system knows the window."""
        super().showEvent(event)
        handle = self.windowHandle()
        if self._stamping is None and handle is not None:
            self._stamping = StampingKey(handle, self._now_s, self._speed, self._stamp)

    # ------------------------------------------------------------ a run

    def begin(self, plan: Plan) -> None:
        """Begin to record `plan`; only one run at a time."""
        if self.session is not None and not self.session.is_over:
            return
        self.session = Session(plan)
        self._state_seen = ""
        page = RunPage(self._theme, self.session)
        self.session.before_stop = page.foot.entry.settle
        page.stop_wanted.connect(self.stop)
        page.told.connect(lambda key, level, text: self.bars.show_bar(key, level, text))
        page.removed.connect(self._tell_removed)
        if self.run_page is not None:
            self.stack.removeWidget(self.run_page)
            self.run_page.deleteLater()
        self.run_page = page
        self.stack.addWidget(page)
        self._show(page)
        if not self._settings.value("cautions_understood", False, type=bool):
            actions = (("All cautions", self.show_cautions), ("Understood", self._understand))
            self.bars.show_bar("cautions", "info", IN_SHORT, actions)

    def stop(self) -> None:
        """End the run, save it, and show what it shows."""
        if self.session is not None and self.run_page is not None and not self.session.is_over:
            self.run_page.foot.show_saving()
            self.session.stop()

    def stop_and_quit(self) -> None:
        """Save what there is, then go; never asks."""
        self._quits_when_saved = True
        if self.session is None or self.session.is_over:
            self._leave(1 if self.session is not None and self.session.state == "failed" else 0)
        else:
            self.stop()

    def save_now(self) -> None:
        """Save and wait for it: the session of the user is ending."""
        self.stop()
        if self.session is not None:
            self.session.close()

    @property
    def _is_running(self) -> bool:
        return self.session is not None and self.session.state == "running"

    def _now_s(self) -> float:
        return self.session.now_s if self.session is not None else 0.0

    def _speed(self) -> float:
        return self.session.speed if self.session is not None else 1.0

    def _open_kinds(self) -> None:
        if self._is_running and self.run_page is not None:
            self._show(self.run_page)
            self.run_page.foot.open_kinds()

    def _stamp(self, time_s: float) -> bool:
        if not self._is_running or self.run_page is None:
            return False
        self._show(self.run_page)
        self.run_page.tag_at(time_s)
        return True

    # ------------------------------------------------------------ once a frame

    def frame(self) -> None:
        """Let the run go on, and draw what is new."""
        if self.session is not None:
            self.session.poll()
            self._take_state(self.session)
        self._jobs = [job for job in self._jobs if not job.poll()]
        page = self.stack.currentWidget()
        if isinstance(page, RunPage | FindingsPage) and not self.isMinimized():
            page.frame()
        now = time.monotonic()
        if now - self._texts_s >= TEXT_EVERY_S:
            self._texts_s = now
            self._show_header()
            if self.session is not None:
                self._board.follow(self.session)

    def _take_state(self, session: Session) -> None:
        if session.state == self._state_seen:
            return
        self._state_seen = session.state
        if session.state == "saving" and self.run_page is not None:
            self.run_page.foot.show_saving()
        elif session.state == "failed":
            self._tell_failed(session)
        elif session.state == "finished" and session.finished is not None:
            self.bars.show_bar(
                "saved",
                "info",
                f"Saved as {session.finished.recording.path}",
                passes_after_s=INFO_PASSES_S,
            )
            self.bars.drop("removed")
            self.add_findings(session.finished)
            if self._quits_when_saved or session.plan.duration_s is not None:
                self._leave(0)

    def _tell_failed(self, session: Session) -> None:
        self.failed.emit(session.error)
        if self.run_page is not None:
            self.run_page.panel.show_words("The run is not recording.")
            self.run_page.foot.show_saving()
            self.run_page.foot.stop.show_words("Not recording")
        self.bars.show_bar(
            "failed", "danger", session.error, (("Try again", lambda: self._try_again(session)),)
        )
        if self._quits_when_saved or session.plan.duration_s is not None:
            self._leave(1)

    def _try_again(self, session: Session) -> None:
        self.bars.drop("failed")
        self.begin(session.plan)

    def _alarm(self) -> None:
        QApplication.beep()
        QApplication.alert(self)

    def _show_header(self) -> None:
        page = self.stack.currentWidget()
        pages = ("Run",) * (self.run_page is not None) + ("Findings",) * bool(self.findings_pages)
        is_findings = isinstance(page, FindingsPage)
        self.header.show_pages(pages, "Findings" if is_findings else "Run")
        names = [p.finished.recording.path.name for p in self.findings_pages]
        number = self.findings_pages.index(page) if isinstance(page, FindingsPage) else 0
        self.header.show_files(names, number, visible=is_findings)
        if isinstance(page, FindingsPage):
            recording = page.finished.recording
            channel = recording.channel("cell_voltage")
            self.header.show_run(recording.title, heading(recording), is_simulated=is_simulated(channel))
            self.header.light.setVisible(False)
            return
        status = self.session.status() if self.session is not None else None
        self.header.light.setVisible(status is not None)
        if self.session is None:
            return
        if status is None:
            words = "not recording" if self.session.state == "failed" else "opening"
            self.header.show_run(self.session.plan.title, words, is_simulated=False)
            return
        simulated = any(source.address.startswith("cell:") for source in status.sources)
        about = running_text(status) if self.session.state == "running" else self.session.state
        self.header.show_run(status.title, about, is_simulated=simulated)
        self.header.light.show_source(*source_words(status))

    # ------------------------------------------------------------ findings

    def open_file(self, path: Path) -> None:
        """Open a recording and show its findings."""

        def tell(finished: Finished | None, error: Exception | None) -> None:
            if finished is not None:
                self.add_findings(finished)
            else:
                self.bars.show_bar(f"open {path}", "warning", str(error))
                self.start_page.show_opening("")

        self.start_page.show_opening(path.name)
        self._jobs.append(Job(lambda: load_finished(path), tell, "open a recording"))

    def choose_files(self) -> None:
        """Let the user choose recordings to open."""
        names, _filter = QFileDialog.getOpenFileNames(self, "Open recordings", "", "Recordings (*.h5)")
        for name in names:
            self.open_file(Path(name))

    def add_findings(self, finished: Finished) -> None:
        """Show the findings of a recording, beside those already open."""
        page = FindingsPage(self._theme, finished)
        page.picture_wanted.connect(self.save_picture)
        page.cautions_wanted.connect(self.show_cautions)
        page.folder_wanted.connect(
            lambda: QDesktopServices.openUrl(QUrl.fromLocalFile(str(finished.recording.path.parent)))
        )
        self.findings_pages.append(page)
        self.stack.addWidget(page)
        if not self._is_running:
            self._show(page)

    def save_picture(self) -> None:
        """Save the picture of the findings shown, beside the recording."""
        page = self.stack.currentWidget()
        if not isinstance(page, FindingsPage):
            return
        recording, findings = page.finished.recording, page.finished.findings
        out = recording.path.with_suffix(".png")

        def tell(_result: None, error: Exception | None) -> None:
            if error is None:
                self.bars.show_bar("picture", "info", f"Picture saved as {out}", passes_after_s=INFO_PASSES_S)
            else:
                self.bars.show_bar("picture", "warning", str(error))

        self._jobs.append(Job(lambda: export_png(recording, findings, out), tell, "save a picture"))

    # ------------------------------------------------------------ pages and words

    def show_page(self, name: str) -> None:
        """Show the page of that name: Run or Findings."""
        if name == "Run" and self.run_page is not None:
            self._show(self.run_page)
        elif name == "Findings" and self.findings_pages:
            self._show(self.findings_pages[-1])

    def show_cautions(self) -> None:
        """Show all cautions; Esc leads back."""
        if self.stack.currentWidget() is not self.cautions:
            self._before_cautions = self.stack.currentWidget()
        self._show(self.cautions)

    def _leave_cautions(self) -> None:
        if self._before_cautions is not None:
            self._show(self._before_cautions)

    def _understand(self) -> None:
        self._settings.setValue("cautions_understood", True)
        self.bars.drop("cautions")

    def _show(self, page: QWidget) -> None:
        self.stack.setCurrentWidget(page)
        (page.chart if isinstance(page, RunPage | FindingsPage) else page).setFocus()
        self._show_header()

    def _toggle_following(self) -> None:
        page = self.stack.currentWidget()
        if isinstance(page, RunPage):
            page.chart.toggle_following()

    def _whole_run(self) -> None:
        page = self.stack.currentWidget()
        if isinstance(page, RunPage | FindingsPage):
            page.chart.show_whole_run()

    def _tell_removed(self, moment: Moment) -> None:
        assert self.run_page is not None
        page = self.run_page

        def bring_back() -> None:
            page.bring_back(moment.id)
            self.bars.drop("removed")

        text = f"Moment at {clock_text(moment.time_s)} removed."
        self.bars.show_bar("removed", "info", text, (("Bring it back", bring_back),), passes_after_s=20)

    def _tell_saved(self) -> None:
        if self._is_running:
            text = "Nothing to do: readings are saved to disk every second. Ctrl+E ends the run."
            self.bars.show_bar("saved", "info", text, passes_after_s=INFO_PASSES_S)

    def _lesson_again(self) -> None:
        from gui.demo import demo_plan

        if not self._is_running:
            self.begin(demo_plan())

    def _choose_colours(self, choice: str) -> None:
        self._settings.setValue("colours", choice)
        self._theme.choose(choice)

    def _recolour(self) -> None:
        self.setStyleSheet(style_sheet(self._theme.colours))

    # ------------------------------------------------------------ the end

    def closeEvent(self, event: QCloseEvent) -> None:
        """Never lose a run: while one is recorded, ask; while one is saved, wait."""
        if self.session is None or self.session.is_over:
            event.accept()
            self._leave(0)
            return
        event.ignore()
        if self.session.state == "saving" or self._quits_when_saved:
            self._quits_when_saved = True
        elif self._asks_to_stop():
            self.stop_and_quit()

    def _asks_to_stop(self) -> bool:
        box = QMessageBox(self)
        box.setWindowTitle("Galvanote")
        box.setText(f"The recording has been running for {clock_text(self._now_s())}.")
        box.setInformativeText("End it and save it, or go on recording?")
        stop = box.addButton("Stop and save", QMessageBox.ButtonRole.AcceptRole)
        keep = box.addButton("Keep recording", QMessageBox.ButtonRole.RejectRole)
        box.setDefaultButton(keep)
        box.setEscapeButton(keep)
        box.exec()
        return box.clickedButton() is stop

    def _leave(self, status: int) -> None:
        if self._has_left:  # quitting closes the window, which leads here again
            return
        self._has_left = True
        self._timer.stop()
        for job in self._jobs:
            job.wait(5.0)
        if self.session is not None:
            self.session.close()
        self.done.emit(status)
