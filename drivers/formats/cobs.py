"""Consistent overhead byte stuffing: bytes without zeros, so that a zero can end a packet. Pure.

S. Cheshire, M. Baker, "Consistent Overhead Byte Stuffing", IEEE/ACM Trans. Networking 7 (1999) 159. Blocks
here are without the zero that ends them.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["LONGEST_ROW", "decode", "decode_rows", "encode"]

_FULL = 0xFF
"""The code of 254 bytes that no zero follows."""

LONGEST_ROW = 255
"""Longest block that `decode_rows` takes; in it only the last code can be a full one."""


def encode(data: bytes) -> bytes:
    """Return the block that stands for `data`; never empty, never with a zero."""
    block = bytearray()
    pieces = data.split(b"\0")
    for place, piece in enumerate(pieces):
        is_last = place == len(pieces) - 1
        while len(piece) >= _FULL - 1:
            block.append(_FULL)
            block += piece[: _FULL - 1]
            piece = piece[_FULL - 1 :]
            if not piece and is_last:
                return bytes(block)
        block.append(len(piece) + 1)
        block += piece
    return bytes(block)


def decode(block: bytes) -> bytes | None:
    """Return the bytes that `block` stands for, or None if it is no such block.

    A last code of one after a full one, which some encoders add, is taken too.
    """
    if not block or 0 in block:
        return None
    data = bytearray()
    at, end = 0, len(block)
    while at < end:
        code = block[at]
        following = at + code
        if following > end:
            return None
        data += block[at + 1 : following]
        if code != _FULL and following < end:
            data.append(0)
        at = following
    return bytes(data)


def decode_rows(rows: NDArray[np.uint8]) -> tuple[NDArray[np.uint8], NDArray[np.bool_]]:
    """Decode many blocks of one length at once.

    Parameters
    ----------
    rows : uint8, shape (m, length), length 1 to `LONGEST_ROW`, without zeros; one block a row.

    Returns
    -------
    The decoded bytes, uint8, shape (m, length - 1), and whether each row is a block, bool, shape (m,). What
    stands in a row that is none has no meaning.
    """
    count, length = rows.shape
    flat = rows.reshape(-1).copy()
    is_block = np.zeros(count, dtype=np.bool_)
    row = np.arange(count)
    end = (row + 1) * length
    at = row * length
    while row.size:
        following = at + flat[at]
        flat[at] = 0  # the first is cut off below; the others stand for a zero
        is_block[row[following == end]] = True
        goes_on = following < end
        row, end, at = row[goes_on], end[goes_on], following[goes_on]
    return flat.reshape(count, length)[:, 1:], is_block
