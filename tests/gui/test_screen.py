"""The whole way from a key of the keyboard to the file, on a virtual screen with real key events."""

from __future__ import annotations

import os
import time
from datetime import datetime
from pathlib import Path

import pytest

from logger.reader import read_recording
from tests.drivers.emulation import EmulatorProcess
from tests.gui.screen_desk import START_LIMIT_S, Desk, needs
from tests.gui.screen_desk import display as display
from tests.gui.virtual_screen import virtual_screen

pytestmark = pytest.mark.screen

KEY_LIMIT_S = 0.050
"""A moment must lie within this of the press (the aim of the project's plan)."""


def test_keys_of_the_keyboard_become_moments_in_the_file(display: str, tmp_path: Path) -> None:
    out = tmp_path / "a.h5"
    journal = tmp_path / "a.h5.journal"
    desk = Desk(display, tmp_path, "--source", "cell:demo?speed=1&rate=20", "--out", str(out))
    pressed: list[tuple[float, float]] = []
    try:
        desk.wait_for(lambda: journal.exists() and journal.stat().st_size > 3000, "the run's first second")
        for label in ("milky, then clear", "anode has darkened"):
            before_s = time.time()
            desk.do("key", "m")
            pressed.append((before_s, time.time()))
            desk.do("type", "--delay", "5", label)
            desk.do("key", "Return")
        desk.do("key", "f", "m", "Escape")  # a plain key of the window, then a moment without words
        desk.do("keydown", "9", "sleep", "1", "keyup", "9")  # held until it repeats: none of it is typed
        desk.do("type", "--delay", "5", "4700")
        desk.do("key", "Return")
        desk.do("key", "ctrl+e")
        desk.wait_for(lambda: out.exists() and not journal.exists(), "saving")
        desk.do("key", "ctrl+q")
        assert desk.process.wait(START_LIMIT_S) == 0
    finally:
        desk.close()
    recording = read_recording(out)
    tagged = [m for m in recording.moments if "(simulated)" not in m.label]
    assert [m.label for m in tagged] == ["milky, then clear", "anode has darkened", "", "4700"]
    start_s = datetime.fromisoformat(recording.start_time).timestamp()
    for moment, (before_s, after_s) in zip(tagged[:2], pressed, strict=True):
        assert before_s - KEY_LIMIT_S <= start_s + moment.time_s <= after_s + KEY_LIMIT_S


def test_the_first_start_shows_a_running_lesson_within_three_seconds(display: str, tmp_path: Path) -> None:
    """Without any argument but where to write: the window is there and readings are on disk.

    The aim holds for a computer that does nothing else; a busier one gets its share more time.
    """
    begin_s = time.monotonic()
    desk = Desk(display, tmp_path, "--out", str(tmp_path / "a.h5"))
    journal = tmp_path / "a.h5.journal"
    try:
        desk.wait_for(lambda: journal.exists() and journal.stat().st_size > 1000, "the first readings")
        took_s = time.monotonic() - begin_s
        desk.process.terminate()
        assert desk.process.wait(START_LIMIT_S) == 0
    finally:
        desk.close()
    busy = os.getloadavg()[0] / (os.cpu_count() or 1)
    assert took_s < 3.0 * max(1.0, busy)
    assert read_recording(tmp_path / "a.h5").channels[0].instrument["address"].startswith("cell:demo")


def test_words_being_typed_are_in_the_file_when_the_display_is_lost(tmp_path: Path) -> None:
    """The program ends with its display; the run was left to be recovered, without these words."""
    out, journal = tmp_path / "a.h5", tmp_path / "a.h5.journal"
    needs("Xvfb", "xdotool")
    with virtual_screen() as (name, server):
        desk = Desk(name, tmp_path, "--source", "cell:demo?speed=1&rate=20", "--out", str(out))
        try:
            desk.wait_for(
                lambda: journal.exists() and journal.stat().st_size > 3000, "the run's first second"
            )
            desk.do("key", "m")
            desk.do("type", "--delay", "5", "anode has dar")
            desk.do("key", "ctrl+5")  # once this moment is kept, the letters before it have come, too
            desk.wait_for(lambda: "electrodes_out" in _kinds(journal), "the last key")
            server.kill()
            desk.process.wait(START_LIMIT_S)  # 0 or 1, as Qt or Xlib was the first to notice
        finally:
            desk.close()
    assert not journal.exists()
    kept = [(m.kind, m.label) for m in read_recording(out).moments if "(simulated)" not in m.label]
    assert kept == [("note", "anode has dar"), ("electrodes_out", "")]


BENCH = """
[settling]
limit_mV_per_min = 1000.0

[[steps]]
kind = "buffer_in"
label = "Pour the buffer in"

[[steps]]
kind = "salt_added"
label = "Add the salt"
hold = "2s"

[[steps]]
kind = "electrodes_out"
"""


def test_a_lesson_at_an_emulated_meter_by_keys_alone(display: str, tmp_path: Path) -> None:
    """Steps, kinds, words, undoing, the wall; and a meter that is cut off and comes back."""
    out, journal, bench = tmp_path / "a.h5", tmp_path / "a.h5.journal", tmp_path / "bench.toml"
    bench.write_text(BENCH, encoding="utf-8")
    with EmulatorProcess("text", "--port", "0") as meter:
        desk = Desk(display, tmp_path, "--source", meter.address, "--bench", str(bench), "--out", str(out))
        pressed: list[tuple[float, float]] = []

        def stamp(*keys: str) -> None:
            before_s = time.time()
            desk.do("key", *keys)
            pressed.append((before_s, time.time()))

        try:
            desk.wait_for(lambda: journal.exists() and journal.stat().st_size > 1500, "the first readings")
            # How long an event has waited is told by earlier ones, such as a hand on the mouse brings.
            desk.do("key", "--delay", "20", *("shift",) * 5)
            stamp("space")  # the first step
            stamp("m")
            desk.do("type", "--delay", "5", "a lid on")
            stamp("ctrl+9")  # a kind, while the words of the note are being typed
            desk.do("type", "--delay", "5", "4700")
            desk.do("key", "Return")
            desk.do("key", "F11")  # the wall
            stamp("space")  # the second step, seen from the back of the room
            desk.do("key", "Escape")
            desk.do("key", "5", "ctrl+z")  # electrodes out, by mistake
            meter.end()
            lost_s = time.monotonic()
            desk.wait_for(lambda: time.monotonic() - lost_s > 1.0, "a second without the meter")
            meter.start()
            # A gap stands in the journal once it has ended.
            desk.wait_for(lambda: _gap_s(journal) > 0.5, "the return of the meter")
            desk.do("key", "ctrl+e")
            desk.wait_for(lambda: out.exists() and not journal.exists(), "saving")
            desk.do("key", "ctrl+q")
            assert desk.process.wait(START_LIMIT_S) == 0
        finally:
            desk.close()
    recording = read_recording(out)
    assert [(m.kind, m.label) for m in recording.moments] == [
        ("buffer_in", ""),
        ("note", "a lid on"),
        ("resistor_changed", "4700"),
        ("salt_added", ""),
    ]
    start_s = datetime.fromisoformat(recording.start_time).timestamp()
    for moment, (before_s, after_s) in zip(recording.moments, pressed, strict=True):
        assert before_s - KEY_LIMIT_S <= start_s + moment.time_s <= after_s + KEY_LIMIT_S
    assert any(gap.end_s - gap.begin_s > 0.5 for gap in recording.gaps)


def _kinds(journal: Path) -> set[str]:
    return {moment.kind for moment in read_recording(journal).moments}


def _gap_s(journal: Path) -> float:
    """Return the length of the longest gap so far, from the journal beside the window; 0: none."""
    return max((gap.end_s - gap.begin_s for gap in read_recording(journal).gaps), default=0.0)
