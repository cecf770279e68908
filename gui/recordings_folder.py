"""The folder that the window records to: the usual one, or one that the user chose."""

from __future__ import annotations

import os
from pathlib import Path

from PySide6.QtCore import QSettings

from gui.words import translate
from logger.errors import LoggerError
from logger.folder import default_folder, new_recording_path

__all__ = [
    "FOLDER_KEY",
    "FolderClosed",
    "FolderMissing",
    "check_folder",
    "choose_recordings_folder",
    "new_recording",
    "recordings_folder",
    "user_settings",
]

FOLDER_KEY = "recordings_folder"


class FolderMissing(LoggerError):
    """The chosen folder is not there, for example on a stick that is unplugged.

    It is worded when it is shown: at the start it is met before the language of the window is loaded.
    """

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self.folder = folder

    def __str__(self) -> str:
        text = translate("Recordings folder", "{folder} is not there; choose another folder on the bench.")
        return text.format(folder=self.folder)


class FolderClosed(FolderMissing):
    """The chosen folder is there, but the user may not enter, read or write it."""

    def __str__(self) -> str:
        text = translate(
            "Recordings folder",
            "{folder} is there, but you may not read and write in it; have that allowed, or choose another "
            "folder on the bench.",
        )
        return text.format(folder=self.folder)


def check_folder(folder: Path) -> None:
    """Find out whether a run can go to `folder`; of a network disk that may take long.

    Raises
    ------
    FolderMissing : it is not there.
    FolderClosed : it is, or may be, but cannot be used.
    """
    try:
        is_there = folder.is_dir()
    except PermissionError as error:  # one above it cannot be entered
        raise FolderClosed(folder) from error
    if not is_there:
        raise FolderMissing(folder)
    if not os.access(folder, os.R_OK | os.W_OK | os.X_OK):
        raise FolderClosed(folder)


def user_settings() -> QSettings:
    """Return what the user chose earlier, in a file that support can read."""
    return QSettings(QSettings.Format.IniFormat, QSettings.Scope.UserScope, "Galvanote", "Galvanote")


def recordings_folder(settings: QSettings) -> Path:
    """Return the folder that the user chose, else the usual one; it need not be there."""
    chosen = str(settings.value(FOLDER_KEY, "") or "")
    return Path(chosen) if chosen else default_folder()


def choose_recordings_folder(settings: QSettings, folder: Path) -> None:
    """Remember where recordings are to go.

    Raises
    ------
    LoggerError : nothing can be written there.
    """
    if not folder.is_dir() or not os.access(folder, os.W_OK):
        text = translate("Recordings folder", "Nothing can be written to {folder}; choose another folder.")
        raise LoggerError(text.format(folder=folder))
    settings.setValue(FOLDER_KEY, str(folder))


def new_recording(settings: QSettings) -> Path:
    """Return a name that is not taken for a run that begins now.

    Raises
    ------
    FolderMissing : the chosen folder is not there, or cannot be used.
    LoggerError : the usual one cannot be made.
    """
    folder = recordings_folder(settings)
    if settings.value(FOLDER_KEY):
        check_folder(folder)
    return new_recording_path(folder)
