"""What is left out of the start, and is back once the window is there."""

from __future__ import annotations

import builtins
import gc
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from gui.app import main
from gui.quick_start import load_qt, without_collecting

STARTED = """
import builtins, gc, json, linecache, sys
pythons_own = builtins.__import__
from gui.app import main
status = main(sys.argv[1:])
print(json.dumps({
    "is_pythons_own": builtins.__import__ is pythons_own,
    "read": [name for name in linecache.cache if name.endswith("window.py")],
    "is_collecting": gc.isenabled(),
    "left_alone": gc.get_freeze_count(),
}))
sys.exit(status)
"""

TWO_RUNS = """
import gc, sys, weakref
from dataclasses import replace
from pathlib import Path
from gui import window
from gui.app import main

show_at_start = window.Window.show_at_start
first, looks = [], []

def show_and_begin_another(self):
    from PySide6.QtCore import QTimer

    def look():
        if self.session.state == "running" and not first:
            first.extend((weakref.ref(self.session), self.session.plan))
            self.save_and_begin(replace(self.session.plan, out=Path("b.h5")))
        elif self.session.state == "running" and self.session.plan.out.name == "b.h5":
            gc.collect()
            looks.append(first[0]() is None)  # the last of the work on it may still go on
            if looks[-1] or len(looks) == 300:
                self.stop_and_quit()
                print(looks[-1])
                timer.stop()

    show_at_start(self)
    timer = QTimer(self, interval=20, timeout=look)
    timer.start()

window.Window.show_at_start = show_and_begin_another
sys.exit(main(["--source", "cell:demo", "--out", "a.h5"]))
"""


def test_the_window_starts_quickly_and_then_runs_as_usual(tmp_path: Path) -> None:
    found = json.loads(printed(tmp_path, STARTED, "--out", "a.h5", "--for", "1s"))
    assert found["is_pythons_own"]
    assert found["read"] == []  # no source was read: only what is compiled
    assert found["is_collecting"]
    assert found["left_alone"] > 10_000


def test_the_first_run_does_not_stay_in_memory_once_the_next_has_begun(tmp_path: Path) -> None:
    """All that had begun before the window was there was left alone for good."""
    assert printed(tmp_path, TWO_RUNS).split() == ["True"]


def printed(folder: Path, program: str, *arguments: str) -> str:
    """Return what a program of its own writes that shows a window."""
    environment = os.environ | {
        "QT_QPA_PLATFORM": "offscreen",
        "PYTHONPATH": os.pathsep.join(p for p in sys.path if p),
        "XDG_CONFIG_HOME": str(folder),
    }
    done = subprocess.run(
        [sys.executable, "-c", program, *arguments],
        cwd=folder,
        env=environment,
        capture_output=True,
        text=True,
        timeout=90,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_collecting_goes_on_after_a_refusal(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["not-there.h5"]) == 1
    assert "not-there.h5" in capsys.readouterr().err
    assert gc.isenabled()


@without_collecting()
def fail() -> None:
    assert not gc.isenabled()
    raise RuntimeError


def test_collecting_goes_on_after_a_fault() -> None:
    with pytest.raises(RuntimeError):
        fail()
    assert gc.isenabled()


def test_qt_that_was_loaded_before_changes_nothing() -> None:
    before = builtins.__import__
    load_qt()
    assert builtins.__import__ is before


def test_qt_that_cannot_be_loaded_is_told(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def lack_a_library() -> None:
        raise ImportError("libglib-2.0.so.0: cannot open shared object file")

    monkeypatch.setattr("gui.app.load_qt", lack_a_library)
    assert main([]) == 1
    assert "Qt cannot start (libglib" in capsys.readouterr().err
    assert gc.isenabled()
