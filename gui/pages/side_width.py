"""How wide the column beside a curve or a form is: on a large screen it takes its share of the room."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

__all__ = ["WIDE_PAGE", "side_width", "window_width"]

WIDE_PAGE = 1500
"""Pixels of a page up to which the column is as wide as on a school laptop."""

SHARE = 0.27
"""Of what a page is wider than that: a large screen is read from further away."""


def side_width(page_width: int, usual: int, widest: int) -> int:
    """Return the width of a column that is `usual` pixels wide on a laptop, `widest` at most."""
    return min(usual + round(SHARE * max(0, page_width - WIDE_PAGE)), widest)


def window_width(page: QWidget) -> int:
    """Return the pixels that decide how a page is laid out where its height hangs on that.

    Its own width must not: the scroll bar of the window takes some of it, and comes and goes with the height.
    """
    return page.window().width()
