"""Runs that were cut off are offered as soon as the window is there, on whatever page."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from gui.pages.shelf_page import ShelfPage
from gui.shelf.cut_off import FOLDER_KEY, look_for_cut_off_runs
from gui.theme import Theme
from gui.window import Window
from logger.reader import read_recording
from tests.gui.fakes import lesson
from tests.logger.shelf_files import write_recording


@pytest.fixture
def folder(tmp_path: Path, theme: Theme) -> Path:
    """One whole run and two that were cut off; a journal beside its recording is no run of its own."""
    theme.choose("light")
    times, values = lesson(300.0, 1.0)
    for name, is_cut_off in (("a.h5", False), ("b.h5", True), ("c.h5", True)):
        write_recording(tmp_path / name, times, values, cut_off=is_cut_off)
    return tmp_path


def until(window: Window, qtbot: QtBot, key: str) -> None:
    def told() -> bool:
        window.frame()
        return any(name.startswith(key) for name in window.bars.texts)

    qtbot.waitUntil(told, timeout=60_000)


def test_they_are_offered_and_finished_from_the_bar(window: Window, qtbot: QtBot, folder: Path) -> None:
    look_for_cut_off_runs(window, [folder, folder, folder / "nowhere"])
    until(window, qtbot, "cut_off")
    key = f"cut_off {folder}"
    assert window.bars.texts[key] == "2 runs were cut off. Nothing is lost."
    bar = window.bars._bars[key]
    next(b for b in bar.findChildren(QPushButton) if b.text() == "Finish now").click()
    until(window, qtbot, "finish")
    for name in ("b.h5", "c.h5"):
        assert read_recording(folder / name).channels[0].times_s.size == 300
    assert not list(folder.glob("*.journal"))
    assert key not in window.bars.texts
    shown = [b for b in window.bars.findChildren(QPushButton) if b.text() == "Show its findings"]
    shown[0].click()
    qtbot.waitUntil(lambda: bool(window.frame() or window.findings_pages), timeout=60_000)
    assert window.stack.currentWidget() is window.findings_pages[0]


def test_the_offer_of_one_folder_leaves_that_of_another_alone(
    window: Window, qtbot: QtBot, folder: Path
) -> None:
    """The shelf offered those of its own folder in the place of all: the others were finished by nobody."""
    other = folder / "stick"
    other.mkdir()
    times, values = lesson(300.0, 1.0)
    write_recording(other / "d.h5", times, values, cut_off=True)
    window.settings.setValue(FOLDER_KEY, str(other))
    look_for_cut_off_runs(window, [folder, other])
    until(window, qtbot, f"cut_off {folder}")
    offers = dict(window.bars.texts)
    window.show_page("shelf")
    shelf = window.stack.currentWidget()
    assert isinstance(shelf, ShelfPage)
    qtbot.waitUntil(lambda: bool(window.frame() or shelf.model.entries()), timeout=60_000)
    assert window.bars.texts == offers
    assert set(offers) == {f"cut_off {folder}", f"cut_off {other}"}


def test_nothing_is_said_where_no_run_was_cut_off(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    look_for_cut_off_runs(window, [tmp_path])

    def is_idle() -> bool:
        window.frame()
        return window._jobs.are_over

    qtbot.waitUntil(is_idle, timeout=60_000)
    assert window.bars.texts == {}
