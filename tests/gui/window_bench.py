"""A window with a fake run in it, and a hand at its keys: what tests of the window begin with."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QLabel,
)
from pytestqt.qtbot import QtBot

from gui.session import Session
from gui.window import Window
from logger.recording import ChannelData, Recording
from tests.gui.fakes import FakeRun, lesson, plan

CTRL = Qt.KeyboardModifier.ControlModifier


class Bench:
    """A window with a fake run in it."""

    def __init__(self, window: Window, qtbot: QtBot) -> None:
        self.window, self.qtbot = window, qtbot
        assert window.session is not None
        assert window.run_page is not None
        self.session: Session = window.session
        self.page = window.run_page
        self.run: FakeRun = self.session._run  # type: ignore[assignment]

    def press(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        """Press and release as the window system does: through the window, not into a widget."""
        QTest.keyClick(self.window.windowHandle(), key, modifiers)

    def type(self, text: str) -> None:
        for letter in text:
            QTest.keyClick(self.window.windowHandle(), letter)

    def look(self) -> None:
        """Let a frame pass, with its texts."""
        self.window._texts_s = self.page._texts_s = -math.inf
        self.window.frame()
        QApplication.processEvents()

    def labels(self) -> str:
        found = "\n".join(w.text() for w in self.window.findChildren(QLabel) if w.isVisible())
        return found.replace("\u00a0", " ")


@pytest.fixture
def bench(window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Bench:
    monkeypatch.setattr("gui.stamping.EventDelay.of", lambda _delay, _stamp_ms: 0.0)
    monkeypatch.setattr("gui.window.Session", lambda plan: Session(plan, make_run=FakeRun))  # type: ignore[arg-type]
    window.activateWindow()
    with qtbot.waitActive(window):
        pass
    window.begin(plan(tmp_path / "a.h5"))
    assert window.session is not None
    window.session.wait_opened(10.0)
    made = Bench(window, qtbot)
    made.run.push(*lesson(120))
    made.look()
    return made


def recording(path: Path) -> Recording:
    times_s, values = lesson(1200)
    channel = ChannelData(
        "cell_voltage", "cell_voltage", "V", times_s, values, np.zeros(times_s.size, np.uint8),
        {"address": "cell:demo"},
    )  # fmt: skip
    return Recording(path, "0", "Strip 4", "2026-11-25T09:10:03+01:00", None, "UTC", 1200.0, (channel,))
