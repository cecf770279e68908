"""What is read off the curve at one place, in words. No Qt but the translation."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from drivers.samples import Quality
from gui.chart.frame import Frame
from gui.chart.notes import Notes, times_of
from gui.kind_words import moment_words
from gui.numbers import clock_text, count_text, plain
from gui.words import translate
from logger.overview import Overview
from logger.reading_off import Reading

__all__ = [
    "ReadingWords",
    "apart_words",
    "decimals_of",
    "flag_words",
    "outside_words",
    "reading_words",
    "step_words",
    "time_decimals_of",
    "value_words",
]

FEWEST_DECIMALS, MOST_DECIMALS = 3, 6
MOST_TIME_DECIMALS = 6
LEAST_IN_VOLTS = 1.0
"""A difference from here on, as between the dry and the filled cell, is told in volts."""


@dataclass(frozen=True, slots=True)
class ReadingWords:
    """Words for one place: when, how much, and what else is to be known, most important first."""

    time: str
    value: str
    more: tuple[str, ...] = ()

    @property
    def spoken(self) -> str:
        """All of it in one line."""
        return ", ".join((self.time, self.value, *self.more))


def reading_words(
    here: Reading, since: Reading | None, overview: Overview, notes: Notes, frame: Frame, decimals: int
) -> ReadingWords:
    """Return the words for a reading.

    Parameters
    ----------
    since : the other reading that it is compared with, if there is one.
    decimals : decimals of volts in which readings of this curve are written.
    """
    time_decimals = time_decimals_of(overview)
    more = [
        *_difference(here, since, decimals, time_decimals),
        *flag_words(here.quality),
        *_gap(here, overview),
        *_moment(here, notes, frame),
        *outside_words(here.time_s, frame),
        *_column(here, overview, frame, decimals),
    ]
    return ReadingWords(clock_text(here.time_s, time_decimals), value_words(here, decimals), tuple(more))


def decimals_of(value: float | None) -> int:
    """Return in how many decimals of volts a reading is written: as it was measured, within reason."""
    if value is None or not math.isfinite(value):
        return FEWEST_DECIMALS
    _, _, fraction = f"{value:.{MOST_DECIMALS}f}".rstrip("0").partition(".")
    return max(len(fraction), FEWEST_DECIMALS)


def value_words(here: Reading, decimals: int) -> str:
    """Return the voltage of a reading in so many decimals, or why it is not known."""
    if here.value is None:
        return translate("Reading", "no longer in memory")
    if math.isinf(here.value):
        return translate("Reading", "beyond range")
    return plain(here.value, decimals, "V")


def time_decimals_of(overview: Overview) -> int:
    """Return enough decimals of a second to tell readings apart that follow one another."""
    first_s, last_s = overview.extent_s or (0.0, 0.0)
    every_s = (last_s - first_s) / max(len(overview), 1)
    if not every_s > 0:
        return 1
    return min(max(math.ceil(-math.log10(every_s) - 0.1), 1), MOST_TIME_DECIMALS)


def _difference(here: Reading, since: Reading | None, decimals: int, time_decimals: int) -> list[str]:
    if since is None:
        return []
    if since.number == here.number:
        return [translate("Reading", "measured from here")]
    words = apart_words(here.time_s, since.time_s, time_decimals)
    return [", ".join((words, *step_words(here, since, decimals)))]


def apart_words(here_s: float, since_s: float, time_decimals: int) -> str:
    """Return how much later or earlier a time is than the one that it is compared with."""
    apart = clock_text(abs(here_s - since_s), time_decimals)
    if here_s >= since_s:
        return translate("Reading", "{time} later").format(time=apart)
    return translate("Reading", "{time} earlier").format(time=apart)


def step_words(here: Reading, since: Reading, decimals: int) -> list[str]:
    """Return by how much the voltage differs from the other reading's; nothing where one is not known."""
    values = here.value, since.value
    if any(value is None or math.isinf(value) for value in values):
        return []
    assert here.value is not None
    assert since.value is not None
    by_V = here.value - since.value
    sign = "+" if by_V > 0 else ""
    if abs(by_V) < LEAST_IN_VOLTS:
        return [sign + plain(1000 * by_V, max(decimals - 3, 0), "mV")]
    return [sign + plain(by_V, decimals, "V")]


def outside_words(time_s: float, frame: Frame) -> list[str]:
    """Say so where a time is not in the picture."""
    return [] if frame.shows(time_s) else [translate("Reading", "outside the picture")]


def flag_words(quality: Quality) -> list[str]:
    """Return what the flags of a reading mean, the one that matters most first."""
    words = {
        Quality.HOLD: translate("Reading", "the meter held its display"),
        Quality.RELATIVE: translate("Reading", "less a value stored in the meter"),
        Quality.LOW_BATTERY: translate("Reading", "the meter's battery was low"),
        Quality.PARITY: translate("Reading", "came with a fault on the line"),
        Quality.SUSPECT: translate("Reading", "doubtful: unlike its neighbours"),
        Quality.REPEAT: translate("Reading", "sent twice"),
        Quality.TIME_UNCERTAIN: translate("Reading", "its time is less sure"),
    }
    return [text for flag, text in words.items() if quality & flag]


def _gap(here: Reading, overview: Overview) -> list[str]:
    """Say so where the reading is the first one after a gap, or the last one before it."""
    gaps_s = overview.gaps_s
    if not len(gaps_s) or here.value is None:
        return []
    found = []
    before, after = overview.reading(here.number - 1), overview.reading(here.number + 1)
    for earlier, later, text in (
        (before, here, translate("Reading", "first after a gap of {time}")),
        (here, after, translate("Reading", "last before a gap of {time}")),
    ):
        if earlier is None or later is None:
            continue
        first = int(np.searchsorted(gaps_s[:, 1], earlier.time_s, side="right"))
        beyond = int(np.searchsorted(gaps_s[:, 0], later.time_s))
        between = [
            gap for gap in gaps_s[first:beyond] if earlier.time_s <= (gap[0] + gap[1]) / 2 <= later.time_s
        ]
        if between:
            found.append(text.format(time=clock_text(float(between[-1][1] - between[0][0]), 1)))
    return found


def _moment(here: Reading, notes: Notes, frame: Frame) -> list[str]:
    """Name the moment that lies within a pixel, if there is one."""
    if not notes.moments:
        return []
    times_s = times_of(notes.moments)
    beyond = int(np.searchsorted(times_s, here.time_s))
    near = [number for number in (beyond - 1, beyond) if 0 <= number < times_s.size]
    number = min(near, key=lambda n: abs(times_s[n] - here.time_s))
    if abs(frame.x(times_s[number]) - frame.x(here.time_s)) > 1.0:
        return []
    text = translate("Reading", "moment {number}: {words}")
    return [text.format(number=number + 1, words=moment_words(notes.moments[number]))]


def _column(here: Reading, overview: Overview, frame: Frame, decimals: int) -> list[str]:
    """Say how many readings share its place in the picture, and how far they reach."""
    wide_s = (frame.right_s - frame.left_s) / frame.width
    begin_s = frame.left_s + math.floor((here.time_s - frame.left_s) / wide_s) * wide_s
    count = overview.count_between(begin_s, begin_s + wide_s)
    columns = overview.columns(np.array([begin_s, begin_s + wide_s]))
    low, high = float(columns.low[0]), float(columns.high[0])
    if count < 2 or math.isnan(low):
        return []
    if _holds_overload(overview, begin_s, begin_s + wide_s):
        text = translate("Reading", "{count} readings here: {low} to {high}, others beyond range")
    else:
        text = translate("Reading", "{count} readings here: {low} to {high}")
    return [text.format(count=count_text(count), low=plain(low, decimals), high=plain(high, decimals, "V"))]


def _holds_overload(overview: Overview, begin_s: float, end_s: float) -> bool:
    """Tell whether any reading of a place in the picture was beyond range."""
    over_s = overview.overloads_s
    first = int(np.searchsorted(over_s[:, 1], begin_s))
    return first < len(over_s) and bool(over_s[first, 0] < end_s)
