"""What a page of the window is, and what the window does for it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Protocol

from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QVBoxLayout, QWidget

from gui.job import Job
from gui.long_job import Teller
from gui.session import Finished, Plan, Session
from gui.theme import Theme

__all__ = ["HeaderWords", "Page", "PageHost"]


@dataclass(frozen=True, slots=True)
class HeaderWords:
    """What stands in the header.

    Attributes
    ----------
    title : of the run, the recording or the page.
    about : a line about it, then the same in fewer and fewer words.
    is_simulated : whether the data are invented.
    light : look of the light and its words, longest first; None: no light.
    """

    title: str = ""
    about: tuple[str, ...] = ("",)
    is_simulated: bool = False
    light: tuple[str, tuple[str, ...]] | None = None


class PageHost(Teller, Protocol):
    """What a page may ask of the window. All calls belong to the window's thread and return at once."""

    @property
    def theme(self) -> Theme:
        """Colours; `changed` tells when they change."""

    @property
    def settings(self) -> QSettings:
        """What the user chose earlier."""

    @property
    def session(self) -> Session | None:
        """The run in progress or the last one, if any."""

    @property
    def open_findings(self) -> tuple[Finished, ...]:
        """The recordings that are open, oldest first."""

    def do(self, job: Job[Any]) -> None:
        """Ask after `job` once a frame until it is over."""

    def begin(self, plan: Plan) -> None:
        """Record `plan` and show it; nothing happens while another run goes on."""

    def save_and_begin(self, plan: Plan) -> None:
        """End and save the run that goes on, then record `plan`."""

    def open_file(self, path: Path) -> None:
        """Open a recording and show its findings."""

    def add_findings(self, finished: Finished) -> None:
        """Show findings that are there already."""

    def show_page(self, name: str) -> None:
        """Show the page of that name (see `gui.page_list`)."""


class Page(QWidget):
    """A page of the window. Made when it is first shown, with the host as its only argument.

    What the keys go to when it is shown is its focus proxy, or is told by `take_keys`: the Tab key passes
    what stands before a proxy. Its controls have accessible names, and its contents scroll where the window
    is too small for them.

    Attributes
    ----------
    bar_place : where the window's bars stand while the page is in front: below what may shrink for them, so
        that nothing a hand is about to press is moved. None: below the whole page.
    """

    bar_place: QVBoxLayout | None = None

    def __init__(self, host: PageHost, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.host = host

    def hasHeightForWidth(self) -> bool:
        """No: what does not fit scrolls within the page, whose height the window alone decides."""
        return False

    def take_keys(self) -> None:
        """Give the keys to what they go to when the page is shown."""
        self.setFocus()

    def frame(self) -> None:
        """Draw what is new; called once a frame while the page is shown."""

    def entered(self) -> None:
        """Called each time the page comes to the front."""

    def take_files(self, paths: Sequence[Path]) -> bool:
        """Take files dropped on the page; False lets the window open them."""
        del paths
        return False

    def save_own(self) -> bool:
        """Save what is edited on the page; False: it has no file of its own."""
        return False

    def header_words(self) -> HeaderWords | None:
        """Return what the header says, without the light; None: what it says of the run."""
        return None
