"""What is written on the chart besides the curve. No Qt."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from logger.moments import Moment

__all__ = ["Level", "Notes", "PhaseBand", "Saving", "times_of"]


class _Times:
    """Times of the moments shown last, kept while they stay the same: there may be thousands."""

    def __init__(self) -> None:
        self._moments: tuple[Moment, ...] = ()
        self._times_s = np.empty(0)

    def __call__(self, moments: tuple[Moment, ...]) -> NDArray[np.float64]:
        if moments != self._moments:
            self._moments = moments
            self._times_s = np.array([moment.time_s for moment in moments], dtype=np.float64)
        return self._times_s


times_of = _Times()
"""Returns the times of moments in order of time, shape (n,). For the window's thread."""


@dataclass(frozen=True, slots=True)
class PhaseBand:
    """A phase of the run under the time axis; `end_s` None while it goes on."""

    name: str
    begin_s: float
    end_s: float | None


@dataclass(frozen=True, slots=True)
class Level:
    """A stretch in which the voltage was settled, or the best there was, and its mean.

    Only a settled one may look so: another is drawn dashed, in the colour of lesser things.
    """

    begin_s: float
    end_s: float
    voltage_V: float
    uncertainty_V: float
    text: str = ""
    is_settled: bool = True

    @property
    def look(self) -> str:
        """The colour of the palette that it is drawn in."""
        return "settled" if self.is_settled else "quiet"

    @property
    def ground(self) -> str:
        """The colour of the palette for how sure it is."""
        return "settled_soft" if self.is_settled else "band"


@dataclass(frozen=True, slots=True)
class Saving:
    """The fall from a level to the voltage at `at_s`, drawn as an arrow with words: green where sure."""

    from_level: Level
    at_s: float
    to_V: float
    caption: str
    value: str
    is_sure: bool = True

    @property
    def look(self) -> str:
        """The colour of the palette that it is drawn in."""
        return "settled" if self.is_sure else "ink"


@dataclass(frozen=True, slots=True)
class Notes:
    """All of it."""

    moments: tuple[Moment, ...] = ()
    phases: tuple[PhaseBand, ...] = ()
    levels: tuple[Level, ...] = ()
    saving: Saving | None = None
    last: tuple[float, float] | None = None

    def in_columns(self, column_s: float) -> Notes:
        """Return them with a saving that goes on by whole columns of the picture, as the curve does."""
        if self.saving is None:
            return self
        at_s = math.floor(self.saving.at_s / column_s) * column_s
        return replace(self, saving=replace(self.saving, at_s=at_s))
