"""Reading single readings off a curve: the nearest to a time, the next one, the one so much later.

What comes back was measured, at the time it was measured: nothing is interpolated. While recording, readings
of long ago are no longer in memory (see `logger.overview`); then only the place is known, and no value.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from drivers.samples import Quality

if TYPE_CHECKING:
    from logger.overview import Overview

__all__ = ["Reading", "first_reading", "last_reading", "nearest_reading", "reading_after", "reading_before"]


class Reading(NamedTuple):
    """One reading of a channel.

    `number` counts from 0. `value` is in the channel's unit, +-inf for overload, and None where the reading
    is no longer in memory: then `time_s` is only the place that was asked for.
    """

    number: int
    time_s: float
    value: float | None
    quality: Quality = Quality.GOOD


def nearest_reading(overview: Overview, time_s: float) -> Reading | None:
    """Return the reading that lies nearest to `time_s`; None where there is none at all."""
    if not len(overview):
        return None
    beyond = overview.number_at(time_s)
    either = [_at(overview, number, time_s) for number in (beyond - 1, beyond) if _is_one(overview, number)]
    return min(either, key=lambda one: abs(one.time_s - time_s), default=None)


def reading_after(overview: Overview, here: Reading, by_s: float = 0.0) -> Reading:
    """Return the first reading that is later than `here`, by `by_s` or more; the last at the end."""
    number = max(here.number + 1, overview.number_at(here.time_s + by_s))
    return _at(overview, min(number, len(overview) - 1), here.time_s + by_s)


def reading_before(overview: Overview, here: Reading, by_s: float = 0.0) -> Reading:
    """Return the last reading that is earlier than `here`, by `by_s` or more; the first at the beginning."""
    until_s = here.time_s - by_s
    number = min(here.number, overview.number_at(math.nextafter(until_s, math.inf))) - 1
    return _at(overview, max(number, 0), until_s)


def first_reading(overview: Overview) -> Reading | None:
    """Return the first reading of the run."""
    extent_s = overview.extent_s
    return None if extent_s is None else _at(overview, 0, extent_s[0])


def last_reading(overview: Overview) -> Reading | None:
    """Return the newest reading."""
    extent_s = overview.extent_s
    return None if extent_s is None else _at(overview, len(overview) - 1, extent_s[1])


def _is_one(overview: Overview, number: int) -> bool:
    return 0 <= number < len(overview)


def _at(overview: Overview, number: int, time_s: float) -> Reading:
    found = overview.reading(number)
    if found is not None:
        return found
    first_s, last_s = overview.extent_s or (time_s, time_s)
    return Reading(number, min(max(time_s, first_s), last_s), None)
