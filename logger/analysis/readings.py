"""Readings of a long run, a piece at a time: no second array as long as the recording is ever made."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Literal, Protocol

import numpy as np
from numpy.typing import NDArray

from logger.recording import Column

__all__ = [
    "HIGHEST_READING_V",
    "PIECE",
    "Between",
    "CorrectedVoltage",
    "Kept",
    "Selection",
    "Series",
    "Stretch",
    "bounds_of",
    "slices_of",
    "step_bounds",
]

PIECE = 1 << 16
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

    shown_V: Column
    zero_V: float = 0.0
    gain: float = 1.0
    is_magnitude: bool = False

    @property
    def size(self) -> int:
        """How many readings there are."""
        return int(self.shown_V.size)

    def bounds(self, part: slice) -> tuple[float, float] | None:
        """Return voltages between which all of a slice lie, without reading; None where that is not known."""
        signed = self._signed_bounds(part)
        if signed is None or not self.is_magnitude:
            return signed
        low, high = signed
        return max(low, -high, 0.0), max(abs(low), abs(high))

    def _signed_bounds(self, part: slice) -> tuple[float, float] | None:
        shown = bounds_of(self.shown_V, part)
        if shown is None:
            return None
        low, high = sorted((one - self.zero_V) / self.gain for one in shown)
        return None if high > HIGHEST_READING_V or low < -HIGHEST_READING_V else (low, high)

    def __getitem__(self, part: slice, /) -> Vector:
        """Return the corrected readings of a slice, shape (m,)."""
        volts: Vector = self.shown_V[part]
        if self.zero_V != 0.0 or self.gain != 1.0:
            volts = (volts - self.zero_V) / self.gain
        known = self._signed_bounds(part)  # asked once they were read: a column in a file knows by now
        if known is not None and (known[0] > 0.0 or not self.is_magnitude):
            return volts
        with np.errstate(invalid="ignore"):
            absurd = np.abs(volts) > HIGHEST_READING_V
        if absurd.any():
            volts = np.where(absurd, np.copysign(np.inf, volts), volts)
        return np.abs(volts) if self.is_magnitude else volts


@dataclass(frozen=True, slots=True, eq=False)
class Stretch:
    """The numbers [begin, end) of a column, none of them taken into memory yet."""

    column: Series
    begin: int
    end: int

    @property
    def size(self) -> int:
        """How many there are."""
        return max(0, self.end - self.begin)

    def __getitem__(self, part: slice, /) -> Any:
        """Return a slice of them as an array."""
        begin, end, _ = part.indices(self.size)
        return self.column[self.begin + begin : self.begin + end]


class Selection:
    """Which readings of a channel carry none of certain bits of quality; looked up where they are needed.

    Parameters
    ----------
    quality : Column of n
    bits : int
        Readings with one of them are left out.
    """

    def __init__(self, quality: Column, bits: int) -> None:
        self._quality, self._bits, self._piece = quality, bits, PIECE
        counts = [int(np.count_nonzero(self.mask(k))) for k in range(-(-quality.size // PIECE))]
        self._before = np.concatenate([[0], np.cumsum(counts, dtype=np.int64)])
        """How many are kept before each piece, and of all."""

    @property
    def size(self) -> int:
        """How many readings are kept."""
        return int(self._before[-1])

    def part(self, k: int) -> slice:
        """Return where piece `k` lies among all readings."""
        return slice(k * self._piece, (k + 1) * self._piece)

    def mask(self, k: int) -> NDArray[np.bool_]:
        """Tell which readings of piece `k` are kept."""
        kept: NDArray[np.bool_] = (self._quality[self.part(k)] & self._bits) == 0
        return kept

    def pieces_of(self, begin: int, end: int) -> Iterator[tuple[int, slice]]:
        """Yield pieces that hold kept readings from `begin` to before `end`, and which of their kept ones."""
        k = int(np.searchsorted(self._before, begin, side="right")) - 1
        while begin < end:
            first, beyond = int(self._before[k]), int(self._before[k + 1])
            if beyond > begin:
                yield k, slice(begin - first, min(end, beyond) - first)
                begin = beyond
            k += 1

    def count_before(self, number: int) -> int:
        """Return how many of the first `number` readings are kept."""
        k, within = divmod(number, self._piece)
        return int(self._before[k]) + (int(np.count_nonzero(self.mask(k)[:within])) if within else 0)


class Kept:
    """A column without the readings that a `Selection` leaves out."""

    def __init__(self, column: Column, selection: Selection) -> None:
        self._column, self._selection = column, selection

    @property
    def size(self) -> int:
        """How many readings are kept."""
        return self._selection.size

    @property
    def nbytes(self) -> int:
        """Bytes that all of them take in memory, eight each."""
        return 8 * self.size

    def __getitem__(self, part: Any, /) -> Any:
        """Return a slice as an array, or one reading."""
        if not isinstance(part, slice):
            number = range(self.size)[part]
            return self[number : number + 1][0]
        begin, end, _ = part.indices(self.size)
        chosen = self._selection
        found = [
            self._column[chosen.part(k)][chosen.mask(k)][rows] for k, rows in chosen.pieces_of(begin, end)
        ]
        return found[0] if len(found) == 1 else np.concatenate([np.empty(0), *found])

    def searchsorted(self, limits: Any, side: Literal["left", "right"] = "left") -> Any:
        """Return for each limit how many kept readings lie before it."""
        numbers = np.asarray(self._column.searchsorted(limits, side))
        found = np.array([self._selection.count_before(int(one)) for one in numbers.ravel()], dtype=np.int64)
        return found.reshape(numbers.shape)[()]


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
        self._times_s, self._volts, self.part = times_s, volts, part
        self._limits_V = lowest_V, highest_V
        self._slices = tuple(slices_of(part.start, part.stop))

    def __len__(self) -> int:
        return len(self._slices)

    def __getitem__(self, k: Any, /) -> Any:
        """Return piece `k`: times and voltages, shapes (m,); m may be 0."""
        part = self._slices[k]
        times, volts = self._times_s[part], self._volts[part]
        return (times, volts) if self._are_all_between(part) else self.of_these(times, volts)

    def of_these(self, times: Vector, volts: Vector) -> tuple[Vector, Vector]:
        """Return those of some readings that lie between."""
        lowest_V, highest_V = self._limits_V
        if volts.size and lowest_V < volts.min() and volts.max() < highest_V:
            return times, volts
        kept = (volts > lowest_V) & (volts < highest_V)
        return times[kept], volts[kept]

    def count(self, k: int) -> int:
        """Return how many readings of piece `k` lie between; read only where it is not known already."""
        part = self._slices[k]
        return int(part.stop - part.start) if self._are_all_between(part) else int(self[k][0].size)

    def _are_all_between(self, part: slice) -> bool:
        """Tell whether that is known without looking at them."""
        known = bounds_of(self._volts, part)
        return known is not None and self._limits_V[0] < known[0] and known[1] < self._limits_V[1]


def bounds_of(series: Series, part: slice) -> tuple[float, float] | None:
    """Return numbers between which all of a slice lie, where a column in a file remembers them; else None."""
    known: tuple[float, float] | None = series.bounds(part) if hasattr(series, "bounds") else None
    return known


def step_bounds(times_s: Column, part: slice) -> tuple[float, float]:
    """Return what no interval in a slice is shorter than, and none longer; that before its first one counts.

    Of no interval at all (infinity, -infinity). A column in a file remembers them once it was read.
    """
    if hasattr(times_s, "step_bounds"):
        found: tuple[float, float] = times_s.step_bounds(part)
        return found
    steps_s = np.diff(times_s[max(part.start - 1, 0) : part.stop])
    return float(steps_s.min(initial=np.inf)), float(steps_s.max(initial=-np.inf))


def slices_of(begin: int, end: int) -> Iterator[slice]:
    """Yield slices from `begin` to before `end` that end at multiples of `PIECE`, as stored readings do."""
    while begin < end:
        beyond = min((begin // PIECE + 1) * PIECE, end)
        yield slice(begin, beyond)
        begin = beyond
