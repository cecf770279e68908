"""Layers of buckets, each with its most recent part in memory: what an `Overview` is built of.

Not thread-safe; the overview guards them.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = ["BUCKETS", "Indices", "Layer", "Ring", "Vector", "finite", "fold", "halve"]

Vector = NDArray[np.float64]
Indices = NDArray[np.int64]

BUCKETS = (64, 256, 1024, 4096, 16384, 65536)
"""Samples in a bucket of each level."""

WORTH_ROWS = 16
"""With fewer buckets in a parent it is as quick to fold the rims one by one."""

GATHERED = 1 << 14
"""So many items that lie apart are gathered at a time: they stay in the quick memory of the processor."""

COPIED = 1 << 16
"""Items of a long stretch that are copied at a time."""

WORTH_A_GUESS = 64
"""With fewer times or limits a search is as quick."""


class Layer:
    """Buckets of one size, most recent part: time of the first sample, smallest and largest value.

    The samples themselves are the layer of bucket 1, whose smallest and largest are one ring.
    `factor` is how many of these buckets make one of the next layer (0 for the top), which is `coarser`.
    """

    def __init__(self, bucket: int, factor: int, times: Ring, low: Ring, high: Ring | None = None) -> None:
        self.bucket = bucket
        self.factor = factor
        self.times = times
        self.low = low
        self.high = low if high is None else high
        self.coarser: Layer | None = None
        self.has_overload = False
        """Of the samples: whether any may be one. Buckets are made without."""
        self._waiting: tuple[NDArray[Any], ...] | None = None

    @property
    def is_top(self) -> bool:
        """Tell whether there is no coarser layer."""
        return self.factor == 0

    @property
    def held_from(self) -> int:
        """First bucket from which on this layer and the next coarser one can be joined."""
        first = self.times.first
        return first if self.is_top else -(-first // self.factor) * self.factor

    def hold_all(self, count: int) -> None:
        """Keep up to `count` buckets, however many that is."""
        for ring in {id(r): r for r in (self.times, self.low, self.high)}.values():
            ring.limit = max(count, 1)

    def adopt(self, times_s: Vector, values: NDArray[Any]) -> None:
        """Hold samples as they are, without a copy."""
        self.times.adopt(times_s)
        self.low.adopt(values)

    def append(self, times_s: Vector, values: NDArray[Any]) -> None:
        """Take samples (of the layer of bucket 1)."""
        # A picture needs times in order; should a clock ever slip back, the sample is drawn at the
        # latest time seen. What is recorded is not touched by this.
        if self.times.count:
            times_s = np.maximum(times_s, self.times[self.times.count - 1])
        self.times.append(np.maximum.accumulate(times_s))
        self.low.append(values)

    def reduce_and_append(
        self, times_s: NDArray[Any], low: NDArray[Any], high: NDArray[Any]
    ) -> tuple[NDArray[Any], NDArray[Any], NDArray[Any]]:
        """Make buckets of the finer layer's `times_s, low, high`; return those made, for the next layer."""
        ratio = BUCKETS[0] if self.bucket == BUCKETS[0] else BUCKETS[1] // BUCKETS[0]
        finer = [times_s, low, high]
        if self._waiting is not None:
            finer = [np.concatenate(pair) for pair in zip(self._waiting, finer, strict=True)]
        whole = finer[0].size // ratio * ratio
        self._waiting = tuple(part[whole:].copy() for part in finer)
        made = (
            finer[0][:whole:ratio],
            halve(np.fmin, finer[1][:whole], ratio),
            halve(np.fmax, finer[2][:whole], ratio),
        )
        for ring, part in zip((self.times, self.low, self.high), made, strict=True):
            ring.append(part)
        return made

    def fold_flat(self, begin: Indices, beyond: Indices, low: Vector, high: Vector) -> None:
        """Fold buckets [begin, beyond) of every column into `low` and `high`, reading all in between."""
        rows = np.flatnonzero(beyond > begin)
        if not rows.size:
            return
        if self.has_overload:  # it is left out of a copy: of some at a time
            for part in np.split(rows, np.flatnonzero(np.diff(begin[rows] // COPIED)) + 1):
                self._fold_rows(part, begin, beyond, low, high)
        else:
            self._fold_rows(rows, begin, beyond, low, high)

    def _fold_rows(self, rows: Indices, begin: Indices, beyond: Indices, low: Vector, high: Vector) -> None:
        """Fold the buckets of these columns, at least one and none of them empty, as `fold_flat`."""
        first, end = int(begin[rows[0]]), int(beyond[rows[-1]])
        lowest = self._finite(self.low.part(first, end))
        highest = lowest if self.high is self.low else self.high.part(first, end)
        fold(lowest, highest, begin[rows] - first, beyond[rows] - first, low, high, rows)

    def fold_rims(self, begin: Indices, beyond: Indices, low: Vector, high: Vector) -> None:
        """Fold the fewer than `factor` buckets [begin, beyond), of one parent, at a rim of each column."""
        rows = np.flatnonzero(beyond > begin)
        rows = rows[self._may_widen(begin[rows] // self.factor, low[rows], high[rows])]
        if not rows.size:
            return
        # Past the end of a rim its last bucket is repeated: that changes no minimum or maximum.
        steps = np.arange(int((beyond - begin).max()))[:, None]
        number = np.minimum(begin[rows] + steps, beyond[rows] - 1)
        lowest = self._finite(self.low[number])
        highest = lowest if self.high is self.low else self.high[number]
        low[rows] = np.fmin(low[rows], np.fmin.reduce(lowest, axis=0))
        high[rows] = np.fmax(high[rows], np.fmax.reduce(highest, axis=0))

    def _may_widen(self, parent: Indices, low: Vector, high: Vector) -> NDArray[np.bool_]:
        """Tell of parents, in order, whether each may reach further than its column, from `low` to `high`.

        One that is not made yet may, and any where nothing is known of the column or of the parent.
        """
        may: NDArray[np.bool_] = np.ones(parent.shape, dtype=bool)
        if self.coarser is not None:
            made = slice(int(np.searchsorted(parent, self.coarser.times.count)))
            lowest, highest = self.coarser.low[parent[made]], self.coarser.high[parent[made]]
            may[made] = ~((lowest >= low[made]) & (highest <= high[made]))
        return may

    def _finite(self, values: NDArray[Any]) -> NDArray[Any]:
        return finite(values) if self.has_overload else values

    def can_fold_edges(self, begin: Indices, beyond: Indices) -> bool:
        """Tell whether `fold_edges` serves: no column but an empty one lies within a single parent."""
        is_even = self.times.count <= self.times.limit or self.times.limit % self.factor == 0
        if self.factor < WORTH_ROWS or not is_even:
            return False
        size = beyond - begin
        return bool(np.all((size == 0) | (size >= self.factor)))

    def fold_edges(self, edges: Indices, low: Vector, high: Vector) -> None:
        """Fold what lies between the edges of columns and the whole parents inside them; as `fold_rims`.

        The parent that an edge cuts is read once for the columns at both of its sides, and in one go.
        """
        cut = np.flatnonzero(edges % self.factor)
        is_whole = (edges[cut] // self.factor + 1) * self.factor <= self.times.count
        if not is_whole.all():  # the last parent, not whole yet: it belongs to the last column
            end = int(cut[np.argmin(is_whole)])
            begin, beyond = edges[end : end + 1] // self.factor * self.factor, edges[end : end + 1]
            if end:
                self.fold_rims(begin, beyond, low[end - 1 : end], high[end - 1 : end])
            cut = cut[is_whole]
        is_filled = np.concatenate([[False], edges[1:] > edges[:-1], [False]])
        parent = edges[cut] // self.factor
        # Of the columns at both sides of an edge the one of which less is known decides.
        known_low, known_high = np.full(is_filled.size, -np.inf), np.full(is_filled.size, np.inf)
        np.copyto(known_low[1:-1], low, where=is_filled[1:-1])
        np.copyto(known_high[1:-1], high, where=is_filled[1:-1])
        known_low, known_high = (
            np.maximum(known_low[:-1], known_low[1:]),
            np.minimum(known_high[:-1], known_high[1:]),
        )
        wanted = self._may_widen(parent, known_low[cut], known_high[cut])
        cut, parent = cut[wanted], parent[wanted]
        if not cut.size:
            return
        at_once = max(GATHERED // self.factor, 1)
        for done in range(0, cut.size, at_once):
            piece = slice(done, done + at_once)
            self._fold_cut(parent[piece], cut[piece], edges, is_filled, low, high)

    def _fold_cut(
        self,
        parent: Indices,
        cut: Indices,
        edges: Indices,
        is_filled: NDArray[np.bool_],
        low: Vector,
        high: Vector,
    ) -> None:
        """Fold the parents that the edges `cut` cut into the filled columns at both sides of each."""
        begins = np.arange(cut.size) * self.factor
        bounds = np.stack([begins, begins + edges[cut] % self.factor], axis=1).ravel()
        items = self._finite(self.low.rows(parent, self.factor)).ravel()
        for values, ufunc in ((low, np.fmin), (high, np.fmax)):
            parts = ufunc.reduceat(items, bounds)
            for column, part in ((cut - 1, parts[0::2]), (cut, parts[1::2])):
                here = is_filled[column + 1]
                values[column[here]] = ufunc(values[column[here]], part[here])


class Ring:
    """A growing vector that keeps only its last `limit` items; items are addressed by their number.

    Memory for `at_once` items is taken with the first one, and then doubles as needed.
    """

    def __init__(self, limit: int, *, at_once: int) -> None:
        self.limit = limit
        self.count = 0
        self._at_once = at_once
        self._data: NDArray[Any] = np.empty(0)

    @property
    def first(self) -> int:
        """Number of the oldest item still held."""
        return max(0, self.count - self.limit)

    def adopt(self, data: NDArray[Any]) -> None:
        """Hold `data` itself, without a copy."""
        self._data, self.count, self.limit = data, data.size, max(data.size, 1)

    def append(self, items: NDArray[Any]) -> None:
        """Take items; the oldest make room for them beyond the limit."""
        self._reserve(min(self.count + items.size, self.limit), items.dtype)
        kept = items[-self.limit :]
        place = (self.count + items.size - kept.size) % self._data.size if kept.size else 0
        straight = min(kept.size, self._data.size - place)
        self._data[place : place + straight] = kept[:straight]
        self._data[: kept.size - straight] = kept[straight:]
        self.count += items.size

    def __getitem__(self, number: Any) -> Any:
        return self._data[number % self._data.size if self.count > self.limit else number]

    def rows(self, number: Indices, width: int) -> NDArray[Any]:
        """Return for each number the items [number * width, (number + 1) * width), all held: (n, width)."""
        whole = self._data.size // width
        return self._data[: whole * width].reshape(whole, width)[number % whole]

    def part(self, first: int | None = None, beyond: int | None = None) -> NDArray[Any]:
        """Return the items numbered [first, beyond), all still held; to be copied before it is handed out."""
        first = self.first if first is None else first
        beyond = self.count if beyond is None else beyond
        if beyond <= first:
            return self._data[:0]
        place = first % self._data.size
        straight = min(beyond - first, self._data.size - place)
        front = self._data[place : place + straight]
        if straight == beyond - first:
            return front
        return np.concatenate([front, self._data[: beyond - first - straight]])

    def count_before(self, limits: Vector) -> Indices:
        """Return how many items ever appended are less than each limit (dropped ones count as less)."""
        if self.count <= self.limit:
            return count_less(self._data[: self.count], limits)
        oldest = self.count % self._data.size
        older, newer = self._data[oldest:], self._data[:oldest]
        return count_less(older, limits) + count_less(newer, limits) + self.first

    def _reserve(self, size: int, dtype: np.dtype[Any]) -> None:
        if size <= self._data.size and self._data.size:
            return
        grown = np.empty(min(max(2 * self._data.size, size, self._at_once), self.limit), dtype=dtype)
        grown[: self._data.size] = self._data
        if not self._data.size:
            grown.fill(0)  # else the system gives the memory page by page, as items come
        self._data = grown


def fold(
    lowest: NDArray[Any],
    highest: NDArray[Any],
    begin: Indices,
    beyond: Indices,
    low: Vector,
    high: Vector,
    rows: Indices,
) -> None:
    """Fold the items [begin, beyond) of `lowest` and `highest` into the columns `rows` of `low` and `high`.

    No range is empty, they are in order, and the last one ends where the items do.
    """
    if np.array_equal(begin[1:], beyond[:-1]):  # nothing lies between them
        bounds, step = begin, 1
    else:
        bounds, step = np.stack([begin, beyond], axis=1).ravel()[:-1], 2
    low[rows] = np.fmin(low[rows], np.fmin.reduceat(lowest, bounds)[::step])
    high[rows] = np.fmax(high[rows], np.fmax.reduceat(highest, bounds)[::step])


def count_less(times: NDArray[Any], limits: Vector) -> Indices:
    """As `numpy.searchsorted` of many growing limits, where times are even in a tenth of its time.

    In a long run each step of a search waits for memory. Times that are nearly even tell at once where a
    limit must lie; that is looked up, and only what is not there is searched for.
    """
    if limits.size < WORTH_A_GUESS or times.size < WORTH_A_GUESS:
        return np.searchsorted(times, limits)
    first, last = np.searchsorted(times, limits[[0, -1]])
    last = min(last, times.size - 1)
    span_s = times[last] - times[first] if last > first else 0.0
    if not span_s > 0:
        return np.searchsorted(times, limits)
    place = first + np.ceil((limits - times[first]) * ((last - first) / span_s))
    guess: Indices = np.minimum(np.maximum(place, 1), times.size - 1).astype(np.int64)
    wrong = np.flatnonzero((times[guess - 1] >= limits) | (times[guess] < limits))
    if wrong.size:
        guess[wrong] = np.searchsorted(times, limits[wrong])
    return guess


def finite(values: NDArray[Any]) -> NDArray[Any]:
    """Return `values` with overload replaced by NaN, which fmin and fmax pass over."""
    if values.dtype.kind != "f":
        return values
    over = np.isinf(values)
    return np.where(over, values.dtype.type(np.nan), values) if over.any() else values


def halve(ufunc: np.ufunc, values: NDArray[Any], ratio: int) -> NDArray[Any]:
    """Reduce each `ratio` (a power of two) consecutive values; far quicker than reshaping to rows."""
    while ratio > 1:
        values = ufunc(values[0::2], values[1::2])
        ratio //= 2
    return values
