"""The column beside a curve grows with a large screen, up to what its texts can be read in."""

from __future__ import annotations

from gui.pages.side_width import WIDE_PAGE, side_width


def test_it_grows_from_a_wide_page_on_up_to_its_widest() -> None:
    assert side_width(1280, 400, 500) == side_width(WIDE_PAGE, 400, 500) == 400
    assert 400 < side_width(1600, 400, 500) < side_width(1800, 400, 500) < 500
    assert side_width(1920, 400, 500) == side_width(3840, 400, 500) == 500
