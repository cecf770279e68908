"""Files dropped on the window, as the window system brings them: one, several, a folder, and what is none."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QAbstractButton, QApplication, QPushButton
from pytestqt.qtbot import QtBot

from gui.pages.bench_page import BenchPage
from gui.pages.findings_page import FindingsPage
from gui.pages.run_page import RunPage
from gui.pages.shelf_page import ShelfPage
from gui.session import Session
from gui.window import Window
from tests.gui.fakes import FakeRun, plan

INVENTED = Path(__file__).parents[2] / "recordings" / "invented"
PATIENCE_MS = 60_000


class Hand:
    """Drags something over the window and lets it go."""

    def __init__(self, window: Window, qtbot: QtBot) -> None:
        self.window, self._qtbot = window, qtbot

    def drop(self, *paths: Path, text: str = "") -> bool:
        """Return whether the window takes it."""
        carried = QMimeData()
        if paths:
            carried.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
        if text:
            carried.setText(text)
        action, left, none = (
            Qt.DropAction.CopyAction,
            Qt.MouseButton.LeftButton,
            Qt.KeyboardModifier.NoModifier,
        )
        enters = QDragEnterEvent(QPoint(400, 300), action, carried, left, none)
        enters.ignore()
        QApplication.sendEvent(self.window, enters)
        if enters.isAccepted():
            QApplication.sendEvent(self.window, QDropEvent(QPointF(400, 300), action, carried, left, none))
        return enters.isAccepted()

    def until(self, page_class: type) -> None:
        """Let frames pass until a page of this kind is in front and nothing is awaited."""

        def is_there() -> bool:
            self.window.frame()
            return isinstance(self.window.stack.currentWidget(), page_class) and self.window._jobs.are_over

        self._qtbot.waitUntil(is_there, timeout=PATIENCE_MS)


@pytest.fixture
def hand(window: Window, qtbot: QtBot, tmp_path: Path) -> Hand:
    shelf = tmp_path / "shelf"
    shelf.mkdir()
    window.settings.setValue("shelf_folder", str(shelf))
    return Hand(window, qtbot)


def test_while_a_file_is_carried_over_the_window_what_looks_at_it_is_started(
    hand: Hand, monkeypatch: pytest.MonkeyPatch
) -> None:
    started: list[str] = []
    monkeypatch.setattr("gui.file_drops.get_ready", lambda: started.append("a child"))
    hand.drop(text="a word from elsewhere")
    assert not started
    hand.drop(INVENTED / "good-lesson.h5")
    assert started == ["a child"]
    hand.until(FindingsPage)


def test_the_keys_of_an_empty_window_are_on_what_comes_first(hand: Hand) -> None:
    focused = hand.window.focusWidget()
    assert isinstance(focused, QPushButton)
    assert focused.accessibleName() == "Connect a meter"


def test_while_a_recording_is_opened_no_button_has_the_keys(hand: Hand) -> None:
    """The space bar would press the one that cancels."""
    hand.window.open_file(INVENTED / "good-lesson.h5")
    QApplication.processEvents()
    hand.window.frame()
    assert not isinstance(hand.window.focusWidget(), QAbstractButton)
    hand.until(FindingsPage)


def test_a_recording_is_opened_and_several_are_laid_over_one_another(hand: Hand, tmp_path: Path) -> None:
    assert hand.drop(INVENTED / "good-lesson.h5")
    hand.until(FindingsPage)
    runs = [shutil.copy(INVENTED / "class" / f"{name}.h5", tmp_path) for name in _class_names()[:3]]
    assert hand.drop(*map(Path, runs))
    hand.until(ShelfPage)
    shelf = hand.window.stack.currentWidget()
    assert isinstance(shelf, ShelfPage)
    assert len(shelf.model.ticked) == 3


def test_while_a_run_goes_on_it_stays_in_front_and_the_way_is_offered(
    hand: Hand, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window = hand.window
    monkeypatch.setattr("gui.window.Session", lambda plan: Session(plan, make_run=FakeRun))  # type: ignore[arg-type]
    window.begin(plan(tmp_path / "a.h5"))
    assert window.session is not None
    window.session.wait_opened(10.0)
    window.frame()
    assert hand.drop(INVENTED / "good-lesson.h5")
    hand.until(RunPage)
    assert "good-lesson.h5 is open" in window.bars.texts[f"open {INVENTED / 'good-lesson.h5'}"]
    show = next(b for b in window.bars.findChildren(QPushButton) if b.text() == "Show its findings")
    show.click()
    assert isinstance(window.stack.currentWidget(), FindingsPage)


def test_a_folder_is_shown_on_the_shelf_and_a_bench_on_the_bench(hand: Hand, tmp_path: Path) -> None:
    folder = tmp_path / "class 8b"
    folder.mkdir()
    assert hand.drop(folder)
    hand.until(ShelfPage)
    shelf = hand.window.stack.currentWidget()
    assert isinstance(shelf, ShelfPage)
    assert shelf.folder == folder
    hand.window.show_page("run")
    assert hand.drop(INVENTED / "bench.toml")
    hand.until(BenchPage)
    bench = hand.window.stack.currentWidget()
    assert isinstance(bench, BenchPage)
    assert bench.form.path == INVENTED / "bench.toml"


def test_what_is_no_recording_is_told_and_what_is_no_file_is_refused(hand: Hand, tmp_path: Path) -> None:
    notes = tmp_path / "notes.txt"
    notes.write_text("2.25 V")
    assert hand.drop(notes)
    assert "neither: notes.txt" in hand.window.bars.texts["dropped"]
    false = tmp_path / "false.h5"
    false.write_text("2.25 V")
    assert hand.drop(false)
    hand.until(object)
    assert any("false.h5" in text for text in hand.window.bars.texts.values())
    assert not hand.drop(text="2.25 V")
    assert not hand.drop()


def _class_names() -> list[str]:
    return sorted(path.stem for path in (INVENTED / "class").glob("*.h5"))
