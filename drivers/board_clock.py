"""From a board's own clock to the run's clock.

A line is read at its board time plus a latency that is never negative and now and then large (USB polling,
a busy computer). So the mapping is the lower envelope of (arrival - board time) against board time, not a
least-squares line, which stalls would tilt: the edge of the lower convex hull that spans the middle of the
window. It carries the smallest latency as a constant, which nothing on this side can tell.

Delivered times never decrease. Within a segment by construction: when a new fit shifts the mapping, the
shift is let out evenly over at least `_BLEND_S` seconds and never faster than one part in twenty, so that
the mapping stays a rising function of board time; a line is never later than its arrival, which rises too.
Where lines fall out of that (damaged ones, a restart), the last delivered time is the floor.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

__all__ = ["BoardClock", "BoardStamp", "decide_tick_s", "lower_envelope"]

_WRAP = 1 << 32
_TICKS_S = {"ms": 1e-3, "us": 1e-6}
_TICK_TOLERANCE = 0.2
_REFIT_S = 10.0
_WINDOW_S = 600.0
_BIN_S = 0.1  # of each such stretch only the earliest arrival can touch the envelope
_LOOK_BACK_S = 1.0
_BLEND_S = 10.0
_BLEND_SLOPE = 0.05
_BLEND_UNCERTAIN_S = 0.01
_EARLY_S = 0.05  # no arrival can be earlier than the mapping by more, unless the time is damaged
_EARLY_SLOPE = 0.01
_EARLY_AT_FIRST_S = 1.0  # the first line may itself have been late
_SKEW_LIMIT = 0.01
_SKEW_SURE_S = 30.0


@dataclass(frozen=True, slots=True)
class BoardStamp:
    """When a line was read at the board.

    `time_s` in run seconds; `ticks` the board's counter, unwrapped, or None when it makes no sense;
    `is_uncertain` while the mapping is provisional or moving; `is_damaged` when the line's own time does
    not fit those around it (then `time_s` is the arrival).
    """

    time_s: float
    ticks: int | None
    is_uncertain: bool = False
    is_damaged: bool = False


def lower_envelope(x: NDArray[np.float64], y: NDArray[np.float64]) -> tuple[float, float]:
    """Return intercept and slope of the lower convex hull's edge that spans the middle of `x`.

    Parameters
    ----------
    x : float64, shape (n,), n >= 1, never decreasing.
    y : float64, shape (n,).

    Andrew's monotone chain (A. M. Andrew, Inf. Process. Lett. 9 (1979) 216). One point, or points of one
    `x`, give slope 0 at the lowest.
    """
    hull: list[tuple[float, float]] = []
    for point in zip(x.tolist(), y.tolist(), strict=True):
        while len(hull) > 1 and _turn(hull[-2], hull[-1], point) <= 0:
            hull.pop()
        if len(hull) == 1 and hull[0][0] == point[0]:
            hull[0] = min(hull[0], point)
        else:
            hull.append(point)
    if len(hull) == 1:
        return hull[0][1], 0.0
    middle = (hull[0][0] + hull[-1][0]) / 2
    right = next(place for place in range(1, len(hull)) if hull[place][0] >= middle)
    (x0, y0), (x1, y1) = hull[right - 1], hull[right]
    slope = (y1 - y0) / (x1 - x0) if x1 > x0 else 0.0
    return y0 - slope * x0, slope


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def decide_tick_s(ticks: Sequence[int], arrivals_s: Sequence[float], unit: str = "") -> float | None:
    """Return the length of one tick in seconds, or None if the column is no clock of that kind.

    The usual step of the counter must be within 20 % of the usual step of the arrivals, for milliseconds or
    for microseconds; `unit` (``ms``, ``us``), where a name tells it, leaves only that one.
    """
    steps = np.diff(np.asarray(ticks, dtype=np.float64)) % _WRAP
    rising = steps < _WRAP / 2
    if steps.size == 0 or rising.mean() < 0.9:
        return None
    step, host_step_s = float(np.median(steps[rising])), (arrivals_s[-1] - arrivals_s[0]) / steps.size
    for name, tick_s in _TICKS_S.items():
        if unit in ("", name) and abs(step * tick_s - host_step_s) <= _TICK_TOLERANCE * host_step_s:
            return tick_s
    return None


class BoardClock:
    """Maps the counter of one board to run time, line by line; starts anew when the board restarts.

    Parameters
    ----------
    tick_s : seconds of one tick. The counter is taken modulo 2**32.
    """

    def __init__(self, tick_s: float) -> None:
        self.segments = 0
        self._tick_s = tick_s
        self._segment: _Segment | None = None
        self._odd: tuple[int, float] | None = None
        self._last_s = -math.inf

    @property
    def skew(self) -> float:
        """Run seconds per board second, minus 1, by the last fit."""
        return self._segment.slope if self._segment is not None else 0.0

    @property
    def offset_s(self) -> float:
        """Run time at which the present segment's counter showed 0, by the last fit."""
        return self._segment.offset_s if self._segment is not None else 0.0

    @property
    def is_fitted(self) -> bool:
        """Whether the mapping is more than provisional."""
        return self._segment is not None and self._segment.fitted_s > 0

    @property
    def has_wrong_rate(self) -> bool:
        """Whether the board's seconds differ from ours by more than 1 %: the unit or the rate is wrong."""
        segment = self._segment
        return segment is not None and segment.fitted_s >= _SKEW_SURE_S and abs(segment.slope) > _SKEW_LIMIT

    def stamp(self, ticks: int, arrival_s: float) -> BoardStamp:
        """Return the run time of a line that says `ticks` and arrived at `arrival_s` (run seconds).

        Arrivals must not decrease from call to call; then neither do the returned times.
        """
        stamp = self._stamp(ticks, arrival_s)
        self._last_s = max(self._last_s, stamp.time_s)
        return replace(stamp, time_s=self._last_s)

    def _stamp(self, ticks: int, arrival_s: float) -> BoardStamp:
        segment = self._segment
        if segment is None or segment.is_too_old(arrival_s):
            segment = self._begin(ticks, arrival_s)
        elif not segment.fits(ticks, arrival_s):
            if self._odd is None or not self._follows(ticks, arrival_s, *self._odd):
                self._odd = ticks, arrival_s
                return BoardStamp(arrival_s, None, is_uncertain=True, is_damaged=True)
            segment = self._begin(*self._odd)
        self._odd = None
        return segment.add(ticks, arrival_s)

    def _begin(self, ticks: int, arrival_s: float) -> _Segment:
        self.segments += 1
        self._segment = _Segment(self._tick_s, ticks, arrival_s)
        return self._segment

    def _follows(self, ticks: int, arrival_s: float, odd_ticks: int, odd_arrival_s: float) -> bool:
        """Whether a line goes on from an odd one before it, as after a restart of the board."""
        step_s = (ticks - odd_ticks) % _WRAP * self._tick_s
        host_step_s = arrival_s - odd_arrival_s
        return abs(step_s - host_step_s) <= max(0.5, _TICK_TOLERANCE * host_step_s)


class _Segment:
    """The mapping from one start of the board to the next.

    Board seconds are counted from the segment's first line; host = intercept + (1 + slope) * board, plus
    what is left of the last shift.
    """

    def __init__(self, tick_s: float, ticks: int, arrival_s: float) -> None:
        self.slope = 0.0
        self.fitted_s = 0.0
        self._tick_s = tick_s
        self._first = self._total = self._ticks = ticks
        self._arrival_s = arrival_s
        self._intercept_s = arrival_s
        self._points: deque[tuple[float, float]] = deque()  # board seconds, arrival - board seconds
        self._shift_s, self._shift_at_s, self._shift_over_s = 0.0, 0.0, _BLEND_S

    @property
    def offset_s(self) -> float:
        return self._intercept_s - self._first * self._tick_s * (1 + self.slope)

    def is_too_old(self, arrival_s: float) -> bool:
        """Whether so long nothing came that the counter may have wrapped unseen."""
        return arrival_s - self._arrival_s > _WRAP * self._tick_s / 2

    def fits(self, ticks: int, arrival_s: float) -> bool:
        """Whether the counter has gone on from the last line, and not beyond the present."""
        step = (ticks - self._ticks) % _WRAP
        if step >= _WRAP // 2:
            return False
        board_s = self._board_s(self._total + step)
        mapped_s = self._intercept_s + board_s * (1.0 + self.slope)
        tolerance_s = (
            _EARLY_S + _EARLY_SLOPE * (board_s - self.fitted_s) if self.fitted_s else _EARLY_AT_FIRST_S
        )
        return arrival_s - mapped_s >= -tolerance_s

    def add(self, ticks: int, arrival_s: float) -> BoardStamp:
        """Take a line that fits and return its time."""
        self._total += (ticks - self._ticks) % _WRAP
        self._ticks, self._arrival_s = ticks, arrival_s
        board_s = self._board_s(self._total)
        self._remember(board_s, arrival_s - board_s)
        if not self.fitted_s and arrival_s - board_s < self._intercept_s:
            self._move(board_s, arrival_s - board_s, 0.0)
        if board_s - self.fitted_s >= _REFIT_S and not self._catches_up(board_s, arrival_s - board_s):
            points = np.array(self._points)
            self._move(board_s, *lower_envelope(points[:, 0], points[:, 1]))
            self.fitted_s = board_s
        is_moving = abs(self._left_of_shift_s(board_s)) > _BLEND_UNCERTAIN_S
        return BoardStamp(
            time_s=min(self._host_s(board_s), arrival_s),
            ticks=self._total,
            is_uncertain=not self.fitted_s or is_moving,
        )

    def _catches_up(self, board_s: float, lateness_s: float) -> bool:
        """Whether lines come that have waited, less than half a second for each second of the board.

        They do after the program stood still. The envelope would end at one that is still late, and take
        what is left of the wait for the rate of the clock.
        """
        for earlier_s, earlier_lateness_s in reversed(self._points):
            if board_s - earlier_s >= _LOOK_BACK_S:
                return earlier_lateness_s - lateness_s > 0.5 * (board_s - earlier_s)
        return False

    def _board_s(self, total: int) -> float:
        return (total - self._first) * self._tick_s

    def _host_s(self, board_s: float) -> float:
        return self._intercept_s + board_s * (1.0 + self.slope) + self._left_of_shift_s(board_s)

    def _left_of_shift_s(self, board_s: float) -> float:
        return self._shift_s * max(0.0, 1.0 - (board_s - self._shift_at_s) / self._shift_over_s)

    def _remember(self, board_s: float, lateness_s: float) -> None:
        if self._points and math.floor(self._points[-1][0] / _BIN_S) == math.floor(board_s / _BIN_S):
            if lateness_s < self._points[-1][1]:
                self._points[-1] = (board_s, lateness_s)
        else:
            self._points.append((board_s, lateness_s))
        while board_s - self._points[0][0] > _WINDOW_S:
            self._points.popleft()

    def _move(self, board_s: float, intercept_s: float, slope: float) -> None:
        """Take a new mapping, beginning at the time that the old one gives for now."""
        before_s = self._host_s(board_s)
        self._shift_s = 0.0
        self._intercept_s, self.slope = intercept_s, slope
        self._shift_s = before_s - self._host_s(board_s)
        self._shift_at_s = board_s
        self._shift_over_s = max(_BLEND_S, abs(self._shift_s) / _BLEND_SLOPE)
