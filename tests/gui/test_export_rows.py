"""A person exports: sees how far it is, cancels, asks for several, closes the window meanwhile."""

from __future__ import annotations

import threading
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel
from pytestqt.qtbot import QtBot

from gui.findings.export_menu import ExportMenu
from gui.findings.export_question import ExportQuestion
from gui.findings.export_rows import ExportRows, Write
from gui.pages.findings_page import FindingsPage
from gui.session import load_finished
from gui.theme import Theme
from gui.window import Window
from logger.export.atomic import written_whole
from logger.progress import Progress
from tests.gui.controls import assert_nothing_clips
from tests.gui.page_host import FakeHost
from tests.logger.shelf_files import write_recording


class Writer:
    """Writes a file in hundred steps, each let go by the test; works as the real exports do."""

    def __init__(self) -> None:
        self.steps = threading.Semaphore(0)
        self.has_begun = threading.Event()

    def into(self, out: Path) -> Write:
        def write(progress: Progress) -> list[Path]:
            with written_whole(out, replace=False) as part:
                self.has_begun.set()
                for step in range(100):
                    assert self.steps.acquire(timeout=60)
                    part.write_text(f"{step}")
                    progress.reach((step + 1) / 100)
            return [out]

        return write

    def go(self, steps: int) -> None:
        self.steps.release(steps)


@pytest.fixture
def host(qtbot: QtBot, theme: Theme, settings: QSettings) -> FakeHost:
    theme.choose("light")
    made = FakeHost(theme, settings)
    qtbot.addWidget(made)
    return made


@pytest.fixture
def rows(host: FakeHost, qtbot: QtBot) -> ExportRows:
    made = ExportRows(host, host)
    made.resize(380, 120)
    host.resize(420, 200)
    host.show()
    return made


def until(host: FakeHost, rows: ExportRows, done: Callable[[], bool], what: str) -> None:
    def frame_and_look() -> bool:
        rows.frame()
        return done()

    host.until(frame_and_look, what)


def words(rows: ExportRows) -> list[str]:
    return [label.text() for row in rows.rows for label in row.findChildren(QLabel)]


def files(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_row_says_what_is_written_and_how_far_and_goes_with_the_end(
    host: FakeHost, rows: ExportRows, tmp_path: Path
) -> None:
    assert not rows.isVisible()
    writer = Writer()
    rows.begin(tmp_path / "class 8b.xlsx", writer.into(tmp_path / "class 8b.xlsx"))
    assert rows.isVisible()
    writer.go(42)
    until(host, rows, lambda: rows.rows[0].bar.value() == 42, "42 %")
    assert words(rows) == ["Writing class 8b.xlsx: 42\u00a0%"]
    assert "class 8b.xlsx" in rows.rows[0].bar.accessibleName()
    assert_nothing_clips(rows)
    writer.go(58)
    until(host, rows, lambda: not rows.rows, "the end")
    assert not rows.isVisible()
    assert files(tmp_path) == ["class 8b.xlsx"]
    assert host.told["export"][:2] == ("info", f"Written: class 8b.xlsx, in {tmp_path}")


def test_of_many_files_the_first_is_named_and_how_many_more(
    host: FakeHost, rows: ExportRows, tmp_path: Path
) -> None:
    names = [tmp_path / f"a.picture-{number}.png" for number in range(1, 1200)]
    rows.begin(tmp_path / "a.csv", lambda _progress: [tmp_path / "a.csv", *names])
    until(host, rows, lambda: not rows.rows, "the end")
    assert host.told["export"][1] == f"Written: a.csv and 1199 more files with it, in {tmp_path}"


def test_cancelled_by_the_keyboard_nothing_is_left_and_what_was_there_stays(
    host: FakeHost, rows: ExportRows, tmp_path: Path
) -> None:
    (tmp_path / "a.csv").write_text("of yesterday")
    writer = Writer()
    rows.begin(tmp_path / "a.csv", writer.into(tmp_path / "a.csv"))
    writer.go(10)
    until(host, rows, lambda: rows.rows[0].bar.value() == 10, "10 %")
    assert any(name.endswith(".part") for name in files(tmp_path))
    QTest.keyClick(rows.rows[0].cancel, Qt.Key.Key_Space)
    assert words(rows) == ["Cancelling a.csv …"]
    assert not rows.rows[0].cancel.isEnabled()
    writer.go(1)
    until(host, rows, lambda: not rows.rows, "the end")
    assert files(tmp_path) == ["a.csv"]
    assert (tmp_path / "a.csv").read_text() == "of yesterday"
    assert host.told["export"][:2] == ("info", "Cancelled: a.csv was not written.")


def test_several_are_written_one_after_the_other_and_one_that_waits_can_be_cancelled(
    host: FakeHost, rows: ExportRows, tmp_path: Path
) -> None:
    writers = [Writer() for _ in range(3)]
    for number, writer in enumerate(writers):
        rows.begin(tmp_path / f"{number}.csv", writer.into(tmp_path / f"{number}.csv"))
    assert words(rows)[1:] == ["Waiting: 1.csv", "Waiting: 2.csv"]
    QTest.mouseClick(rows.rows[1].cancel, Qt.MouseButton.LeftButton)
    assert [row.out.name for row in rows.rows] == ["0.csv", "2.csv"]
    for writer in writers:
        writer.go(100)
    until(host, rows, lambda: not rows.rows, "the end of all")
    assert files(tmp_path) == ["0.csv", "2.csv"]
    assert not writers[1].has_begun.is_set()


def test_one_that_fails_is_told_and_the_next_one_is_written(
    host: FakeHost, rows: ExportRows, tmp_path: Path
) -> None:
    writer, next_one = Writer(), Writer()
    writer.go(100)
    next_one.go(100)
    rows.begin(tmp_path / "nowhere/a.csv", writer.into(tmp_path / "nowhere/a.csv"))
    until(host, rows, lambda: "export" in host.told, "the refusal")
    assert host.told["export"][0] == "warning"
    rows.begin(tmp_path / "b.csv", next_one.into(tmp_path / "b.csv"))
    until(host, rows, lambda: not rows.rows, "the end")
    assert files(tmp_path) == ["b.csv"]


# ------------------------------------------------------------ in the window


@pytest.fixture
def page(window: Window, qtbot: QtBot, tmp_path: Path) -> FindingsPage:
    """The findings of a long recording: its workbook takes many seconds."""
    times_s = np.arange(400_000) / 1000
    path = write_recording(tmp_path / "long.h5", times_s, 2 + 0.1 * np.sin(times_s / 10))
    window.add_findings(load_finished(path))
    (tmp_path / "out").mkdir()
    return window.findings_pages[-1]


def _frames_until(window: Window, qtbot: QtBot, done: Callable[[], bool]) -> None:
    def frame_and_look() -> bool:
        window.frame()
        return done()

    qtbot.waitUntil(frame_and_look, timeout=120_000)


def test_a_real_workbook_is_cancelled_in_the_window(
    window: Window, page: FindingsPage, qtbot: QtBot, tmp_path: Path
) -> None:
    page.export_to(tmp_path / "out" / "long.xlsx")
    _frames_until(window, qtbot, lambda: page.exports.rows[0].bar.value() > 0)
    assert page.exports.isVisible()
    page.exports.rows[0].cancel.click()
    _frames_until(window, qtbot, lambda: not page.exports.rows)
    assert files(tmp_path / "out") == []
    assert "was not written" in window.bars.texts["export"]


def test_closing_the_window_meanwhile_asks_and_may_be_declined_or_cancels(
    window: Window, page: FindingsPage, qtbot: QtBot, tmp_path: Path
) -> None:
    page.export_to(tmp_path / "out" / "long.xlsx")
    _frames_until(window, qtbot, lambda: page.exports.rows[0].bar.value() > 0)
    window.close()
    question = window.leaving.question
    assert isinstance(question, ExportQuestion)
    assert_nothing_clips(question)
    question.keep.click()
    assert window.isVisible()
    assert page.exports.rows
    window.close()
    question = window.leaving.question
    assert isinstance(question, ExportQuestion)
    with qtbot.waitSignal(window.done, timeout=60_000) as told:
        question.act.click()
    assert told.args == [0]
    assert files(tmp_path / "out") == []


@pytest.mark.parametrize("wish", ["answer", "signal"])
def test_an_export_given_up_does_not_hold_the_window_that_goes(
    window: Window, page: FindingsPage, qtbot: QtBot, tmp_path: Path, wish: str
) -> None:
    """Qt closes the window when the program is to quit: it asked once more, and never went."""
    page.export_to(tmp_path / "out" / "long.xlsx")
    _frames_until(window, qtbot, lambda: page.exports.rows[0].bar.value() > 0)
    closed: list[bool] = []
    window.done.connect(lambda _status: closed.append(window.close()))
    if wish == "answer":
        window.close()
        question = window.leaving.question
        assert isinstance(question, ExportQuestion)
        question.act.click()
    else:
        window.stop_and_quit()
    assert closed == [True]
    assert not window.isVisible()
    assert window.leaving.question is None
    assert files(tmp_path / "out") == []


def test_the_question_goes_when_the_export_is_written_meanwhile(
    window: Window, page: FindingsPage, qtbot: QtBot, tmp_path: Path
) -> None:
    writer = Writer()
    out = tmp_path / "out" / "a.csv"
    page.exports.begin(out, writer.into(out))
    window.close()
    assert isinstance(window.leaving.question, ExportQuestion)
    writer.go(100)
    _frames_until(window, qtbot, lambda: window.leaving.question is None)
    assert window.isVisible()
    assert files(out.parent) == ["a.csv"]


def test_a_name_without_ending_is_asked_about_with_the_ending(
    window: Window, page: FindingsPage, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "out" / "mine.svg"
    out.write_text("of yesterday")
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(out.with_suffix("")), ""))
    menu = page.result.export.menu()
    assert isinstance(menu, ExportMenu)
    action = next(action for action in menu.actions() if action.data() == ".svg")
    action.trigger()
    assert menu.question is not None
    assert menu.question.parentWidget() is window
    menu.question.keep.click()
    _frames_until(window, qtbot, lambda: not page.exports.rows)
    assert out.read_text() == "of yesterday"
    action.trigger()
    assert menu.question is not None
    menu.question.act.click()
    _frames_until(window, qtbot, lambda: not page.exports.rows)
    assert out.read_text().startswith("<?xml")
    QApplication.processEvents()


def test_a_name_that_is_taken_is_told_without_words_of_the_command_line(
    host: FakeHost, rows: ExportRows, tmp_path: Path
) -> None:
    (tmp_path / "a.csv").write_text("of yesterday")
    writer = Writer()
    rows.begin(tmp_path / "a.csv", writer.into(tmp_path / "a.csv"))
    writer.go(100)
    until(host, rows, lambda: not rows.rows, "the end")
    assert host.told["export"][:2] == ("warning", "a.csv is there already; choose another name.")
    assert (tmp_path / "a.csv").read_text() == "of yesterday"
