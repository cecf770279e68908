"""``digit14``: 14 bytes, digits as ASCII; 19200 baud, 7 data bits, odd parity; 22000 counts, two a second.

``range d4 d3 d2 d1 d0 function status opt1 opt2 opt3 opt4 0D 0A``, the first twelve all 3x. Bits 3 to 0::

    status  judge minus low-battery overload     opt1  MAX MIN REL RMR       opt2  underload PMAX PMIN -
    opt3    DC AC AUTO V-Hz                      opt4  - VBAR HOLD LPF

All from memory; to be compared with the data sheet of the chip that the tests name.
"""

from __future__ import annotations

import re

from drivers.formats.frame import (
    FrameFormat,
    FrameReading,
    Mode,
    any_parity,
    damaged,
    overload,
    relative,
    volts,
    wrong_mode,
)
from drivers.samples import Quality

__all__ = ["DECIMALS", "FORMAT", "VOLTS"]

VOLTS = 0x3B
"""The function byte of volts. It is no digit, so lines of digits never become volts."""

DECIMALS = {0x30: 4, 0x31: 3, 0x32: 2, 0x33: 1, 0x34: 2}
"""Digits after the point, by the range byte; 34 is in mV."""

_MILLIVOLTS = 0x34


def _decode(frame: bytes) -> FrameReading:
    span, function, status, option_1, option_2, option_3, option_4 = frame[0], *frame[6:12]
    refusal = _refused_mode(function, option_1, option_2, option_3)
    if refusal is not None:
        return refusal
    if span not in DECIMALS:
        return damaged("its range is none of the volt ranges")
    quality = Quality.GOOD
    if option_1 & 0xD or option_2 & 0x6 or option_4 & 0x2:
        quality |= Quality.HOLD
    if status & 0x2:
        quality |= Quality.LOW_BATTERY
    is_minus = bool(status & 0x4)
    if status & 0x1:
        return overload(is_minus=is_minus, quality=quality)
    return volts(
        frame[1:6].decode("ascii"),
        DECIMALS[span],
        is_minus=is_minus,
        is_milli=span == _MILLIVOLTS,
        quality=quality,
    )


def _refused_mode(function: int, option_1: int, option_2: int, option_3: int) -> FrameReading | None:
    """Return why the signs do not say DC volts, or None if they do."""
    is_dc, is_ac = option_3 & 0x8, option_3 & 0x4
    if function != VOLTS or not (is_dc or is_ac):
        return wrong_mode(Mode.OTHER)
    if option_3 & 0x1:
        return wrong_mode(Mode.FREQUENCY)
    if is_ac:
        return wrong_mode(Mode.AC_AND_DC_VOLTS if is_dc else Mode.AC_VOLTS)
    if option_1 & 0x2:
        return relative()
    if option_2 & 0x8:
        return FrameReading(
            None, code="underload", text="The meter shows UL: the voltage is below what it can measure."
        )
    return None


def _pattern() -> re.Pattern[bytes]:
    digit, other = any_parity(b"0123456789"), any_parity(bytes(range(0x30, 0x40)))
    first = any_parity(b"012")  # of 22000 counts
    return re.compile(other + first + digit * 4 + other * 6 + any_parity(b"\r") + any_parity(b"\n"))


FORMAT = FrameFormat(
    name="digit14",
    length=14,
    baud=19200,
    pattern=_pattern(),
    decode=_decode,
    has_parity=True,
    doubt="all of it",
)
