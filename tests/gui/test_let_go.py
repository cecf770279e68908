"""What was shown and has gone is let go of: curves of closed runs stayed in memory for good."""

from __future__ import annotations

import gc
import logging
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QObject, QSettings
from pytestqt.qtbot import QtBot

from gui.theme import Theme
from gui.window import Window
from logger.overview import Overview
from tests.gui.window_end import destroy

LESSON = Path("recordings/invented/good-lesson.h5").resolve()
PATIENCE_MS = 30_000


@pytest.fixture(autouse=True)
def nothing_is_logged() -> Iterator[None]:
    """What is logged of an error is kept until the test is over, and with it the window that met the error.

    Where there is no system bus that sleep could be held off by, a run that took a moment did so.
    """
    logging.disable(logging.CRITICAL)
    yield
    logging.disable(logging.NOTSET)


def held() -> Counter[str]:
    """Return how many there are of everything of ours that Qt or a curve is part of."""
    gc.collect()
    gc.collect()  # what the first lets go of may have held others
    kinds = (type(thing) for thing in gc.get_objects() if isinstance(thing, QObject | Overview))
    return Counter(kind.__qualname__ for kind in kinds if kind.__module__.startswith(("gui.", "logger.")))


def show_and_destroy(window: Window, shown: str, qtbot: QtBot, folder: Path) -> None:
    before = held()
    window.show()
    if shown == "lesson":
        window.ways.begin_lesson()
        qtbot.waitUntil(lambda: window.session is not None and window.session.state == "running")
        window.stop()
        qtbot.waitUntil(lambda: bool(window.findings_pages), timeout=PATIENCE_MS)
    elif shown == "file":
        copy = folder / LESSON.name
        copy.write_bytes(LESSON.read_bytes())
        window.open_file(copy)
        qtbot.waitUntil(lambda: bool(window.findings_pages), timeout=PATIENCE_MS)
    else:
        window.show_page(shown)
    assert held() - before, "it shows something"
    qtbot.waitUntil(lambda: window._jobs.are_over, timeout=PATIENCE_MS)
    destroy(window)


@pytest.mark.parametrize("shown", ["lesson", "file", "shelf", "bench", "help"])
def test_a_window_lets_go_of_all_it_showed(
    theme: Theme, settings: QSettings, qtbot: QtBot, tmp_path: Path, shown: str
) -> None:
    settings.setValue("recordings_folder", str(tmp_path))
    before = held()
    show_and_destroy(Window(theme, settings), shown, qtbot, tmp_path)
    assert held() - before == Counter()
