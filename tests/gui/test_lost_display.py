"""What Qt says of a lost display saves the run; whatever else it says goes where it went before."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import qInstallMessageHandler, qWarning

from gui.lost_display import saved_when_display_is_lost

BROKE = "The X11 connection broke (error 1). Did the X11 server die?"
BROKE_TOO = "The Wayland connection broke. Did the Wayland compositor die?"


@pytest.fixture
def said() -> Iterator[list[str]]:
    """What reaches the handler of before."""
    heard: list[str] = []
    outer = qInstallMessageHandler(lambda _kind, _context, message: heard.append(message or ""))
    yield heard
    qInstallMessageHandler(outer)


@pytest.mark.parametrize("broke", [BROKE, BROKE_TOO])
def test_it_saves_once_and_passes_on_all_that_is_said(said: list[str], broke: str) -> None:
    saved: list[int] = []
    with saved_when_display_is_lost(lambda: saved.append(len(said))):
        qWarning("something else broke")
        assert saved == []
        qWarning(broke)
        qWarning(broke)
    qWarning(broke)
    assert saved == [2], "after it was passed on, once, and while the window was there"
    assert said == ["something else broke", broke, broke, broke]


def test_a_failure_to_save_is_logged(said: list[str], caplog: pytest.LogCaptureFixture) -> None:
    def fail() -> None:
        raise OSError("no room")

    with saved_when_display_is_lost(fail):
        qWarning(BROKE)
    assert "its journal is kept" in caplog.text
    assert "no room" in caplog.text
