"""What the shelf says of one recording."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from gui.shelf.entry_texts import entry_rows
from logger.shelf_entry import ShelfEntry
from tests.gui.languages import speaking


@pytest.mark.parametrize(("language", "size"), [("en", "131.8 kB"), ("de", "131,8 kB")])
def test_a_size_is_in_units_that_people_know(qapp: QApplication, language: str, size: str) -> None:
    entry = ShelfEntry(Path("a.h5"), "finished", size_bytes=131_800)
    with speaking(qapp, language):
        assert size in {row.value for row in entry_rows(entry)}
