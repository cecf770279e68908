"""Resistors one can buy, and how to read their colours."""

from __future__ import annotations

import difflib
import math
from collections.abc import Sequence
from dataclasses import dataclass

from logger.analysis.refusal import Refused, require_positive

__all__ = [
    "SERIES_TOLERANCE_PERCENT",
    "MarkedResistor",
    "colour_bands",
    "nearest_preferred_ohm",
    "preferred_numbers",
    "read_colour_bands",
]

SERIES_TOLERANCE_PERCENT: dict[str, float] = {"E6": 20.0, "E12": 10.0, "E24": 5.0, "E96": 1.0, "E192": 0.5}
"""Series of preferred numbers and the tolerance they go with, in percent (IEC 60063:2015)."""

# The coarse series are older than their rule: at 27 to 47 and 82 they differ from rounded powers of ten.
_E24 = (10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91)

_DIGITS = ("black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white")
_POWERS: dict[str, int] = {
    **{name: power for power, name in enumerate(_DIGITS)},
    "gold": -1,
    "silver": -2,
    "pink": -3,
}
_TOLERANCES_PERCENT: dict[str, float] = {
    "brown": 1.0,
    "red": 2.0,
    "orange": 0.05,
    "yellow": 0.02,
    "green": 0.5,
    "blue": 0.25,
    "violet": 0.1,
    "gold": 5.0,
    "silver": 10.0,
    "none": 20.0,
}
_COLOURS = tuple(dict.fromkeys((*_POWERS, *_TOLERANCES_PERCENT)))
_SPELLINGS = {"gray": "grey", "purple": "violet"}


@dataclass(frozen=True, slots=True)
class MarkedResistor:
    """A resistor as its bands state it: value in ohm, tolerance in percent, limits in ohm."""

    value_ohm: float
    tolerance_percent: float

    @property
    def limits_ohm(self) -> tuple[float, float]:
        """Smallest and largest value within the tolerance."""
        spread = self.value_ohm * self.tolerance_percent / 100.0
        return self.value_ohm - spread, self.value_ohm + spread


def preferred_numbers(series: str) -> tuple[int, ...]:
    """Return one decade of a series.

    Parameters
    ----------
    series : str
        ``E6``, ``E12``, ``E24``, ``E96`` or ``E192``.

    Returns
    -------
    tuple of int
        From 10 (two digits) for E6 to E24, from 100 (three digits) for E96 and E192, ascending.

    Raises
    ------
    Refused
        The series is not known.

    Notes
    -----
    Source: IEC 60063:2015. E96 and E192 are rounded powers of ten with one exception, 920 for 919.
    """
    if series not in SERIES_TOLERANCE_PERCENT:
        known = ", ".join(SERIES_TOLERANCE_PERCENT)
        raise Refused("series of resistors", repr(series), "it is not known here", f"give one of {known}")
    steps = int(series[1:])
    if steps <= 24:
        return _E24[:: 24 // steps]
    rounded = (round(100 * 10 ** (step / steps)) for step in range(steps))
    return tuple(920 if number == 919 else number for number in rounded)


def nearest_preferred_ohm(wanted_ohm: float, series: str = "E24") -> float:
    """Return the value of a series that is nearest to `wanted_ohm` by ratio.

    The current follows the ratio, not the difference; report the current that the answer really gives.

    Parameters
    ----------
    wanted_ohm : float
        In ohm, above zero.
    series : str
        See `preferred_numbers`.

    Raises
    ------
    Refused
        The value is not finite or not above zero, or the series is not known.
    """
    wanted_ohm = require_positive("resistor in ohm", wanted_ohm)
    numbers = preferred_numbers(series)
    digits = len(str(numbers[0]))
    decade = math.floor(math.log10(wanted_ohm))
    candidates = [_scaled(number, power - digits + 1) for power in (decade, decade + 1) for number in numbers]
    return min(candidates, key=lambda ohm: abs(math.log(ohm / wanted_ohm)))


def read_colour_bands(bands: Sequence[str]) -> MarkedResistor:
    """Return what the bands of a resistor say.

    Parameters
    ----------
    bands : sequence of str
        Three bands (two digits, power; 20 %), four (and tolerance), five (three digits, power,
        tolerance) or six (the last one, the temperature coefficient, is not used). First band first.

    Raises
    ------
    Refused
        Wrong number of bands, an unknown colour (the nearest is named), a colour that cannot stand in its
        place, or grey as tolerance, on which editions of the standard disagree.

    Notes
    -----
    Source: IEC 60062, as tabulated at resistorcolorcodes.org/chart.
    """
    names = [_colour(band) for band in bands]
    if not 3 <= len(names) <= 6:
        raise Refused("bands of the resistor", len(names), "there are three to six bands", "read them again")
    digits = 2 if len(names) <= 4 else 3
    number = 0
    for name in names[:digits]:
        if name not in _DIGITS:
            raise Refused(
                "digit band", name, "that colour is no digit", "turn the resistor round and read again"
            )
        number = 10 * number + _DIGITS.index(name)
    if number == 0:
        raise Refused(
            "digit bands", ", ".join(names[:digits]), "they read zero", "measure the resistor instead"
        )
    power = names[digits]
    if power not in _POWERS:
        raise Refused("multiplier band", power, "that colour is no multiplier", "read the bands again")
    tolerance = names[digits + 1] if len(names) > digits + 1 else "none"
    return MarkedResistor(_scaled(number, _POWERS[power]), _tolerance_percent(tolerance))


def colour_bands(value_ohm: float, tolerance_percent: float = 5.0) -> tuple[str, ...]:
    """Return the bands of a resistor: four where two digits are enough, otherwise five.

    Parameters
    ----------
    value_ohm : float
        In ohm, above zero, of no more than three significant digits.
    tolerance_percent : float
        One of those that have a colour.

    Raises
    ------
    Refused
        More than three digits, a power without a colour, or a tolerance without one.
    """
    value_ohm = require_positive("resistor in ohm", value_ohm)
    tolerance = next(
        (name for name, percent in _TOLERANCES_PERCENT.items() if percent == tolerance_percent), None
    )
    if tolerance is None:
        known = ", ".join(f"{percent:g}" for percent in sorted(_TOLERANCES_PERCENT.values()))
        raise Refused("tolerance in percent", tolerance_percent, "it has no colour", f"give one of {known}")
    mantissa, exponent = f"{value_ohm:.2e}".split("e")
    number, power = int(mantissa.replace(".", "")), int(exponent) - 2
    if not math.isclose(_scaled(number, power), value_ohm, rel_tol=1e-9):
        raise Refused(
            "resistor in ohm", value_ohm, "three digits cannot state it", "round it to three digits"
        )
    if number % 10 == 0:
        number, power = number // 10, power + 1
    multiplier = next((name for name, value in _POWERS.items() if value == power), None)
    if multiplier is None:
        raise Refused(
            "resistor in ohm", value_ohm, "no multiplier band goes so far", "give 0.01 ohm to 100 Gohm"
        )
    digits = tuple(_DIGITS[int(digit)] for digit in str(number))
    return (*digits, multiplier) if tolerance == "none" else (*digits, multiplier, tolerance)


def _scaled(number: int, power: int) -> float:
    """Return number times ten to the power, rounded once: 47 and 2 give exactly 4700."""
    return float(f"{number}e{power}")


def _colour(band: str) -> str:
    name = band.strip().lower()
    name = _SPELLINGS.get(name, name)
    if name not in _COLOURS:
        near = difflib.get_close_matches(name, _COLOURS, n=1, cutoff=0.5)
        hint = f"did you mean {near[0]}?" if near else f"known are {', '.join(_COLOURS)}"
        raise Refused("colour of a band", repr(band), "it is not known", hint)
    return name


def _tolerance_percent(name: str) -> float:
    if name == "grey":
        raise Refused(
            "tolerance band",
            name,
            "grey means 0.05 % in one edition of the standard and 0.01 % in another",
            "look up the tolerance in the resistor's data sheet",
        )
    if name not in _TOLERANCES_PERCENT:
        raise Refused(
            "tolerance band", name, "that colour is no tolerance", "turn the resistor round and read again"
        )
    return _TOLERANCES_PERCENT[name]
