"""Quantities as texts for people: few digits, the unit, how sure, and a real minus sign.

For screens and paper only; files hold plain numbers.
"""

from __future__ import annotations

import math

__all__ = [
    "human_conditions", "interval_words", "plain", "power_of_ten", "rounded_down", "significant",
    "with_uncertainty",
]  # fmt: skip

NO_BREAK = "\u00a0"

TOO_LONG = 1e9
"""From here on nobody counts digits: such numbers come from damage, and are given as a power of ten."""

_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def plain(value: float, decimals: int, unit: str = "") -> str:
    """Return `value` with so many decimals, and the unit; a zero carries no sign."""
    if math.isfinite(value) and abs(value) >= TOO_LONG:
        return _joined(power_of_ten(value, 3), unit)
    text = f"{value:.{decimals}f}"
    if float(text) == 0:
        text = text.removeprefix("-")
    return _joined(text, unit)


def rounded_down(value: float, digits: int) -> float:
    """Return `value`, above zero, in so many digits and never larger: for times until a gas may burn."""
    step = 10.0 ** (math.floor(math.log10(value)) + 1 - digits)
    return step * math.floor(value / step * (1.0 + 1e-12))


def power_of_ten(value: float, digits: int) -> str:
    """Return `value` as ``2.5·10³⁰⁰`` with at most so many significant digits."""
    mantissa, _, exponent = f"{value:.{digits - 1}e}".partition("e")
    if "." in mantissa:
        mantissa = mantissa.rstrip("0").rstrip(".")
    return f"{mantissa}·10{str(int(exponent)).translate(_RAISED)}"


def human_conditions(text: str) -> str:
    """Return conditions as they stand in the findings (``22 degC``) with the signs that people write."""
    return text.replace(" degC", NO_BREAK + "°C").replace(" kPa", NO_BREAK + "kPa")


def significant(value: float, digits: int = 3, unit: str = "") -> str:
    """Return `value` rounded to so many significant digits, never in powers of ten, and the unit."""
    if value == 0 or not math.isfinite(value):
        return _joined(f"{value:.0f}", unit)
    rounded = float(f"{value:.{digits - 1}e}")
    decimals = digits - 1 - math.floor(math.log10(abs(rounded)))
    return plain(rounded, max(decimals, 0), unit)


def interval_words(low: float, high: float) -> str:
    """Return ``between low and high`` with enough decimals to tell the two apart, or ``at`` one number.

    At least one decimal, at most three: a drift of -0.004 to 0.003 must not read as 0.0 to 0.0.
    """
    for decimals in (1, 2, 3):
        ends = plain(low, decimals), plain(high, decimals)
        if ends[0] != ends[1]:
            return f"between {ends[0]} and {ends[1]}"
    return f"at {ends[0]}"


def with_uncertainty(value: float, expanded: float, unit: str = "") -> str:
    """Return ``value ± expanded unit``, both to the decimals that the uncertainty supports.

    One digit of the uncertainty is kept, two where it begins with 1 or 2 (common practice, no source).
    """
    if not (math.isfinite(expanded) and expanded > 0):
        return significant(value, 4, unit)
    exponent = math.floor(math.log10(expanded))
    digits = 2 if float(f"{expanded / 10**exponent:.2f}") < 2.95 else 1
    decimals = max(digits - 1 - exponent, 0)
    return f"{plain(value, decimals)} ± {plain(expanded, decimals, unit)}"


def _joined(text: str, unit: str) -> str:
    return text.replace("-", "−") + (NO_BREAK + unit if unit else "")
