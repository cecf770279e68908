"""Frames of fixed length that handheld meters send unasked: what the formats have in common. No I/O.

A frame is found by its structure alone: the search slides one byte at a time until all bytes fit, whatever
came before, and never by time. There is no checksum in any of these formats, so a flipped bit may make
another good frame; what can be checked (parity, digits, units, ranges) is.

Lines are always opened with 8 data bits and no parity. A meter that sends 7 data bits and odd parity is then
seen with its parity in bit 7, where it is checked here; one that sends 7 or 8 bits without parity leaves
bit 7 clear. (7 data bits with parity cannot be set on a pseudo-terminal, and a port that checks parity
itself hides what was wrong.)
"""

from __future__ import annotations

import dataclasses
import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from drivers.samples import Quality

__all__ = [
    "FrameDecoder",
    "FrameFormat",
    "FrameReading",
    "Mode",
    "any_parity",
    "damaged",
    "overload",
    "relative",
    "volts",
    "wrong_mode",
]

_STRIP_BIT_7 = bytes(byte & 0x7F for byte in range(256))
_ODD_BYTES = bytes(byte for byte in range(256) if byte.bit_count() % 2)


class Mode(StrEnum):
    """What a meter measures instead of DC volts, in the words for "The meter shows ..."."""

    AC_VOLTS = "AC volts"
    AC_AND_DC_VOLTS = "AC and DC volts together"
    CURRENT = "a current"
    RESISTANCE = "a resistance"
    CONTINUITY = "a continuity test"
    DIODE = "a diode test"
    FREQUENCY = "a frequency"
    DUTY_CYCLE = "a duty cycle"
    CAPACITANCE = "a capacitance"
    TEMPERATURE = "a temperature"
    GAIN = "a transistor's gain"
    OTHER = "something other than DC volts"


@dataclass(frozen=True, slots=True)
class FrameReading:
    """What one frame says.

    `value` is in volts, +inf or -inf for overload, None when the frame must not be recorded. `step_V` is
    one count of the display in volts, `shown` the number as the display has it, with its unit. `code`
    (stable) and `text` (for people) tell what the user should know: always when there is no value.
    `bytes_after` counts the bytes of the same `feed` that came after this frame.
    """

    value: float | None
    quality: Quality = Quality.GOOD
    step_V: float = 0.0
    shown: str = ""
    code: str = ""
    text: str = ""
    raw: bytes = b""
    bytes_after: int = 0


@dataclass(frozen=True, slots=True)
class FrameFormat:
    """One format, as data.

    `pattern` matches exactly one frame of `length` bytes and nothing shorter. `decode` gets a frame that
    matched, without bit 7 if the format `has_parity`, and returns its reading, or None where the frame is
    sound but none of ours (a second display). `baud` is the usual line speed. `doubt` names what is from
    memory only, "" if all of it is documented.
    """

    name: str
    length: int
    baud: int
    pattern: re.Pattern[bytes]
    decode: Callable[[bytes], FrameReading | None]
    has_parity: bool = False
    doubt: str = ""


class FrameDecoder:
    """Finds and reads the frames of one format in bytes that come in pieces of any size.

    `frames` counts the frames found, `bytes_taken` all bytes fed so far.
    """

    def __init__(self, frame_format: FrameFormat) -> None:
        self.frames = 0
        self.bytes_taken = 0
        self._format = frame_format
        self._rest = b""

    @property
    def bytes_explained(self) -> int:
        """How many of the bytes fed so far belong to frames."""
        return self.frames * self._format.length

    def feed(self, data: bytes) -> list[FrameReading]:
        """Take bytes as they came and return the readings of the frames that are complete now."""
        self.bytes_taken += len(data)
        buffer = self._rest + data
        readings = []
        end = 0
        for found in self._format.pattern.finditer(buffer):
            end = found.end()
            self.frames += 1
            reading = self._read(found.group())
            if reading is not None:
                readings.append(dataclasses.replace(reading, bytes_after=len(buffer) - end))
        self._rest = buffer[max(end, len(buffer) - self._format.length + 1) :]
        return readings

    def _read(self, raw: bytes) -> FrameReading | None:
        reading = self._format.decode(raw.translate(_STRIP_BIT_7) if self._format.has_parity else raw)
        if reading is None:
            return None
        quality = reading.quality
        if self._format.has_parity and not _is_parity_sound(raw):
            # One of its bytes is wrong and nothing tells which, so neither is the value sure.
            quality |= Quality.PARITY | Quality.SUSPECT
        return dataclasses.replace(reading, raw=raw, quality=quality)


def _is_parity_sound(raw: bytes) -> bool:
    """Whether all bytes have odd parity, or none has bit 7 (a source without parity)."""
    return raw.isascii() or not raw.translate(None, _ODD_BYTES)


def any_parity(characters: bytes) -> bytes:
    """Return the pattern of one byte that is any of `characters`, whatever its bit 7."""
    members = sorted({character | bit_7 for character in characters for bit_7 in (0, 0x80)})
    return b"[" + b"".join(b"\\x%02x" % member for member in members) + b"]"


def volts(digits: str, decimals: int, *, is_minus: bool, is_milli: bool, quality: Quality) -> FrameReading:
    """Return the reading of `digits` with `decimals` of them after the point, in V or mV."""
    shown = Decimal(("-" if is_minus else "") + digits).scaleb(-decimals)
    exponent = -3 if is_milli else 0
    return FrameReading(
        value=float(shown.scaleb(exponent)),
        quality=quality,
        step_V=float(Decimal(1).scaleb(exponent - decimals)),
        shown=f"{shown:f} {'mV' if is_milli else 'V'}".replace("-", "−"),
    )


def overload(*, is_minus: bool, quality: Quality) -> FrameReading:
    """Return the reading of a display that says OL."""
    value = -math.inf if is_minus else math.inf
    return FrameReading(value, quality | Quality.OVERLOAD, shown="−OL" if is_minus else "OL")


def wrong_mode(mode: Mode) -> FrameReading:
    """Return the refusal of a meter that measures something other than DC volts."""
    return FrameReading(
        None,
        code="not_dc_volts",
        text=f"The meter shows {mode}. Turn the dial to DC volts (V⎓). Nothing is recorded until then.",
    )


def relative() -> FrameReading:
    """Return the refusal of a meter that subtracts a stored value."""
    return FrameReading(
        None,
        Quality.RELATIVE,
        code="relative",
        text="The meter subtracts a stored value (REL or Δ). Press that key again to end it. "
        "Nothing is recorded until then.",
    )


def damaged(why: str) -> FrameReading:
    """Return the refusal of a frame that cannot have been sent like this."""
    return FrameReading(None, code="damaged", text=f"A frame was not recorded: {why}.")
