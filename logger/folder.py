"""Where recordings go when the user names no file."""

from __future__ import annotations

import sys
from datetime import datetime
from pathlib import Path

from logger.errors import LoggerError
from logger.portable_name import refuse_what_windows_refuses

__all__ = ["default_folder", "folder_words", "new_recording_path", "resolve_output"]


def default_folder() -> Path:
    """Return the folder for new recordings: ``recordings/`` of a checkout, else ``Documents/Galvanote``."""
    checkout = Path(__file__).resolve().parent.parent
    if (checkout / "pyproject.toml").is_file() and (checkout / "recordings").is_dir():
        return checkout / "recordings"
    return Path.home() / "Documents" / "Galvanote"


def folder_words(folder: Path) -> str:
    """Return the folder as people call it: below their home from ``~`` on, where that is the custom."""
    home = Path.home()
    if sys.platform != "win32" and folder.is_relative_to(home) and folder != home:
        return f"~/{folder.relative_to(home)}"
    return str(folder)


def new_recording_path(folder: Path | None = None) -> Path:
    """Return a name that is not taken for a run that begins now; makes the default folder if needed.

    Raises
    ------
    LoggerError : the folder cannot be made.
    """
    folder = folder or default_folder()
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise LoggerError(
            f"the folder {folder} cannot be made ({error.strerror}); name a file with --out"
        ) from error
    stem = datetime.now().strftime("run %Y-%m-%d %H.%M.%S")
    number = 1
    while True:
        name = stem if number == 1 else f"{stem} ({number})"
        path = folder / f"{name}.h5"
        if not any((folder / f"{name}.h5{suffix}").exists() for suffix in ("", ".journal")):
            return path
        number += 1


def resolve_output(path: Path | None) -> Path:
    """Return the recording to make: `path`, checked, or a new name in the default folder.

    Raises
    ------
    LoggerError : the name cannot be a recording's, or its folder is not there.
    """
    if path is None:
        return new_recording_path()
    if path.is_dir():
        raise LoggerError(f"{path} is a folder; name a file in it")
    if path.suffix != ".h5":
        raise LoggerError(f"{path}: a recording's name ends in .h5; write --out {path.name}.h5")
    if not path.absolute().parent.is_dir():
        raise LoggerError(f"the folder {path.absolute().parent} is not there; make it first")
    refuse_what_windows_refuses(path)
    return path
