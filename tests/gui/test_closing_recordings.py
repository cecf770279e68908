"""A recording is closed by key or menu: nothing of it is lost by that, and nothing of it stays."""

from __future__ import annotations

import gc
import threading
import weakref
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from gui.page_list import FINDINGS, RUN
from gui.pages.findings_page import FindingsPage
from gui.session import load_finished
from gui.window import Window
from logger.progress import Progress
from logger.reader import read_recording
from tests.gui.finished_run import bars_of_next_start, in_file, of_kind, refuse, typed

PATIENCE_MS = 30_000
LESSON = Path(__file__).parents[2] / "recordings" / "invented" / "good-lesson.h5"


def opened(window: Window, path: Path) -> FindingsPage:
    path.write_bytes(LESSON.read_bytes())
    window.add_findings(load_finished(path))
    return window.findings_pages[-1]


def press_close(window: Window) -> None:
    QTest.keyClick(window.windowHandle(), Qt.Key.Key_W, Qt.KeyboardModifier.ControlModifier)


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


def test_what_could_not_be_kept_is_told_at_the_next_start(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = opened(window, tmp_path / "a.h5")
    with monkeypatch.context() as patch:
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        typed(page, "salt_added", "2 drops")
        press_close(window)
        wait_until_closed(window, page, qtbot)
    assert "changed" not in window.bars.texts, "its button would lead to the page that has gone"
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
