"""The bar: on a terminal only, not for short work, and gone afterwards."""

from __future__ import annotations

import io

import pytest

from logger.commands import progress_bar as module
from logger.commands.progress_bar import progress_bar


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture
def clock(monkeypatch):
    now = [100.0]
    monkeypatch.setattr(module.time, "monotonic", lambda: now[0])
    return now


def test_it_shows_how_far_the_work_is_and_goes_away(clock):
    stream = Terminal()
    with progress_bar("Writing a.csv", stream) as progress:
        progress.reach(0.1)
        assert stream.getvalue() == ""
        clock[0] += 0.6
        progress.part(0.5, 1.0).reach(0.5)
        assert stream.getvalue().endswith("\rWriting a.csv [" + "#" * 22 + "." * 8 + "]  75 %")
        progress.reach(0.8)  # too soon after the last
        assert "80 %" not in stream.getvalue()
        clock[0] += 0.2
        progress.reach(0.9)
        assert "90 %" in stream.getvalue()
    assert stream.getvalue().endswith("\r\x1b[K")


def test_it_goes_away_when_the_work_fails(clock):
    stream = Terminal()

    def fail():
        with progress_bar("Writing", stream) as progress:
            clock[0] += 1
            progress.reach(0.5)
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        fail()
    assert stream.getvalue().endswith("\r\x1b[K")


def test_off_a_terminal_nothing_is_drawn(clock):
    stream = io.StringIO()
    with progress_bar("Writing", stream) as progress:
        clock[0] += 9
        progress.reach(0.5)
    assert stream.getvalue() == ""
