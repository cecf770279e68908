"""The bar of a folder that is not there goes as soon as it is, and looks for it no more often than needed."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication
from pytestqt.qtbot import QtBot

from gui.missing_folder import KEY, LOOK_EVERY_S, MissingFolder, tell_missing_folder
from gui.recordings_folder import FOLDER_KEY, FolderMissing, choose_recordings_folder, new_recording
from gui.window import Window
from tests.gui.languages import speaking
from tests.gui.page_host import FakeHost


@pytest.fixture
def stick(window: Window, tmp_path: Path) -> Path:
    """A folder that was chosen, and is unplugged."""
    folder = tmp_path / "stick"
    folder.mkdir()
    choose_recordings_folder(window.settings, folder)
    folder.rmdir()
    return folder


def ask_for_a_lesson(window: Window) -> None:
    QTest.keyClick(window.windowHandle(), Qt.Key.Key_L, Qt.KeyboardModifier.ControlModifier)
    assert "stick is not there" in window.bars.texts[KEY]


def test_it_goes_when_the_stick_is_plugged_in_again(window: Window, stick: Path, qtbot: QtBot) -> None:
    """It stayed until somebody closed it, and said what was no longer true."""
    ask_for_a_lesson(window)
    window._missing_folder._looked_s = -LOOK_EVERY_S
    window._missing_folder.follow()
    qtbot.waitUntil(lambda: not window._missing_folder._is_looking, timeout=10_000)
    assert KEY in window.bars.texts, "it is still away"
    stick.mkdir()
    qtbot.waitUntil(lambda: KEY not in window.bars.texts, timeout=10_000)


def test_it_goes_when_another_folder_is_chosen(
    window: Window, stick: Path, qtbot: QtBot, tmp_path: Path
) -> None:
    ask_for_a_lesson(window)
    assert not stick.exists()
    choose_recordings_folder(window.settings, tmp_path)
    qtbot.waitUntil(lambda: KEY not in window.bars.texts, timeout=10_000)


def closed(monkeypatch: pytest.MonkeyPatch, folder: Path, *, at: str) -> None:
    """Have the system refuse `folder`, or the one above it, whoever runs the test."""
    if at == "itself":
        monkeypatch.setattr("gui.recordings_folder.os.access", lambda path, _how: path != folder)
        return
    is_dir = Path.is_dir

    def refused(path: Path) -> bool:
        if path == folder:
            raise PermissionError(13, "Permission denied", str(path))
        return is_dir(path)

    monkeypatch.setattr(Path, "is_dir", refused)


@pytest.mark.parametrize("at", ["itself", "above"])
def test_a_folder_that_is_there_but_closed_is_said_to_be_that(
    window: Window, stick: Path, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, at: str
) -> None:
    """The bar went as soon as the folder was there, and the next run could not begin."""
    ask_for_a_lesson(window)
    with monkeypatch.context() as patch:
        closed(patch, stick, at=at)  # first: a look may be on its way
        stick.mkdir()
        qtbot.waitUntil(lambda: "may not read and write" in window.bars.texts[KEY], timeout=10_000)
        QTest.keyClick(window.windowHandle(), Qt.Key.Key_L, Qt.KeyboardModifier.ControlModifier)
        assert window.session is None, "no run begins that could not be recorded"
        assert "may not read and write" in window.bars.texts[KEY]
    qtbot.waitUntil(lambda: KEY not in window.bars.texts, timeout=10_000)


def test_it_leads_to_where_another_folder_is_chosen(window: Window, stick: Path) -> None:
    ask_for_a_lesson(window)
    assert not stick.exists()
    button = next(b for b in window.bars.findChildren(QAbstractButton) if b.text() == "Choose a folder")
    button.click()
    assert window.stack.present_name() == "bench"


def test_it_looks_only_while_it_is_missed_and_never_twice_at_once(window: Window, tmp_path: Path) -> None:
    host = FakeHost(window.theme, window.settings)
    host.settings.setValue(FOLDER_KEY, str(tmp_path / "away"))
    now_s = [0.0]
    missing = MissingFolder(host, lambda: {key: one[1] for key, one in host.told.items()}, lambda: now_s[0])
    missing.follow()
    assert host.jobs == []
    tell_missing_folder(host, "away is not there", leads_to_bench=False)
    missing.follow()
    assert len(host.jobs) == 1
    now_s[0] = LOOK_EVERY_S
    missing.follow()
    assert len(host.jobs) == 1, "the first has not answered yet"
    host.until_idle()
    missing.follow()
    assert len(host.jobs) == 1
    host.until_idle()
    missing.follow()
    assert host.jobs == [], "not again at once"
    assert KEY in host.told


def test_it_is_said_in_the_language_that_is_loaded_later(qapp: QApplication, settings: QSettings) -> None:
    """At the start it is met before: in the German window it stood in English."""
    settings.setValue(FOLDER_KEY, "/nowhere/stick")
    with pytest.raises(FolderMissing) as met:
        new_recording(settings)
    assert str(met.value).startswith("/nowhere/stick is not there")
    with speaking(qapp, "de"):
        assert str(met.value).startswith("/nowhere/stick ist nicht da")
