"""``digit11``: 11 bytes, digits as ASCII; 2400 (some 19200) baud, 7 data bits, odd parity; 4000 counts.

``range d3 d2 d1 d0 function status opt1 opt2 0D 0A``, the first nine all 3x. Bits 3 to 0::

    status  judge minus low-battery overload        opt1  not documented
    opt2    profile A: DC AC AUTO APO               profile B: DC(1) or AC(0), AUTO, MAN, APO

Sources: two makers' manuals (line, order, functions, ranges, 4000 at overload, sent twice a conversion) and a
data sheet (opt2 of profile B), named in the tests; opt2 of profile A is from memory.

No frame tells its profile. Profile A is the one to assume: read as A, no AC frame of a profile B meter passes
for DC, and a DC frame with AUTO shows both DC and AC, which is refused with the words that lead to B. Read as
B, a frame of a profile A meter for AC and DC together would pass, so B is taken on the user's word only.
"""

from __future__ import annotations

import dataclasses
import functools
import re

from drivers.formats.frame import (
    FrameFormat,
    FrameReading,
    Mode,
    any_parity,
    damaged,
    overload,
    volts,
    wrong_mode,
)
from drivers.samples import Quality

__all__ = ["DECIMALS", "PROFILE_A", "PROFILE_B", "VOLTS"]

VOLTS = 0x3B
"""The function byte of volts. It is no digit, so lines of digits never become volts."""

DECIMALS = {0x30: 1, 0x31: 3, 0x32: 2, 0x33: 1, 0x34: 0}
"""Digits after the point, by the range byte; 30 is in mV."""

_MILLIVOLTS = 0x30
_UNKNOWN_SIGNS = (
    "The meter sends a sign whose meaning is not known here. Check on its display that neither HOLD, MAX, "
    "MIN nor REL is on."
)
_OTHER_FUNCTIONS = {
    0x31: Mode.DIODE,
    0x32: Mode.FREQUENCY,
    0x33: Mode.RESISTANCE,
    0x35: Mode.CONTINUITY,
    0x36: Mode.CAPACITANCE,
    0x39: Mode.CURRENT,
    0x3D: Mode.CURRENT,
    0x3F: Mode.CURRENT,
}


def _decode(frame: bytes, *, is_profile_b: bool) -> FrameReading:
    span, function, status, option_1, option_2 = frame[0], *frame[5:9]
    if function != VOLTS:
        return wrong_mode(_OTHER_FUNCTIONS.get(function, Mode.OTHER))
    refusal = _refused_in_b(option_2) if is_profile_b else _refused_in_a(option_2)
    if refusal is not None:
        return refusal
    if span not in DECIMALS:
        return damaged("its range is none of the volt ranges")
    quality = Quality.LOW_BATTERY if status & 0x2 else Quality.GOOD
    is_minus = bool(status & 0x4)
    if status & 0x1:
        return overload(is_minus=is_minus, quality=quality)
    reading = volts(
        frame[1:5].decode("ascii"),
        DECIMALS[span],
        is_minus=is_minus,
        is_milli=span == _MILLIVOLTS,
        quality=quality,
    )
    if option_1 & 0xF:
        return dataclasses.replace(reading, code="unknown_signs", text=_UNKNOWN_SIGNS)
    return reading


def _refused_in_a(option_2: int) -> FrameReading | None:
    is_dc, is_ac = option_2 & 0x8, option_2 & 0x4
    if is_dc and is_ac:
        return FrameReading(
            None,
            code="profile_needed",
            text="The meter says AC and DC at once. If it is on DC volts (V⎓), it orders its signs another "
            "way: add column=b to the address. Nothing is recorded until then.",
        )
    if is_dc:
        return None
    return wrong_mode(Mode.AC_VOLTS if is_ac else Mode.OTHER)


def _refused_in_b(option_2: int) -> FrameReading | None:
    if not option_2 & 0x8:
        return wrong_mode(Mode.AC_VOLTS)
    if option_2 & 0x4 and option_2 & 0x2:
        return damaged("it says automatic and manual range at once; without column=b it may be right")
    return None


def _profile(*, is_b: bool) -> FrameFormat:
    digit, other = any_parity(b"0123456789"), any_parity(bytes(range(0x30, 0x40)))
    return FrameFormat(
        name="digit11",
        length=11,
        baud=2400,
        pattern=re.compile(other + digit * 4 + other * 4 + any_parity(b"\r") + any_parity(b"\n")),
        decode=functools.partial(_decode, is_profile_b=is_b),
        has_parity=True,
        doubt="" if is_b else "the signs for AC and DC",
    )


PROFILE_A = _profile(is_b=False)
PROFILE_B = _profile(is_b=True)
