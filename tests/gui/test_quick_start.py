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
from gui.quick_start import collect_from_now_on, load_qt, without_collecting

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


def test_the_window_starts_quickly_and_then_runs_as_usual(tmp_path: Path) -> None:
    environment = os.environ | {
        "QT_QPA_PLATFORM": "offscreen",
        "PYTHONPATH": os.pathsep.join(p for p in sys.path if p),
        "XDG_CONFIG_HOME": str(tmp_path),
    }
    done = subprocess.run(
        [sys.executable, "-c", STARTED, "--out", "a.h5", "--for", "1s"],
        cwd=tmp_path,
        env=environment,
        capture_output=True,
        text=True,
        timeout=90,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    found = json.loads(done.stdout)
    assert found["is_pythons_own"]
    assert found["read"] == []  # no source was read: only what is compiled
    assert found["is_collecting"]
    assert found["left_alone"] > 10_000


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


def test_what_is_collected_already_is_not_left_alone() -> None:
    before = gc.get_freeze_count()
    collect_from_now_on()
    assert (gc.isenabled(), gc.get_freeze_count()) == (True, before)


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
