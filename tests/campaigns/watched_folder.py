"""Noticing that anything in a folder was so much as opened: the kernel's own word for it. Linux only."""

from __future__ import annotations

import ctypes
import os
from pathlib import Path

__all__ = ["WatchedFolder"]

ALL_EVENTS = 0xFFF  # IN_ALL_EVENTS of <sys/inotify.h>


class WatchedFolder:
    """Tells whether a folder, or a file in it, was opened, read, changed, made or removed."""

    def __init__(self, folder: Path) -> None:
        library = ctypes.CDLL(None, use_errno=True)
        self._fd = library.inotify_init1(os.O_NONBLOCK | os.O_CLOEXEC)
        if self._fd < 0 or library.inotify_add_watch(self._fd, os.fsencode(folder), ALL_EVENTS) < 0:
            raise OSError(ctypes.get_errno(), os.strerror(ctypes.get_errno()), str(folder))

    def touched(self) -> bool:
        """Tell whether anything happened since this was asked last."""
        try:
            return bool(os.read(self._fd, 1 << 16))
        except BlockingIOError:
            return False

    def close(self) -> None:
        os.close(self._fd)
