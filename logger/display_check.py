"""Does the program read what the meter's display shows? A person types the display, this compares."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from logger.bench_form import FieldError, parse_number
from logger.errors import LoggerError

__all__ = ["DisplayError", "DisplayVerdict", "compare_with_display"]

COUNTS_ALLOWED = 1.5
"""Counts of the display by which reading and display may differ: one of rounding, a half between two
updates (common practice, no source)."""

POWERS_OF_TEN = (-6, -3, -2, -1, 1, 2, 3)
"""Slips of unit or point that are looked for."""

_UNITS = {"": 1.0, "v": 1.0, "mv": 1e-3}
_TYPED = re.compile(r"(.*?)\s*(m?v)?", re.IGNORECASE | re.DOTALL)

Code = Literal["agrees", "sign", "factor", "differs"]


class DisplayError(LoggerError, ValueError):
    """What was typed is no display, or there is nothing to compare it with."""


@dataclass(frozen=True, slots=True)
class DisplayVerdict:
    """How the readings compare with the display.

    `read_V` is the reading nearest to the display, `difference_V` that reading less the display,
    `allowed_V` how far they may differ, `factor_of_ten` the power of ten between them where that is it.
    """

    code: Code
    shown_V: float
    read_V: float
    difference_V: float
    allowed_V: float
    factor_of_ten: int = 0


def compare_with_display(typed: str, recent_V: Sequence[float]) -> DisplayVerdict:
    """Compare a display with the readings of the last seconds.

    The nearest of these counts: display and readings need not have been taken at the same instant.

    Parameters
    ----------
    typed : what the display shows, for example ``2.251``, ``2,251 V`` or ``2251 mV``; its last digit says how
        fine it is.
    recent_V : readings in volts; overload is left out.

    Raises
    ------
    DisplayError : no number, or no reading.
    """
    shown_V, count_V = _display(typed)
    usable = [value for value in recent_V if math.isfinite(value)]
    if not usable:
        raise DisplayError("no reading has come in the last seconds; connect the meter and let it send")
    allowed_V = COUNTS_ALLOWED * count_V
    nearest_V = min(usable, key=lambda value: abs(value - shown_V))
    difference_V = nearest_V - shown_V
    if abs(difference_V) <= allowed_V * (1 + 1e-9):
        return DisplayVerdict("agrees", shown_V, nearest_V, difference_V, allowed_V)
    opposite_V = min(usable, key=lambda value: abs(value + shown_V))
    if abs(opposite_V + shown_V) <= allowed_V * (1 + 1e-9):
        return DisplayVerdict("sign", shown_V, opposite_V, opposite_V - shown_V, allowed_V)
    for power in POWERS_OF_TEN:
        scaled_V = nearest_V / 10.0**power
        if shown_V and abs(scaled_V - shown_V) <= max(allowed_V, 2 * count_V):
            return DisplayVerdict("factor", shown_V, nearest_V, difference_V, allowed_V, power)
    return DisplayVerdict("differs", shown_V, nearest_V, difference_V, allowed_V)


def _display(typed: str) -> tuple[float, float]:
    """Return the voltage that a display shows and what one count of it is, in volts."""
    found = _TYPED.fullmatch(typed.strip())
    assert found is not None
    if not typed.strip():
        raise DisplayError("type first what the display shows, for example 2.251 or 2251 mV")
    try:
        number = parse_number(found[1])
    except FieldError as error:
        raise DisplayError(f"{typed!r} is no display; write for example 2.251 or 2251 mV") from error
    factor = _UNITS[(found[2] or "").lower()]
    exponent = number.as_tuple().exponent
    assert isinstance(exponent, int)
    return float(number) * factor, 10.0**exponent * factor
