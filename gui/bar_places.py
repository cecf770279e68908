"""Where the bars stand: with the page in front, below what may shrink for them."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout

from gui.page_stack import PageStack
from gui.widgets.notice_bars import MOST, NoticeBars

__all__ = ["BarPlaces"]

MARGINS = (28, 0, 28, 0)
ROOMS = ((570, 1), (610, 2))
"""Below so many pixels of the window there is room for so many bars."""


class BarPlaces:
    """Moves the bars from page to page.

    Attributes
    ----------
    below_pages : the place for pages that have none of their own; the window puts it at its foot.
    """

    def __init__(self, bars: NoticeBars, stack: PageStack) -> None:
        self._bars, self._stack = bars, stack
        self._is_low = False
        self.below_pages = QVBoxLayout()
        self.below_pages.setContentsMargins(*MARGINS)
        stack.shown.connect(self.follow)

    def follow(self) -> None:
        """Put the bars where the page in front has room for them; the wall says itself what is grave."""
        place = self._stack.bar_place() or self.below_pages
        if self._is_low and self._stack.currentWidget() is self._stack.start_page:
            place = self.below_pages  # its offers fill it
        if place.indexOf(self._bars) < 0:
            place.addWidget(self._bars)
        self._bars.setVisible(self._stack.currentWidget() is not self._stack.wall)
        page = self._stack.findings_in_front
        if page is not None:
            self._bars.drop(f"open {page.finished.recording.path}")  # it says where they are

    def fit(self, window_height: int) -> None:
        """In a low window fewer bars must do: more would leave nothing of the page."""
        is_low = window_height < ROOMS[0][0]
        if is_low != self._is_low:
            self._is_low = is_low
            self.follow()
        self._bars.limit_to(next((most for height, most in ROOMS if window_height < height), MOST))
