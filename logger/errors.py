"""What can go wrong on the logger floor, split by what a person can do about it."""

from __future__ import annotations

from pathlib import Path

__all__ = ["BenchError", "LoggerError", "OutputExists", "RecordingBusy", "RecordingError", "RunAbandoned"]


class LoggerError(Exception):
    """Base of everything the logger raises on purpose. The message is one clear line with the remedy."""


class BenchError(LoggerError, ValueError):
    """A bench file is malformed or holds an impossible value: file, line, reason, remedy.

    `without_place` says the same where file and line mean nothing, as in a form.
    """

    def __init__(self, text: str, without_place: str = "") -> None:
        super().__init__(text)
        self.without_place = without_place or text


class RecordingError(LoggerError):
    """A file is missing, is no recording, or cannot be read as one."""


class RecordingBusy(RecordingError):
    """A recording is being written by another process at this moment."""


class OutputExists(LoggerError, FileExistsError):
    """The output exists and may not be overwritten without being asked for; `path` names it where known."""

    path: Path | None = None

    @classmethod
    def at(cls, path: Path) -> OutputExists:
        """Return the refusal to overwrite `path`, in words for the command line."""
        made = cls(f"{path} exists; choose another name, or add --replace")
        made.path = path
        return made


class RunAbandoned(LoggerError):
    """A run was given up, by who wanted it, while its instruments were being opened. No file was made."""
