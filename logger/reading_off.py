"""Reading single readings off a curve: the nearest to a time, the next one, the one so much later.

What comes back was measured, at the time it was measured: nothing is interpolated. While recording, readings
of long ago are no longer in memory (see `logger.overview`); then only the place is known, and no value.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple, Protocol, TypeVar

from drivers.samples import Quality

if TYPE_CHECKING:
    from logger.overview import Overview

Read = TypeVar("Read")

__all__ = ["CurveReadings", "Readable", "Reading"]


class Reading(NamedTuple):
    """One reading of a channel.

    `number` counts from 0. `value` is in the channel's unit, +-inf for overload, and None where the reading
    is no longer in memory: then `time_s` is only the place that was asked for.
    """

    number: int
    time_s: float
    value: float | None
    quality: Quality = Quality.GOOD


class Readable(Protocol[Read]):
    """What can be read off at a time and gone through: one curve, or several laid over one another.

    `Read` is what is read off at one time; `by_s` is never negative.
    """

    def first(self) -> Read | None:
        """Return the first one; None where there is none at all."""

    def last(self) -> Read | None:
        """Return the last one; None where there is none at all."""

    def nearest(self, time_s: float) -> Read | None:
        """Return the one that lies nearest to `time_s`; None where there is none at all."""

    def after(self, here: Read, by_s: float) -> Read:
        """Return the first one that is later than `here`, by `by_s` or more; the last at the end."""

    def before(self, here: Read, by_s: float) -> Read:
        """Return the last one that is earlier than `here`, by `by_s` or more; the first at the beginning."""


@dataclass(frozen=True, slots=True)
class CurveReadings:
    """The readings of one curve, as a `Readable`."""

    overview: Overview = field(repr=False)

    def first(self) -> Reading | None:
        """Return the first reading of the run."""
        extent_s = self.overview.extent_s
        return None if extent_s is None else self._at(0, extent_s[0])

    def last(self) -> Reading | None:
        """Return the newest reading."""
        extent_s = self.overview.extent_s
        return None if extent_s is None else self._at(len(self.overview) - 1, extent_s[1])

    def nearest(self, time_s: float) -> Reading | None:
        """Return the reading that lies nearest to `time_s`; None where there is none at all."""
        if not len(self.overview):
            return None
        either = [reading for reading in self.about(time_s) if reading is not None]
        return min(either, key=lambda one: abs(one.time_s - time_s), default=None)

    def about(self, time_s: float) -> tuple[Reading | None, Reading | None]:
        """Return the last reading before `time_s` and the first one at or after it, None where is none."""
        beyond = self.overview.number_at(time_s)
        before = self._at(beyond - 1, time_s) if 0 < beyond <= len(self.overview) else None
        return before, self._at(beyond, time_s) if 0 <= beyond < len(self.overview) else None

    def after(self, here: Reading, by_s: float = 0.0) -> Reading:
        """Return the first reading that is later than `here`, by `by_s` or more; the last at the end."""
        number = max(here.number + 1, self.overview.number_at(here.time_s + by_s))
        return self._at(min(number, len(self.overview) - 1), here.time_s + by_s)

    def before(self, here: Reading, by_s: float = 0.0) -> Reading:
        """Return the last reading that is earlier than `here`, by `by_s` or more, or the first one."""
        until_s = here.time_s - by_s
        number = min(here.number, self.overview.number_at(math.nextafter(until_s, math.inf))) - 1
        return self._at(max(number, 0), until_s)

    def _at(self, number: int, time_s: float) -> Reading:
        found = self.overview.reading(number)
        if found is not None:
            return found
        first_s, last_s = self.overview.extent_s or (time_s, time_s)
        return Reading(number, min(max(time_s, first_s), last_s), None)
