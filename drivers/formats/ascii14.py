"""``ascii14``: 14 bytes, digits as ASCII and signs as bits; 2400 baud, 8 data bits, about two a second.

``sign d d d d 20 point SB1 SB2 SB3 SB4 bar 0D 0A``. The point is 30 for none, 31 after the first digit, 32
after the second, 34 after the third; overload replaces the digits by ``?0:?``. Bits 7 to 0::

    SB1  - - AUTO DC AC REL HOLD bar     SB2  - - MAX MIN APO low-battery nano -
    SB3  micro milli kilo mega beep diode % -     SB4  V A ohm hFE Hz F degC degF

The signs may equal CR or LF, so a frame is never cut at its end bytes. All from memory; to be
compared with the data sheet of the chip that the tests name.
"""

from __future__ import annotations

import re

from drivers.formats.frame import (
    FrameFormat,
    FrameReading,
    Mode,
    damaged,
    overload,
    relative,
    volts,
    wrong_mode,
)
from drivers.samples import Quality

__all__ = ["FORMAT", "OVERLOAD_DIGITS", "POINTS"]

OVERLOAD_DIGITS = b"?0:?"
POINTS = {ord("0"): 0, ord("1"): 3, ord("2"): 2, ord("4"): 1}
"""Digits after the point, by the point's byte."""

_OTHER_UNITS = (
    (0x40, Mode.CURRENT),
    (0x20, Mode.RESISTANCE),
    (0x10, Mode.GAIN),
    (0x08, Mode.FREQUENCY),
    (0x04, Mode.CAPACITANCE),
    (0x02, Mode.TEMPERATURE),
    (0x01, Mode.TEMPERATURE),
)
_OTHER_TESTS = ((0x04, Mode.DIODE), (0x08, Mode.CONTINUITY), (0x02, Mode.DUTY_CYCLE))


def _decode(frame: bytes) -> FrameReading:
    signs, extremes, prefix, unit = frame[7:11]
    refusal = _refused_mode(signs, extremes, prefix, unit)
    if refusal is not None:
        return refusal
    quality = Quality.GOOD
    if signs & 0x02 or extremes & 0x30:
        quality |= Quality.HOLD
    if extremes & 0x04:
        quality |= Quality.LOW_BATTERY
    is_minus = frame[0] == ord("-")
    digits = frame[1:5]
    if digits == OVERLOAD_DIGITS:
        return overload(is_minus=is_minus, quality=quality)
    return volts(
        digits.decode("ascii"),
        POINTS[frame[6]],
        is_minus=is_minus,
        is_milli=bool(prefix & 0x40),
        quality=quality,
    )


def _refused_mode(signs: int, extremes: int, prefix: int, unit: int) -> FrameReading | None:
    """Return why the signs do not say DC volts, or None if they do."""
    for value, table in ((prefix, _OTHER_TESTS), (unit, _OTHER_UNITS)):
        for bit, mode in table:
            if value & bit:
                return wrong_mode(mode)
    is_dc, is_ac = signs & 0x10, signs & 0x08
    if unit != 0x80 or not (is_dc or is_ac):
        return wrong_mode(Mode.OTHER)
    if is_ac:
        return wrong_mode(Mode.AC_AND_DC_VOLTS if is_dc else Mode.AC_VOLTS)
    if signs & 0x04:
        return relative()
    if prefix & 0xBF or extremes & 0x02:
        return damaged("its unit is neither V nor mV")
    return None


FORMAT = FrameFormat(
    name="ascii14",
    length=14,
    baud=2400,
    pattern=re.compile(rb"[+-](?:[0-9]{4}|\?0:\?) [0124].{5}\r\n", re.DOTALL),
    decode=_decode,
    doubt="all of it",
)
