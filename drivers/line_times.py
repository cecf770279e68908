"""When each line of a board was true: by the board's clock where it sends one, else by its arrival."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from drivers.board_clock import BoardClock, BoardStamp, decide_tick_s
from drivers.formats.text_columns import BoardTime

__all__ = ["LineTimes"]

_LINES_TO_DECIDE = 8
_SPAN_TO_DECIDE_S = 0.5  # shorter, and the jitter of arrivals hides the rate
_SPAN_TO_GIVE_UP_S = 30.0
_ARRIVAL_UNCERTAINTY_S = 0.016  # latency timer of common USB adapters (FTDI AN232B-04)
_ENVELOPE_UNCERTAINTY_S = (
    0.002  # least latency and fit, in the simulation of tests/drivers/test_board_clock.py
)


class LineTimes:
    """Stamps lines, one after another. Times never decrease.

    Until at least 8 lines over half a second have shown what the board's counter counts, arrivals are
    used and flagged as uncertain. Lines that can be held back until then (`prepare`) get better times.

    Parameters
    ----------
    not_before_s : floor of all times, run seconds: what was delivered before the link was opened again.
    """

    def __init__(self, not_before_s: float = -math.inf) -> None:
        self._last_s = not_before_s
        self._last_arrival_s = not_before_s
        self._undecided: list[tuple[int, float]] | None = []
        self._board: BoardClock | None = None
        self._tick_s = 0.0
        self._has_told_rate = False

    @property
    def last_s(self) -> float:
        """The last time that was given, run seconds."""
        return self._last_s

    @property
    def segment(self) -> int:
        """Counts the starts of the board; 0 while its clock is not known."""
        return self._board.segments if self._board is not None else 0

    @property
    def facts(self) -> Mapping[str, str | float]:
        """How times are made, for `Instrument.clock`."""
        if self._board is None:
            return {"method": "arrival", "uncertainty_s": _ARRIVAL_UNCERTAINTY_S}
        if not self._board.is_fitted:
            return {"method": "board-clock, provisional", "uncertainty_s": _ARRIVAL_UNCERTAINTY_S}
        return {
            "method": "board-clock, lower envelope",
            "uncertainty_s": max(_ENVELOPE_UNCERTAINTY_S, self._tick_s),
            "tick_s": self._tick_s,
            "skew_ppm": self._board.skew * 1e6,
            "offset_s": self._board.offset_s,
            "segments": float(self._board.segments),
        }

    def prepare(self, lines: Sequence[tuple[BoardTime | None, float]]) -> bool:
        """Look at lines (time, arrival) before any is stamped; return whether there is nothing to wait for.

        That is so once they show what the board counts, or that they carry no time.
        """
        if not lines or lines[-1][0] is None:
            return bool(lines)
        self._undecided = []
        for time, arrival_s in lines:
            if time is not None and self._undecided is not None:
                self._weigh(time, arrival_s, is_stamped=False)
        if self._board is None:
            self._undecided = []
        return self._board is not None

    def stamp(self, time: BoardTime | None, arrival_s: float) -> BoardStamp:
        """Return when a line was true that carries `time`, or None, and arrived at `arrival_s` (run time)."""
        self._last_arrival_s = arrival_s = max(arrival_s, self._last_arrival_s)
        if time is None:
            stamp = BoardStamp(arrival_s, None, is_uncertain=self._board is not None)
        elif self._board is not None:
            stamp = self._board.stamp(time.ticks, arrival_s)
        else:
            stamp = BoardStamp(arrival_s, None, is_uncertain=self._undecided is not None)
            self._weigh(time, arrival_s, is_stamped=True)
        self._last_s = max(self._last_s, stamp.time_s)
        return BoardStamp(self._last_s, stamp.ticks, stamp.is_uncertain, stamp.is_damaged)

    def complaint(self) -> str:
        """Say once that the board's clock is not what it should be; "" when there is nothing to say."""
        if self._board is not None and self._board.has_wrong_rate and not self._has_told_rate:
            self._has_told_rate = True
            return (
                f"The board's clock differs from the computer's by {100 * abs(self._board.skew):.1f} %. Its "
                "times are matched to the computer's; check the board's clock setting."
            )
        if self._undecided is not None and self._span_s() > _SPAN_TO_GIVE_UP_S:
            self._undecided = None
            return (
                "The board's first column counts neither milliseconds nor microseconds. Readings are timed "
                "by their arrival."
            )
        return ""

    def _weigh(self, time: BoardTime, arrival_s: float, *, is_stamped: bool) -> None:
        """Decide what the counter counts, once there is enough to tell; then hand over what was stamped."""
        if self._undecided is None:
            return
        self._undecided.append((time.ticks, arrival_s))
        if len(self._undecided) < _LINES_TO_DECIDE or self._span_s() < _SPAN_TO_DECIDE_S:
            return
        ticks, arrivals_s = zip(*self._undecided, strict=True)
        tick_s = decide_tick_s(ticks, arrivals_s, time.unit)
        if tick_s is None:
            return
        self._tick_s, self._board = tick_s, BoardClock(tick_s)
        for seen, arrived_s in self._undecided if is_stamped else ():
            self._board.stamp(seen, arrived_s)
        self._undecided = None

    def _span_s(self) -> float:
        return self._undecided[-1][1] - self._undecided[0][1] if self._undecided else 0.0
