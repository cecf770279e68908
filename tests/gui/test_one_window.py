"""No part of a page is a window of its own, not even for a moment: that takes the keyboard along."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from gui.page_list import PAGES, SHELF
from gui.pages.shelf_page import ShelfPage
from gui.window import Window

LESSON = Path(__file__).parents[2] / "recordings" / "invented" / "good-lesson.h5"
PATIENCE_MS = 30_000


class ShownWindows(QObject):
    """Notes of what kind each window is that is shown."""

    def __init__(self) -> None:
        super().__init__()
        self.kinds: list[str] = []

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Show and isinstance(watched, QWidget) and watched.isWindow():
            self.kinds.append(type(watched).__qualname__)
        return False


@pytest.mark.parametrize("name", [entry.name for entry in PAGES])
def test_every_page_comes_without_another_window(
    window: Window, qapp: QApplication, qtbot: QtBot, tmp_path: Path, name: str
) -> None:
    """The facts of the first recording on the shelf did: after that no key reached the window."""
    (tmp_path / "a.h5").write_bytes(LESSON.read_bytes())
    window.settings.setValue("recordings_folder", str(tmp_path))
    window.open_file(tmp_path / "a.h5")
    qtbot.waitUntil(lambda: bool(window.findings_pages), timeout=PATIENCE_MS)
    window.activateWindow()
    shown = ShownWindows()
    qapp.installEventFilter(shown)
    window.show_page(name)
    if name == SHELF:
        shelf = window.stack.currentWidget()
        assert isinstance(shelf, ShelfPage)
        qtbot.waitUntil(lambda: shelf.model.count == 1, timeout=PATIENCE_MS)
    window.resize(700, 560)
    window.resize(1280, 720)
    qapp.processEvents()
    qapp.removeEventFilter(shown)
    assert shown.kinds == []
    assert qapp.activeWindow() is window
