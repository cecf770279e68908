"""What is wrong with the readings of a run as a whole: a display that never moved, another meter half-way."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from logger.analysis.caution import Caution
from logger.analysis.plateau import FEWEST_SAMPLES
from logger.analysis.readings import Stretch, bounds_of, slices_of, step_bounds
from logger.analysis.resolution import goes_in_finer_steps
from logger.analysis.settled import SettledWindow
from logger.quantity import significant
from logger.recording import ChannelData, Recording

__all__ = [
    "display_held",
    "few_readings",
    "meter_changed",
    "never_moved",
    "not_in_volts",
    "several_channels",
    "time_stood_still",
]

HIGHEST_STACK_V = 60.0
"""The limit of extra-low voltage, as for the stack of a bench file."""

LONGEST_SAME_S = 30.0
LEAST_SCATTER_IN_DIGITS = 1.5
"""Noise of so many digits does not leave a display alone for so long (common practice, no source)."""

LOOKED_AT_IN_A_WINDOW = 20_000
LOOKED_AT_IN_A_PIECE = 64
MOST_PIECES = 128


def never_moved(channel: ChannelData) -> Caution | None:
    """Say that all readings are one and the same number; None where they are not, or too few to tell."""
    values = channel.values
    if values.size < FEWEST_SAMPLES or not np.isfinite(values[0]):
        return None
    if any((values[part] != values[0]).any() for part in slices_of(0, values.size)):
        return None
    return Caution(
        "readings_constant",
        f"All {values.size} readings are {values[0]:g} V: the meter holds its display, or is not connected "
        "to the cell. Nothing is concluded from them. Release HOLD, check the leads, and record again.",
    )


def few_readings(channel: ChannelData) -> Caution | None:
    """Say that there are too few readings to conclude anything from; None where there are enough, or none."""
    number = channel.times_s.size
    if number == 0 or number >= FEWEST_SAMPLES:
        return None
    return Caution(
        "few_readings",
        f"The recording holds {'one reading' if number == 1 else f'{number} readings'}: too few to conclude "
        f"anything from. A settled voltage takes {FEWEST_SAMPLES} or more, over a minute. Record longer.",
    )


def not_in_volts(channel: ChannelData) -> Caution | None:
    """Say that the readings lie where neither a cell nor its stack can be; None where not.

    The median of some readings of every piece, or of pieces all over a long run, decides: single wild
    readings do not.
    """
    parts = list(slices_of(0, channel.values.size))
    parts = parts[:: -(-len(parts) // MOST_PIECES) or 1]
    known = [bounds_of(channel.values, part) for part in parts]
    if all(one is not None and -HIGHEST_STACK_V <= one[0] <= one[1] <= HIGHEST_STACK_V for one in known):
        return None
    looked_at = [
        channel.values[part][:: max(1, (part.stop - part.start) // LOOKED_AT_IN_A_PIECE)] for part in parts
    ]
    found = np.abs(np.concatenate([np.empty(0), *looked_at]))
    found = found[np.isfinite(found)]
    middle_V = float(np.median(found)) if found.size else 0.0
    if middle_V <= HIGHEST_STACK_V:
        return None
    return Caution(
        "readings_not_in_volts",
        f"Half of the readings are {significant(middle_V, 4)} V or more, and neither a cell nor its stack "
        f"goes beyond {HIGHEST_STACK_V:g} V. Nothing is concluded from them. If the instrument sends "
        "millivolts, record with scale=0.001 in its source address.",
    )


def time_stood_still(channel: ChannelData) -> Caution | None:
    """Say that many readings in a row bear one time; None where not.

    Times rounded to a second repeat too, but not so often that a whole window is at one time.
    """
    number, first = _longest_standstill(channel)
    if number < FEWEST_SAMPLES:
        return None
    at_s = float(channel.times_s[first])
    whole = "All" if number == channel.times_s.size else f"{number} of"
    return Caution(
        "time_stood_still",
        f"{whole} {channel.times_s.size} readings bear the same time: the clock of their source stood still "
        "there, or the table holds no times. No duration, drift or charge follows from them.",
        at_s,
    )


def _longest_standstill(channel: ChannelData) -> tuple[int, int]:
    """Return how many readings in a row bear one time at most, and the place of the first of them."""
    times = channel.times_s
    longest, where, begun = 0, 0, 0
    for part in slices_of(0, times.size):
        if step_bounds(times, part)[0] > 0.0:
            begun = part.stop - 1
            continue
        piece = times[max(part.start - 1, 0) : part.stop]
        stands = piece[1:] == piece[:-1]
        if not stands.any():
            begun = part.stop - 1
            continue
        changes = np.flatnonzero(~stands) + max(part.start, 1)
        edges = np.concatenate([[begun], changes, [part.stop]])
        lengths = np.diff(edges)
        best = int(np.argmax(lengths))
        if lengths[best] > longest:
            longest, where = int(lengths[best]), int(edges[best])
        begun = int(edges[-2])
    return longest, where


def several_channels(recording: Recording) -> Caution | None:
    """Say that several channels claim to be the cell voltage; None where one does, or none."""
    named = [one.name for one in recording.channels if one.role == "cell_voltage"]
    if len(named) < 2:
        return None
    return Caution(
        "several_cell_voltages",
        f"The recording holds several channels with the cell voltage ({', '.join(named)}); only {named[0]} "
        "is used. Record one, or give the others another role.",
    )


def meter_changed(
    channel: ChannelData, before: Sequence[tuple[float, float]], after: Sequence[tuple[float, float]]
) -> Caution | None:
    """Say that the digits of the readings show another meter or range after than before; None where not.

    Parameters
    ----------
    channel : ChannelData
    before, after : sequences of (begin, end), of one length
        Run times to compare in turn: the settled windows, and the phases around them, for in a window a
        coarse display may stand still.
    """
    for one, other in zip(before, after, strict=True):
        shown = [_shown(channel, *span) for span in (one, other)]
        if goes_in_finer_steps(*shown) or goes_in_finer_steps(*reversed(shown)):
            return Caution(
                "meter_changed",
                "The readings before and after go in steps of different size: the meter or its range was "
                "changed between them, so its accuracy counts for each of the two voltages. Lock the range "
                "next time.",
                after[0][0],
            )
    return None


def display_held(
    channel: ChannelData, before: SettledWindow, after: SettledWindow, digits_V: tuple[float, float]
) -> Caution | None:
    """Say that readings of a settled window are one and the same for long, though others scatter; else None.

    `digits_V` is one digit of the display before and after: where the noise is smaller, it stands still
    rightly.
    """
    scatter_V = max(before.deviation_V, after.deviation_V)
    windows = (("before", before), ("after", after))
    for (name, window), digit_V in zip(windows, digits_V, strict=True):
        if scatter_V <= LEAST_SCATTER_IN_DIGITS * digit_V:
            continue
        held_s, since_s = _longest_same(channel, window)
        if held_s >= LONGEST_SAME_S:
            scatter_mV = 1000.0 * scatter_V
            return Caution(
                "display_held",
                f"The readings {name} are one and the same for {held_s:.0f} s, though readings scatter by "
                f"{scatter_mV:.2g} mV: did the meter hold its display? Then the voltage {name} is not that "
                "of the cell.",
                since_s,
            )
    return None


def _longest_same(channel: ChannelData, window: SettledWindow) -> tuple[float, float]:
    """Return for how long the readings of a window are the same at most, and since when, in seconds."""
    first, beyond = channel.times_s.searchsorted((window.begin_s, window.end_s)).tolist()
    parts = list(slices_of(first, beyond))
    parts = parts[:: -(-len(parts) // MOST_PIECES) or 1]
    every = max(1, sum(part.stop - part.start for part in parts) // LOOKED_AT_IN_A_WINDOW)
    times = np.concatenate([np.empty(0), *(channel.times_s[part][::every] for part in parts)])
    values = np.concatenate([np.empty(0), *(channel.values[part][::every] for part in parts)])
    if values.size < FEWEST_SAMPLES:
        return 0.0, window.begin_s
    edges = np.concatenate([[0], np.flatnonzero(np.diff(values)) + 1, [values.size]])
    longest = int(np.argmax(np.diff(edges)))
    begin, end = int(edges[longest]), int(edges[longest + 1]) - 1
    if end - begin < FEWEST_SAMPLES:
        return 0.0, window.begin_s
    return float(times[end] - times[begin]), float(times[begin])


def _shown(channel: ChannelData, begin_s: float, end_s: float) -> Stretch:
    first, beyond = channel.times_s.searchsorted((begin_s, end_s)).tolist()
    return Stretch(channel.values, first, beyond)
