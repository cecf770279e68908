"""What one look through all readings tells: their sign, the open cell, and where it is known, the states."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from logger.analysis.readings import Series, bounds_of, slices_of
from logger.analysis.states import LOWEST_OPEN_V, StateRuns, highest_confirmed_V, reversed_samples

__all__ = ["FirstLook", "look_through"]


@dataclass(frozen=True, slots=True)
class FirstLook:
    """What was seen in the readings of a run.

    Attributes
    ----------
    backwards, forwards : int
        Samples that three readings in a row show to be negative, or positive (see `reversed_samples`); the
        latter only where there are some of the former.
    first_below : int or None
        Number of the first negative reading.
    open_circuit_V : float or None
        The highest voltage that three readings in a row confirm, if it can only be an open cell.
    """

    backwards: int
    forwards: int
    first_below: int | None
    open_circuit_V: float | None


def look_through(voltage_V: Series, runs: StateRuns | None = None) -> FirstLook:
    """Go through the readings of a run once, in pieces.

    Parameters
    ----------
    voltage_V : Series of n
        Signed; overload infinite, missing NaN.
    runs : StateRuns, optional
        Takes the magnitudes.
    """
    backwards, first_below, highest_V = 0, None, 0.0
    is_low_before = True
    for piece in slices_of(0, voltage_V.size):
        known = bounds_of(voltage_V, piece)
        if is_low_before and known is not None and _is_plain(known, piece, runs):
            continue
        fresh = voltage_V[piece]
        last_two = voltage_V[max(piece.start - 2, 0) : piece.start]
        low_V, high_V = fresh.min(), fresh.max()
        is_upright = low_V >= 0.0  # and all of them are numbers
        magnitude = fresh if is_upright else np.abs(fresh)
        if runs is not None:
            runs.add(magnitude, np.abs(last_two))
        # With the two readings before, so that a row of three across the edge counts as well.
        is_low_before = bool(np.abs(fresh[-2:]).max() < LOWEST_OPEN_V)
        if not max(high_V, -low_V, np.abs(last_two).max(initial=0.0)) < LOWEST_OPEN_V:
            highest_V = max(highest_V, highest_confirmed_V(np.concatenate([last_two, fresh])))
        if not is_upright:
            backwards += reversed_samples(np.concatenate([last_two, fresh]))
            below = np.flatnonzero(fresh < 0.0)
            if first_below is None and below.size:
                first_below = piece.start + int(below[0])
    forwards = reversed_samples(voltage_V, upright=True) if backwards else 0
    return FirstLook(backwards, forwards, first_below, highest_V or None)


def _is_plain(known: tuple[float, float], piece: slice, runs: StateRuns | None) -> bool:
    """Tell whether readings between two voltages are not negative, no open cell's, and of one state."""
    if known[0] < 0.0 or known[1] >= LOWEST_OPEN_V:
        return False
    return runs is None or runs.add_unseen(piece.stop - piece.start, known)
