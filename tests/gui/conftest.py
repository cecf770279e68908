"""Settings of every window test: no screen, fonts loaded, and nothing left running afterwards."""

from __future__ import annotations

import os
import threading
import time
from collections.abc import Iterator
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import pytest
from PySide6.QtCore import QEvent, QSettings, QTimer
from PySide6.QtWidgets import QApplication

from gui.fonts import font, load_fonts
from gui.theme import Theme
from gui.window import Window
from tests.gui.window_end import destroy

THREAD_PATIENCE_S = 3.0
INVENTED = Path(__file__).parents[2] / "recordings" / "invented"


@pytest.fixture(scope="session")
def theme(qapp: QApplication) -> Theme:
    qapp.setStyle("Fusion")
    load_fonts()
    qapp.setFont(font(14))
    return Theme(qapp, "light")


@pytest.fixture
def settings(tmp_path: Path) -> QSettings:
    return QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)


@pytest.fixture
def window(qapp: QApplication, theme: Theme, settings: QSettings) -> Iterator[Window]:
    theme.choose("light")
    made = Window(theme, settings)
    made.resize(1280, 720)
    made.show()
    qapp.processEvents()
    yield made
    destroy(made)


@pytest.fixture(autouse=True)
def invented_recordings_stay() -> Iterator[None]:
    """Fail a test that changes a recording of the repository: the next commit would take that along."""
    before = {file: file.stat().st_mtime_ns for file in INVENTED.rglob("*.h5")}
    yield
    changed = [file.name for file, at in before.items() if file.stat().st_mtime_ns != at]
    assert not changed, f"recordings of the repository changed: {changed}"


@pytest.fixture(autouse=True)
def widgets_go() -> Iterator[None]:
    """Destroy what a test showed, or thousands of widgets take part in all that the tests after it do."""
    before = set() if QApplication.instance() is None else set(QApplication.topLevelWidgets())
    yield
    if QApplication.instance() is not None:
        for widget in set(QApplication.topLevelWidgets()) - before:
            widget.hide()
            widget.deleteLater()
        QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)  # type: ignore[arg-type]


@pytest.fixture(autouse=True)
def nothing_stays_behind() -> Iterator[None]:
    """Fail a test that leaves a thread or a running timer behind."""
    before = set(threading.enumerate())
    yield
    QApplication.processEvents()
    deadline_s = time.monotonic() + THREAD_PATIENCE_S
    while (left := set(threading.enumerate()) - before) and time.monotonic() < deadline_s:
        time.sleep(0.01)
    assert not left, f"threads left behind: {sorted(t.name for t in left)}"
    if QApplication.instance() is not None:
        timers = [
            f"{timer.objectName()} of {type(widget).__name__}"
            for widget in QApplication.topLevelWidgets()
            for timer in widget.findChildren(QTimer)
            if timer.isActive() and timer.objectName()
        ]
        assert not timers, f"timers left behind: {timers}"
