"""The bounded queue between the feeds and the recorder."""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from drivers.samples import Samples
from logger.errors import LoggerError
from logger.heartbeat import Heartbeat
from logger.journal import FrameType
from logger.moments import Moment

__all__ = ["Entry", "Intake"]

SAMPLE_LIMIT = 4_000_000
"""Samples that may wait, 68 MB: 40 s of the fastest source while a disk stalls."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing to be recorded: samples of the channel with number `index`, or what one other frame holds."""

    type: FrameType
    index: int = -1
    samples: Samples | None = None
    content: Mapping[str, Any] | None = None


class Intake:
    """What has been read and not yet taken by the recorder. Any thread may put; one thread takes.

    Samples are refused once `SAMPLE_LIMIT` of them wait. Moments and the rest are few and never refused.
    """

    def __init__(self) -> None:
        self._changed = threading.Condition()
        self._entries: deque[Entry] = deque()
        self._waiting = 0
        self._closed = False
        self.taking = Heartbeat()
        """Beaten whenever the recorder asks for more."""

    @property
    def waiting(self) -> int:
        """Samples that wait."""
        return self._waiting

    @property
    def is_empty(self) -> bool:
        """Nothing waits."""
        return not self._entries

    def put_samples(self, index: int, samples: Samples) -> bool:
        """Put a block; False when there is no room for it: then it is not recorded.

        What a source still delivers once the run has ended does not belong to it, and is not lost from it.
        """
        with self._changed:
            if self._closed:
                return True
            if self._waiting + len(samples) > SAMPLE_LIMIT:
                return False
            self._waiting += len(samples)
            self._entries.append(Entry(FrameType.SAMPLES, index, samples))
            self._changed.notify()
            return True

    def put_moment(self, moment: Moment) -> None:
        """Put one revision of a moment."""
        self.put(FrameType.MOMENT, moment.as_dict())

    def put(self, kind: FrameType, content: Mapping[str, Any]) -> None:
        """Put what a frame other than SAMPLES is to hold."""
        with self._changed:
            if self._closed:
                raise LoggerError("the run has ended; change the moment in its recording")
            self._entries.append(Entry(kind, content=content))
            self._changed.notify()

    def take(self, timeout_s: float) -> list[Entry]:
        """Return everything that waits, oldest first, waiting up to `timeout_s` for the first of it."""
        self.taking.beat()
        with self._changed:
            self._changed.wait_for(lambda: self._entries or self._closed, timeout_s)
            taken = list(self._entries)
            self._entries.clear()
            self._waiting = 0
        self.taking.beat()
        return taken

    def close(self) -> None:
        """Say that nothing more will be put; wakes the taker."""
        with self._changed:
            self._closed = True
            self._changed.notify_all()
