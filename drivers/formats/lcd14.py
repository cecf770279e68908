"""``lcd14``: 14 bytes, the segments of the meter's display; 2400 baud, 8 data bits, one way.

Byte k (1 to 14) is ``k << 4 | nibble``. Bit 3 to bit 0 of the nibbles::

    1  AC DC AUTO RS232    2  minus e1 f1 a1    3  d1 c1 g1 b1     4  DP1 e2 f2 a2    5  d2 c2 g2 b2
    6  DP2 e3 f3 a3        7  d3 c3 g3 b3       8  DP3 e4 f4 a4    9  d4 c4 g4 b4
    10 micro nano kilo diode    11 milli % mega beep    12 farad ohm REL HOLD    13 A V Hz low-battery
    14 differs from meter to meter

a is the top segment, b upper right, c lower right, d bottom, e lower left, f upper left, g the middle; DPn is
the point after digit n. Source: a maker's interface note, named in the tests (speed, length, upper nibbles);
the order of the bits inside the nibbles is from memory.
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

__all__ = ["FORMAT", "SEGMENTS"]

SEGMENTS = {
    0x7D: "0", 0x05: "1", 0x5B: "2", 0x1F: "3", 0x27: "4", 0x3E: "5", 0x7E: "6", 0x15: "7", 0x7F: "8",
    0x3F: "9", 0x68: "L", 0x00: " ",
}  # fmt: skip
"""What the display shows, by e f a d c g b. Other shapes of 6, 7 and 9 wait for a frame that proves them."""

_OTHER_MODES = (  # byte, bit, what it says; the first that is set counts
    (10, 0x1, Mode.DIODE),
    (11, 0x1, Mode.CONTINUITY),
    (11, 0x4, Mode.DUTY_CYCLE),
    (12, 0x8, Mode.CAPACITANCE),
    (12, 0x4, Mode.RESISTANCE),
    (13, 0x2, Mode.FREQUENCY),
    (13, 0x8, Mode.CURRENT),
)


def _decode(frame: bytes) -> FrameReading:
    nibble = [0] + [byte & 0x0F for byte in frame]  # counted from 1, as in the note
    refusal = _refused_mode(nibble)
    if refusal is not None:
        return refusal
    characters = [
        SEGMENTS.get((nibble[k] & 0x7) << 4 | nibble[k + 1], "?") for k in (2, 4, 6, 8)
    ]  # bit 3 of the first nibble is the minus or a point
    display = "".join(characters)
    if "?" in display:
        return damaged("a digit of the display has a shape that no digit has")
    quality = Quality.HOLD if nibble[12] & 0x1 else Quality.GOOD
    if nibble[13] & 0x1:
        quality |= Quality.LOW_BATTERY
    is_minus = bool(nibble[2] & 0x8)
    if "L" in display:
        return overload(is_minus=is_minus, quality=quality)
    points = [place for place in (1, 2, 3) if nibble[2 * place + 2] & 0x8]
    digits = display.lstrip()
    if len(points) > 1 or not digits or " " in digits:
        return damaged("the display has two points, or a blank among its digits")
    decimals = 4 - points[0] if points else 0
    return volts(digits, decimals, is_minus=is_minus, is_milli=bool(nibble[11] & 0x8), quality=quality)


def _refused_mode(nibble: list[int]) -> FrameReading | None:
    """Return why the signs do not say DC volts, or None if they do."""
    is_ac, is_dc, sends = nibble[1] & 0x8, nibble[1] & 0x4, nibble[1] & 0x1
    if is_ac and not sends:
        # The note prints the order RS232 AUTO DC AC. In that order this would be DC volts; it was never seen.
        return FrameReading(
            None,
            code="unknown_order",
            text="The meter's signs come in an order that was not seen before, or it is on AC volts. Turn "
            "the dial to DC volts (V⎓); if it is there already, please report these bytes: "
            + " ".join(f"{k << 4 | n:02X}" for k, n in enumerate(nibble) if k),
        )
    for k, bit, mode in _OTHER_MODES:
        if nibble[k] & bit:
            return wrong_mode(mode)
    if not nibble[13] & 0x4 or not (is_ac or is_dc):
        return wrong_mode(Mode.OTHER)
    if is_ac:
        return wrong_mode(Mode.AC_AND_DC_VOLTS if is_dc else Mode.AC_VOLTS)
    if nibble[12] & 0x2:
        return relative()
    if nibble[10] & 0xE or nibble[11] & 0x2:
        return damaged("its unit is neither V nor mV")
    return None


FORMAT = FrameFormat(
    name="lcd14",
    length=14,
    baud=2400,
    pattern=re.compile(b"".join(b"[\\x%x0-\\x%xf]" % (k, k) for k in range(1, 15))),
    decode=_decode,
    doubt="the order of the bits",
)
