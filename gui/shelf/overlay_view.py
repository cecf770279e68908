"""Which stretch of time and which voltages an overlay of runs shows. No Qt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from logger.aligned_reading import AlignedRun
from logger.scale import Range, steady_range, voltages_to_show
from logger.trace import Trace, trace

__all__ = ["OverlayRun", "OverlayView"]

SHORTEST_S = 0.1
RIM = 0.1
"""Share of the picture that stays beside what was brought into view."""

EMPTY_V: Range = (0.0, 3.0)


@dataclass(frozen=True, slots=True, eq=False)
class OverlayRun(AlignedRun):
    """One run: its curve, its zero, its name, its place among the ticked ones (which gives its colour)."""

    name: str
    number: int


class OverlayView:
    """Several runs on one axis of time, which counts from each run's own zero."""

    def __init__(self) -> None:
        self.runs: tuple[OverlayRun, ...] = ()
        self._stretch: Range | None = None
        self._range_V = EMPTY_V

    def show(self, runs: Sequence[OverlayRun]) -> None:
        """Take the runs; what is looked at stays, within these runs, unless there are none."""
        self.runs = tuple(runs)
        if not runs:
            self._stretch, self._range_V = None, EMPTY_V
        if self._stretch is not None:
            left, right = self._stretch
            self._keep(left, right - left)

    @property
    def whole(self) -> Range:
        """First and last second of all runs."""
        ends = [extent_s for run in self.runs if (extent_s := run.extent_s) is not None]
        if not ends:
            return 0.0, 60.0
        first, last = min(one[0] for one in ends), max(one[1] for one in ends)
        return first, max(last, first + SHORTEST_S)

    @property
    def stretch(self) -> Range:
        """What is looked at."""
        return self._stretch or self.whole

    def show_whole(self) -> None:
        """Look at all of it."""
        self._stretch = None

    def zoom(self, factor: float, share: float) -> None:
        """Show `factor` times as much time; what lies at `share` of the width stays there."""
        left, right = self.stretch
        first, last = self.whole
        span = min(max((right - left) * factor, SHORTEST_S), last - first)
        at = left + share * (right - left)
        self._keep(at - share * span, span)

    def move(self, share: float) -> None:
        """Look later by a share of what is shown."""
        left, right = self.stretch
        self._keep(left + share * (right - left), right - left)

    def bring_into_view(self, time_s: float) -> None:
        """Look where that time is, a little inside the picture."""
        left, right = self.stretch
        rim = RIM * (right - left)
        if time_s < left:
            self._keep(time_s - rim, right - left)
        elif time_s > right:
            self._keep(time_s + rim - (right - left), right - left)

    def traces(self, columns: int) -> tuple[tuple[Trace, ...], Range]:
        """Return the drawn form of each run in `columns` columns, and the voltages to show.

        Where no run has a reading, as within a gap, they stay those of the time before.
        """
        left, right = self.stretch
        column_s = (right - left) / columns
        found = tuple(trace(run.overview, left + run.zero_s, column_s, columns) for run in self.runs)
        if not found:
            return (), self._range_V
        wanted = voltages_to_show(
            np.concatenate([one.columns.low for one in found]),
            np.concatenate([one.columns.high for one in found]),
        )
        if wanted is not None:
            self._range_V = steady_range(wanted, None)
        return found, self._range_V

    def _keep(self, left: float, span: float) -> None:
        first, last = self.whole
        if span >= last - first:
            self._stretch = None
            return
        left = min(max(left, first), last - span)
        self._stretch = (left, left + span)
