"""What a row of frames tells that one frame alone does not: repeats, and readings unlike their neighbours.

Pure; every reading goes in once and comes out once, in order.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, replace
from statistics import median

from drivers.samples import Quality

__all__ = ["LoneOutliers", "RepeatWatch", "TimedReading"]

_REPEAT_SHARE = 0.6  # of the usual period: meters send each conversion twice in quick succession
_PERIODS = 51
_PERIODS_TO_TELL = 2
_JUMP_COUNTS = 20
_AGREE_COUNTS = 2
_HALF_COUNT = 0.5  # readings are whole counts; this keeps rounding out of it


@dataclass(frozen=True, slots=True)
class TimedReading:
    """A reading in volts, one count of its display, and when it was true (run seconds)."""

    time_s: float
    value_V: float
    step_V: float
    quality: Quality = Quality.GOOD


class RepeatWatch:
    """Tells the frames that bring the same conversion once more.

    A repeat is byte for byte the frame before it and comes after less than 60 % of the usual period, which
    is the median time from one conversion to the next. `came_early` says of the last frame that it was none
    and came as quickly all the same: it had waited somewhere on the way, and its time is not that of its
    arrival.
    """

    def __init__(self) -> None:
        self._periods_s: deque[float] = deque(maxlen=_PERIODS)
        self._raw = b""
        self._conversion_s: float | None = None
        self._frame_s = 0.0
        self.came_early = False

    @property
    def period_s(self) -> float | None:
        """The usual time between conversions, None while too few have come to tell."""
        return median(self._periods_s) if len(self._periods_s) >= _PERIODS_TO_TELL else None

    def is_repeat(self, raw: bytes, time_s: float) -> bool:
        """Take note of a frame and return whether it is a repeat of the one before."""
        period_s = self.period_s
        is_same = raw == self._raw and period_s is not None
        self.came_early = False
        if is_same and period_s is not None and time_s - self._frame_s < _REPEAT_SHARE * period_s:
            self._frame_s = time_s
            return True
        if self._conversion_s is not None:
            since_s = time_s - self._conversion_s
            self.came_early = period_s is not None and since_s < _REPEAT_SHARE * period_s
            self._periods_s.append(since_s)
        self._raw, self._conversion_s, self._frame_s = raw, time_s, time_s
        return False


class LoneOutliers:
    """Marks a lone reading that differs from both neighbours while they agree: `Quality.SUSPECT`.

    Neighbours agree within 2 counts; a reading that is marked is nobody's neighbour.
    No checksum tells a flipped bit in these frames, but a flipped bit comes alone. A reading that jumps by
    more than 20 counts therefore waits for the next one; all others pass at once.
    """

    def __init__(self) -> None:
        self._last: TimedReading | None = None
        self._held: TimedReading | None = None

    @property
    def held(self) -> TimedReading | None:
        """The reading that waits for its successor."""
        return self._held

    def feed(self, reading: TimedReading) -> list[TimedReading]:
        """Take the next reading and return those that are judged now."""
        judged = []
        if self._held is not None and self._last is not None:
            if _agree(self._last, reading) and _jump(reading, self._held):
                judged.append(replace(self._held, quality=self._held.quality | Quality.SUSPECT))
                self._held = None
            else:
                judged += self.flush()
        if self._last is not None and _jump(self._last, reading):
            self._held = reading
        else:
            judged.append(reading)
            self._last = reading
        return judged

    def flush(self) -> list[TimedReading]:
        """Return the reading that waits, unmarked, because its successor is not to be had."""
        held, self._held = self._held, None
        if held is None:
            return []
        self._last = held
        return [held]


def _jump(neighbour: TimedReading, reading: TimedReading) -> bool:
    """Whether `reading` is far from `neighbour`; an overload is far from every number."""
    is_same = reading.value_V == neighbour.value_V  # also where both are infinite
    limit_V = (_JUMP_COUNTS + _HALF_COUNT) * neighbour.step_V
    return not is_same and abs(reading.value_V - neighbour.value_V) > limit_V


def _agree(before: TimedReading, after: TimedReading) -> bool:
    if before.value_V == after.value_V:
        return True
    step_V = max(before.step_V, after.step_V)
    return abs(before.value_V - after.value_V) < (_AGREE_COUNTS + _HALF_COUNT) * step_V
