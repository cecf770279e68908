"""When the window draws."""

from __future__ import annotations

import threading

import pytest

from gui import frame_clock
from gui.frame_clock import FrameClock


@pytest.fixture
def clock(qtbot, monkeypatch):
    monkeypatch.setattr(frame_clock, "REGULAR_MS", 1_000_000)  # only rings tick
    found = FrameClock()
    ticks = []
    found.ticked.connect(lambda: ticks.append(threading.get_ident()))
    yield found, ticks
    found.stop()


def test_a_ring_from_another_thread_ticks_on_this_one(clock, qtbot):
    found, ticks = clock
    thread = threading.Thread(target=found.ring)
    thread.start()
    thread.join()
    assert ticks == [], "not on the thread that rang"
    qtbot.waitUntil(lambda: bool(ticks))
    assert ticks == [threading.get_ident()]


def test_many_rings_are_one_tick(clock, qtbot, qapp):
    found, ticks = clock
    for _ in range(1000):
        found.ring()
    qtbot.waitUntil(lambda: bool(ticks))
    qapp.processEvents()
    assert len(ticks) == 1


def test_rings_that_come_too_fast_are_gathered_into_one_tick(clock, qtbot, qapp, monkeypatch):
    found, ticks = clock
    found.ring()
    qtbot.waitUntil(lambda: bool(ticks))
    monkeypatch.setattr(frame_clock, "SHORTEST_S", 1000.0)
    for _ in range(3):
        found.ring()
        qapp.processEvents()
    assert len(ticks) == 1
    found._soon.timeout.emit()  # the time has passed
    assert len(ticks) == 2
    assert not found._soon.isActive()
    monkeypatch.setattr(frame_clock, "SHORTEST_S", 0.0)
    found.ring()
    qtbot.waitUntil(lambda: len(ticks) == 3)


def test_it_ticks_by_itself_and_no_more_once_stopped(qtbot, qapp):
    found = FrameClock()
    ticks = []
    found.ticked.connect(lambda: ticks.append(1))
    qtbot.waitUntil(lambda: len(ticks) >= 2)
    found.stop()
    seen = len(ticks)
    found.ring()
    qapp.processEvents()
    assert len(ticks) == seen
