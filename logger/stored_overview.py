"""The curve of a long recording that stays in its file: from the stored levels, readings only from near.

Where a column holds 512 readings or more its edges are moved to those of a bucket, by at most a sixteenth of
its width, and it is put together from buckets alone; nearer, columns are exact. The edges are as good as
the `TimeIndex`, which becomes right once `prepare` has gone through the times.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from drivers.samples import Quality
from logger.errors import RecordingError
from logger.overview import Columns, Overview
from logger.overview_layers import BUCKETS, Indices, Vector, finite, fold, halve
from logger.progress import Progress
from logger.reading_off import Reading
from logger.recording import ChannelData, Gap
from logger.stored_column import StoredTimes
from logger.time_index import TimeIndex

__all__ = ["StoredOverview"]

BUCKETS_A_COLUMN = 8
"""Fewest buckets that a column is put together from."""

MOST_READ = 1 << 22
"""Readings taken into memory at once at most, when seen from near."""

PIECE = 1 << 16
FINEST_MADE = 256


class _MadeLevel:
    """A level that the file did not hold, made anew; its rows are like those of a `StoredLevel`."""

    def __init__(self, made: NDArray[np.float64]) -> None:
        self._made = made
        self.count = made.shape[1]

    def rows(self, begin: int, end: int) -> NDArray[np.float64]:
        return self._made[:, begin:end]


class StoredOverview(Overview):
    """The looks at a channel whose readings are in a file; see `Overview` for what they are.

    Whatever cannot be read is not drawn; `trouble` then says why, in one line. May be asked from any thread.
    """

    def __init__(self, channel: ChannelData, gaps: Iterable[Gap]) -> None:
        super().__init__(channel.name)
        assert isinstance(channel.times_s, StoredTimes)
        self._times_s, self._values, self._quality = channel.times_s, channel.values, channel.quality
        self._levels: dict[int, Any] = dict(channel.levels)
        self._index: TimeIndex | None = None
        self._spans_s = np.empty((0, 2))
        self._revision = 0
        self.trouble = ""
        self.set_gaps(gaps)
        try:
            self._index = TimeIndex(channel.times_s)
        except RecordingError as error:
            self.trouble = str(error)

    @property
    def revision(self) -> int:
        """Grows when the edges of columns have become right, and when overload was found."""
        return self._revision

    @property
    def overloads_s(self) -> Vector:
        """First and last time of each unbroken run of overload samples, once `prepare` has found them."""
        return self._spans_s

    def __len__(self) -> int:
        return int(self._values.size)

    @property
    def extent_s(self) -> tuple[float, float] | None:
        """Time of the first and of the last reading."""
        return None if self._index is None else (self._index.first_s, self._index.last_s)

    @property
    def last(self) -> tuple[float, float] | None:
        """Time and value of the last reading."""
        found = self._tried(lambda index: (index.last_s, float(self._values[-1])))
        return None if found is None else (float(found[0]), float(found[1]))

    def count_between(self, begin_s: float, end_s: float) -> int:
        """Return how many readings lie in [begin_s, end_s); about, where there are very many."""

        def count(index: TimeIndex) -> int:
            near = index.near(np.array([begin_s, end_s]))
            if near[1] - near[0] > MOST_READ:
                return int(near[1] - near[0])
            first, beyond = self._times_s.searchsorted((begin_s, end_s)).tolist()
            return int(beyond - first)

        return int(self._tried(count) or 0)

    def number_at(self, time_s: float) -> int:
        """Return how many readings lie before `time_s`."""
        return int(self._tried(lambda _index: self._times_s.searchsorted(time_s)) or 0)

    def reading(self, number: int) -> Reading | None:
        """Return the reading of that number, counted from 0; None where it cannot be read."""

        def read(_index: TimeIndex) -> Reading:
            here = slice(number, number + 1)
            time_s, value = float(self._times_s[here][0]), float(self._values[here][0])
            return Reading(number, time_s, value, Quality(int(self._quality[here][0])))

        found = self._tried(read) if 0 <= number < len(self) else None
        return found if isinstance(found, Reading) else None

    def samples_between(self, begin_s: float, end_s: float) -> tuple[Vector, NDArray[Any]] | None:
        """Return times and values in [begin_s, end_s) and one more at either side; None where too many."""

        def read(_index: TimeIndex) -> tuple[Vector, NDArray[Any]] | None:
            first, beyond = self._times_s.searchsorted((begin_s, end_s)).tolist()
            if beyond - first > MOST_READ:
                return None
            part = slice(max(first - 1, 0), beyond + 1)
            return self._times_s[part], self._values[part]

        found = self._tried(read)
        return found if isinstance(found, tuple) else None

    def columns(self, edges_s: Vector) -> Columns:
        """Return the smallest and largest value in each column; see `Overview.columns`."""
        edges_s = np.asarray(edges_s, dtype=np.float64)
        low = np.full(edges_s.size - 1, np.nan)
        high = low.copy()
        self._tried(lambda index: self._fill(index, edges_s, low, high))
        return Columns(low, high, ~np.isnan(low))

    def levels(self) -> dict[int, NDArray[Any]]:
        """Return the levels, wholly read: see `Overview.levels`."""
        return {bucket: level.rows(0, level.count) for bucket, level in self._levels.items()}

    def prepare(self, progress: Progress | None = None) -> None:
        """Make the edges of columns right, find overload, and make levels that are missing. Takes seconds.

        Raises
        ------
        Cancelled : `progress` was told to stop.
        """
        steps = progress or Progress()

        def look(index: TimeIndex) -> None:
            if not self._levels:
                self._levels = self._made_levels(steps.part(0.0, 0.6))
                self._revision += 1
            index.complete(steps.part(0.6, 0.9))
            self._find_overload(steps.part(0.9, 1.0))
            self._revision += 1

        self._tried(look)

    def check(self) -> None:
        """Raise RecordingError where something could not be read."""
        if self.trouble:
            raise RecordingError(self.trouble)

    def _tried(self, look: Callable[[TimeIndex], Any]) -> Any:
        """Return what a look at the file finds; None, and trouble, where it cannot be read."""
        if self._index is None:
            return None
        try:
            return look(self._index)
        except RecordingError as error:
            self.trouble = str(error)
            return None

    def _fill(self, index: TimeIndex, edges_s: Vector, low: Vector, high: Vector) -> None:
        near = index.near(edges_s)
        bucket = self._bucket_for((near[-1] - near[0]) / low.size)
        if bucket is None:
            first, beyond = self._times_s.searchsorted(edges_s[[0, -1]]).tolist()
            if beyond - first <= MOST_READ:
                self._fill_exactly(first, beyond, edges_s, low, high)
                return
            bucket = self._bucket_for((beyond - first) / low.size)
        if bucket is not None:
            self._fill_from(bucket, near, low, high)

    def _bucket_for(self, samples_a_column: float) -> int | None:
        fitting = [bucket for bucket in self._levels if BUCKETS_A_COLUMN * bucket <= samples_a_column]
        return max(fitting, default=None)

    def _fill_exactly(self, first: int, beyond: int, edges_s: Vector, low: Vector, high: Vector) -> None:
        numbers = np.searchsorted(self._times_s[first:beyond], edges_s)
        values = finite(self._values[first:beyond])
        _fold_rows(values, values, numbers, low, high)

    def _fill_from(self, bucket: int, near: Vector, low: Vector, high: Vector) -> None:
        level = self._levels[bucket]
        numbers = np.clip(np.rint(near / bucket), 0, level.count).astype(np.int64)
        first = int(numbers[0])
        lows, highs = level.rows(first, int(numbers[-1]))
        _fold_rows(lows, highs, numbers - first, low, high)
        rest = level.count * bucket
        holder = int(np.searchsorted(near, rest, side="right")) - 1
        if rest < self._values.size and 0 <= holder < low.size:
            tail = finite(self._values[rest : self._values.size])
            low[holder] = np.fmin(low[holder], np.fmin.reduce(tail))
            high[holder] = np.fmax(high[holder], np.fmax.reduce(tail))

    def _made_levels(self, progress: Progress) -> dict[int, Any]:
        parts = []
        for begin in range(0, self._values.size // FINEST_MADE * FINEST_MADE, PIECE):
            progress.reach(begin / self._values.size)
            values = finite(self._values[begin : begin + PIECE])
            values = values[: values.size // FINEST_MADE * FINEST_MADE]
            parts.append([halve(np.fmin, values, FINEST_MADE), halve(np.fmax, values, FINEST_MADE)])
        made: dict[int, Any] = {}
        rows = np.concatenate(parts, axis=1) if parts else np.empty((2, 0))
        for finer, bucket in zip((0, *BUCKETS), BUCKETS, strict=False):
            if bucket < FINEST_MADE:
                continue
            if bucket > FINEST_MADE:
                ratio = bucket // finer
                whole = rows[:, : rows.shape[1] // ratio * ratio]
                rows = np.stack([halve(np.fmin, whole[0], ratio), halve(np.fmax, whole[1], ratio)])
            if rows.shape[1]:
                made[bucket] = _MadeLevel(rows)
        return made

    def _find_overload(self, progress: Progress) -> None:
        """Note the runs of overload, which the recorder marks in the quality of the readings."""
        self._overloads.clear()
        for begin in range(0, self._values.size, PIECE):
            progress.reach(begin / self._values.size)
            part = slice(begin, begin + PIECE)
            if (self._quality[part] & Quality.OVERLOAD).any():
                self._note_overload(self._times_s[part], self._values[part])
            else:
                self._in_overload = False
        self._spans_s = np.array(self._overloads, dtype=float).reshape(-1, 2)


def _fold_rows(lows: NDArray[Any], highs: NDArray[Any], numbers: Indices, low: Vector, high: Vector) -> None:
    """Fold items into columns that begin and end at `numbers`, shape (m + 1,); the last is their count."""
    rows = np.flatnonzero(numbers[1:] > numbers[:-1])
    if rows.size:
        fold(lows, highs, numbers[:-1][rows], numbers[1:][rows], low, high, rows)
