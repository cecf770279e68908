"""Work that takes long shows how far it is and can be ended; short work shows nothing."""

from __future__ import annotations

import threading
from collections.abc import Callable
from functools import partial
from typing import Any

from PySide6.QtCore import QSettings, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton
from pytestqt.qtbot import QtBot

from gui.long_job import LongJob
from gui.theme import Theme
from gui.widgets.notice_bars import NoticeBars
from logger.progress import Cancelled, Progress
from tests.gui.page_host import FakeHost


class Work:
    """Goes on by a hundredth whenever the test lets it."""

    def __init__(self) -> None:
        self.steps = threading.Semaphore(0)
        self.shares: list[float] = []

    def __call__(self, progress: Progress) -> str:
        for step in range(100):
            assert self.steps.acquire(timeout=60)
            progress.reach((step + 1) / 100)
            self.shares.append((step + 1) / 100)
        return "done"


class Desk:
    """A long job at a host, with a clock of the test's."""

    def __init__(self, host: FakeHost) -> None:
        self.host, self.work, self.now_s = host, Work(), 0.0
        self.outcome: list[tuple[str | None, Exception | None]] = []
        self.job: LongJob[str] = LongJob(
            host, "Opening a.h5", self.work, lambda *one: self.outcome.append(one), "test", lambda: self.now_s
        )
        host.do(self.job)

    def go(self, count: int) -> None:
        """Let the work go on so far, and a frame pass."""
        reached = len(self.work.shares) + count
        self.work.steps.release(count)
        self.host.until(lambda: len(self.work.shares) >= reached, "a step")
        self.host.frame()

    @property
    def told(self) -> list[Any]:
        """What stands in bars at present."""
        return list(self.host.told.values())


def desk_of(qtbot: QtBot, theme: Theme, settings: QSettings) -> Desk:
    host = FakeHost(theme, settings)
    qtbot.addWidget(host)
    return Desk(host)


def test_what_is_done_within_a_second_shows_nothing(qtbot: QtBot, theme: Theme, settings: QSettings) -> None:
    desk = desk_of(qtbot, theme, settings)
    desk.now_s = 0.9
    desk.go(50)
    assert desk.told == []
    desk.go(50)
    desk.host.until_idle()
    assert (desk.told, desk.outcome) == ([], [("done", None)])


def test_then_a_bar_says_how_far_it_is_and_goes_with_the_end(
    qtbot: QtBot, theme: Theme, settings: QSettings
) -> None:
    desk = desk_of(qtbot, theme, settings)
    desk.now_s = 1.1
    desk.go(43)
    ((level, text, actions),) = desk.told
    assert (level, text, [words for words, _ in actions]) == ("info", "Opening a.h5: 40\u00a0%", ["Cancel"])
    desk.go(57)
    desk.host.until_idle()
    assert (desk.told, desk.outcome) == ([], [("done", None)])


def test_it_is_ended_by_its_button(qtbot: QtBot, theme: Theme, settings: QSettings) -> None:
    desk = desk_of(qtbot, theme, settings)
    assert not desk.job.is_cancellable, "nobody is asked about it when the window closes"
    desk.now_s = 1.1
    desk.go(10)
    ((_, _, ((_, cancel),)),) = desk.told
    cancel()
    desk.host.frame()
    ((_, text, actions),) = desk.told
    assert (text, actions) == ("Opening a.h5: being cancelled …", ())
    desk.work.steps.release(1)
    desk.host.until_idle()
    ((result, error),) = desk.outcome
    assert result is None
    assert isinstance(error, Cancelled)
    assert desk.told == []


def test_a_bar_that_somebody_closed_stays_away_until_there_is_news(
    qtbot: QtBot, theme: Theme, settings: QSettings
) -> None:
    desk = desk_of(qtbot, theme, settings)
    desk.now_s = 1.1
    desk.go(10)
    desk.host.told.clear()
    desk.go(1)
    assert desk.told == []
    desk.go(4)
    assert "15" in desk.told[0][1]
    desk.job.cancel()
    desk.work.steps.release(1)
    desk.host.until_idle()


def test_a_bar_that_is_shown_again_does_what_was_said_last(qtbot: QtBot) -> None:
    """The first action stayed: a run finished by the offer of the shelf was still called cut off there."""
    bars = NoticeBars()
    qtbot.addWidget(bars)
    pressed: list[str] = []
    for who in ("start", "shelf"):
        actions = (("Finish now", partial(pressed.append, who)),)
        bars.show_bar("cut_off", "warning", "A run was cut off.", actions)
    bars.show()
    button = next(one for one in bars.findChildren(QPushButton) if one.text() == "Finish now")
    button.click()
    assert pressed == ["shelf"]


def test_a_note_that_is_shown_again_stays_as_long_as_the_first_time(qtbot: QtBot) -> None:
    """Of two moments removed one after the other the second could be brought back for a moment only."""
    bars = NoticeBars()
    qtbot.addWidget(bars)
    actions = (("Bring it back", lambda: None),)
    bars.show_bar("removed", "info", "Moment at 0:10 removed.", actions, passes_after_s=5)
    timer = bars.findChild(QTimer, "notice passes")
    assert timer is not None
    bars.show_bar("removed", "info", "Moment at 0:20 removed.", actions, passes_after_s=99)
    assert timer.remainingTime() > 5000
    bars.show_bar("removed", "info", "It stays.", actions)
    assert not timer.isActive()
    assert bars.texts == {"removed": "It stays."}


def test_new_words_of_a_bar_leave_its_button_the_focus(qtbot: QtBot) -> None:
    bars = NoticeBars()
    qtbot.addWidget(bars)
    pressed: list[str] = []
    actions: tuple[tuple[str, Callable[[], None]], ...] = (("Cancel", lambda: pressed.append("cancel")),)
    bars.show_bar("long", "info", "40 %", actions)
    bars.show()
    button = next(one for one in bars.findChildren(QPushButton) if one.text() == "Cancel")
    bars.show_bar("long", "info", "45 %", actions)
    assert bars.texts == {"long": "45 %"}
    QTest.keyClick(button, Qt.Key.Key_Space)
    assert pressed == ["cancel"]
    bars.show_bar("long", "info", "being cancelled …")
    QApplication.processEvents()
    assert [one.text() for one in bars.findChildren(QPushButton) if one.isVisibleTo(bars)] == ["Close"]
