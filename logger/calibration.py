"""A meter held against known voltages: the points, the straight line through them, and its use. Pure.

The line is ``true = (shown - zero_V) / gain``, as in the bench file: `zero_V` is what the meter shows with
its leads together, `gain` the change it shows over the true change. Straight line by least squares, every
point of equal weight (checked against `numpy.polyfit` in the tests). The limits on what is believed are
common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from drivers.samples import Quality
from logger.errors import LoggerError

__all__ = ["Calibration", "CalibrationError", "Point", "add_point", "point_from_readings"]

FEWEST_READINGS = 5
LARGEST_ZERO_V = 0.5
GAIN_LIMITS = (0.5, 2.0)
SPREAD_V, SPREAD_SHARE = 0.005, 0.005
"""Peak to peak of readings of a steady voltage: 5 mV or half a percent, whichever is more."""

SAME_POINT_SHARE, SAME_POINT_V = 0.1, 0.02
"""A new point so near an older one takes its place."""

LEAST_APART_V = 0.1
"""Voltages nearer to each other, and to zero, tell nothing of the gain: the zero hides it."""

LARGE_ZERO_V = 0.05
"""Beyond it the leads may not have been together; a zero up to `LARGEST_ZERO_V` is believed all the same."""

_UNUSABLE = Quality.HOLD | Quality.RELATIVE | Quality.OVERLOAD | Quality.PARITY | Quality.SUSPECT


class CalibrationError(LoggerError, ValueError):
    """Readings or points that make no calibration; the message says what to do."""


@dataclass(frozen=True, slots=True)
class Point:
    """What the meter showed at a known voltage.

    `shown_V` is the mean of `readings` readings, `spread_V` their standard deviation, `day` an ISO date,
    `against` in the user's words what the known voltage was known by.
    """

    true_V: float
    shown_V: float
    spread_V: float
    readings: int
    day: str
    against: str = ""


@dataclass(frozen=True, slots=True)
class Calibration:
    """The points of one instrument, and the line through them."""

    points: tuple[Point, ...]

    @property
    def gain(self) -> float:
        """Shown change over true change; 1 while only voltages near zero are known."""
        true_V, shown_V = self._columns()
        spread_V = true_V - true_V.mean()
        if self._has_one_voltage():
            is_small = abs(true_V.mean()) < LEAST_APART_V
            return 1.0 if is_small else float(shown_V.mean() / true_V.mean())
        return float(spread_V @ (shown_V - shown_V.mean()) / (spread_V @ spread_V))

    @property
    def zero_V(self) -> float:
        """What the meter shows at 0 V; 0 while only one other voltage is known, and that not a small one."""
        true_V, shown_V = self._columns()
        return float(shown_V.mean() - self.gain * true_V.mean())

    @property
    def day(self) -> str:
        """ISO date of the oldest point: the line is no younger than that."""
        return min(point.day for point in self.points)

    @property
    def largest_misfit_V(self) -> float:
        """How far the worst point lies off the line, in true volts; 0 with up to two points."""
        true_V, shown_V = self._columns()
        return float(np.abs(self.apply(shown_V) - true_V).max())

    def apply(self, shown_V: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return true voltages for shown ones, shape (n,); overload stays infinite."""
        return (shown_V - self.zero_V) / self.gain

    @property
    def remarks(self) -> tuple[str, ...]:
        """What the user may want to look at again, a sentence each."""
        true_V, _ = self._columns()
        remarks = []
        if abs(self.zero_V) > LARGE_ZERO_V:
            remarks.append(
                f"The zero of {1000 * self.zero_V:.3g} mV is much for a meter: were its two leads held "
                "together, off the cell?"
            )
        if true_V.any() and np.abs(true_V).max() < LEAST_APART_V:
            remarks.append(
                f"Voltages below {LEAST_APART_V:g} V tell the zero, but not the gain: for that take one "
                "more, of 1 V or more."
            )
        return tuple(remarks)

    def age_days(self, today: date) -> int:
        """Return how many days old the oldest point is."""
        return (today - date.fromisoformat(self.day)).days

    def checked(self) -> Calibration:
        """Return this calibration if it can be believed.

        Raises
        ------
        CalibrationError : gain or zero beyond what a sound meter has.
        """
        low, high = GAIN_LIMITS
        if low <= -self.gain <= high:
            raise CalibrationError(
                f"the meter shows {-self.gain:.4g} V of the other sign for each true volt: its leads are "
                "reversed, or the known voltage was given with the wrong sign. Swap the leads and begin again"
            )
        if not low <= self.gain <= high:
            raise CalibrationError(
                f"the meter would show {self.gain:.4g} V for each true volt; no sound meter is that far off. "
                "Was the known voltage really on its leads? A divider is undone by scale= in the address"
            )
        if abs(self.zero_V) > LARGEST_ZERO_V:
            raise CalibrationError(
                f"the meter would show {self.zero_V:.4g} V at 0 V; no sound meter is that far off. Hold its "
                "two leads together and take the zero again"
            )
        return self

    def _columns(self) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        return (
            np.array([point.true_V for point in self.points]),
            np.array([point.shown_V for point in self.points]),
        )

    def _has_one_voltage(self) -> bool:
        true_V, _ = self._columns()
        return bool(np.ptp(true_V) < LEAST_APART_V)


def point_from_readings(
    true_V: float, readings_V: Sequence[float], quality: Iterable[int], *, day: str, against: str = ""
) -> Point:
    """Return the point that readings of a steady, known voltage make.

    Raises
    ------
    CalibrationError : too few readings, doubtful ones, overload, or a voltage that wanders.
    """
    marked = any(bits & _UNUSABLE for bits in quality)
    values = np.asarray(readings_V, np.float64)
    if marked or not np.isfinite(values).all():
        raise CalibrationError(
            "some readings are held, overloaded or damaged; end HOLD or REL at the meter, see that its range "
            "holds the voltage, and begin again"
        )
    if values.size < FEWEST_READINGS:
        raise CalibrationError(
            f"{values.size} readings are too few to go by; let the meter send for longer (--for 20s)"
        )
    mean_V = float(values.mean())
    if float(np.ptp(values)) > max(SPREAD_V, SPREAD_SHARE * abs(mean_V)):
        raise CalibrationError(
            f"the readings wander by {float(np.ptp(values)):.4g} V; hold the leads firmly on a steady voltage"
        )
    if true_V == 0.0 and abs(mean_V) > LARGEST_ZERO_V:
        raise CalibrationError(
            f"the meter shows {mean_V:.4g} V; that is not the zero. Hold its two leads together, off the cell"
        )
    return Point(true_V, mean_V, float(values.std(ddof=1)), int(values.size), day, against)


def add_point(known: Calibration | None, point: Point) -> Calibration:
    """Return the calibration with one more point; it takes the place of those it repeats.

    Raises
    ------
    CalibrationError : the result cannot be believed.
    """
    if not math.isfinite(point.true_V):
        raise CalibrationError("the known voltage must be a number")
    near_V = max(SAME_POINT_V, SAME_POINT_SHARE * abs(point.true_V))
    others = [one for one in (known.points if known else ()) if abs(one.true_V - point.true_V) > near_V]
    points = sorted([*others, point], key=lambda one: one.true_V)
    return Calibration(tuple(points)).checked()
