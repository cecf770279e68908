"""``stx16``: 16 bytes between STX and CR, digits as ASCII; 9600 baud, 8 data bits, about one a second.

``02 '4' display unit unit polarity decimals D8 D7 D6 D5 D4 D3 D2 D1 0D``: display '1' main or '2' second, two
characters of unit ('34' DC V, '18' DC mV, '50' AC V, '49' AC mV, '36' DC A, '38' ohm, '31' Hz), polarity '0'
or '1' (minus), decimals '0' to '3'. Source: a maker's manual, named in the tests (the words of the frame, the
units); that digits are ASCII and come highest first, and the rate, is from memory. How overload is sent is
not documented: anything but digits is refused.
"""

from __future__ import annotations

import functools
import re

from drivers.formats.frame import FrameFormat, FrameReading, Mode, volts, wrong_mode
from drivers.samples import Quality

__all__ = ["MAIN_DISPLAY", "SECOND_DISPLAY", "UNITS"]

UNITS = {b"34": 0, b"18": -3}
"""The units of DC volts and their power of ten."""

_OTHER_UNITS = {
    b"50": Mode.AC_VOLTS,
    b"49": Mode.AC_VOLTS,
    b"36": Mode.CURRENT,
    b"38": Mode.RESISTANCE,
    b"31": Mode.FREQUENCY,
}


def _decode(frame: bytes, *, display: bytes) -> FrameReading | None:
    if frame[2:3] != display:
        return None
    unit, digits = frame[3:5], frame[7:15]
    if unit not in UNITS:
        return wrong_mode(_OTHER_UNITS.get(unit, Mode.OTHER))
    if not digits.isdigit():
        return FrameReading(
            None,
            code="no_digits",
            text=f"The meter sends {digits.decode('ascii').strip()!r} where digits should be: probably above "
            "its range (OL). Choose a larger range. Nothing is recorded until then.",
        )
    return volts(
        digits.decode("ascii"),
        frame[6] - ord("0"),
        is_minus=frame[5] == ord("1"),
        is_milli=UNITS[unit] == -3,
        quality=Quality.GOOD,
    )


def _display(number: bytes) -> FrameFormat:
    return FrameFormat(
        name="stx16",
        length=16,
        baud=9600,
        pattern=re.compile(rb"\x024[12][0-9A-Z]{2}[01][0-3][ -~]{8}\r"),
        decode=functools.partial(_decode, display=number),
        doubt="how digits are sent",
    )


MAIN_DISPLAY = _display(b"1")
SECOND_DISPLAY = _display(b"2")
