"""Numbers and times as they are written in the language of the window.

The rules are those of `logger.quantity` and `logger.scale`, which write a point; here it becomes the decimal
sign of the locale. For the window only: files, the clipboard and the command line keep the point.
"""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import QDate, QLocale, QTime

from logger import quantity, scale

__all__ = [
    "clock_text",
    "count_text",
    "day_and_time",
    "decimal_sign",
    "localised",
    "plain",
    "short",
    "significant",
    "time_label",
    "voltage_label",
    "with_uncertainty",
]

LONGEST_WRITTEN_OUT = 1e9


def decimal_sign() -> str:
    """Return the decimal sign of the locale."""
    return QLocale().decimalPoint()


def localised(number: str) -> str:
    """Return a number that was written with a point (and perhaps its unit) with the sign of the locale."""
    return number.replace(".", decimal_sign()) if "." in number else number


def plain(value: float, decimals: int, unit: str = "") -> str:
    """Return `value` with so many decimals, and the unit; see `logger.quantity.plain`."""
    return localised(quantity.plain(value, decimals, unit))


def significant(value: float, digits: int = 3, unit: str = "") -> str:
    """Return `value` with so many significant digits, and the unit; see `logger.quantity.significant`."""
    return localised(quantity.significant(value, digits, unit))


def with_uncertainty(value: float, expanded: float, unit: str = "") -> str:
    """Return ``value ± expanded unit``; see `logger.quantity.with_uncertainty`."""
    return localised(quantity.with_uncertainty(value, expanded, unit))


def short(value: float, digits: int = 6, unit: str = "") -> str:
    """Return `value` with at most so many digits and no zeros at its end: as it stands on a part."""
    text = f"{value:.{digits}g}"
    if "e+" in text and abs(value) < LONGEST_WRITTEN_OUT:  # nobody reads 1e+05 mL off a vessel
        text = f"{float(text):.0f}"
    text = text.replace("-", "−")
    return localised(text) + (quantity.NO_BREAK + unit if unit else "")


def clock_text(time_s: float, decimals: int = 0) -> str:
    """Return a run time as ``minutes:seconds``; see `logger.scale.clock_text`."""
    return localised(scale.clock_text(time_s, decimals))


def time_label(time_s: float, step_s: float) -> str:
    """Return a mark of the time axis; see `logger.scale.time_label`."""
    return localised(scale.time_label(time_s, step_s))


def voltage_label(voltage_V: float, step_V: float) -> str:
    """Return a mark of the voltage axis; see `logger.scale.voltage_label`."""
    return localised(scale.voltage_label(voltage_V, step_V))


def count_text(count: int) -> str:
    """Return a whole number with the locale's signs between thousands."""
    return QLocale().toString(count)


def day_and_time(iso: str) -> str:
    """Return day and time of an ISO 8601 text by the locale; empty where it is none."""
    try:
        at = datetime.fromisoformat(iso)
    except ValueError:
        return ""
    locale = QLocale()
    if locale.language() == QLocale.Language.C:  # no country's habit is known
        return f"{at:%Y-%m-%d, %H:%M}"
    short = QLocale.FormatType.ShortFormat
    day, clock = QDate(at.year, at.month, at.day), QTime(at.hour, at.minute)
    return f"{locale.toString(day, short)}, {locale.toString(clock, short)}"
