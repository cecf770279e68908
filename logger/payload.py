"""What a frame of the journal holds: one JSON object, or a block of samples."""

from __future__ import annotations

import json
import struct
from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from drivers.samples import Samples
from logger.errors import RecordingError

__all__ = [
    "BLOCK_LIMIT",
    "Payload",
    "decode_samples",
    "encode_json",
    "encode_samples",
    "parts_of",
    "sample_parts",
    "size_of",
]

Payload = bytes | tuple[bytes | memoryview, ...]
"""The bytes of a payload, or the parts of it that lie apart in memory, in their order."""

BLOCK_LIMIT = 2**20
"""Samples in one frame at most: 25 MB, well inside the payload limit."""

_COPY_BELOW_BYTES = 4096
_BLOCK = struct.Struct("<HBxI")
_HAS_TICKS = 1
_FLOAT = np.dtype("<f8")
_TICKS = np.dtype("<i8")
_BITS = np.dtype("u1")


def size_of(payload: Payload) -> int:
    """Return how many bytes a payload has."""
    return len(payload) if isinstance(payload, bytes) else sum(map(len, payload))


def parts_of(payload: Payload) -> tuple[bytes | memoryview, ...]:
    """Return the parts of a payload, also of one in one part."""
    return (payload,) if isinstance(payload, bytes) else payload


def encode_json(value: Mapping[str, Any]) -> bytes:
    """Return a JSON payload."""
    return json.dumps(value, ensure_ascii=False, allow_nan=False).encode()


def sample_parts(index: int, samples: Samples) -> tuple[bytes | memoryview, ...]:
    """Return the payload of a SAMPLES frame for the channel with that index.

    Long columns are not copied: they must not change until the frame is durable.
    """
    parts = [
        _BLOCK.pack(index, 0 if samples.board_ticks is None else _HAS_TICKS, len(samples)),
        _raw(samples.times_s, _FLOAT),
        _raw(samples.values, _FLOAT),
    ]
    if samples.board_ticks is not None:
        parts.append(_raw(samples.board_ticks, _TICKS))
    parts.append(_raw(samples.quality, _BITS))
    return tuple(parts)


def encode_samples(index: int, samples: Samples) -> bytes:
    """Return the payload of a SAMPLES frame in one part."""
    return b"".join(sample_parts(index, samples))


def _raw(column: NDArray[Any], dtype: np.dtype[Any]) -> bytes | memoryview:
    contiguous = np.ascontiguousarray(column, dtype)
    if contiguous.nbytes < _COPY_BELOW_BYTES:
        return contiguous.tobytes()
    return contiguous.data.cast("B")


def decode_samples(payload: bytes) -> tuple[int, Samples]:
    """Return channel index and samples (with an empty channel name) of a SAMPLES payload.

    Raises
    ------
    RecordingError : the payload is not as long as it must be.
    """
    if len(payload) < _BLOCK.size:
        raise RecordingError(f"{len(payload)} bytes are too few for a block of samples")
    index, flags, n = _BLOCK.unpack_from(payload)
    has_ticks = bool(flags & _HAS_TICKS)
    if len(payload) != _BLOCK.size + n * (25 if has_ticks else 17):
        raise RecordingError(f"a block of {n} samples does not fit its frame of {len(payload)} bytes")
    at = _BLOCK.size
    times = np.frombuffer(payload, "<f8", n, at)
    values = np.frombuffer(payload, "<f8", n, at + 8 * n)
    ticks = np.frombuffer(payload, "<i8", n, at + 16 * n) if has_ticks else None
    quality = np.frombuffer(payload, "u1", n, len(payload) - n)
    return index, Samples("", times, values, quality, ticks)
