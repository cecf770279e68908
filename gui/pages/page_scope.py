"""What one page asks of the window until it is closed: its work has ended then, and its bars go with it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from PySide6.QtCore import QSettings

from gui.job import Job
from gui.pages.page import PageHost
from gui.session import Finished, Plan, Session
from gui.theme import Theme

__all__ = ["PageScope"]


class PageScope(PageHost):
    """Passes everything on to `host`, and remembers which work and which bars are of this page."""

    def __init__(self, host: PageHost) -> None:
        self._host = host
        self._jobs: list[Job[Any]] = []
        self._keys: set[str] = set()
        """Of bars with buttons, which lead to the page."""

    @property
    def is_at_rest(self) -> bool:
        """Tell whether no work of the page goes on, nor waits to tell its outcome."""
        self._jobs = [job for job in self._jobs if not job.is_told]
        return not self._jobs

    def take_bars_away(self) -> None:
        """Take those bars away whose buttons lead to the page."""
        for key in self._keys:
            self._host.untell(key)
        self._keys.clear()

    # ------------------------------------------------------------ the face of the host

    @property
    def theme(self) -> Theme:
        """Colours; `changed` tells when they change."""
        return self._host.theme

    @property
    def settings(self) -> QSettings:
        """What the user chose earlier."""
        return self._host.settings

    @property
    def session(self) -> Session | None:
        """The run in progress or the last one, if any."""
        return self._host.session

    @property
    def open_findings(self) -> tuple[Finished, ...]:
        """The recordings that are open, oldest first."""
        return self._host.open_findings

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
        if actions:
            self._keys.add(key)
        self._host.tell(key, level, text, actions, passes_after_s=passes_after_s)

    def untell(self, key: str) -> None:
        """Take a bar away."""
        self._keys.discard(key)
        self._host.untell(key)

    def do(self, job: Job[Any]) -> None:
        """Ask after `job` once a frame until it is over."""
        self._jobs = [job for job in self._jobs if not job.is_told]
        self._jobs.append(job)
        self._host.do(job)

    def begin(self, plan: Plan) -> None:
        """Record `plan` and show it; nothing happens while another run goes on."""
        self._host.begin(plan)

    def save_and_begin(self, plan: Plan) -> None:
        """End and save the run that goes on, then record `plan`."""
        self._host.save_and_begin(plan)

    def open_file(self, path: Path) -> None:
        """Open a recording and show its findings."""
        self._host.open_file(path)

    def add_findings(self, finished: Finished) -> None:
        """Show findings that are there already."""
        self._host.add_findings(finished)

    def show_page(self, name: str) -> None:
        """Show the page of that name (see `gui.page_list`)."""
        self._host.show_page(name)
