"""The page of a run says in words what happens before there is anything to show."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from gui.demo import demo_bench
from gui.pages.run_page import RunPage
from gui.session import Plan, Session
from gui.theme import Theme
from logger.errors import LoggerError
from tests.gui.fakes import FakeRun
from tests.gui.languages import speaking

LIMIT_S = 30.0


class SlowRun(FakeRun):
    """Begins to open its sources, and goes on when it is let."""

    begun, may_go_on = threading.Event(), threading.Event()

    def start(self) -> None:
        self.begun.set()
        self.may_go_on.wait(LIMIT_S)


class HalfOpenRun(SlowRun):
    """One of its sources cannot be opened, while another one is slow."""

    def start(self) -> None:
        self.open_troubles = ("The port /dev/ttyUSB9 is gone",)
        super().start()
        self.open_troubles = ("The port /dev/ttyUSB9 is gone", "A meter does not answer.")
        raise LoggerError("A meter does not answer.")


def test_what_is_wrong_with_one_meter_is_said_while_another_is_waited_for(
    qtbot: QtBot, theme: Theme, tmp_path: Path
) -> None:
    """A wrong port was known at once, and told at the second try: after the patience with the slow meter."""
    SlowRun.begun.clear()
    SlowRun.may_go_on.clear()
    plan = Plan(("auto:/dev/ttyFAKE0", "scpi:/dev/ttyUSB9"), tmp_path / "a.h5", demo_bench())
    session = Session(plan, make_run=HalfOpenRun)  # type: ignore[arg-type]
    try:
        assert SlowRun.begun.wait(LIMIT_S)
        page = RunPage(theme, session)
        qtbot.addWidget(page)
        said = page.panel._sentence.text()
        assert said.startswith("The port /dev/ttyUSB9 is gone. Listening to /dev/ttyFAKE0")
        SlowRun.may_go_on.set()
        session.wait_opened(LIMIT_S)
        assert session.errors == ("A meter does not answer.", "The port /dev/ttyUSB9 is gone")
    finally:
        SlowRun.may_go_on.set()
        session.close()


@pytest.mark.parametrize(
    ("language", "words", "first"),
    [
        ("en", "Listening to /dev/ttyFAKE0", "Waiting for the first readings"),
        ("de", "/dev/ttyFAKE0 wird abgehört", "Wartet auf die ersten"),
    ],
)
def test_what_the_opening_of_a_source_waits_for_is_shown_at_once(
    qtbot: QtBot, qapp: QApplication, theme: Theme, tmp_path: Path, language: str, words: str, first: str
) -> None:
    SlowRun.begun.clear()
    SlowRun.may_go_on.clear()
    plan = Plan(("auto:/dev/ttyFAKE0",), tmp_path / "a.h5", demo_bench())
    session = Session(plan, make_run=SlowRun)
    try:
        assert SlowRun.begun.wait(LIMIT_S)
        with speaking(qapp, language):
            page = RunPage(theme, session)
            qtbot.addWidget(page)
            assert page.panel._sentence.text().startswith(words)
            SlowRun.may_go_on.set()
            session.wait_opened(LIMIT_S)
            page._show_texts()
            assert page.panel._sentence.text().startswith(first)
    finally:
        SlowRun.may_go_on.set()
        session.stop()
        session.close()
