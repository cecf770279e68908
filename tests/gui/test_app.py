"""The window command as a process: what it takes, how it ends, what it leaves."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from gui.app import _show, main
from logger.reader import read_recording

COMMAND = [sys.executable, "-c", "import sys; from gui.app import main; sys.exit(main())"]
START_LIMIT_S = 30.0
GOOD = Path(__file__).parents[2] / "recordings" / "invented" / "good-lesson.h5"


def environment(home: Path) -> dict[str, str]:
    return os.environ | {
        "QT_QPA_PLATFORM": "offscreen",
        "PYTHONPATH": os.pathsep.join(p for p in sys.path if p),
        "XDG_CONFIG_HOME": str(home),
    }


def run(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [*COMMAND, *arguments],
        cwd=folder,
        env=environment(folder),
        capture_output=True,
        text=True,
        timeout=90,
        check=False,
    )


def test_it_ends_by_itself_with_everything_saved(tmp_path: Path) -> None:
    done = run(tmp_path, "--source", "cell:demo?speed=60", "--out", "a.h5", "--for", "3s")
    assert (done.returncode, done.stdout) == (0, "")
    assert "Traceback" not in done.stderr
    recording = read_recording(tmp_path / "a.h5")
    assert recording.duration_s > 100
    assert recording.channels[0].times_s.size > 300
    assert not (tmp_path / "a.h5.journal").exists()


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no SIGTERM to send")
@pytest.mark.parametrize("name", ["SIGTERM", "SIGINT"])
def test_a_signal_saves_and_ends(tmp_path: Path, name: str) -> None:
    process = subprocess.Popen(
        [*COMMAND, "--source", "cell:demo?speed=60", "--out", "a.h5"],
        cwd=tmp_path,
        env=environment(tmp_path),
        stderr=subprocess.PIPE,
        text=True,
    )
    try:
        deadline_s = time.monotonic() + START_LIMIT_S
        journal = tmp_path / "a.h5.journal"
        while not (journal.exists() and journal.stat().st_size > 2000):
            assert time.monotonic() < deadline_s, "no run began"
            assert process.poll() is None
            time.sleep(0.05)
        process.send_signal(getattr(signal, name))
        _, told = process.communicate(timeout=60)
    finally:
        process.kill()
    assert process.returncode == 0, told
    assert read_recording(tmp_path / "a.h5").channels[0].times_s.size > 0


def test_a_source_that_cannot_be_opened_ends_with_1_when_nobody_watches(tmp_path: Path) -> None:
    done = run(tmp_path, "--source", "scpi:/dev/nothing-here", "--out", "a.h5", "--for", "5s")
    assert done.returncode == 1
    assert "/dev/nothing-here" in done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "a.h5").exists()


@pytest.mark.parametrize(
    ("arguments", "status", "told"),
    [
        (["--speed", "3"], 2, "--speed"),
        (["--help"], 0, ""),
        (["--source", "sell:demo"], 1, "cell"),
        (["--source", "cell:demo?sped=3"], 1, "speed"),
        (["--for", "soon"], 1, "15m"),
        (["--bench", "nothing.toml"], 1, "nothing.toml"),
        (["--out", "run.txt"], 1, ".h5"),
        (["--out", "missing/run.h5"], 1, "missing"),
        (["nothing.h5"], 1, "nothing.h5"),
        ([str(GOOD), "--for", "5s"], 1, "--for"),
    ],
)
def test_wrong_input_is_one_clear_line(
    arguments: list[str],
    status: int,
    told: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(arguments) == status
    assert told in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_an_existing_recording_is_never_overwritten(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "a.h5"
    out.write_bytes(b"earlier")
    assert main(["--source", "cell:demo", "--out", str(out)]) == 1
    assert "exists" in capsys.readouterr().err
    assert out.read_bytes() == b"earlier"


def test_without_a_display_the_way_without_a_window_is_named(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    assert main(["--source", "cell:demo", "--out", str(tmp_path / "a.h5")]) == 1
    assert "galvanote record" in capsys.readouterr().err


@pytest.mark.skipif(sys.platform != "linux", reason="there is always a screen elsewhere")
def test_a_display_that_nobody_serves_is_told_in_one_line_and_not_by_a_crash(tmp_path: Path) -> None:
    environment = {k: v for k, v in os.environ.items() if k not in ("QT_QPA_PLATFORM", "WAYLAND_DISPLAY")}
    code = "import sys; from gui.app import main; sys.exit(main(sys.argv[1:]))"
    done = subprocess.run(
        [sys.executable, "-c", code, "--out", str(tmp_path / "a.h5")],
        env={**environment, "DISPLAY": ":76999"}, capture_output=True, text=True, timeout=120, check=False,
    )  # fmt: skip
    assert done.returncode == 1, done.stderr
    (line,) = [one for one in done.stderr.splitlines() if one.startswith("galvanote-window: ")]
    assert "no window can be shown on the display :76999" in line
    assert "xcb-cursor0" not in done.stderr, "Qt's guess at a library that is not missing"
    assert list(tmp_path.iterdir()) == []


def loaded_by(code: str, modules: tuple[str, ...]) -> list[str]:
    """Run `code` in a process of its own; return which of these modules it has loaded."""
    done = subprocess.run(
        [sys.executable, "-c", f"{code}; print(*[m for m in {modules} if m in sys.modules])"],
        env=os.environ | {"PYTHONPATH": os.pathsep.join(p for p in sys.path if p)},
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    )
    return done.stdout.split()


def test_what_opening_needs_is_loaded_before_somebody_waits_for_it() -> None:
    needed = ("h5py", "numpy.ma", "logger.reader", "gui.pages.findings_page", "gui.translations.message_list")
    begun = "import sys, gui.recording_desk"
    assert loaded_by(begun, needed) == []
    assert loaded_by(f"{begun}; gui.recording_desk._load()", needed) == [*needed]


def test_files_named_at_the_start_have_their_look_made_ready_before_the_window_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Asked(Exception):
        """Ends the start where it is asked for."""

    def ask() -> None:
        raise Asked

    monkeypatch.setattr("logger.vetting.get_ready", ask)
    monkeypatch.setattr("gui.screen_check.screen_faults_told", None)  # before anything of a window is made
    with pytest.raises(Asked):
        _show([tmp_path / "a.h5"], None, None)


def test_recording_does_not_import_the_heavy_parts_before_the_window_is_there() -> None:
    heavy = ("PySide6", "pyqtgraph", "scipy", "h5py", "numpy")
    assert loaded_by("import sys, gui.app; gui.app._parser()", heavy) == []


def test_what_the_window_needs_later_is_not_loaded_before_it_is_there() -> None:
    later = (
        "gui.pages.bench_page", "gui.pages.findings_page", "gui.pages.help_page", "gui.pages.shelf_page",
        "logger.export.formats", "drivers.listening", "scipy", "h5py", "importlib.metadata",
    )  # fmt: skip
    assert loaded_by("import sys, gui.window", ("gui.window", *later)) == ["gui.window"]


def test_a_start_without_a_folder_for_recordings_shows_the_window_and_says_so(
    tmp_path: Path,
) -> None:
    """The window can help: another folder is chosen there. Under a command's words it ends instead."""
    usual = tmp_path / "no folder"
    usual.write_text("a file has its name")
    begun = """
import sys
from pathlib import Path
from PySide6.QtCore import QTimer
import gui.recordings_folder
from gui import app
from gui.window import Window

gui.recordings_folder.default_folder = lambda: Path(sys.argv[1]) / "Galvanote"
shown = Window.show_at_start

def show(window):
    shown(window)
    QTimer.singleShot(300, lambda: (print(*window.bars.texts.values()), window.stop_and_quit()))

Window.show_at_start = show
sys.exit(app.main(sys.argv[2:]))
"""
    command = [sys.executable, "-c", begun, str(usual)]
    kept = {"env": environment(tmp_path), "cwd": tmp_path, "capture_output": True, "text": True}
    bare = subprocess.run(command, timeout=90, check=False, **kept)  # type: ignore[call-overload]
    assert bare.returncode == 0, bare.stderr
    assert "cannot be made" in bare.stdout
    told = subprocess.run([*command, "--for", "1s"], timeout=90, check=False, **kept)  # type: ignore[call-overload]
    assert (told.returncode, told.stdout) == (1, "")
    assert "cannot be made" in told.stderr
