"""What kind of picture some bytes are, how large, and whether it is there to its end. Nothing is decoded.

Sources: PNG, W3C Recommendation (third edition), 5.2, 5.3 and 11.2.1; JPEG, ITU-T T.81, Annex B; WebP,
RFC 9649, section 2.
"""

from __future__ import annotations

import struct
import zlib
from dataclasses import dataclass

__all__ = ["PictureForm", "form_of"]

PNG_SIGNATURE = b"\x89PNG\r\n\x1a\n"
SOI, EOI, SOS = 0xD8, 0xD9, 0xDA
FRAME_HEADERS = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
"""Markers that begin a frame; the three left out define tables, or are reserved."""
WITHOUT_LENGTH = frozenset({0x01, *range(0xD0, 0xD8)})


@dataclass(frozen=True, slots=True)
class PictureForm:
    """Media type (IANA), width and height in pixels as stored, and whether the end is there."""

    media_type: str
    width: int
    height: int
    is_whole: bool


def form_of(data: bytes) -> PictureForm | None:
    """Return the form of a picture; None when it is none of the known kinds.

    A picture of a known kind that says no size has the size 0 by 0 and is not whole.
    """
    if data.startswith(PNG_SIGNATURE):
        return PictureForm("image/png", *_png(data))
    if data.startswith(b"\xff\xd8\xff"):
        return PictureForm("image/jpeg", *_jpeg(data))
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return PictureForm("image/webp", *_webp(data))
    return None


def _png(data: bytes) -> tuple[int, int, bool]:
    head = data[8:33]
    if len(head) < 25 or head[:8] != b"\0\0\0\x0dIHDR" or zlib.crc32(head[4:21]) != _be32(head[21:]):
        return 0, 0, False
    width, height = struct.unpack(">II", head[8:16])
    at, has_data = 33, False
    while at + 12 <= len(data):
        kind = data[at + 4 : at + 8]
        has_data = has_data or kind == b"IDAT"
        if kind == b"IEND":
            return width, height, has_data and width > 0 < height
        at += 12 + _be32(data[at : at + 4])
    return width, height, False


def _jpeg(data: bytes) -> tuple[int, int, bool]:
    width = height = 0
    at = 2
    while at + 4 <= len(data) and data[at] == 0xFF:
        marker = data[at + 1]
        if marker == 0xFF:  # filled up
            at += 1
        elif marker in WITHOUT_LENGTH:
            at += 2
        elif marker == SOS:
            # What is coded follows; it holds no EOI of its own, since FF is always followed by 00 in it.
            has_end = data.find(bytes((0xFF, EOI)), at) >= 0
            return width, height, has_end and width > 0
        else:
            if marker in FRAME_HEADERS and at + 9 <= len(data):
                height, width = struct.unpack(">HH", data[at + 5 : at + 9])
            at += 2 + max(2, struct.unpack(">H", data[at + 2 : at + 4])[0])
    return width, height, False


def _webp(data: bytes) -> tuple[int, int, bool]:
    is_whole = len(data) >= 8 + int.from_bytes(data[4:8], "little")
    kind, body = data[12:16], data[20:30]
    if len(body) < 10:
        return 0, 0, False
    width = height = 0
    if kind == b"VP8X":
        width = 1 + int.from_bytes(body[4:7], "little")
        height = 1 + int.from_bytes(body[7:10], "little")
    elif kind == b"VP8L" and body[0] == 0x2F:
        bits = int.from_bytes(body[1:5], "little")
        width, height = 1 + (bits & 0x3FFF), 1 + (bits >> 14 & 0x3FFF)
    elif kind == b"VP8 " and body[3:6] == b"\x9d\x01\x2a":
        width, height = (value & 0x3FFF for value in struct.unpack("<HH", body[6:10]))
    return width, height, is_whole and width > 0 < height


def _be32(data: bytes) -> int:
    return int.from_bytes(data[:4], "big")
