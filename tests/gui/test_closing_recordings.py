"""A recording is closed by key or menu: nothing of it is lost by that, and nothing of it stays."""

from __future__ import annotations

import gc
import threading
import weakref
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu
from pytestqt.qtbot import QtBot

from gui.page_list import FINDINGS, RUN
from gui.pages.findings_page import FindingsPage
from gui.session import Finished, found_later, load_finished
from gui.shelf.recent_files import RecentFiles
from gui.window import Window
from logger.progress import Progress
from logger.reader import read_recording
from tests.gui.finished_run import bars_of_next_start, changed, in_file, of_kind, press, refuse, typed

PATIENCE_MS = 30_000
LESSON = Path(__file__).parents[2] / "recordings" / "invented" / "good-lesson.h5"


def opened(window: Window, path: Path) -> FindingsPage:
    path.write_bytes(LESSON.read_bytes())
    window.add_findings(load_finished(path))
    return window.findings_pages[-1]


def press_close(window: Window) -> None:
    QTest.keyClick(window.windowHandle(), Qt.Key.Key_W, Qt.KeyboardModifier.ControlModifier)


@contextmanager
def something_written(page: FindingsPage) -> Iterator[None]:
    """Have the page write an export until the end of the block."""
    may_end, out = threading.Event(), page.finished.recording.path.with_suffix(".txt")

    def write(_progress: Progress) -> list[Path]:
        may_end.wait(60)
        return [out]

    page.exports.begin(out, write)
    yield
    may_end.set()


def wait_until_closed(window: Window, page: FindingsPage, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: page not in window.findings_pages, timeout=PATIENCE_MS)


def test_the_one_before_comes_to_the_front_and_then_the_run(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    assert not window.menu.close_recording.isEnabled()
    first, second, third = (opened(window, tmp_path / name) for name in ("a.h5", "b.h5", "c.h5"))
    assert window.menu.close_recording.isEnabled()
    window.stack.bring(second)
    press_close(window)
    wait_until_closed(window, second, qtbot)
    assert window.stack.currentWidget() is first
    press_close(window)
    wait_until_closed(window, first, qtbot)
    assert window.stack.currentWidget() is third
    press_close(window)
    wait_until_closed(window, third, qtbot)
    assert window.stack.present_name() == RUN
    assert FINDINGS not in window.stack.names()
    assert not window.menu.close_recording.isEnabled()
    press_close(window)
    assert window.isVisible(), "it closes recordings, not the window"


def test_it_leaves_the_memory(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    gone = weakref.ref(opened(window, tmp_path / "a.h5"))
    press_close(window)
    qtbot.waitUntil(lambda: not window.findings_pages, timeout=PATIENCE_MS)

    def is_gone() -> bool:
        QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)  # type: ignore[arg-type]
        gc.collect()
        return gone() is None

    qtbot.waitUntil(is_gone, timeout=PATIENCE_MS)


def test_it_can_be_opened_again(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    page = opened(window, tmp_path / "a.h5")
    press_close(window)
    wait_until_closed(window, page, qtbot)
    window.open_file(tmp_path / "a.h5")
    qtbot.waitUntil(lambda: len(window.findings_pages) == 1, timeout=PATIENCE_MS)


def test_a_change_just_made_and_words_being_typed_are_kept(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    page = opened(window, tmp_path / "a.h5")
    page.moments.move_to(of_kind(page, "salt_added").id, 290.0)
    page.moments.edit(of_kind(page, "buffer_in").id)
    page.moments.entry._label.setText("2 cm of buffer")
    press_close(window)
    wait_until_closed(window, page, qtbot)
    kept = in_file(page)
    assert kept["salt_added"][0] == 290.0
    assert kept["buffer_in"][1] == "2 cm of buffer"


def test_it_stays_where_words_are_refused(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = opened(window, tmp_path / "a.h5")
    monkeypatch.setattr("gui.findings.finished_moments.check_edit", refuse)
    page.moments.edit(of_kind(page, "salt_added").id)
    page.moments.entry._label.setText("2 drops")
    press_close(window)
    assert page in window.findings_pages
    assert "moment" in window.bars.texts
    assert page.moments.entry._label.text() == "2 drops"
    monkeypatch.undo()
    press_close(window)
    wait_until_closed(window, page, qtbot)
    assert in_file(page)["salt_added"][1] == "2 drops"


def test_it_waits_for_what_is_written(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    page, may_end = opened(window, tmp_path / "a.h5"), threading.Event()

    def write(_progress: Progress) -> list[Path]:
        may_end.wait(60)
        (tmp_path / "a.txt").write_text("written")
        return [tmp_path / "a.txt"]

    page.exports.begin(tmp_path / "a.txt", write)
    press_close(window)
    assert "closing" in window.bars.texts
    for _ in range(20):
        window.frame()
    assert page in window.findings_pages
    may_end.set()
    wait_until_closed(window, page, qtbot)
    assert (tmp_path / "a.txt").read_text() == "written"


def test_it_stays_with_what_could_not_be_kept_and_goes_when_closed_again(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It went at the moment at which its bar came: not a word was said until the next start."""
    page = opened(window, tmp_path / "a.h5")
    may_end = threading.Event()

    def refuse_later(*_: object) -> None:
        may_end.wait(60)
        refuse()

    with monkeypatch.context() as patch:
        patch.setattr("logger.reanalysis.keep_changes", refuse_later)
        typed(page, "salt_added", "2 drops")
        press_close(window)
        may_end.set()
        qtbot.waitUntil(lambda: not window.recordings._closing, timeout=PATIENCE_MS)
        assert window.findings_pages == [page]
        assert "2 drops" in window.bars.texts[changed(window.bars.texts)]
        assert "closing" not in window.bars.texts, "it does not close"
        may_end.clear()
        press(window, "Try again")
        press_close(window)
        may_end.set()
        qtbot.waitUntil(lambda: not window.recordings._closing, timeout=PATIENCE_MS)
        assert "2 drops" in window.bars.texts[changed(window.bars.texts)], "that was refused, too"
        press_close(window)
        wait_until_closed(window, page, qtbot)
    assert not changed(window.bars.texts), "its button would lead to the page that has gone"
    (told,) = bars_of_next_start(window)
    assert "2 drops" in told


def test_one_asked_for_again_meanwhile_stays(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    page, may_end = opened(window, tmp_path / "a.h5"), threading.Event()

    def write(_progress: Progress) -> list[Path]:
        may_end.wait(60)
        return [tmp_path / "a.txt"]

    page.exports.begin(tmp_path / "a.txt", write)
    press_close(window)
    window.open_file(tmp_path / "a.h5")
    qtbot.waitUntil(lambda: not window.recordings._closing, timeout=PATIENCE_MS)
    may_end.set()
    qtbot.waitUntil(lambda: not page.exports.rows, timeout=PATIENCE_MS)
    window.frame()
    assert window.findings_pages == [page]
    assert read_recording(tmp_path / "a.h5").uuid == page.finished.recording.uuid


def test_each_recording_has_a_bar_of_its_own_for_what_could_not_be_kept(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The last one took the place of the others, and went with the recording that was closed."""
    pages = [opened(window, tmp_path / name) for name in ("a.h5", "b.h5")]
    with monkeypatch.context() as patch:
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        for number, page in enumerate(pages, 2):
            window.stack.bring(page)
            typed(page, "salt_added", f"{number} drops")
            qtbot.waitUntil(lambda page=page: not page._renewal.is_busy, timeout=PATIENCE_MS)
    said = " ".join(window.bars.texts.values())
    assert "2 drops" in said
    assert "3 drops" in said
    window.stack.bring(pages[0])
    press_close(window)
    wait_until_closed(window, pages[0], qtbot)
    (key,) = (key for key in window.bars.texts if key.startswith("changed "))
    assert "3 drops" in window.bars.texts[key]


def test_it_stays_while_somebody_answers_a_question_of_it(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The export that was agreed to was not written, and that was a fault of the program."""
    page, out = opened(window, tmp_path / "a.h5"), tmp_path / "there.svg"
    out.write_text("earlier")
    monkeypatch.setattr("gui.findings.export_menu.QFileDialog.getSaveFileName", lambda *_: (str(out), ""))
    menu = page.result.export_menu
    with something_written(page):
        press_close(window)
        next(action for action in menu.actions() if action.data() == ".svg").trigger()
    assert menu.question is not None
    qtbot.waitUntil(lambda: not page.exports.rows, timeout=PATIENCE_MS)
    window.frame()
    assert window.findings_pages == [page]
    menu.question.accept()
    wait_until_closed(window, page, qtbot)
    assert out.read_text("utf-8") != "earlier"


def test_it_stays_while_a_menu_is_open(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    page = opened(window, tmp_path / "a.h5")
    menu = QMenu(window)
    menu.addAction("One")
    with something_written(page):
        press_close(window)
        menu.popup(window.pos())
        qtbot.waitUntil(menu.isVisible)
    qtbot.waitUntil(lambda: not page.exports.rows, timeout=PATIENCE_MS)
    window.frame()
    assert window.findings_pages == [page]
    menu.close()
    wait_until_closed(window, page, qtbot)


def test_it_is_among_the_recordings_opened_last(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    """The shelf notes those that it finds open."""
    page = opened(window, tmp_path / "a.h5")
    press_close(window)
    wait_until_closed(window, page, qtbot)
    assert RecentFiles(window.settings).paths == (tmp_path / "a.h5",)


def test_one_on_its_way_comes_to_the_front_all_the_same(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    """It stayed behind, as if the user had turned to another page."""
    page = opened(window, tmp_path / "a.h5")
    (tmp_path / "b.h5").write_bytes(LESSON.read_bytes())
    window.open_file(tmp_path / "b.h5")
    press_close(window)
    wait_until_closed(window, page, qtbot)
    qtbot.waitUntil(lambda: bool(window.findings_pages), timeout=PATIENCE_MS)
    assert window.stack.findings_in_front is window.findings_pages[0]


def test_findings_that_were_given_up_are_found_where_it_is_asked_for_again(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It stayed without any."""
    may_end = threading.Event()

    def find(pending: Finished, progress: Progress) -> Finished:
        if not may_end.is_set():
            may_end.wait(60)
            progress.reach(0.5)  # and learn that it is given up
        return found_later(pending, progress)

    monkeypatch.setattr("gui.pages.findings_page.found_later", find)
    monkeypatch.setattr("logger.reader.read_recording", partial(read_recording, held_samples=0))
    page = opened(window, tmp_path / "a.h5")
    assert page.finished.is_pending
    press_close(window)
    window.open_file(tmp_path / "a.h5")
    qtbot.waitUntil(lambda: not window.recordings._closing, timeout=PATIENCE_MS)
    may_end.set()
    qtbot.waitUntil(lambda: bool(page.finished.findings), timeout=PATIENCE_MS)
    assert window.findings_pages == [page]
    assert not page.finished.trouble
