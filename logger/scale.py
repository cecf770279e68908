"""Scales of the curve: which voltages to show, where the axis marks lie and how they read.

The same rules serve the window and the picture for paper. Pure functions, no drawing.
"""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from logger.quantity import TOO_LONG, power_of_ten

__all__ = [
    "MIN_SPAN_V",
    "Range",
    "clock_text",
    "marks",
    "parse_clock",
    "round_step",
    "span_to_show",
    "steady_range",
    "time_label",
    "time_step",
    "voltage_label",
    "voltages_to_show",
]

Range = tuple[float, float]
Vector = NDArray[np.float64]

MIN_SPAN_V = 0.010
"""The axis never shows less than this, or the noise of a settled cell would look like an event."""

FINEST_SPAN = 1e-6
"""The same as a share of the voltages shown, which matters from 10 kV on."""

BANDS_V: tuple[Range, ...] = ((1.0, 4.0), (0.1, 4.0))
"""Magnitudes that are worth the room, best first: a cell splitting water, then any that is not touching.

The upper bound parts electrolysis from poor contact and an open circuit, the lower one keeps touching
leads out. Chosen for this axis, no source.
"""

LARGEST_V = 1e300
"""What lies beyond, from damage, is taken for this: spans are still numbers then."""

TRIM = 0.01
"""Share of the columns at either end that may be left outside when they lie far from the rest."""

LABELS_KEPT = 256
"""Marks that stay in view, or come back, are not written anew for each picture."""

TIME_STEPS_S = (1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 10800, 21600, 43200, 86400)


def voltages_to_show(low_V: Vector, high_V: Vector) -> Range | None:
    """Return the lowest and highest voltage that the axis should show, or None when there are no data.

    An open circuit (some 27 V) or touching leads would flatten the curve of an electrolysing cell at
    2 V. So while any column holds voltages of electrolysis, only those count. Among them, up to a
    hundredth at either end is left outside if it lies further away than half of what the rest spans.

    Parameters
    ----------
    low_V, high_V : shape (m,); smallest and largest voltage of each visible column, NaN without data.
        Reversed leads (negative voltages) are treated alike.
    """
    both = np.concatenate([low_V, high_V])
    magnitude = np.abs(both)
    for least, most in BANDS_V:
        inside = both[(magnitude >= least) & (magnitude < most)]
        if inside.size:
            both = inside
            break
    else:
        both = np.clip(both[np.isfinite(both)], -LARGEST_V, LARGEST_V)
        if not both.size:
            return None
    both.sort()
    near, far = _quantile(both, TRIM), _quantile(both, 1 - TRIM)
    reach = 0.5 * max(far - near, MIN_SPAN_V)
    first = int(np.searchsorted(both, near - reach))
    last = int(np.searchsorted(both, far + reach, side="right")) - 1
    return float(both[first]), float(both[last])


def _quantile(ordered: Vector, share: float) -> float:
    """As `numpy.quantile`, of values in order."""
    place = share * (ordered.size - 1)
    lower = int(place)
    low, high = ordered[lower : lower + 2].tolist() if lower + 1 < ordered.size else 2 * ordered[-1:].tolist()
    return float(low + (high - low) * (place - lower))


def span_to_show(low_V: float, high_V: float) -> float:
    """Return how many volts an axis shows at least for readings from `low_V` to `high_V`.

    About what lies beyond any cell, from damage, numbers are too far apart for the usual least span.
    """
    return max(high_V - low_V, MIN_SPAN_V, FINEST_SPAN * max(abs(low_V), abs(high_V)))


def steady_range(wanted: Range, current: Range | None) -> Range:
    """Return the range of the voltage axis: `wanted` with room around it, on round numbers.

    The `current` range stays as long as it holds `wanted` and is not nearly twice too wide, so that
    the picture does not jump with every sample.
    """
    low, high = wanted
    span = span_to_show(low, high)
    middle = (low + high) / 2
    step = round_step(span, 8)
    bottom = math.floor((middle - 0.56 * span) / step) * step
    top = math.ceil((middle + 0.56 * span) / step) * step
    if current is not None and current[0] <= low and high <= current[1]:
        rim = 0.02 * (current[1] - current[0])
        roomy = current[1] - current[0] > 1.8 * (top - bottom)
        tight = low - current[0] < rim or current[1] - high < rim
        if not roomy and not tight:
            return current
    return bottom, top


def round_step(span: float, count: float) -> float:
    """Return the smallest of 1, 2, 5 times a power of ten that parts `span` into at most `count`."""
    least = span / count
    power = 10.0 ** math.floor(math.log10(least))
    return next((f * power for f in (1.0, 2.0, 5.0) if f * power >= least * (1 - 1e-9)), 10.0 * power)


def time_step(span_s: float, count: float) -> float:
    """Return a step of the time axis, in seconds, that parts `span_s` into at most about `count`."""
    least = span_s / count
    if least < 1:
        return round_step(span_s, count)
    return next((float(s) for s in TIME_STEPS_S if s >= least), 86400 * round_step(span_s / 86400, count))


def marks(low: float, high: float, step: float) -> list[float]:
    """Return the multiples of `step` within [low, high]."""
    first, last = math.ceil(low / step - 1e-6), math.floor(high / step + 1e-6)
    return [i * step for i in range(first, last + 1)]


@lru_cache(LABELS_KEPT)
def voltage_label(voltage_V: float, step_V: float) -> str:
    """Return a mark of the voltage axis as text, with the decimals that `step_V` needs and a real minus."""
    if step_V >= TOO_LONG:
        digits = math.floor(math.log10(max(abs(voltage_V), step_V))) - math.floor(math.log10(step_V)) + 1
        return "0" if voltage_V == 0 else power_of_ten(voltage_V, digits).replace("-", "−")
    decimals = max(0, -math.floor(math.log10(step_V) + 1e-9))
    text = f"{voltage_V:.{max(decimals, 2 if step_V < 0.5 else 0)}f}"
    return text.replace("-", "−")


@lru_cache(LABELS_KEPT)
def time_label(time_s: float, step_s: float) -> str:
    """Return a mark of the time axis as text: ``5 min``, ``2 h``, ``1:30 h``, ``12:30`` (minutes:seconds)."""
    if step_s >= 3600:
        return f"{time_s / 3600:.0f} h"
    if step_s >= 60 and time_s >= 7200:
        return f"{int(time_s) // 3600}:{int(time_s) % 3600 // 60:02d} h"
    if step_s >= 60:
        return f"{time_s / 60:.0f} min"
    return clock_text(time_s, decimals=max(0, -math.floor(math.log10(step_s) + 1e-9)))


def clock_text(time_s: float, decimals: int = 0) -> str:
    """Return a run time as ``minutes:seconds``, or ``hours:minutes:seconds`` from one hour on."""
    ticks = round(abs(time_s) * 10**decimals)
    whole, rest = divmod(ticks, 10**decimals)
    minutes, seconds = divmod(whole, 60)
    hours, minutes = divmod(minutes, 60)
    text = f"{hours}:{minutes:02d}:{seconds:02d}" if hours else f"{minutes}:{seconds:02d}"
    sign = "−" if time_s < 0 and ticks else ""
    return sign + text + (f".{rest:0{decimals}d}" if decimals else "")


def parse_clock(text: str) -> float:
    """Return the seconds that ``750``, ``12:30.5`` or ``1:02:05`` names; a comma may stand for the point.

    Raises
    ------
    ValueError : not of that form; the message says how to write it.
    """
    total_s = 0.0
    parts = text.strip().replace(",", ".").split(":")
    try:
        for part in parts:
            total_s = 60 * total_s + float(part)
    except ValueError:
        total_s = math.nan
    if not math.isfinite(total_s) or total_s < 0 or len(parts) > 3 or "-" in text:
        raise ValueError(f"{text!r} is not a run time; write for example 12:30 (minutes:seconds) or 750")
    return total_s
