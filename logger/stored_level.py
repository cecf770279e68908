"""One level of the stored overview of a long recording: smallest and largest value of each bucket."""

from __future__ import annotations

import itertools
from typing import Any

import numpy as np
from numpy.typing import NDArray

from logger.block_cache import BlockCache
from logger.stored_file import StoredFile

__all__ = ["StoredLevel"]

BLOCK = 1 << 15
"""Buckets read together, as nearly as the chunks of the file allow."""


_NUMBERS = itertools.count()


class StoredLevel:
    """Rows of smallest and of largest values in a file, shape (2, `count`); read where they are asked for."""

    def __init__(self, file: StoredFile, name: str, count: int, cache: BlockCache, chunk: int) -> None:
        self._file, self._name, self._cache, self.count = file, name, cache, count
        self._number = next(_NUMBERS)
        self._block = chunk * max(1, BLOCK // chunk)

    def rows(self, begin: int, end: int) -> NDArray[np.float64]:
        """Return the buckets [begin, end), shape (2, end - begin). Raises RecordingError as `StoredFile`."""
        if end <= begin:
            return np.empty((2, 0))
        first, last = begin // self._block, (end - 1) // self._block
        parts = [self._read(block) for block in range(first, last + 1)]
        whole = parts[0] if len(parts) == 1 else np.concatenate(parts, axis=1)
        return whole[:, begin - first * self._block : end - first * self._block]

    def _read(self, block: int) -> NDArray[Any]:
        return self._cache.get(("level", self._number, block), lambda: self._load(block))

    def _load(self, block: int) -> NDArray[Any]:
        begin = block * self._block
        found = self._file.read(self._name, begin, min(begin + self._block, self.count))
        return found.astype(np.float64, copy=False)
