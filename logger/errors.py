"""What can go wrong on the logger floor, split by what a person can do about it."""

__all__ = ["BenchError", "LoggerError", "OutputExists", "RecordingBusy", "RecordingError"]


class LoggerError(Exception):
    """Base of everything the logger raises on purpose. The message is one clear line with the remedy."""


class BenchError(LoggerError, ValueError):
    """A bench file is malformed or holds an impossible value: file, line, reason, remedy."""


class RecordingError(LoggerError):
    """A file is missing, is no recording, or cannot be read as one."""


class RecordingBusy(RecordingError):
    """A recording is being written by another process at this moment."""


class OutputExists(LoggerError, FileExistsError):
    """The output exists and may not be overwritten without being asked for."""
