"""A window for one page alone: what it asks for is written down, jobs are asked after until they are over."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget

from gui.job import Job
from gui.pages.page import Page
from gui.session import Finished, Plan, Session
from gui.theme import Theme, style_sheet

PATIENCE_S = 60.0


class FakeHost(QWidget):
    """Has the face of `gui.pages.page.PageHost`."""

    def __init__(self, theme: Theme, settings: QSettings) -> None:
        super().__init__()
        self._theme, self._settings = theme, settings
        self.session: Session | None = None
        self.open_findings: tuple[Finished, ...] = ()
        self.jobs: list[Job[Any]] = []
        self.told: dict[str, tuple[str, str, Sequence[tuple[str, Callable[[], None]]]]] = {}
        self.opened: list[Path] = []
        self.begun: list[Plan] = []
        self.shown: list[str] = []
        self.page: Page | None = None
        self.setStyleSheet(style_sheet(theme.colours))

    @property
    def theme(self) -> Theme:
        return self._theme

    @property
    def settings(self) -> QSettings:
        return self._settings

    def tell(
        self,
        key: str,
        level: str,
        text: str,
        actions: Sequence[tuple[str, Callable[[], None]]] = (),
        *,
        passes_after_s: float = 0.0,
    ) -> None:
        del passes_after_s
        self.told[key] = (level, text, tuple(actions))

    def untell(self, key: str) -> None:
        self.told.pop(key, None)

    def do(self, job: Job[Any]) -> None:
        self.jobs.append(job)

    def begin(self, plan: Plan) -> None:
        self.begun.append(plan)

    def save_and_begin(self, plan: Plan) -> None:
        self.begun.append(plan)

    def open_file(self, path: Path) -> None:
        self.opened.append(path)

    def add_findings(self, finished: Finished) -> None:
        self.open_findings = (*self.open_findings, finished)

    def show_page(self, name: str) -> None:
        self.shown.append(name)

    # ------------------------------------------------------------ for the test

    def hold(self, page: Page, width: int = 1280, height: int = 664) -> None:
        """Show `page` as the window would."""
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(page)
        self.page = page
        self.resize(width, height)
        self.show()
        page.take_keys()
        page.entered()

    def frame(self) -> None:
        """Let one frame pass."""
        QApplication.processEvents()
        if self.page is not None:
            self.page.frame()
        self.jobs, due = [], self.jobs
        self.jobs = [job for job in due if not job.poll()] + self.jobs

    def until(self, done: Callable[[], bool], what: str) -> None:
        """Let frames pass until something is so."""
        deadline_s = time.monotonic() + PATIENCE_S
        while not done():
            assert time.monotonic() < deadline_s, f"{what} did not happen"
            self.frame()
            time.sleep(0.002)

    def until_idle(self) -> None:
        """Let frames pass until no job is left."""
        self.until(lambda: not self.jobs, "the end of all jobs")
        self.frame()
