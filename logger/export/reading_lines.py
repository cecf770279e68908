"""Readings as lines of CSV, quickly: shortest decimals that give the same number back, no digit lost."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import orjson
from numpy.typing import NDArray

from logger.recording import ChannelData

__all__ = ["ROWS_AT_ONCE", "reading_lines"]

ROWS_AT_ONCE = 65536
FEW_RUNS = 64
"""Up to so many stretches of equal quality in a block are written at once each, else line by line."""

_DECIMAL_COMMA = bytes.maketrans(b",.", b";,")


def reading_lines(channel: ChannelData, *, decimal_comma: bool = False) -> Iterator[bytes]:
    """Yield the lines ``time,value,quality`` of all readings, `ROWS_AT_ONCE` a block.

    Overload is ``inf`` or ``-inf``. With `decimal_comma` fields are parted by semicolons.
    """
    for begin in range(0, channel.times_s.size, ROWS_AT_ONCE):
        part = slice(begin, begin + ROWS_AT_ONCE)
        lines = _block(channel.times_s[part], channel.values[part], channel.quality[part])
        yield lines.translate(_DECIMAL_COMMA) if decimal_comma else lines


def _block(times_s: NDArray[np.float64], values: NDArray[np.float64], quality: NDArray[np.uint8]) -> bytes:
    finite = np.isfinite(values)
    cuts = np.flatnonzero((quality[1:] != quality[:-1]) | (finite[1:] != finite[:-1])) + 1
    if cuts.size > FEW_RUNS:
        return _line_by_line(times_s, values, quality)
    lines = []
    for begin, end in zip([0, *cuts.tolist()], [*cuts.tolist(), times_s.size], strict=True):
        run = slice(begin, end)
        if finite[begin]:
            lines.append(_at_once(times_s[run], values[run], int(quality[begin])))
        else:
            lines.append(_line_by_line(times_s[run], values[run], quality[run]))
    return b"".join(lines)


def _at_once(times_s: NDArray[np.float64], values: NDArray[np.float64], quality: int) -> bytes:
    pairs = orjson.dumps(np.stack([times_s, values], axis=1), option=orjson.OPT_SERIALIZE_NUMPY)
    end = b",%d\r\n" % quality
    return pairs[2:-2].replace(b"],[", end) + end  # from [[1.0,2.0],[3.0,4.0]]


def _line_by_line(
    times_s: NDArray[np.float64], values: NDArray[np.float64], quality: NDArray[np.uint8]
) -> bytes:
    columns = (map(repr, times_s.tolist()), map(repr, values.tolist()), map(str, quality.tolist()))
    return ("\r\n".join(map(",".join, zip(*columns, strict=True))) + "\r\n").encode()
