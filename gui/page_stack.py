"""The pages themselves: which there are, which is in front, and how one comes to the front."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Signal
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from gui.page_list import FINDINGS, PAGES, RUN
from gui.pages.cautions_page import CautionsPage
from gui.pages.page import Page, PageHost
from gui.pages.run_page import RunPage
from gui.pages.start_page import StartPage
from gui.widgets.wall_view import WallView

if TYPE_CHECKING:
    from gui.pages.findings_page import FindingsPage

__all__ = ["PageStack"]


class PageStack(QStackedWidget):
    """Holds every page; those of `gui.page_list` are made when they are first shown.

    Attributes
    ----------
    shown : emitted with nothing when another page has come to the front.
    """

    shown = Signal()

    def __init__(self, host: PageHost, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._host = host
        self._named: dict[str, Page] = {}
        self._before_cautions: QWidget | None = None
        self.run_page: RunPage | None = None
        self.findings_pages: list[FindingsPage] = []
        self.turns = 0
        """How often a page was brought to the front so far; one that comes as another goes is not counted."""
        self.start_page, self.cautions = StartPage(host.theme), CautionsPage()
        self.wall = WallView(host.theme)
        for page in (self.start_page, self.cautions, self.wall):
            self.addWidget(page)
        self.cautions.left.connect(self._leave_cautions)

    def minimumSizeHint(self) -> QSize:
        """Ask for the room of the page in front: one behind it may have been made for a larger window."""
        page = self.currentWidget()
        if page is None:
            return super().minimumSizeHint()
        return page.minimumSizeHint().expandedTo(page.minimumSize())

    def heightForWidth(self, width: int) -> int:
        """Take the height of the page in front, for the same reason; -1: it has none of its own."""
        page = self.currentWidget()
        return page.heightForWidth(width) if page is not None and page.hasHeightForWidth() else -1

    def names(self) -> tuple[str, ...]:
        """Return the names of the pages that can be shown now."""
        missing = {FINDINGS} if not self.findings_pages else set()
        return tuple(entry.name for entry in PAGES if entry.name not in missing)

    def present_name(self) -> str:
        """Return the name of the page in front; empty for the cautions, which have no tab."""
        page = self.currentWidget()
        if page in (self.cautions, self.wall):
            return ""
        if page in self.findings_pages:
            return FINDINGS
        return next((name for name, made in self._named.items() if made is page), RUN)

    @property
    def findings_in_front(self) -> FindingsPage | None:
        """The page in front, where it is that of a finished run."""
        page = self.currentWidget()
        return next((findings for findings in self.findings_pages if findings is page), None)

    def take_run_page(self, page: RunPage) -> None:
        """Put the page of a new run in the place of the last one's, and show it."""
        if self.run_page is not None:
            self.removeWidget(self.run_page)
            self.run_page.deleteLater()
        self.run_page = page
        self.addWidget(page)
        self.bring(page)

    def add_findings_page(self, page: FindingsPage) -> None:
        """Take the page of one more recording."""
        self.findings_pages.append(page)
        self.addWidget(page)

    def remove_findings_page(self, page: FindingsPage) -> None:
        """Let the page of a recording go; where it was in front the one before it comes, or the run."""
        was_in_front = page is self.currentWidget()
        place = self.findings_pages.index(page)
        self.findings_pages.remove(page)
        if was_in_front:
            left = self.findings_pages
            self._show(left[max(place - 1, 0)] if left else self.run_page or self.start_page)
        if self._before_cautions is page:
            self._before_cautions = None
        self.removeWidget(page)
        page.deleteLater()
        self.shown.emit()

    def show_named(self, name: str) -> None:
        """Show the page of that name; nothing happens when there is none yet."""
        if name == RUN:
            self.bring(self.run_page or self.start_page)
        elif name == FINDINGS:
            if self.findings_pages and self.findings_in_front is None:
                self.bring(self.findings_pages[-1])
        else:
            entry = next((e for e in PAGES if e.name == name), None)
            if entry is not None:
                if name not in self._named:
                    self._named[name] = entry.load()(self._host)
                    self.addWidget(self._named[name])
                self.bring(self._named[name])

    def show_cautions(self) -> None:
        """Show all cautions; Esc leads back."""
        if self.currentWidget() is not self.cautions:
            self._before_cautions = self.currentWidget()
        self.bring(self.cautions)

    def bring(self, page: QWidget) -> None:
        """Bring a page to the front, and the keys with it."""
        self.turns += 1
        self._show(page)

    def _show(self, page: QWidget) -> None:
        self.setCurrentWidget(page)
        self.updateGeometry()
        self.take_keys()
        if isinstance(page, Page):
            page.entered()
        self.shown.emit()

    def bar_place(self) -> QVBoxLayout | None:
        """Return where the page in front wants the bars; None: below it."""
        page = self.currentWidget()
        return page.bar_place if isinstance(page, Page | RunPage | StartPage) else None

    def take_keys(self) -> None:
        """Give the keys to the page in front."""
        page = self.currentWidget()
        if isinstance(page, Page):
            page.take_keys()
        elif page is not None:
            page.setFocus()

    def save_in_front(self) -> bool:
        """Have the page in front save what is edited there; False: it has nothing of its own to save."""
        page = self.currentWidget()
        return isinstance(page, Page) and page.save_own()

    def frame(self) -> None:
        """Let the page in front draw what is new; called once a frame."""
        page = self.currentWidget()
        if isinstance(page, Page | RunPage):
            page.frame()

    def _leave_cautions(self) -> None:
        self.bring(self._before_cautions or self.run_page or self.start_page)
