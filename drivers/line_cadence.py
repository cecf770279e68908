"""Which readings of a board are missing, by its own clock and its usual rhythm. Pure.

A line that was lost or damaged leaves no trace but a longer step of the board's counter. That is proof only
where the board prints in a steady rhythm: the usual step is the median of the last ones, most of them are
near it, and a longer step is a multiple of it, or so long that no hesitation explains it. The rhythm also has
to go on afterwards; a board that was set to another pace has lost nothing. Where the counter is too coarse
for that, nothing is claimed.

The figures are common practice of this project; no source.
"""

from __future__ import annotations

from collections import deque
from typing import NamedTuple

__all__ = ["LineCadence", "MissingReadings"]

_REMEMBERED = 31
_ENOUGH = 15
_NEAR = 0.25  # of the usual step
_STEADY_SHARE = 0.75
_FINEST_STEP_TICKS = 4  # below it, one tick is more than _NEAR
_CERTAIN_STEPS = 4  # a step of so many is no hesitation
_MOST_WAITING = 3
_LOOK_AGAIN = 8


class MissingReadings(NamedTuple):
    """From the last reading before to the first one after (run seconds).

    `readings` are missing, 0 at a restart; of so many, `empty`, the lines came without a value.
    """

    begin_s: float
    end_s: float
    readings: int
    empty: int = 0


class LineCadence:
    """Follows the readings of one column, in the order of their lines."""

    def __init__(self) -> None:
        self._steps: deque[int] = deque(maxlen=_REMEMBERED)
        self._usual = 0  # ticks from line to line; 0 while there is no steady rhythm
        self._since_look = 0
        self._waiting: list[MissingReadings] = []
        self._ticks: int | None = None
        self._time_s = 0.0
        self._segment = 0
        self._odd_s: float | None = None

    def begin_again(self) -> None:
        """Go on after the line was opened again: nothing is known of what lies between, but the rhythm is."""
        self._waiting.clear()
        self._ticks, self._odd_s, self._segment = None, None, 0

    @property
    def is_steady(self) -> bool:
        """Whether the board prints in a rhythm that its counter resolves."""
        return self._usual > 0

    def follow(
        self, time_s: float, ticks: int | None, segment: int, *, empty: int = 0
    ) -> list[MissingReadings]:
        """Take the next reading and return what is now known to be missing before it.

        Parameters
        ----------
        time_s : when it was true (run seconds).
        ticks : the board's counter, unwrapped; None where its line says none that makes sense.
        segment : counts the starts of the board.
        empty : lines without a value that came since the last reading.
        """
        if ticks is None:
            self._odd_s = time_s if self._odd_s is None else self._odd_s
            return []
        if self._segment and segment != self._segment:
            found = self._restarted(time_s)
        elif self._odd_s is None and self._ticks is not None:
            found = self._stepped(ticks - self._ticks, time_s, empty)
        else:
            found = []  # what lies between has a reading without a time of the board
        self._ticks, self._time_s, self._segment, self._odd_s = ticks, time_s, segment, None
        return found

    def _restarted(self, time_s: float) -> list[MissingReadings]:
        """Begin anew; what the board did not measure while it started is missing."""
        begin_s, end_s = self._time_s, time_s if self._odd_s is None else self._odd_s
        is_steady = self._usual > 0
        self._steps.clear()
        self._waiting.clear()
        self._usual = self._since_look = 0
        return [MissingReadings(begin_s, end_s, 0)] if is_steady and end_s > begin_s else []

    def _stepped(self, step: int, time_s: float, empty: int) -> list[MissingReadings]:
        if not step:  # one line twice
            return []
        self._steps.append(step)
        self._since_look += 1
        usual = self._usual
        if usual and abs(step - usual) <= _NEAR * usual:
            found, self._waiting = self._waiting, []
            if self._since_look >= _LOOK_AGAIN:
                self._usual = self._usual_step()
            return found
        count = _lost_between(step, usual) if usual else 0
        if count:
            self._waiting.append(MissingReadings(self._time_s, time_s, count, empty))
            if len(self._waiting) > _MOST_WAITING:  # it is another pace
                self._steps.clear()
        self._usual = self._usual_step()
        if not self._usual:
            self._waiting.clear()
        return []

    def _usual_step(self) -> int:
        """Return the median step, 0 where the last ones show no steady rhythm."""
        self._since_look = 0
        if len(self._steps) < _ENOUGH:
            return 0
        usual = sorted(self._steps)[len(self._steps) // 2]
        near = sum(abs(step - usual) <= _NEAR * usual for step in self._steps)
        is_steady = usual >= _FINEST_STEP_TICKS and near >= _STEADY_SHARE * len(self._steps)
        return usual if is_steady else 0


def _lost_between(step: int, usual: int) -> int:
    """Return how many lines are missing within a step, 0 if it may be a hesitation."""
    steps = round(step / usual)
    is_multiple = abs(step - steps * usual) <= _NEAR * usual
    return steps - 1 if steps >= _CERTAIN_STEPS or (steps >= 2 and is_multiple) else 0
