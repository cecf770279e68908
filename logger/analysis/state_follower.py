"""Recognising the state while readings come in, block by block, at a cost that does not grow."""

from __future__ import annotations

import math
import statistics
from collections import deque

import numpy as np
from numpy.typing import NDArray

from logger.analysis.charge import GAP_IN_MEDIAN_STEPS, SHORTEST_GAP_S
from logger.analysis.states import (
    STATES,
    StateInterval,
    StateThresholds,
    instant_states,
    is_brief,
    last_two_readable,
)

__all__ = ["StateFollower"]

MOST_INTERVALS = 2000
USUAL_STEPS = 101

NO_READING = STATES.index("no_reading")


class StateFollower:
    """The states of a run so far; the same rules as `recognise_states`.

    A state that must last is only believed once it has: until then the one before goes on.

    Parameters
    ----------
    thresholds : StateThresholds
        May be replaced later; what was recognised stays.
    """

    def __init__(self, thresholds: StateThresholds) -> None:
        self.thresholds = thresholds
        self._last_two = np.empty(0)
        self._carried = NO_READING
        self._done: list[tuple[int, float]] = []  # state and beginning of each believed stretch
        self._trial: tuple[int, float, int] | None = None  # state, beginning, samples
        self._last_s = math.nan
        self._recent_steps: deque[float] = deque(maxlen=USUAL_STEPS)

    def add(self, times_s: NDArray[np.float64], values: NDArray[np.float64]) -> NDArray[np.bool_]:
        """Take a block, shapes (n,), times never decreasing; tell for each reading whether it electrolyses.

        That answer is the instant one, without the rule of how long a state must last.
        """
        if times_s.size == 0:
            return np.zeros(0, dtype=np.bool_)
        codes, self._carried = instant_states(values, self.thresholds, self._carried, self._last_two)
        self._last_two = last_two_readable(self._last_two, values)
        steps = np.diff(times_s, prepend=times_s[0] if math.isnan(self._last_s) else self._last_s)
        limit_s = self._gap_limit_s(steps)
        breaks = np.flatnonzero((np.diff(codes, prepend=-1) != 0) | (steps > limit_s))
        ends = np.append(breaks[1:], codes.size)
        for first, end in zip(breaks.tolist(), ends.tolist(), strict=True):
            if steps[first] > limit_s:
                gap_begin_s = float(times_s[first] - steps[first])
                self._take(NO_READING, gap_begin_s, 3, float(times_s[first]))
            self._take(int(codes[first]), float(times_s[first]), end - first, float(times_s[end - 1]))
        self._last_s = float(times_s[-1])
        return np.asarray(codes == STATES.index("electrolysing"))

    @property
    def state(self) -> str:
        """The present state; ``no_reading`` before the first reading."""
        return STATES[self._done[-1][0]] if self._done else STATES[NO_READING]

    @property
    def since_s(self) -> float | None:
        """Run time at which the present state began, or None before the first reading."""
        return self._done[-1][1] if self._done else None

    @property
    def intervals(self) -> tuple[StateInterval, ...]:
        """All states so far; the oldest are forgotten after 2000 changes."""
        if not self._done:
            return ()
        begins = [begin_s for _, begin_s in self._done]
        ends = [*begins[1:], self._last_s]
        return tuple(
            StateInterval(STATES[state], begin_s, end_s)
            for (state, begin_s), end_s in zip(self._done, ends, strict=True)
        )

    def _gap_limit_s(self, steps: NDArray[np.float64]) -> float:
        """Return the interval that counts as a gap: five usual ones, at least 10 s."""
        self._recent_steps.extend(steps[-USUAL_STEPS:].tolist())
        return max(SHORTEST_GAP_S, GAP_IN_MEDIAN_STEPS * statistics.median(self._recent_steps))

    def _take(self, state: int, begin_s: float, samples: int, now_s: float) -> None:
        """Go on with a run of samples of one state, the last of them at `now_s`."""
        if self._trial is not None and self._trial[0] != state:
            self._believe(begin_s)  # its length is known only now
        if self._done and state == self._done[-1][0]:
            self._trial = None
            return
        if self._trial is not None and self._trial[0] == state:
            begin_s, samples = self._trial[1], self._trial[2] + samples
        self._trial = (state, begin_s, samples)
        self._believe(now_s)

    def _believe(self, now_s: float) -> None:
        """Make the stretch on trial the present one if it has lasted long enough at `now_s`."""
        if self._trial is None:
            return
        state, begin_s, samples = self._trial
        if not self._done or not is_brief(state, now_s - begin_s, samples):
            self._done.append((state, begin_s))
            self._trial = None
            del self._done[:-MOST_INTERVALS]
