"""When the window draws: regularly, and at once when something has come."""

from __future__ import annotations

import math
import time

from PySide6.QtCore import QObject, Qt, QTimer, Signal

__all__ = ["FrameClock"]

REGULAR_MS = 15
"""Less than a sixtieth of a second: on a busy computer one tick in ten may come too late to count."""

SHORTEST_S = 0.006
"""Rings that come faster than this are gathered for so long: the window has other things to do."""


class FrameClock(QObject):
    """Ticks on its own thread every `REGULAR_MS`, and right after `ring`, which any thread may call.

    Attributes
    ----------
    ticked : emitted with nothing for each frame.
    """

    ticked = Signal()
    _rung = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._ticked_s = 0.0
        self._is_rung = False
        self._rung.connect(self._answer, Qt.ConnectionType.QueuedConnection)
        self._timer = QTimer(self)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._tick)
        self._timer.start(REGULAR_MS)
        self._soon = QTimer(self)
        self._soon.setTimerType(Qt.TimerType.PreciseTimer)
        self._soon.setSingleShot(True)
        self._soon.timeout.connect(self._tick)

    def ring(self) -> None:
        """Ask for a frame as soon as can be; many rings in a row are one."""
        if not self._is_rung:
            self._is_rung = True
            self._rung.emit()

    def stop(self) -> None:
        """Tick no more."""
        self._timer.stop()
        self._soon.stop()
        self._is_rung = True

    def _answer(self) -> None:
        if not self._timer.isActive():
            return
        self._is_rung = False
        since_s = time.monotonic() - self._ticked_s
        if since_s >= SHORTEST_S:
            self._tick()
        elif not self._soon.isActive():
            self._soon.start(math.ceil(1000 * (SHORTEST_S - since_s)))

    def _tick(self) -> None:
        self._soon.stop()
        self._ticked_s = time.monotonic()
        self.ticked.emit()
