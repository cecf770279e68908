"""What tests of the moments of a finished run share."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton
from pytestqt.qtbot import QtBot

from gui.findings.unkept import tell_unkept_changes
from gui.moment_acts import MomentActs
from gui.pages.findings_page import FindingsPage
from gui.session import load_finished
from gui.window import Window
from logger.errors import LoggerError
from logger.moments import Moment
from logger.reader import read_recording
from tests.gui.page_host import FakeHost

Show = Callable[[], tuple[FakeHost, FindingsPage]]


def of_kind(page: FindingsPage, kind: str) -> Moment:
    return next(m for m in page.moments.keeper.moments if m.kind == kind)


def in_file(page: FindingsPage) -> dict[str, tuple[float, str]]:
    return {m.kind: (m.time_s, m.label) for m in read_recording(page.finished.recording.path).moments}


def label_of(acts: MomentActs, moment: Moment) -> str | None:
    found = acts.moment(moment.id)
    return None if found is None else found.label


def phase_end(page: FindingsPage, name: str) -> float:
    found = next(p for p in page.finished.findings["phases"] if p["phase"] == name)
    return float(found["end_s"])


def moved_twice(window: Window, recording: Path, folder: Path) -> tuple[FindingsPage, Moment]:
    """Open a copy of `recording`, and change a moment again before the first change is kept."""
    path = folder / "a run.h5"
    path.write_bytes(recording.read_bytes())
    window.add_findings(load_finished(path))
    (page,) = window.findings_pages
    salt = of_kind(page, "salt_added")
    page.moments.move_to(salt.id, 290.0)
    page.moments.move_to(salt.id, 280.0)
    return page, salt


def refuse(*_: object) -> None:
    raise LoggerError("the folder may not be written")


def changed(bars: Iterable[str]) -> str:
    """Return the key of the bar of refused changes; empty where there is none."""
    return next((key for key in bars if key.startswith("changed ")), "")


def bars_of_next_start(window: Window) -> list[str]:
    before = set(window.bars.texts)
    tell_unkept_changes(window)
    return [text for key, text in window.bars.texts.items() if key not in before]


def typed(page: FindingsPage, kind: str, words: str) -> None:
    page.moments.edit(of_kind(page, kind).id)
    page.moments.entry._label.setText(words)
    QTest.keyClick(page.moments.entry._label, Qt.Key.Key_Return)


@contextmanager
def nothing_is_kept(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """No change can be written into a finished run meanwhile."""
    with monkeypatch.context() as patch:
        patch.setattr("gui.findings.renewal.keep_changes", refuse)
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        yield


def frames_until(window: Window, qtbot: QtBot, true: Callable[[], bool]) -> None:
    def look() -> bool:
        window.frame()
        return true()

    qtbot.waitUntil(look, timeout=60_000)


def press(window: Window, words: str) -> None:
    found = [b for b in window.bars.findChildren(QAbstractButton) if b.text() == words]
    (button,) = [b for b in found if b.isVisibleTo(window)]  # one that was replaced goes a little later
    button.click()
