"""Checksums kept in a recording: SHA-256 over the raw little-endian bytes of each dataset of samples."""

from __future__ import annotations

import hashlib
from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = ["ATTRIBUTE", "SLICE", "digest_of", "update"]

ATTRIBUTE = "sha256"
SLICE = 2**20
"""Samples read at once while checking: 8 MB."""


def update(digest: hashlib._Hash, block: NDArray[Any]) -> None:
    """Add a block of samples to a running digest, in the byte order of the file."""
    digest.update(np.ascontiguousarray(block, block.dtype.newbyteorder("<")).data)


def digest_of(dataset: Any) -> str:
    """Return the hexadecimal digest of a whole dataset, read in slices.

    Raises
    ------
    OSError : part of it cannot be read.
    """
    digest = hashlib.sha256()
    for begin in range(0, dataset.shape[0], SLICE):
        update(digest, dataset[begin : begin + SLICE])
    return digest.hexdigest()
