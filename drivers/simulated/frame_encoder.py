"""What a handheld meter sends for a voltage, in each of the frame formats. Pure; the inverse of the decoders.

The layouts are described in `drivers.formats`. The meter modelled here chooses its range by itself, so a
voltage comes back within half a count of the finest range that holds it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from drivers.formats.ascii14 import OVERLOAD_DIGITS, POINTS
from drivers.formats.lcd14 import SEGMENTS

__all__ = ["ENCODED_KINDS", "encode_frame", "with_odd_parity"]


class _Span(NamedTuple):
    """One range: digits after the point, whether in mV, and the code that says so where there is one."""

    decimals: int
    is_milli: bool = False
    code: int = 0


@dataclass(frozen=True, slots=True)
class _Display:
    """What the meter shows; `counts` is None for overload."""

    counts: int | None
    span: _Span
    is_minus: bool
    is_ac: bool
    is_held: bool
    has_low_battery: bool

    def digits(self, width: int) -> str:
        assert self.counts is not None
        return f"{self.counts:0{width}d}"


_FOUR_DIGIT_SPANS = (
    _Span(1, True, 0x30),
    _Span(3, False, 0x31),
    _Span(2, False, 0x32),
    _Span(1, False, 0x33),
)
_FIVE_DIGIT_SPANS = (
    _Span(2, True, 0x34),
    _Span(4, False, 0x30),
    _Span(3, False, 0x31),
    _Span(2, False, 0x32),
    _Span(1, False, 0x33),
)
_SEGMENTS_OF = {character: code for code, character in SEGMENTS.items()}
_POINT_BYTE = {decimals: byte for byte, decimals in POINTS.items()}


def encode_frame(
    kind: str,
    voltage_V: float,
    *,
    is_ac: bool = False,
    is_held: bool = False,
    has_low_battery: bool = False,
) -> bytes:
    """Return the frame that a meter of `kind` sends for `voltage_V`, as it is seen at 8N1.

    Beyond the largest range, and for an infinite voltage, it says overload. ``digit11`` is of profile A and
    cannot say that it is held; ``stx16`` can say neither that nor that its battery is low, and its
    overload, which is not documented, is eight dashes here.
    """
    spans, most_counts, build = _KINDS[kind]
    counts, span = _in_counts(abs(voltage_V), spans, most_counts)
    return build(_Display(counts, span, math.copysign(1, voltage_V) < 0, is_ac, is_held, has_low_battery))


def with_odd_parity(frame: bytes) -> bytes:
    """Return 7-bit bytes as an 8N1 port sees them when they are sent with odd parity."""
    return bytes(byte | 0x80 * (byte.bit_count() % 2 == 0) for byte in frame)


def _in_counts(magnitude_V: float, spans: tuple[_Span, ...], most_counts: int) -> tuple[int | None, _Span]:
    for span in spans:
        step_V = 10.0 ** -(span.decimals + 3 * span.is_milli)
        if magnitude_V / step_V < most_counts - 0.5:
            return round(magnitude_V / step_V), span
    return None, spans[-1]


def _lcd14(display: _Display) -> bytes:
    nibbles = [0] * 15  # counted from 1
    nibbles[1] = 0x3 | (0x8 if display.is_ac else 0x4)
    text = " 0L " if display.counts is None else display.digits(4)
    for place, character in enumerate(text):
        code = _SEGMENTS_OF[character]
        nibbles[2 * place + 2] = code >> 4
        nibbles[2 * place + 3] = code & 0xF
    nibbles[2] |= 0x8 * display.is_minus
    point = 2 if display.counts is None else 4 - display.span.decimals
    nibbles[2 * point + 2] |= 0x8
    nibbles[11] = 0x8 * display.span.is_milli
    nibbles[12] = 0x1 * display.is_held
    nibbles[13] = 0x4 | 0x1 * display.has_low_battery
    return bytes(k << 4 | nibbles[k] for k in range(1, 15))


def _ascii14(display: _Display) -> bytes:
    digits = OVERLOAD_DIGITS if display.counts is None else display.digits(4).encode()
    signs = 0x21 | (0x08 if display.is_ac else 0x10) | 0x02 * display.is_held
    bar = min(60, (display.counts or 4000) * 60 // 4000)
    return bytes(
        [
            ord("-" if display.is_minus else "+"),
            *digits,
            ord(" "),
            _POINT_BYTE[display.span.decimals],
            signs,
            0x04 * display.has_low_battery,
            0x40 * display.span.is_milli,
            0x80,
            bar,
            *b"\r\n",
        ]
    )


def _status(display: _Display) -> int:
    return 0x30 | 0x4 * display.is_minus | 0x2 * display.has_low_battery | 0x1 * (display.counts is None)


def _digit11(display: _Display) -> bytes:
    digits = "4000" if display.counts is None else display.digits(4)
    signs = 0x36 if display.is_ac else 0x3A
    return with_odd_parity(
        bytes([display.span.code, *digits.encode(), 0x3B, _status(display), 0x30, signs, *b"\r\n"])
    )


def _digit14(display: _Display) -> bytes:
    digits = "22000" if display.counts is None else display.digits(5)
    signs = 0x36 if display.is_ac else 0x3A
    held = 0x30 | 0x2 * display.is_held
    return with_odd_parity(
        bytes(
            [display.span.code, *digits.encode(), 0x3B, _status(display), 0x30, 0x30, signs, held, *b"\r\n"]
        )
    )


def _stx16(display: _Display) -> bytes:
    milli, plain = ("49", "50") if display.is_ac else ("18", "34")
    digits = "--------" if display.counts is None else display.digits(8)
    unit = milli if display.span.is_milli else plain
    return f"\x0241{unit}{display.is_minus:d}{display.span.decimals}{digits}\r".encode()


_KINDS: dict[str, tuple[tuple[_Span, ...], int, Callable[[_Display], bytes]]] = {
    "lcd14": (_FOUR_DIGIT_SPANS, 4000, _lcd14),
    "ascii14": (_FOUR_DIGIT_SPANS, 4000, _ascii14),
    "digit11": (_FOUR_DIGIT_SPANS, 4000, _digit11),
    "digit14": (_FIVE_DIGIT_SPANS, 22000, _digit14),
    "stx16": (_FOUR_DIGIT_SPANS, 4000, _stx16),
}

ENCODED_KINDS = tuple(_KINDS)
"""The kinds that `encode_frame` knows."""
