"""The pages of the window, in the order of their tabs. One line adds a page."""

from __future__ import annotations

import importlib
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QT_TRANSLATE_NOOP

if TYPE_CHECKING:
    from gui.pages.page import Page

__all__ = ["BENCH", "FINDINGS", "PAGES", "RUN", "SHELF", "PageEntry"]

RUN, FINDINGS = "run", "findings"
"""The pages that the window makes itself: one for a run, one for each open recording."""

BENCH, SHELF = "bench", "shelf"
"""Pages that take files of their kind."""


@dataclass(frozen=True, slots=True)
class PageEntry:
    """One tab.

    Attributes
    ----------
    name : by which the program knows the page.
    title : on the tab; give it as ``str(QT_TRANSLATE_NOOP("Pages", "Title"))``.
    icon : name of a drawing in `gui/icons`.
    key : leads there from anywhere.
    page_class : ``module:Class`` of a `gui.pages.page.Page`, loaded when the page is first shown; empty
        for the pages that the window makes itself.
    """

    name: str
    title: str
    icon: str
    key: str
    page_class: str = ""

    def load(self) -> type[Page]:
        """Return the class of the page."""
        module, _, name = self.page_class.partition(":")
        found: type[Page] = getattr(importlib.import_module(module), name)
        return found


PAGES: tuple[PageEntry, ...] = (
    PageEntry(RUN, str(QT_TRANSLATE_NOOP("Pages", "Run")), "run", "F2"),
    PageEntry(
        BENCH, str(QT_TRANSLATE_NOOP("Pages", "Bench")), "bench", "F3", "gui.pages.bench_page:BenchPage"
    ),
    PageEntry(FINDINGS, str(QT_TRANSLATE_NOOP("Pages", "Findings")), "findings", "F4"),
    PageEntry(
        SHELF, str(QT_TRANSLATE_NOOP("Pages", "Shelf")), "shelf", "F5", "gui.pages.shelf_page:ShelfPage"
    ),
    PageEntry("help", str(QT_TRANSLATE_NOOP("Pages", "Help")), "help", "F1", "gui.pages.help_page:HelpPage"),
)
