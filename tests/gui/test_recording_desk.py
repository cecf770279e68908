"""Recordings are opened, stand beside one another, and have their picture saved."""

from __future__ import annotations

import shutil
import threading
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QFileDialog, QLabel, QLineEdit
from pytestqt.qtbot import QtBot

from gui.recordings_folder import choose_recordings_folder
from gui.session import Finished
from gui.window import Window
from logger.moment_edits import edit
from logger.reader import read_recording
from tests.gui.test_findings_texts import FOUND
from tests.gui.window_bench import bench as bench
from tests.gui.window_bench import recording


def test_recordings_are_looked_for_where_they_are_recorded(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The dialog began wherever the program had been started: with a click on its drawing, anywhere."""
    choose_recordings_folder(window.settings, tmp_path)
    asked: list[str] = []

    def ask(_parent: object, _title: str, folder: str, _kinds: str) -> tuple[list[str], str]:
        asked.append(folder)
        return [], ""

    monkeypatch.setattr(QFileDialog, "getOpenFileNames", ask)
    QTest.keyClick(window.windowHandle(), Qt.Key.Key_O, Qt.KeyboardModifier.ControlModifier)
    assert asked == [str(tmp_path)]


def test_a_file_that_is_no_recording_is_told_in_a_bar(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    path = tmp_path / "notes.h5"
    path.write_text("no recording")
    window.open_file(path)
    assert "Opening notes.h5" in "\n".join(w.text() for w in window.stack.start_page.findChildren(QLabel))
    qtbot.waitUntil(lambda: bool(window.bars.texts), timeout=10_000)
    assert "notes.h5" in next(iter(window.bars.texts.values()))


def test_once_a_recording_is_open_the_start_page_offers_what_can_be_done(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    path = Path(shutil.copy(Path(__file__).parents[2] / "recordings" / "invented" / "blank.h5", tmp_path))
    window.open_file(path)
    qtbot.waitUntil(lambda: bool(window.findings_pages), timeout=20_000)
    assert window.stack.currentWidget() is window.findings_pages[0]
    window.show_page("run")
    start = window.stack.start_page
    assert window.stack.currentWidget() is start
    seen = [label.text() for label in start.findChildren(QLabel) if label.isVisible()]  # no bar that is gone
    assert not any("Opening" in text for text in seen)
    buttons = [b for b in start.findChildren(QAbstractButton) if b.isVisible()]
    assert len(buttons) == 3
    assert start.focusProxy() in buttons


def test_several_recordings_open_in_their_order_and_the_first_stays_in_front(
    window: Window, qtbot: QtBot
) -> None:
    """Whichever is read quickest; and a file that cannot be read keeps none of the others out."""
    folder = Path(__file__).parents[2] / "recordings" / "invented"
    names = ["good-lesson.h5", "missing.h5", "blank.h5"]
    for name in names:
        window.open_file(folder / name)
    start = window.stack.start_page
    assert "Opening good-lesson.h5, 1 of 3 …" in [one.text() for one in start.findChildren(QLabel)]
    qtbot.waitUntil(lambda: len(window.findings_pages) == 2, timeout=60_000)
    opened = [page.finished.recording.path.name for page in window.findings_pages]
    assert opened == ["good-lesson.h5", "blank.h5"]
    assert window.stack.currentWidget() is window.findings_pages[0]
    assert any("missing.h5" in text for text in window.bars.texts.values())


def test_a_recording_asked_for_while_it_is_on_its_way_opens_once(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An impatient second press opened it twice, and what was changed on one page was not on the other."""
    may_open = threading.Event()

    def load(path: Path, _progress: object = None) -> Finished:
        assert may_open.wait(10.0)
        return Finished(recording(path), FOUND)

    monkeypatch.setattr("gui.opening.load_finished", load)
    first, second = tmp_path / "a.h5", tmp_path / "b.h5"
    for path in (first, second, first, second):
        window.open_file(path)
    may_open.set()
    qtbot.waitUntil(lambda: len(window.findings_pages) == 2 and window._jobs.are_over, timeout=30_000)
    assert [page.finished.recording.path for page in window.findings_pages] == [first, second]


def test_a_recording_that_is_open_comes_to_the_front_and_opens_no_second_page(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    """Findings of a second page were without what was changed on the first, and were kept in the file."""
    invented = Path(__file__).parents[2] / "recordings" / "invented"
    first, second = (Path(shutil.copy(invented / name, tmp_path)) for name in ("good-lesson.h5", "blank.h5"))

    def open_and_wait(path: Path) -> None:
        window.open_file(path)
        qtbot.waitUntil(lambda: window._jobs.are_over, timeout=60_000)

    open_and_wait(first)
    open_and_wait(second)
    page, _other = window.findings_pages
    salt = next(m for m in page.moments.keeper.moments if m.kind == "salt_added")
    page.moments.move_to(salt.id, 280.0)
    open_and_wait(first)
    open_and_wait(tmp_path / "." / "good-lesson.h5")
    assert len(window.findings_pages) == 2
    assert window.stack.currentWidget() is page
    # What another program, or the bar of the next start, has changed in the file is on that page then.
    edit(first, salt.id, time_s=270.0)
    window.show_page("run")
    open_and_wait(first)
    assert len(window.findings_pages) == 2
    assert window.stack.currentWidget() is page
    assert [m.time_s for m in page.moments.keeper.moments if m.kind == "salt_added"] == [270.0]
    before = next(p for p in page.finished.findings["phases"] if p["phase"] == "before")
    assert before["end_s"] == pytest.approx(270.0, abs=1)


def test_a_recording_whose_findings_were_ended_is_opened_to_have_them_made(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    invented = Path(__file__).parents[2] / "recordings" / "invented"
    path = Path(shutil.copy(invented / "good-lesson.h5", tmp_path))
    window.add_findings(Finished(read_recording(path), {}, "The findings were not worked out."))
    window.open_file(path)
    qtbot.waitUntil(lambda: window._jobs.are_over, timeout=60_000)
    (page,) = window.findings_pages
    assert page.finished.findings


def test_several_recordings_can_be_switched(window: Window, tmp_path: Path) -> None:
    for name in ("a.h5", "b.h5"):
        window.add_findings(Finished(recording(tmp_path / name), FOUND))
    window.header.file_chosen.emit(0)
    assert window.stack.currentWidget() is window.findings_pages[0]


def test_the_picture_is_saved_beside_the_recording(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    window.add_findings(Finished(recording(tmp_path / "a.h5"), FOUND))
    window.recordings.save_picture()
    qtbot.waitUntil(lambda: "picture" in window.bars.texts, timeout=20_000)
    assert (tmp_path / "a.png").stat().st_size > 10_000, window.bars.texts


def test_a_picture_saved_again_replaces_nothing(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(b"mine")
    window.add_findings(Finished(recording(tmp_path / "a.h5"), FOUND))
    window.recordings.save_picture()
    qtbot.waitUntil(lambda: "picture" in window.bars.texts, timeout=20_000)
    assert (tmp_path / "a.png").read_bytes() == b"mine"
    assert (tmp_path / "a (2).png").stat().st_size > 10_000, window.bars.texts
    assert "a (2).png" in window.bars.texts["picture"]


def test_a_moment_that_others_removed_is_on_the_page_no_more(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    """What was left of them had been on it before, so nothing seemed to have changed."""
    invented = Path(__file__).parents[2] / "recordings" / "invented"
    path = Path(shutil.copy(invented / "blank.h5", tmp_path))
    for _time in ("first", "again"):
        window.open_file(path)
        qtbot.waitUntil(lambda: window._jobs.are_over, timeout=60_000)
        (page,) = window.findings_pages
        gone = page.moments.keeper.moments[-1]
        if _time == "first":
            edit(path, gone.id, removed=True)
            left = [m.id for m in page.moments.keeper.moments[:-1]]
    assert [m.id for m in page.moments.keeper.moments] == left


def test_a_run_that_ends_by_itself_takes_no_page_from_whom_types_there(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    """What was typed next on the bench went to the curve of the findings."""
    window.activateWindow()
    with qtbot.waitActive(window):
        pass
    window.show_page("bench")
    for letter in "Strip":
        QTest.keyClick(window.windowHandle(), letter)
    window.add_findings(Finished(recording(tmp_path / "a.h5"), FOUND))
    assert window.stack.present_name() == "bench"
    for letter in " 4":
        QTest.keyClick(window.windowHandle(), letter)
    field = window.focusWidget()
    assert isinstance(field, QLineEdit)
    assert field.text().endswith("Strip 4")
    (key,) = [key for key in window.bars.texts if key.startswith("open ")]
    assert window.bars.texts[key] == "a.h5 is open."
    window.show_page("help")
    window.add_findings(Finished(recording(tmp_path / "b.h5"), FOUND))
    assert window.stack.currentWidget() is window.findings_pages[-1], "nobody types there"
