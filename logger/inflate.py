"""Inflating what a recording holds compressed: three times as fast where there is a library for it."""

from __future__ import annotations

from typing import Any

try:
    from isal import isal_zlib as _library
except ImportError:  # processors for which it is not made
    import zlib as _library  # type: ignore[no-redef]

__all__ = ["inflated"]


def inflated(stored: bytes, size: int) -> bytes:
    """Return the `size` bytes that a zlib stream (RFC 1950) stands for; its checksum is looked at.

    Raises
    ------
    ValueError : the stream is damaged, or stands for another number of bytes. Never makes more than `size`.
    """
    reader: Any = _library.decompressobj()
    try:
        found: bytes = reader.decompress(stored, size)
        is_over = reader.eof or (not reader.decompress(reader.unconsumed_tail, 1) and reader.eof)
    except _library.error as error:  # type: ignore[misc]
        raise ValueError(f"a compressed part is damaged ({error})") from error
    if len(found) != size or not is_over:
        raise ValueError(f"a compressed part does not hold its {size} bytes")
    return found
