"""The settling rule while a run goes on: has the voltage settled, and if not, how long still?"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from logger.analysis.drift import Drift, drift
from logger.analysis.plateau import FEWEST_SAMPLES, block_means
from logger.bench_tables import Settling

__all__ = [
    "LONGEST_WINDOW_S",
    "NOT_SPLITTING",
    "LiveDrift",
    "SettlingWatch",
    "Verdict",
    "VerdictWord",
]

LONGEST_WINDOW_S = 1200.0
WINDOW_RATIO = 1.12
MOST_SAMPLES = 300
LONGEST_GAP_SHARE = 0.10
TELLING_SHARE = 0.6
"""A window tells something of the drift when half of its interval is less than this part of the limit."""

LONGEST_FORECAST_S = 3600.0

SHORTEST_HOLD_S = 10.0
SPARED_HOLD_S = 50.0
EARLY_WINDOWS = 5.0
"""In the first five shortest windows of a stretch the hold is one of them less 50 s: in a lesson of 4 min
with large bubbles a longer one would leave no verdict. Later there is time, and there are more looks that may
pass by chance (tests/campaigns/settling.py has both kinds of error)."""

NOT_SPLITTING = "The cell is not splitting water at present."

VerdictWord = Literal["settled", "not_yet", "cannot_tell"]
FLOATS = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class LiveDrift:
    """The drift of the last `window_s` seconds, in volts a second, and whether it lies within the limit."""

    window_s: float
    drift: Drift
    is_within: bool
    times_s: FLOATS
    values_V: FLOATS

    @property
    def half_width(self) -> float:
        """Half of the 90 % interval."""
        low, high = self.drift.interval()
        return (high - low) / 2.0


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether the voltage has settled, why (not), and for how many seconds still; None: no telling."""

    word: VerdictWord
    reason: str
    seconds_needed: float | None = None


class SettlingWatch:
    """Applies the settling rule again and again to the end of one stretch of electrolysis.

    The rule is the one used after the fact, with a hold: some window of `window_s` or more must have its
    drift's whole 90 % interval within the limit at every look for as long as `hold_s` says. A single look
    would call every second slow ramp settled sooner or later.

    Parameters
    ----------
    settling : limit and shortest window, from the bench file.

    Not locked: the owner's lock guards it.
    """

    def __init__(self, settling: Settling) -> None:
        self._limit = settling.limit_mV_per_min / 60e3
        self._window_s = settling.window_s
        self._begin_s = -math.inf
        self._passing_since_s: float | None = None
        self.drift: LiveDrift | None = None
        self.latest: LiveDrift | None = None
        """The drift of the shortest window, whichever one `drift` is of."""
        self.verdict = Verdict("cannot_tell", "There are no readings yet.")

    @property
    def is_looking(self) -> bool:
        """Whether drift and verdict are of a stretch that goes on, as of the last look."""
        return math.isfinite(self._begin_s)

    @property
    def look_every_s(self) -> float:
        """How often to call `look`, in run seconds."""
        return min(max(5.0, self._window_s / 12.0), 30.0)

    def hold_s(self, length_s: float) -> float:
        """How long the drift must stay within the limit, in a stretch that has lasted `length_s` seconds."""
        if length_s > EARLY_WINDOWS * self._window_s:
            return self._window_s
        return min(self._window_s, max(SHORTEST_HOLD_S, self._window_s - SPARED_HOLD_S))

    @property
    def longest_s(self) -> float:
        """The longest window looked at."""
        return max(LONGEST_WINDOW_S, self._window_s)

    def begun(self, length_s: float) -> Verdict:
        """Return the verdict on a stretch that has lasted `length_s` seconds, fewer than can be judged."""
        needed_s = self._window_s + self.hold_s(self._window_s) - length_s
        return Verdict("not_yet", f"It takes {self._window_s:g} s of readings to tell.", needed_s)

    def look(self, times_s: FLOATS, values_V: FLOATS, begin_s: float, now_s: float) -> None:
        """Judge the present stretch.

        Parameters
        ----------
        times_s, values_V : its readings, shape (n,), at least the last `longest_s` seconds of them.
        begin_s : when the stretch began; a new beginning starts the hold anew.
        now_s : the present run time.
        """
        if begin_s != self._begin_s:
            self._begin_s, self._passing_since_s = begin_s, None
        length_s = float(times_s[-1] - begin_s) if times_s.size else 0.0
        if length_s < self._window_s or times_s.size < FEWEST_SAMPLES:
            self.drift = self.latest = None
            self._passing_since_s = None
            self.verdict = self._too_short(times_s, length_s)
            return
        self.drift = self._best(times_s, values_V, length_s)
        if self.drift is None:
            self._passing_since_s = None
            self.verdict = Verdict("cannot_tell", "Readings are missing or too rare in the last minutes.")
            return
        if not self.drift.is_within:
            self._passing_since_s = None
        elif self._passing_since_s is None:
            self._passing_since_s = now_s
        self.verdict = self._judged(self.drift, length_s, now_s)

    def stop(self, reason: str) -> None:
        """Say that nothing can be told at present (no electrolysis)."""
        self._begin_s, self._passing_since_s = -math.inf, None
        self.drift = self.latest = None
        self.verdict = Verdict("cannot_tell", reason)

    def _best(self, times_s: FLOATS, values_V: FLOATS, length_s: float) -> LiveDrift | None:
        """Return the first window that passes, or else the shortest that tells something, or the longest."""
        self.latest = None
        telling: LiveDrift | None = None
        longest: LiveDrift | None = None
        for window_s in self._windows(length_s):
            found = self._fit(times_s, values_V, window_s)
            if found is None:
                continue
            if window_s == self._window_s:
                self.latest = found
            if found.is_within:
                return found
            longest = found
            if telling is None and found.half_width <= TELLING_SHARE * self._limit:
                telling = found
            if found.half_width <= 0.5 * TELLING_SHARE * self._limit:
                break  # longer windows only reach further back
        return telling or longest

    def _windows(self, length_s: float) -> Iterator[float]:
        window_s = self._window_s
        while window_s <= min(length_s, self.longest_s) + 1e-9:
            yield window_s
            window_s *= WINDOW_RATIO

    def _fit(self, times_s: FLOATS, values_V: FLOATS, window_s: float) -> LiveDrift | None:
        first = int(np.searchsorted(times_s, times_s[-1] - window_s))
        times, volts = times_s[first:], values_V[first:]
        if times.size < FEWEST_SAMPLES or np.diff(times).max() > LONGEST_GAP_SHARE * window_s:
            return None
        block = -(-times.size // MOST_SAMPLES)
        lead = times.size % block
        fitted = drift(block_means(times[lead:], block), block_means(volts[lead:], block))
        return LiveDrift(window_s, fitted, fitted.is_within(self._limit), times, volts)

    def _too_short(self, times_s: FLOATS, length_s: float) -> Verdict:
        if times_s.size < FEWEST_SAMPLES and length_s >= self._window_s:
            return Verdict(
                "cannot_tell", f"The readings come too rarely: {FEWEST_SAMPLES} are needed in the window."
            )
        return self.begun(length_s)

    def _judged(self, present: LiveDrift, length_s: float, now_s: float) -> Verdict:
        if self._passing_since_s is not None:
            # Once called settled it stays so while it passes, though the hold has become longer.
            left_s = self.hold_s(length_s) - (now_s - self._passing_since_s)
            was_settled = self.verdict.word == "settled" and self._passing_since_s < now_s
            if left_s <= 0.0 or was_settled:
                return Verdict("settled", "The drift has stayed within the limit.", 0.0)
            return Verdict("not_yet", "The drift is within the limit and must stay there.", left_s)
        slope = abs(present.drift.slope)
        if slope - present.half_width >= self._limit:
            return Verdict("not_yet", "The voltage still drifts faster than the limit.")
        if slope >= self._limit:
            return Verdict("not_yet", "The voltage may still drift faster than the limit.")
        # The interval narrows with the length to the power 3/2 while the noise stays the same.
        longer = (present.half_width / (0.9 * (self._limit - slope))) ** (2.0 / 3.0)
        needed_s = max(0.0, present.window_s * longer - length_s) + self.hold_s(length_s)
        return Verdict(
            "not_yet",
            "The noise does not yet let the drift be told.",
            needed_s if needed_s <= LONGEST_FORECAST_S else None,
        )
