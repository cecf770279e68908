"""``packet``: what a board's packets hold. Pure; finding them in a stream is `drivers.formats.packet_stream`.

On the wire a packet is one COBS block and a zero. Inside, everything little-endian::

    data  u8 1, u16 sequence, u32 ticks of the first sample, u8 n, u8 channel mask, u8 range code, u8 flags,
          n i16 codes, channel by channel for each instant, check
    info  u8 2, u8 version 1, u32 ticks per second, u32 ticks per sample, u32 samples the board dropped,
          u8 ranges, for each: u8 range code, u32 size of a code in units of 0.1 nV,
          u8 channels, for each: u8 input, i32 gain in millionths, i32 offset in microvolts, check
    text  u8 3, UTF-8, check

The mask has one bit for each input that is sampled; n is the number of codes, so there are n / (bits in the
mask) instants. A voltage is code x size x gain + offset, calculated here and never by the board.

The check is CRC-16/CCITT-FALSE (polynomial 1021, initial FFFF, not reflected; in catalogues CRC-16/IBM-3740)
over what stands before it; where that is more than 500 bytes it is CRC-32 (zlib's) instead. A payload of up
to 502 bytes therefore ends in two bytes of check, one from 505 on in four, and none is between.
"""

from __future__ import annotations

import binascii
import struct
import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import IntFlag

import numpy as np
from numpy.typing import NDArray

from drivers.formats import cobs

__all__ = [
    "DATA",
    "DATA_HEAD",
    "INFO",
    "RANGE_STEPS_V",
    "TEXT",
    "BoardInfo",
    "Flag",
    "body_length",
    "encode_data",
    "encode_info",
    "encode_text",
    "opened",
    "parse_info",
]

DATA, INFO, TEXT = 1, 2, 3
"""The types of packet."""

DATA_HEAD = struct.Struct("<BHIBBBB")
"""Type, sequence, ticks, n, mask, range code, flags."""

RANGE_STEPS_V: Mapping[int, float] = {
    0: 187.5e-6, 1: 125e-6, 2: 62.5e-6, 3: 31.25e-6, 4: 15.625e-6, 5: 7.8125e-6,
}  # fmt: skip
"""Volts per code by range code, where no info packet says otherwise: full scale / 32768 of a usual 16-bit
converter with ranges of 6.144, 4.096, 2.048, 1.024, 0.512 and 0.256 V (data sheet: see the tests)."""

_LONGEST_FOR_CRC16 = 500
_INFO_HEAD = struct.Struct("<BBIIIB")
_INFO_RANGE = struct.Struct("<BI")
_INFO_CHANNEL = struct.Struct("<Bii")
_INFO_VERSION = 1
_STEP_UNIT_V = 1e-10
_GAIN_UNIT = 1e-6
_OFFSET_UNIT_V = 1e-6


class Flag(IntFlag):
    """What a board says of a data packet."""

    CLIPPED = 1  # the converter was at the end of its range
    OVERFLOW = 2  # the board's buffer was full: samples before these were lost
    SENSOR_ERROR = 4  # the converter did not answer


@dataclass(frozen=True, slots=True)
class BoardInfo:
    """What an info packet says.

    `steps_V` : volts per code by range code. `gains`, `offsets_V` : by input, of the divider before it.
    """

    ticks_per_s: int
    sample_ticks: int
    dropped: int = 0
    steps_V: Mapping[int, float] = field(default_factory=dict)
    gains: Mapping[int, float] = field(default_factory=dict)
    offsets_V: Mapping[int, float] = field(default_factory=dict)


def body_length(payload_length: int) -> int | None:
    """Return how many bytes of a payload of this length stand before its check; None if it has none."""
    if 3 <= payload_length <= _LONGEST_FOR_CRC16 + 2:
        return payload_length - 2
    return payload_length - 4 if payload_length > _LONGEST_FOR_CRC16 + 4 else None


def opened(payload: bytes) -> bytes | None:
    """Return what stands before the check of `payload`, or None if the check is wrong."""
    length = body_length(len(payload))
    if length is None:
        return None
    body = payload[:length]
    return body if payload[length:] == _check(body) else None


def encode_data(
    sequence: int,
    ticks: int,
    codes: Sequence[int] | NDArray[np.int16],
    *,
    mask: int,
    range_code: int,
    flags: int = 0,
) -> bytes:
    """Return a data packet as it goes on the wire; `sequence` and `ticks` are taken modulo their width."""
    head = DATA_HEAD.pack(DATA, sequence & 0xFFFF, ticks & 0xFFFFFFFF, len(codes), mask, range_code, flags)
    return _on_the_wire(head + np.asarray(codes, dtype="<i2").tobytes())


def encode_info(info: BoardInfo) -> bytes:
    """Return an info packet as it goes on the wire."""
    parts = [
        _INFO_HEAD.pack(
            INFO, _INFO_VERSION, info.ticks_per_s, info.sample_ticks, info.dropped, len(info.steps_V)
        )
    ]
    parts += [_INFO_RANGE.pack(code, round(step / _STEP_UNIT_V)) for code, step in info.steps_V.items()]
    parts.append(bytes([len(info.gains)]))
    parts += [
        _INFO_CHANNEL.pack(
            number, round(gain / _GAIN_UNIT), round(info.offsets_V.get(number, 0.0) / _OFFSET_UNIT_V)
        )
        for number, gain in info.gains.items()
    ]
    return _on_the_wire(b"".join(parts))


def encode_text(text: str) -> bytes:
    """Return a text packet as it goes on the wire."""
    return _on_the_wire(bytes([TEXT]) + text.encode())


def parse_info(body: bytes) -> BoardInfo | None:
    """Read the body of an info packet; None if it is not of the form known here."""
    if len(body) < _INFO_HEAD.size + 1:
        return None
    _, version, ticks_per_s, sample_ticks, dropped, ranges = _INFO_HEAD.unpack_from(body)
    at = _INFO_HEAD.size + ranges * _INFO_RANGE.size
    if version != _INFO_VERSION or ticks_per_s == 0 or len(body) <= at:
        return None
    if len(body) != at + 1 + body[at] * _INFO_CHANNEL.size:
        return None
    channels = list(_INFO_CHANNEL.iter_unpack(body[at + 1 :]))
    return BoardInfo(
        ticks_per_s=ticks_per_s,
        sample_ticks=sample_ticks,
        dropped=dropped,
        steps_V={
            code: round(step * _STEP_UNIT_V, 10)
            for code, step in _INFO_RANGE.iter_unpack(body[_INFO_HEAD.size : at])
        },
        gains={number: gain / 1_000_000 for number, gain, _ in channels},
        offsets_V={number: offset / 1_000_000 for number, _, offset in channels},
    )


def _check(body: bytes) -> bytes:
    if len(body) > _LONGEST_FOR_CRC16:
        return zlib.crc32(body).to_bytes(4, "little")
    return binascii.crc_hqx(body, 0xFFFF).to_bytes(2, "little")


def _on_the_wire(body: bytes) -> bytes:
    return cobs.encode(body + _check(body)) + b"\0"
