"""When the chart draws what comes by itself: as soon as can be, and never more than a share of a core."""

from __future__ import annotations

import math
import time
from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import QObject, Qt, QTimer, Signal

__all__ = ["Pace"]

REST_SHARE = 1.5
"""Between two pictures of a run that goes on the chart rests for so many times as long as one takes:
following never takes more than two fifths of a core."""

SHORTEST_REST_S = 0.004

WEIGHT = 0.25
"""Of the last picture in what a picture takes: some systems count the time of a thread in steps of 16 ms."""


class Pace(QObject):
    """Says when the next picture is due, by the processor time that the last ones took.

    Not by the time that passed: on a busy computer most of it is taken by others, and resting longer for them
    would only show fewer pictures.

    Attributes
    ----------
    due : emitted with nothing when a picture may be drawn.
    """

    due = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._took_s: dict[str, float] = {}
        self._last_s = 0.0
        self._end_of_rest = QTimer(self)
        self._end_of_rest.setTimerType(Qt.TimerType.PreciseTimer)
        self._end_of_rest.setSingleShot(True)
        self._end_of_rest.timeout.connect(self.due)

    @property
    def rest_s(self) -> float:
        """Host seconds for which what comes by itself is to wait, because a picture was drawn so lately."""
        rest_s = max(REST_SHARE * sum(self._took_s.values()), SHORTEST_REST_S)
        return max(0.0, self._last_s + rest_s - time.monotonic())

    def ask(self) -> None:
        """Ask for a picture: it is due now, or once the rest is over."""
        rest_s = self.rest_s
        if rest_s == 0:
            self._end_of_rest.stop()
            self.due.emit()
        elif not self._end_of_rest.isActive():
            self._end_of_rest.start(math.ceil(1000 * rest_s))

    @contextmanager
    def work(self, name: str) -> Iterator[None]:
        """Note how long a part of the work on a picture takes; a picture is one part of each name."""
        begin_s = time.thread_time()
        try:
            yield
        finally:
            took_s = time.thread_time() - begin_s
            known_s = self._took_s.get(name, took_s)
            self._took_s[name] = known_s + WEIGHT * (took_s - known_s)
            self._last_s = time.monotonic()
