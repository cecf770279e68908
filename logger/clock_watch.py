"""Sees that the computer slept, or that somebody set its clock, while a run goes on.

Neither changes the times of a run: they come from a steady clock. But both belong into the record, so
the recorder writes a new anchor (run time and UTC) whenever one is seen. A change of daylight-saving time
moves neither clock: anchors are in UTC.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass

from drivers.run_clock import steady_s

__all__ = ["ClockEvent", "ClockWatch"]

TOLERANCE_S = 2.0
"""A smaller difference is a busy computer or a clock being trimmed."""


@dataclass(frozen=True, slots=True)
class ClockEvent:
    """What was seen: code ``slept`` or ``clock_set``, by how many seconds, and the words."""

    code: str
    seconds: float
    text: str


class ClockWatch:
    """Compares three clocks between one look and the next. Used by one thread.

    Parameters
    ----------
    steady, awake, wall : return seconds of the clock that goes on in a sleep, the one that stands still
        in a sleep (where the system has one), and the one that people set. Faked in tests.
    """

    def __init__(
        self,
        steady: Callable[[], float] = steady_s,
        awake: Callable[[], float] = time.monotonic,
        wall: Callable[[], float] = time.time,
    ) -> None:
        self._clocks = (steady, awake, wall)
        self._last = tuple(clock() for clock in self._clocks)

    def look(self) -> list[ClockEvent]:
        """Return what has happened since the last look; usually nothing."""
        now = tuple(clock() for clock in self._clocks)
        steady, awake, wall = (b - a for a, b in zip(self._last, now, strict=True))
        self._last = now
        events = []
        if steady - awake > TOLERANCE_S:
            events.append(
                ClockEvent(
                    "slept",
                    steady - awake,
                    f"The computer slept for {steady - awake:.0f} s; nothing was measured meanwhile. "
                    "Switch off sleep while recording.",
                )
            )
        if abs(wall - steady) > TOLERANCE_S:
            way = "forward" if wall > steady else "back"
            events.append(
                ClockEvent(
                    "clock_set",
                    wall - steady,
                    f"The computer's clock was set {way} by {abs(wall - steady):.0f} s. "
                    "The times of the run are not affected.",
                )
            )
        return events
