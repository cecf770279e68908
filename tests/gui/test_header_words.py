"""What the header calls a recording."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QSettings
from pytestqt.qtbot import QtBot

from gui.header_words import header_words
from gui.pages.findings_page import FindingsPage
from gui.session import load_finished
from gui.theme import Theme
from logger.import_csv import Readings
from logger.import_package import Package
from logger.imported_recording import import_recording
from tests.gui.page_host import FakeHost


@pytest.mark.parametrize(
    ("start_time", "title"), [("2026-11-20T09:30:00+01:00", "Run begun at 09:30"), (None, "plain")]
)
def test_a_run_that_nobody_named_is_called_after_its_start_only_where_that_is_known(
    qtbot: QtBot, theme: Theme, settings: QSettings, tmp_path: Path, start_time: str | None, title: str
) -> None:
    readings = Readings(np.arange(9.0), np.full(9, 2.0), np.zeros(9, np.uint8))
    path = import_recording(
        readings, (), tmp_path / "plain.h5", origin=tmp_path, package=Package(tmp_path, start_time=start_time)
    )
    host = FakeHost(theme, settings)
    qtbot.addWidget(host)
    page = FindingsPage(host, load_finished(path))
    qtbot.addWidget(page)
    assert header_words(page, None).title == title
