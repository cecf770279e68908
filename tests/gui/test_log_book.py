"""Faults that nobody caught are written down, told, and can be sent along."""

from __future__ import annotations

import logging
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from gui.log_book import LogBook


@pytest.fixture
def book(tmp_path: Path) -> Iterator[LogBook]:
    level = logging.getLogger().level
    made = LogBook(tmp_path / "log")
    made.open()
    yield made
    made.close()
    logging.getLogger().setLevel(level)


def raise_fault() -> None:
    raise ZeroDivisionError("by the test")


def test_a_fault_of_any_thread_is_written_down_and_told_once(
    book: LogBook, capsys: pytest.CaptureFixture[str]
) -> None:
    thread = threading.Thread(target=raise_fault, name="clumsy")
    thread.start()
    thread.join()
    try:
        raise_fault()
    except ZeroDivisionError as fault:
        sys.excepthook(type(fault), fault, fault.__traceback__)
    assert book.new_faults() == ("ZeroDivisionError: by the test",) * 2
    assert book.new_faults() == ()
    details = book.details()
    for part in ("Galvanote ", "Python 3", "clumsy", "raise_fault"):
        assert part in details
    assert "by the test" in capsys.readouterr().err


def test_where_nothing_can_be_written_it_goes_on(tmp_path: Path) -> None:
    (tmp_path / "log").write_text("a file where a folder should be")
    book = LogBook(tmp_path / "log")
    book.open()
    try:
        assert book.path is None
        assert "none could be written" in book.details()
    finally:
        book.close()
    assert sys.excepthook is sys.__excepthook__
