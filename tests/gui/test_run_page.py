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
from tests.gui.fakes import FakeRun
from tests.gui.languages import speaking

LIMIT_S = 30.0


class SlowRun(FakeRun):
    """Begins to open its sources, and goes on when it is let."""

    begun, may_go_on = threading.Event(), threading.Event()

    def start(self) -> None:
        self.begun.set()
        self.may_go_on.wait(LIMIT_S)


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
