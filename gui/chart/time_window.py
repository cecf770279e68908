"""Which stretch of time the chart shows: following the run, or looking at a part of it. No Qt.

Every stretch begins on a whole column, so that a curve that moves while following does so by whole
columns and does not shimmer.
"""

from __future__ import annotations

import math

__all__ = ["TimeWindow"]

SHORTEST_S = 0.02
SAMPLES_IN_SHORTEST = 8.0
"""Nobody zooms in between two readings: so many of them stay in the picture."""

FIRST_LOOK_S = 30.0
GROWTH = 1.07
"""The whole run is shown up to the next of these steps beyond now, not rescaled with every sample."""

BEYOND_END = 1.025
"""A finished run is shown a little beyond its end, where the arrow of the saving stands."""

MARGIN = 0.03
"""Share of the picture left free before now while following."""


class TimeWindow:
    """The state behind the one visible control: *following* or not, and how much is shown.

    While following, the newest sample stays in the picture: the whole run, or a stretch of constant
    length that moves along. As soon as the user looks elsewhere it no longer follows, until told to.
    """

    def __init__(self, *, is_live: bool = True) -> None:
        self.is_following = True
        self._is_live = is_live
        self._span_s: float | None = None  # None: the whole run
        self._left_s = 0.0
        self._now_s = 0.0
        self._first_s = 0.0
        self._shortest_s = SHORTEST_S

    @property
    def shows_whole_run(self) -> bool:
        """Tell whether the whole run is shown, however long it gets."""
        return self._span_s is None and self.is_following

    def run_spans(self, first_s: float, now_s: float, *, is_live: bool, sample_every_s: float = 0.0) -> None:
        """Say how far the run reaches: from its first sample to now, whether it goes on, and how densely."""
        self._shortest_s = max(SHORTEST_S, SAMPLES_IN_SHORTEST * sample_every_s)
        self._first_s, self._now_s, self._is_live = min(first_s, 0.0), now_s, is_live

    def stretch(self, columns: int) -> tuple[float, float]:
        """Return the first and last second of the picture, for `columns` columns."""
        left_s, span_s = self._current()
        column_s = span_s / max(columns, 1)
        left_s = round(left_s / column_s) * column_s
        return left_s, left_s + span_s

    def follow(self) -> None:
        """Go back to the newest samples, keeping the length of the stretch unless it is the whole run."""
        self.is_following = True

    def whole_run(self) -> None:
        """Show the whole run and follow it."""
        self.is_following, self._span_s = True, None

    def toggle_following(self) -> None:
        """Follow when not following, stand still when following."""
        if self.is_following:
            self.stand_still()
        else:
            self.follow()

    def zoom(self, factor: float, at_s: float) -> None:
        """Show `factor` times as much time; `at_s` stays where it is (while following: the newest end)."""
        left_s, span_s = self._current()
        longest_s = self._whole_end_s() - self._first_s
        wanted_s = min(max(span_s * factor, self._shortest_s), longest_s)
        if wanted_s >= longest_s:
            self.whole_run()
            return
        if not (self.is_following and self._is_live):
            self.is_following = False
            self._left_s = self._kept_inside(at_s - (at_s - left_s) * wanted_s / span_s, wanted_s)
        self._span_s = wanted_s

    def move(self, by_s: float) -> None:
        """Look `by_s` seconds later (earlier when negative); ends following."""
        self.stand_still()
        assert self._span_s is not None
        self._left_s = self._kept_inside(self._left_s + by_s, self._span_s)

    def move_by_share(self, share: float) -> None:
        """Look later by a share of what is shown."""
        self.move(share * self._current()[1])

    def stand_still(self) -> None:
        """Follow no longer; show what is shown."""
        if self.is_following:
            self._left_s, self._span_s = self._current()
            self.is_following = False

    def _current(self) -> tuple[float, float]:
        if self._span_s is None:
            return self._first_s, self._whole_end_s() - self._first_s
        if self.is_following:
            return self._now_s + MARGIN * self._span_s - self._span_s, self._span_s
        return self._left_s, self._span_s

    def _whole_end_s(self) -> float:
        if not self._is_live:
            return self._first_s + max((self._now_s - self._first_s) * BEYOND_END, 1.0)
        if self._now_s <= FIRST_LOOK_S / 1.02:
            return FIRST_LOOK_S
        steps = math.ceil(math.log(self._now_s * 1.02 / FIRST_LOOK_S) / math.log(GROWTH))
        return FIRST_LOOK_S * GROWTH**steps

    def _kept_inside(self, left_s: float, span_s: float) -> float:
        """Some of the run always stays in the picture."""
        return min(max(left_s, self._first_s - 0.5 * span_s), self._now_s - 0.2 * span_s)
