"""One channel of a recording being written: samples, checksums and overview, in bounded memory."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray

from drivers.samples import Samples
from logger import checksum
from logger.errors import RecordingError
from logger.recording import fault_of_times

__all__ = ["ArchivedChannel"]

CHUNK = 16384
SLICE = 4 * CHUNK
"""Samples taken at once at most, whatever the length of a journal's blocks: this bounds the memory."""
FIRST_BUCKET = 64
BUCKET_FACTOR = 4
LAST_BUCKET = 65536
LEVEL_CHUNK = 32768
NO_TICKS = -1
COMPRESSION = {"shuffle": True, "compression": "gzip", "compression_opts": 4}


class ArchivedChannel:
    """Writes one channel into an open group, in whole chunks as they fill. `finish` writes the rest."""

    def __init__(self, group: Any) -> None:
        self.group = group
        self.last_s = 0.0
        self._written_s = 0.0
        self._count = 0
        self._waiting = 0
        self._columns = {
            name: _Column(group, name, dtype)
            for name, dtype in (("time", "f8"), ("value", "f8"), ("quality", "u1"))
        }
        self._overview = _Overview(group)

    def add(self, samples: Samples) -> None:
        """Take a block; what is kept of it is written by `write` or before."""
        for begin in range(0, len(samples), SLICE):
            self._add(samples, slice(begin, begin + SLICE))

    def _add(self, samples: Samples, part: slice) -> None:
        times_s = samples.times_s[part]
        if samples.board_ticks is not None and "board_ticks" not in self._columns:
            self._begin_ticks()
        self._columns["time"].add(times_s)
        self._columns["value"].add(samples.values[part])
        self._columns["quality"].add(samples.quality[part])
        if "board_ticks" in self._columns:
            ticks = samples.board_ticks
            self._columns["board_ticks"].add(
                ticks[part] if ticks is not None else np.full(times_s.size, NO_TICKS, np.int64)
            )
        self._count += times_s.size
        self._waiting += times_s.size
        self.last_s = float(times_s[-1])
        if self._waiting >= SLICE:
            self.write()

    def _begin_ticks(self) -> None:
        """Begin the column of the board's ticks, for a board that sent none with its first readings."""
        column = self._columns["board_ticks"] = _Column(self.group, "board_ticks", "i8")
        for begin in range(0, self._count, SLICE):
            column.add(np.full(min(SLICE, self._count - begin), NO_TICKS, np.int64))
            column.write()

    def write(self, *, all_of_it: bool = False) -> None:
        """Write what has gathered; a remainder below one chunk waits unless all is asked for."""
        for name, column in self._columns.items():
            for block in column.write(all_of_it=all_of_it):
                if name == "value":
                    self._overview.add(block)
                elif name == "time":
                    self._look_at_times(block)
        self._waiting = 0

    def _look_at_times(self, times_s: NDArray[np.float64]) -> None:
        """Raise RecordingError for times that no reader would take: the journal is not to be given up."""
        if (fault := fault_of_times(times_s, self._written_s)) is not None:
            raise RecordingError(f"the journal is not as a recorder writes it: in {self.group.name} {fault}")
        self._written_s = float(times_s[-1])

    def finish(self) -> None:
        """Write the rest, and the checksums."""
        self.write(all_of_it=True)
        for column in self._columns.values():
            column.finish()
        self._overview.finish()


class _Column:
    """One dataset that grows, with its checksum."""

    def __init__(self, group: Any, name: str, dtype: str) -> None:
        self._dataset = group.create_dataset(
            name, shape=(0,), maxshape=(None,), dtype=dtype, chunks=(CHUNK,), **COMPRESSION
        )
        self._digest = hashlib.sha256()
        self._parts: list[NDArray[Any]] = []

    def add(self, part: NDArray[Any]) -> None:
        self._parts.append(part)

    def write(self, *, all_of_it: bool = False) -> list[NDArray[Any]]:
        """Write and return what is a whole number of chunks, or all; an empty list when that is nothing."""
        if not self._parts:
            return []
        block = np.concatenate(self._parts)
        count = block.size if all_of_it else block.size - block.size % CHUNK
        # A copy: a view would keep the whole block.
        self._parts = [block[count:].copy()] if count < block.size else []
        if count == 0:
            return []
        block = block[:count]
        old = self._dataset.shape[0]
        self._dataset.resize((old + count,))
        self._dataset[old:] = block
        checksum.update(self._digest, block)
        return [block]

    def finish(self) -> None:
        self._dataset.attrs[checksum.ATTRIBUTE] = self._digest.hexdigest()


class _Overview:
    """Minimum and maximum of ever longer buckets of samples, for drawing long runs quickly."""

    def __init__(self, group: Any) -> None:
        overview = group.create_group("overview")
        overview.attrs["NX_class"] = "NXcollection"
        overview.attrs["note"] = "row 0 minimum, row 1 maximum of each bucket of samples, overload left out"
        self._levels = [_Level(overview, bucket) for bucket in _buckets()]

    def add(self, values: NDArray[np.float64]) -> None:
        # Overload (+-inf) is not a value: it must not hide the others of its bucket.
        finite = np.where(np.isfinite(values), values, np.nan)
        rows, factor = np.stack((finite, finite)), FIRST_BUCKET
        for level in self._levels:
            rows, factor = level.add(rows, factor), BUCKET_FACTOR

    def finish(self) -> None:
        for level in self._levels:
            level.finish()


class _Level:
    """The buckets of one length. No dataset is made for a level without a full bucket."""

    def __init__(self, overview: Any, bucket: int) -> None:
        self._overview = overview
        self._bucket = bucket
        self._dataset: Any = None
        self._rest = np.empty((2, 0))
        self._waiting: list[NDArray[np.float64]] = []
        self._count = 0
        self._digest = hashlib.sha256()

    def add(self, finer: NDArray[np.float64], factor: int) -> NDArray[np.float64]:
        """Take rows of the next finer level; return the buckets that became full."""
        rows = np.concatenate((self._rest, finer), axis=1)
        count = rows.shape[1] - rows.shape[1] % factor
        self._rest = rows[:, count:].copy()
        full = _reduce(rows[:, :count], factor)
        self._waiting.append(full)
        self._count += full.shape[1]
        if self._count >= LEVEL_CHUNK:
            self._write(self._count - self._count % LEVEL_CHUNK)
        return full

    def finish(self) -> None:
        if self._count:
            self._write(self._count)
        if self._dataset is not None:
            self._dataset.attrs["samples_covered"] = self._dataset.shape[1] * self._bucket
            self._dataset.attrs[checksum.ATTRIBUTE] = self._digest.hexdigest()

    def _write(self, count: int) -> None:
        rows = np.concatenate(self._waiting, axis=1)
        self._waiting = [rows[:, count:].copy()]
        self._count -= count
        if self._dataset is None:
            self._dataset = self._overview.create_dataset(
                f"level_{self._bucket}",
                shape=(2, 0),
                maxshape=(2, None),
                dtype="f8",
                chunks=(2, min(LEVEL_CHUNK, count)),
                **COMPRESSION,
            )
        old = self._dataset.shape[1]
        self._dataset.resize((2, old + count))
        self._dataset[:, old:] = rows[:, :count]
        checksum.update_level(self._digest, rows[:, :count])


def _buckets() -> Iterator[int]:
    bucket = FIRST_BUCKET
    while bucket <= LAST_BUCKET:
        yield bucket
        bucket *= BUCKET_FACTOR


def _reduce(rows: NDArray[np.float64], factor: int) -> NDArray[np.float64]:
    """Reduce rows (minimum, maximum) by a power of two, NaN aware; pairwise halving is the quick way."""
    low, high = rows
    while factor > 1:
        low = np.fmin(low[0::2], low[1::2])
        high = np.fmax(high[0::2], high[1::2])
        factor //= 2
    return np.stack((low, high))
