"""Settings that cannot be kept are told, once, with their file; others are not."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QSettings
from pytestqt.qtbot import QtBot

from gui.theme import Theme
from gui.window import Window


@pytest.fixture
def settings(tmp_path: Path, request: pytest.FixtureRequest) -> QSettings:
    """Settings in a folder that is there, or that cannot be made as a file has its name."""
    folder = tmp_path / "Galvanote"
    if getattr(request, "param", "kept") == "not kept":
        folder.write_bytes(b"")
    return QSettings(str(folder / "settings.ini"), QSettings.Format.IniFormat)


@pytest.mark.parametrize("settings", ["not kept"], indirect=True)
def test_they_are_told_once(window: Window, theme: Theme, settings: QSettings, qtbot: QtBot) -> None:
    """They were forgotten without a word."""
    assert "settings" not in window.bars.texts, "nothing was chosen yet"
    window.menu.colours_chosen.emit("dark")
    qtbot.waitUntil(lambda: "settings" in window.bars.texts, timeout=10_000)
    assert settings.fileName() in window.bars.texts["settings"]
    assert theme.choice == "dark", "it holds in this window"
    window.untell("settings")
    window.menu.colours_chosen.emit("light")
    settings.sync()
    window._settings_watch.follow()
    assert "settings" not in window.bars.texts


def test_settings_that_are_kept_need_no_word(window: Window, settings: QSettings) -> None:
    window.menu.colours_chosen.emit("dark")
    settings.sync()
    window._settings_watch.follow()
    assert "settings" not in window.bars.texts
    assert Path(settings.fileName()).is_file()
