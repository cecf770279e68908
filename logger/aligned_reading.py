"""Reading off several runs at one time: of each run its own reading there, or why it has none.

Times count from the zero of each run (see `logger.alignment`). What comes back was measured, by each run at
the time at which it was measured: nothing is interpolated, and no run is given the reading of another time
where it was not recorded, had a gap, or had ended.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum, auto
from typing import NamedTuple

from logger.overview import Overview, gap_between
from logger.reading_off import CurveReadings, Reading

__all__ = ["AlignedReading", "AlignedReadings", "AlignedRun", "NoReading"]

MOST_ROUNDED = 8
"""More readings do not lie within the rounding of one time; a search in a damaged file ends by it, too."""


class NoReading(Enum):
    """Why a run has no reading at a time."""

    NONE_AT_ALL = auto()
    NOT_BEGUN = auto()
    IN_GAP = auto()
    ENDED = auto()
    UNREADABLE = auto()
    """The file cannot be read there."""


class AlignedReading(NamedTuple):
    """What several runs read at one time.

    `time_s` is that time; `readings` has for each run its reading, the time of which counts from the run's
    zero, too, and may be a little earlier or later than `time_s`: runs are not measured at the same instants.
    """

    time_s: float
    readings: tuple[Reading | NoReading, ...]


@dataclass(frozen=True, slots=True, eq=False)
class AlignedRun:
    """The curve of a run, and the run time that counts as zero."""

    overview: Overview
    zero_s: float

    def reading_at(self, time_s: float) -> Reading | NoReading:
        """Return the reading nearest to `time_s`, counted from zero.

        It is one there if `time_s` lies between two readings with no gap between them; before the first and
        after the last one, if it is no further from it than the readings of the run lie apart on average.
        """
        extent_s, readings = self.extent_s, CurveReadings(self.overview)
        if extent_s is None:
            return NoReading.NONE_AT_ALL
        if not extent_s[0] <= time_s <= extent_s[1]:
            has_ended = time_s > extent_s[1]
            edge = readings.last() if has_ended else readings.first()
            if edge is not None and abs(self._aligned(edge).time_s - time_s) <= self._apart_s:
                return self._aligned(edge)
            return NoReading.ENDED if has_ended else NoReading.NOT_BEGUN
        either = readings.about(time_s + self.zero_s)
        found = [self._aligned(one) for one in either if one is not None]
        exact = next((one for one in found if one.time_s == time_s), None)
        if exact is not None:  # a reading at the very end of a gap is none in it
            return exact
        if len(found) < 2:
            return NoReading.UNREADABLE
        between_s = [one.time_s + self.zero_s for one in found]
        if gap_between(self.overview.gaps_s, between_s)[0]:
            return NoReading.IN_GAP
        return min(found, key=lambda one: abs(one.time_s - time_s))

    def later_s(self, time_s: float, by_s: float) -> float | None:
        """Return the time of the first reading later than `time_s`, by `by_s` or more; None without one."""
        at_s = time_s + by_s + self.zero_s
        for _ in range(MOST_ROUNDED):
            found = self.overview.reading(self.overview.number_at(at_s))
            if found is None:
                break
            if found.time_s - self.zero_s > time_s:
                return found.time_s - self.zero_s
            # The sum of the two times was rounded to below the reading that it came from.
            at_s = math.nextafter(found.time_s, math.inf)
        return None

    def earlier_s(self, time_s: float, by_s: float) -> float | None:
        """Return the time of the last reading earlier than `time_s`, by `by_s` or more; None without one."""
        beyond_s = math.nextafter(time_s - by_s + self.zero_s, math.inf)
        for _ in range(MOST_ROUNDED):
            found = self.overview.reading(self.overview.number_at(beyond_s) - 1)
            if found is None:
                break
            if found.time_s - self.zero_s < time_s:
                return found.time_s - self.zero_s
            beyond_s = found.time_s
        return None

    @property
    def extent_s(self) -> tuple[float, float] | None:
        """Time of the first and of the last reading; None where there is none."""
        extent_s = self.overview.extent_s
        return None if extent_s is None else (extent_s[0] - self.zero_s, extent_s[1] - self.zero_s)

    @property
    def _apart_s(self) -> float:
        first_s, last_s = self.overview.extent_s or (0.0, 0.0)
        return (last_s - first_s) / max(len(self.overview) - 1, 1)

    def _aligned(self, reading: Reading) -> Reading:
        return reading._replace(time_s=reading.time_s - self.zero_s)


@dataclass(frozen=True, slots=True)
class AlignedReadings:
    """The readings of several runs, as a `logger.reading_off.Readable`.

    The times gone to are those at which at least one of the runs was measured.
    """

    runs: Sequence[AlignedRun]

    def at(self, time_s: float) -> AlignedReading:
        """Return what the runs read at that time."""
        return AlignedReading(time_s, tuple(run.reading_at(time_s) for run in self.runs))

    def counts_like(self, others: AlignedReadings) -> bool:
        """Tell whether a time means the same in both: they share runs, each of which has kept its zero."""
        zeros_s = {id(run.overview): run.zero_s for run in others.runs}
        shared = [run for run in self.runs if id(run.overview) in zeros_s]
        return bool(shared) and all(run.zero_s == zeros_s[id(run.overview)] for run in shared)

    def within(self, time_s: float) -> AlignedReading | None:
        """Return what they read at that time; None where none of them has begun, or all have ended."""
        extents_s = self._extents_s
        if not extents_s or not min(extents_s)[0] <= time_s <= max(last for _, last in extents_s):
            return None
        return self.at(time_s)

    def first(self) -> AlignedReading | None:
        """Return what they read where the first of them begins."""
        extents_s = self._extents_s
        return self.at(min(first for first, _ in extents_s)) if extents_s else None

    def last(self) -> AlignedReading | None:
        """Return what they read where the last of them ends."""
        extents_s = self._extents_s
        return self.at(max(last for _, last in extents_s)) if extents_s else None

    def nearest(self, time_s: float) -> AlignedReading | None:
        """Return what they read at the time of the reading nearest to `time_s`, of whichever run it is."""
        found = [CurveReadings(run.overview).nearest(time_s + run.zero_s) for run in self.runs]
        times_s = [
            one.time_s - run.zero_s for one, run in zip(found, self.runs, strict=True) if one is not None
        ]
        return self.at(min(times_s, key=lambda one: abs(one - time_s))) if times_s else None

    def after(self, here: AlignedReading, by_s: float = 0.0) -> AlignedReading:
        """Return the next one that is later by `by_s` or more; the last at the end."""
        times_s = [at_s for run in self.runs if (at_s := run.later_s(here.time_s, by_s)) is not None]
        return self.at(min(times_s)) if times_s else self.last() or here

    def before(self, here: AlignedReading, by_s: float = 0.0) -> AlignedReading:
        """Return the one before that is earlier by `by_s` or more; the first at the beginning."""
        times_s = [at_s for run in self.runs if (at_s := run.earlier_s(here.time_s, by_s)) is not None]
        return self.at(max(times_s)) if times_s else self.first() or here

    @property
    def _extents_s(self) -> list[tuple[float, float]]:
        return [extent_s for run in self.runs if (extent_s := run.extent_s) is not None]
