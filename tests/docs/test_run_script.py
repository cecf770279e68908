"""run.py: its help changes nothing, and an environment made by hand is added to, never cleared."""

import importlib.util
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture
def script(tmp_path, monkeypatch):
    """run.py with an environment elsewhere, and with its commands written down instead of run."""
    spec = importlib.util.spec_from_file_location("run_script", ROOT / "run.py")
    made = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(made)
    made.VENV = tmp_path / ".venv"
    made.PYTHON, made.STAMP = made.VENV / "python", made.VENV / "galvanote-stamp"
    made.commands = []

    def take_down(command, **_options):
        made.commands.append([str(part) for part in command])
        return subprocess.CompletedProcess(command, 0, "", "")

    monkeypatch.setattr(made.subprocess, "run", take_down)
    monkeypatch.setattr(made.subprocess, "call", lambda command, **_: take_down(command).returncode)
    return made


def is_cleared(script):
    return any("venv" in command for command in script.commands)


def test_an_environment_made_by_hand_is_added_to_and_never_cleared(script):
    script.VENV.mkdir()
    script.PYTHON.touch()
    script.make_environment("")
    assert not is_cleared(script)
    assert any("install" in command for command in script.commands)


def test_where_there_is_none_it_is_made_and_then_left_alone(script):
    script.VENV.mkdir()
    script.make_environment("")
    assert is_cleared(script)
    script.PYTHON.touch()
    script.commands.clear()
    script.make_environment("")
    assert script.commands == []


def test_an_environment_of_ours_for_other_requirements_is_made_anew(script):
    script.VENV.mkdir()
    script.PYTHON.touch()
    script.STAMP.write_text("of-yesterday ")
    script.make_environment("")
    assert is_cleared(script)


@pytest.mark.parametrize(
    ("variable", "plugin", "missing", "remedy"),
    [
        ("DISPLAY", "libqxcb.so", "libxcb-icccm.so.4", "libxcb-icccm4"),
        ("WAYLAND_DISPLAY", "libqwayland.so", "libwayland-cursor.so.0", "libwayland-cursor0"),
    ],
)
def test_a_library_that_the_screen_lacks_is_named_once_with_its_package(
    script, monkeypatch, capsys, variable, plugin, missing, remedy
):
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv(variable, "x")
    monkeypatch.setattr(script.sys, "platform", "linux")
    monkeypatch.setattr(script.shutil, "which", lambda name: f"/usr/bin/{name}")
    folder = script.VENV / "lib/python3.11/site-packages/PySide6/Qt/plugins/platforms"
    folder.mkdir(parents=True)
    (folder / plugin).touch()
    told = f"\t{missing} => not found\n\tlibc.so.6 => /lib/libc.so.6\n\t{missing} => not found\n"
    answer = subprocess.CompletedProcess([], 0, told, "")
    monkeypatch.setattr(script.subprocess, "run", lambda *_, **__: answer)
    with pytest.raises(SystemExit):
        script.check_screen_libraries()
    said = capsys.readouterr().err
    assert said.count(missing) == 1
    assert f"sudo apt install {remedy}" in said or remedy in said.partition("sudo apt install")[2]


def test_help_needs_no_environment_and_no_display(tmp_path):
    copy = tmp_path / "run.py"
    copy.write_bytes((ROOT / "run.py").read_bytes())
    told = subprocess.run(
        [sys.executable, str(copy), "--help"], capture_output=True, text=True, timeout=60, env={}, check=False
    )
    assert told.returncode == 0, told.stderr
    assert "python3 run.py test" in told.stdout
    assert [path.name for path in tmp_path.iterdir()] == ["run.py"]
