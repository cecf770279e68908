"""The program on a virtual screen, and the hands at its keyboard and mouse."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pytest

from tests.gui.virtual_screen import virtual_screen

COMMAND = [sys.executable, "-c", "import sys; from gui.app import main; sys.exit(main())"]
START_LIMIT_S = 30.0


def needs(*programs: str) -> None:
    """Skip the test where one of them is missing, unless a screen is required."""
    missing = [name for name in programs if shutil.which(name) is None]
    if missing:
        message = f"{' and '.join(missing)} not found: apt install {' '.join(map(str.lower, programs))}"
        if os.environ.get("GALVANOTE_REQUIRE_SCREEN") == "1":
            pytest.fail(message)
        pytest.skip(message)


@pytest.fixture(scope="module")
def display() -> Iterator[str]:
    """A virtual screen; skipped where there is none, unless it is required."""
    needs("Xvfb", "xdotool")
    with virtual_screen() as (name, _server):
        yield name


class Desk:
    """A window on the screen, and the hands at its keyboard and mouse."""

    def __init__(self, display: str, folder: Path, *arguments: str) -> None:
        self.start(display, folder, {"QT_QPA_PLATFORM": "xcb"}, arguments)
        found = self.do("search", "--sync", "--onlyvisible", "--name", "Galvanote")
        self.do("windowfocus", "--sync", found.split()[0])

    def start(self, display: str, folder: Path, shown: dict[str, str], arguments: Sequence[str]) -> None:
        """Start the window; `shown` says in the environment on what."""
        self._environment = os.environ | {
            "DISPLAY": display,
            "PYTHONPATH": os.pathsep.join(p for p in sys.path if p),
            "XDG_CONFIG_HOME": str(folder / "config"),
        }
        self.process = subprocess.Popen([*COMMAND, *arguments], cwd=folder, env=self._environment | shown)

    def do(self, *words: str) -> str:
        done = subprocess.run(
            ["xdotool", *words],
            env=self._environment,
            capture_output=True,
            text=True,
            timeout=START_LIMIT_S,
            check=True,
        )
        return done.stdout

    def wait_for(self, done: Callable[[], bool], what: str) -> None:
        deadline_s = time.monotonic() + START_LIMIT_S
        while not done():
            assert time.monotonic() < deadline_s, f"{what} did not happen"
            assert self.process.poll() is None, f"the window ended before {what}"
            time.sleep(0.02)

    def close(self) -> None:
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait(10)
