"""The window under Wayland: a compositor on a virtual screen, real key events, and its sudden end."""

from __future__ import annotations

import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

import pytest

from logger.reader import read_recording
from tests.gui.screen_desk import START_LIMIT_S, Desk, needs
from tests.gui.virtual_screen import virtual_screen

pytestmark = pytest.mark.screen

SOCKET = "galvanote-test"
HANDED_ON_S = 0.5
"""A compositor within a screen hands keys on, and stamps them when it does."""


@contextmanager
def compositor(display: str) -> Iterator[tuple[Path, subprocess.Popen[bytes]]]:
    """The folder with the socket of a compositor that shows its own screen on `display`, and its process."""
    with tempfile.TemporaryDirectory(prefix="wl") as name:  # the path of a socket must be short
        folder = Path(name)
        (folder / "weston.ini").write_text("[shell]\npanel-position=none\n")  # a click there starts programs
        process = subprocess.Popen(
            ["weston", f"--config={folder / 'weston.ini'}", "--backend=x11-backend.so", "--use-pixman",
             "--width=1366", "--height=768", f"--socket={SOCKET}"],
            env={"DISPLAY": display, "XDG_RUNTIME_DIR": name, "HOME": name},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )  # fmt: skip
        try:
            deadline_s = time.monotonic() + START_LIMIT_S
            while not (folder / SOCKET).exists():
                assert process.poll() is None, "the compositor did not start"
                assert time.monotonic() < deadline_s, "the compositor opened no socket"
                time.sleep(0.02)
            yield folder, process
        finally:
            process.kill()
            process.wait(10)


class WaylandDesk(Desk):
    """A window of a compositor; the hands stay those of the screen that this is shown on."""

    def __init__(self, display: str, runtime: Path, folder: Path, *arguments: str) -> None:
        shown = {"WAYLAND_DISPLAY": SOCKET, "XDG_RUNTIME_DIR": str(runtime), "QT_QPA_PLATFORM": "wayland"}
        self.start(display, folder, shown, arguments)


def stamp_once_shown(desk: Desk, journal: Path) -> tuple[float, float]:
    """Stamp a note; nothing tells when the compositor shows the window. Return the time around the press."""
    deadline_s = time.monotonic() + START_LIMIT_S
    while time.monotonic() < deadline_s:
        desk.do("mousemove", "500", "300", "click", "1")
        before_s = time.time()
        desk.do("key", "ctrl+m")
        after_s = time.time()
        while time.time() < after_s + 2.0:
            if b'"note"' in journal.read_bytes():
                return before_s, after_s
            time.sleep(0.02)
        assert desk.process.poll() is None, "the window ended before the moment"
    pytest.fail("no key came to the window")


def test_moments_and_their_words_are_in_the_file_when_the_compositor_dies(tmp_path: Path) -> None:
    needs("Xvfb", "xdotool", "weston")
    out, journal = tmp_path / "a.h5", tmp_path / "a.h5.journal"
    with virtual_screen() as (display, _server), compositor(display) as (runtime, process):
        source = ("--source", "cell:demo?speed=1&rate=20", "--out", str(out))
        desk = WaylandDesk(display, runtime, tmp_path, *source)
        try:
            desk.wait_for(
                lambda: journal.exists() and journal.stat().st_size > 3000, "the run's first second"
            )
            before_s, after_s = stamp_once_shown(desk, journal)
            desk.do("type", "--delay", "5", "milky at last")
            desk.do("key", "Return")
            desk.do("keydown", "9", "sleep", "1", "keyup", "9")  # held until it repeats: none of it is typed
            desk.do("type", "--delay", "5", "4700")
            desk.do("key", "Return", "ctrl+5")
            desk.wait_for(lambda: b"electrodes_out" in journal.read_bytes(), "the last key")
            process.kill()
            desk.process.wait(START_LIMIT_S)
        finally:
            desk.close()
    recording = read_recording(out)
    assert not journal.exists()
    tagged = [m for m in recording.moments if "(simulated)" not in m.label]
    assert [m.label for m in tagged[-3:]] == ["milky at last", "4700", ""]
    at_s = datetime.fromisoformat(recording.start_time).timestamp() + tagged[-3].time_s
    assert before_s - HANDED_ON_S <= at_s <= after_s + HANDED_ON_S
