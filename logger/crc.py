"""CRC-32 as in zlib, ITU-T V.42 and PNG: twelve times as fast where there is a library for it."""

from __future__ import annotations

try:
    from isal.isal_zlib import crc32
except ImportError:  # processors for which it is not made
    from zlib import crc32

__all__ = ["crc32"]
