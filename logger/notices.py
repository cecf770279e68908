"""What a run has to tell the person at the bench. Knows no screen; shown by whoever listens."""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass

__all__ = ["LEVELS", "Notices", "RunNotice"]

LEVELS = ("info", "warning", "danger")
KEPT = 200


@dataclass(frozen=True, slots=True)
class RunNotice:
    """One message: run time in seconds, level (info, warning, danger), a stable code, and the text.

    `source` is the address of the source that it is about, empty where it is about the run; `channel` the one
    of its channels that it is about, empty where it is about all of them.
    """

    time_s: float
    level: str
    code: str
    text: str
    source: str = ""
    channel: str = ""


class Notices:
    """The latest messages of a run, newest last. Any thread may add and read.

    Parameters
    ----------
    now_s : returns the run time in seconds.
    """

    def __init__(self, now_s: Callable[[], float]) -> None:
        self._now_s = now_s
        self._lock = threading.Lock()
        self._kept: deque[RunNotice] = deque(maxlen=KEPT)
        self.added = 0

    def add(self, level: str, code: str, text: str, source: str = "", channel: str = "") -> None:
        """Add a message at the present run time; see `RunNotice`."""
        notice = RunNotice(self._now_s(), level, code, text, source, channel)
        with self._lock:
            self._kept.append(notice)
            self.added += 1

    def after(self, count: int) -> tuple[RunNotice, ...]:
        """Return the messages added since `added` was `count` (those still kept), oldest first."""
        with self._lock:
            new = min(self.added - count, len(self._kept))
            return tuple(self._kept)[len(self._kept) - new :]

    def all(self) -> tuple[RunNotice, ...]:
        """Return the kept messages, oldest first."""
        with self._lock:
            return tuple(self._kept)
