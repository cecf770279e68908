#!/usr/bin/env python3
"""Starts Galvanote from a checkout, needing nothing but Python and a package registry.

    python3 run.py             the window, on the built-in simulated cell; without a display, a whole
                               simulated lesson recorded, analysed and drawn
    python3 run.py FILE.h5 …   further arguments go to the window
    python3 run.py --for 20s   ends by itself
    python3 run.py test        the tests
    python3 run.py --reset     makes the environment anew
    python3 run.py --help      says this and changes nothing

Standard library only. The environment is `.venv` beside this file; one that was there already is kept.
"""

import hashlib
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
VENV = HERE / ".venv"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")
STAMP = VENV / "galvanote-stamp"
BENCH = HERE / "recordings" / "example-bench.toml"
OLDEST = (3, 11)

QT_LIBRARIES = "libgl1 libegl1 libxkbcommon0 libdbus-1-3 libfontconfig1 libglib2.0-0"
SCREEN_LIBRARIES = (
    "libxcb-cursor0 libxcb-icccm4 libxcb-image0 libxcb-keysyms1 libxcb-render-util0 "
    "libxcb-shape0 libxcb-xkb1 libxkbcommon-x11-0"
)
WAYLAND_LIBRARIES = "libwayland-cursor0"


def main(arguments):
    """Do what the arguments ask for; return the exit status."""
    if sys.version_info < OLDEST:
        return refuse(
            f"Galvanote needs Python {OLDEST[0]}.{OLDEST[1]} or newer; this is {sys.version.split()[0]}. "
            "Install a newer Python and start run.py with it."
        )
    if arguments[:1] in (["--help"], ["-h"]):
        print(__doc__)
        print("Further arguments of the window: galvanote-window --help, once the environment is there.")
        return 0
    if arguments[:1] == ["--reset"]:
        shutil.rmtree(VENV, ignore_errors=True)
        arguments = arguments[1:]
    if arguments[:1] == ["test"]:
        make_environment("test")
        # The tests of this checkout, on the installed packages of this checkout.
        return subprocess.call([str(PYTHON), "-m", "pytest", "-n", "auto", *arguments[1:]], cwd=HERE)
    make_environment("")
    if has_display():
        check_qt(QT_LIBRARIES + " " + SCREEN_LIBRARIES)
        check_screen_libraries()
        return subprocess.call([str(BIN / "galvanote-window"), *arguments])
    if any(not a.startswith("-") and a.endswith(".h5") for a in arguments):
        return refuse("There is no display to show a recording on. In a terminal: galvanote analyse FILE.h5")
    return run_without_window(arguments)


def make_environment(extra):
    """Make or renew `.venv` when the project's requirements or the Python have changed."""
    wanted = hashlib.sha256((HERE / "pyproject.toml").read_bytes() + sys.version.encode()).hexdigest()
    stamp = STAMP.read_text().split() if STAMP.exists() else []
    if PYTHON.exists() and stamp[:1] == [wanted] and (not extra or extra in stamp):
        return
    # What was made by hand holds more than we know of: it is added to, never cleared.
    is_ours = STAMP.exists() or not PYTHON.exists() or not has_pip()
    if is_ours and stamp[:1] != [wanted]:
        say("Preparing the environment in .venv (once) …")
        result = subprocess.run(
            [sys.executable, "-m", "venv", "--clear", str(VENV)], capture_output=True, text=True, check=False
        )
        if result.returncode != 0:
            shutil.rmtree(VENV, ignore_errors=True)
            sys.exit(
                refuse(
                    "Python's venv module does not work here. On Debian or Ubuntu: "
                    "sudo apt install python3-venv\n" + (result.stdout + result.stderr).strip()[-500:]
                )
            )
    target = f"{HERE}[{extra}]" if extra else str(HERE)
    say("Installing Galvanote and what it needs" + (" for its tests" if extra else "") + " …")
    pip = [
        str(PYTHON),
        "-m",
        "pip",
        "install",
        "--quiet",
        "--disable-pip-version-check",
        "--editable",
        target,
    ]
    if subprocess.call(pip) != 0:
        sys.exit(
            refuse("Installing failed. Is there a connection to a package registry? Then run this again.")
        )
    STAMP.write_text(" ".join([wanted, *stamp[1:], extra]) if stamp[:1] == [wanted] else f"{wanted} {extra}")


def has_pip():
    """Tell whether the environment is whole enough to install into."""
    probe = [str(PYTHON), "-m", "pip", "--version"]
    return subprocess.run(probe, capture_output=True, check=False).returncode == 0


def has_display():
    """Tell whether a window can be shown."""
    if sys.platform in ("win32", "darwin"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def check_qt(libraries):
    """End with the exact remedy when Qt's own libraries are not there."""
    probe = subprocess.run(
        [str(PYTHON), "-c", "import PySide6.QtWidgets"], capture_output=True, text=True, check=False
    )
    if probe.returncode != 0:
        reason = probe.stderr.strip().splitlines()[-1] if probe.stderr.strip() else "no reason given"
        sys.exit(refuse(f"Qt cannot start: {reason}", libraries))


def check_screen_libraries():
    """End with the exact remedy when libraries are missing that Qt needs for this kind of screen."""
    if sys.platform != "linux" or os.environ.get("QT_QPA_PLATFORM"):
        return
    name, libraries = "libqxcb.so", SCREEN_LIBRARIES
    if not os.environ.get("DISPLAY"):
        name, libraries = "libqwayland.so", WAYLAND_LIBRARIES
    plugin = next(VENV.glob(f"lib*/python3*/site-packages/PySide6/Qt/plugins/platforms/{name}"), None)
    if plugin is None or shutil.which("ldd") is None:
        return
    told = subprocess.run(["ldd", str(plugin)], capture_output=True, text=True, check=False).stdout
    missing = dict.fromkeys(line.split()[0] for line in told.splitlines() if "not found" in line)
    if missing:
        names = ", ".join(missing)
        sys.exit(refuse(f"Qt lacks {names} for this screen.", libraries))


def run_without_window(arguments):
    """Record a whole simulated lesson, print what it shows, draw the picture."""
    galvanote = str(BIN / ("galvanote.exe" if os.name == "nt" else "galvanote"))
    out = HERE / "recordings" / time.strftime("demo %Y-%m-%d %H.%M.%S.h5")
    say("No display here: recording a simulated lesson (invented data) without a window, about 15 s.")
    record = [
        galvanote,
        "record",
        "--source",
        "cell:demo?speed=120",
        "--bench",
        str(BENCH),
        "--out",
        str(out),
    ]
    status = subprocess.call([*record, *arguments], stdin=subprocess.DEVNULL)
    if status != 0:
        return status
    status = subprocess.call([galvanote, "analyse", str(out)])
    if status != 0:
        return status
    check_qt(QT_LIBRARIES)
    return subprocess.call([galvanote, "export", str(out), "--to", str(out.with_suffix(".png"))])


def say(text):
    """Tell the person at the terminal."""
    print(text, file=sys.stderr, flush=True)


def refuse(text, packages=""):
    """Tell why it cannot be done, and which packages help; return the exit status for that."""
    say(text)
    if packages:
        say(f"On Debian or Ubuntu: sudo apt install {packages}")
    return 1


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except KeyboardInterrupt:
        sys.exit(130)
