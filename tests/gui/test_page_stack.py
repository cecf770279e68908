"""The pages share a window, and none of them asks for room while it is behind another."""

from __future__ import annotations

from PySide6.QtWidgets import QApplication, QWidget

from gui.window import Window

SMALL = 683, 384


def test_a_page_behind_another_does_not_make_a_small_window_scroll(window: Window) -> None:
    """A school laptop at 200 %: two recordings were open, the one behind laid out for a large window."""
    wide = QWidget()
    wide.setMinimumWidth(900)
    window.stack.addWidget(wide)
    window.resize(*SMALL)
    for page in (
        window.stack.start_page,
        window.stack.wall,
        wide,
        window.stack.start_page,
        window.stack.wall,
    ):
        window.stack.bring(page)
        QApplication.processEvents()
        assert window.stack.width() == (900 if page is wide else SMALL[0])


def test_the_wall_fits_any_window(window: Window) -> None:
    """Part of a number is a wrong number: the wall has none of it beyond the edge."""
    window.resize(300, 200)
    window.stack.bring(window.stack.wall)
    QApplication.processEvents()
    assert window.width() == 300
    assert window.stack.wall.width() == 300
    assert window.stack.wall.visibleRegion().boundingRect() == window.stack.wall.rect()
