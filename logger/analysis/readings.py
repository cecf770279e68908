"""Readings of a long run, a piece at a time: no second array as long as the recording is ever made."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

__all__ = ["PIECE", "Between", "CorrectedVoltage", "Series", "slices_of"]

PIECE = 1 << 17
"""Readings looked at together: their temporary arrays stay within the processor's cache."""

HIGHEST_READING_V = 1e4

Vector = NDArray[np.float64]


class Series(Protocol):
    """Numbers in order of which slices can be taken; an array is one."""

    @property
    def size(self) -> int:
        """How many there are."""

    def __getitem__(self, part: slice, /) -> Any:
        """Return a slice of them as an array of float64."""


@dataclass(frozen=True, slots=True, eq=False)
class CorrectedVoltage:
    """Readings corrected for the meter's zero and gain, (shown - zero)/gain, computed for each slice anew.

    What no meter can show, beyond 10 kV, is an overload: infinite. With `is_magnitude` the sign is taken off.
    """

    shown_V: Vector
    zero_V: float = 0.0
    gain: float = 1.0
    is_magnitude: bool = False

    @property
    def size(self) -> int:
        """How many readings there are."""
        return int(self.shown_V.size)

    def __getitem__(self, part: slice, /) -> Vector:
        """Return the corrected readings of a slice, shape (m,)."""
        volts = self.shown_V[part]
        if self.zero_V != 0.0 or self.gain != 1.0:
            volts = (volts - self.zero_V) / self.gain
        with np.errstate(invalid="ignore"):
            absurd = np.abs(volts) > HIGHEST_READING_V
        if absurd.any():
            volts = np.where(absurd, np.copysign(np.inf, volts), volts)
        return np.abs(volts) if self.is_magnitude else volts


class Between(Sequence[tuple[Vector, Vector]]):
    """The readings of a part of a run that lie between two voltages: pieces of times and of voltages.

    Parameters
    ----------
    times_s, volts : Series
        Of the whole run.
    part : slice
        With a beginning and an end.
    lowest_V, highest_V : float
        Readings at or beyond them are left out, and so are those that are no number.
    """

    def __init__(
        self, times_s: Series, volts: Series, part: slice, lowest_V: float, highest_V: float
    ) -> None:
        self._times_s, self._volts = times_s, volts
        self._limits_V = lowest_V, highest_V
        self._slices = tuple(slices_of(part.start, part.stop))

    def __len__(self) -> int:
        return len(self._slices)

    def __getitem__(self, k: Any, /) -> Any:
        """Return piece `k`: times and voltages, shapes (m,); m may be 0."""
        times, volts = self._times_s[self._slices[k]], self._volts[self._slices[k]]
        lowest_V, highest_V = self._limits_V
        if volts.size and lowest_V < volts.min() and volts.max() < highest_V:
            return times, volts
        kept = (volts > lowest_V) & (volts < highest_V)
        return times[kept], volts[kept]


def slices_of(begin: int, end: int) -> Iterator[slice]:
    """Yield the slices of `PIECE` readings from `begin` to before `end`."""
    for first in range(begin, end, PIECE):
        yield slice(first, min(first + PIECE, end))
