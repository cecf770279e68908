"""The step of a meter's display, read off its readings, and the meter with it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from logger.analysis.meter_accuracy import MeterAccuracy
from logger.analysis.readings import HIGHEST_READING_V, Series, slices_of

__all__ = ["are_multiples", "goes_in_finer_steps", "resolution_from_readings_V", "with_digits_of"]

LOOKED_AT = 20_000
FEWEST_READINGS = 30
MOST_DISTINCT_SHARE = 0.5
ROUNDING = 1e-3
LEAST_SHARE_OF_LEVEL = 0.05
"""Where readings show two levels only, each must be there as often: a stray reading is no step."""

BETWEEN = (0.05, 0.45)
LEAST_SHARE_BETWEEN = 0.3
"""Readings in steps a fifth as wide or finer mostly lie between the coarse ones; those in steps half as wide,
for which a coarse step may be mistaken, lie right in the middle."""


def resolution_from_readings_V(values: Series) -> float | None:
    """Return the common step of readings that keep to one, in volts, or None.

    Parameters
    ----------
    values : Series of n
        Readings in volts; those that are not finite are left out.

    Returns
    -------
    float or None
        The smallest difference of distinct readings, if all others are multiples of it and most readings
        occur more than once. None where no step shows: a finer one may be there.
    """
    finite = _last_finite(values)
    if finite.size < FEWEST_READINGS:
        return None
    distinct = np.unique(finite)
    if distinct.size < 2 or distinct.size > MOST_DISTINCT_SHARE * finite.size:
        return None
    differences = np.diff(distinct)
    # Numbers that were computed differ in their last bits though they stand for one display.
    differences = differences[differences > 1e-9 * np.abs(distinct).max()]
    if differences.size == 0:
        return None
    step = float(differences.min())
    multiples = differences / step
    if np.abs(multiples - np.round(multiples)).max() > ROUNDING * multiples.max():
        return None
    return float(differences.sum() / np.round(multiples).sum())


def goes_in_finer_steps(fine: Series, coarse: Series) -> bool:
    """Tell whether some readings surely go in finer steps than others: another meter, or another range.

    Parameters
    ----------
    fine, coarse : Series of n and m
        Readings in volts as shown. True needs three distinct values or more in `coarse`, or two that both
        occur often.
    """
    step = resolution_from_readings_V(coarse)
    finite = _last_finite(fine)
    if step is None or finite.size < FEWEST_READINGS:
        return False
    _, counts = np.unique(np.round(_last_finite(coarse) / step), return_counts=True)
    if counts.size < 3 and counts.min() < LEAST_SHARE_OF_LEVEL * counts.sum():
        return False
    beside = np.abs(finite / step - np.round(finite / step))
    between = (beside > BETWEEN[0]) & (beside < BETWEEN[1])
    return float(np.count_nonzero(between)) / finite.size >= LEAST_SHARE_BETWEEN


def are_multiples(values: Series, step_V: float) -> bool:
    """Tell whether readings in volts are all multiples of a step (0: of none); False where there are none."""
    finite = _last_finite(values)
    if finite.size == 0 or step_V <= 0.0:
        return False
    beside = np.abs(finite / step_V - np.round(finite / step_V))
    return bool(beside.max() <= ROUNDING)


def with_digits_of(meter: MeterAccuracy, values: Series) -> MeterAccuracy:
    """Return a meter as it read some voltages: with the step they go in, where that is coarser than its own.

    Parameters
    ----------
    meter : MeterAccuracy
    values : Series of n
        Voltages corrected for zero and gain.
    """
    digit_V = max(meter.resolution_V, resolution_from_readings_V(values) or 0.0)
    return replace(meter, resolution_V=digit_V, in_whole_counts=are_multiples(values, digit_V))


def _last_finite(values: Series) -> NDArray[np.float64]:
    """Return the last readings that a meter can have shown, as many as are looked at."""
    found: list[NDArray[np.float64]] = []
    left = LOOKED_AT
    for part in reversed(list(slices_of(0, values.size))):
        piece = values[part]
        found.append(piece[np.abs(piece) < HIGHEST_READING_V][-left:])
        left -= found[-1].size
        if left <= 0:
            break
    return np.concatenate([np.empty(0), *reversed(found)])
