"""Min/max levels over the samples of one channel: the curve at any zoom, exact and quick.

Level 64 keeps the smallest and largest value of each 64 consecutive samples, level 256 of each four
buckets of level 64, and so on to 65536. A pixel column is put together from the coarsest buckets that
lie wholly inside it and, at its two rims, from finer ones down to the samples. So a column is exact,
whatever the zoom and however irregular the times, and a spike of a single sample is never lost.

Memory is bounded however long the run: samples and each level keep only their most recent part. The room
for them is taken with the first of each, so after hours a run takes no more than after minutes; later only
the levels grow, by half a byte a sample. Where samples are no longer held, *a bucket belongs whole to the
column in which it begins*, at the finest level still held there.
"""

from __future__ import annotations

import itertools
import threading
from collections import deque
from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from drivers.samples import Quality, Samples
from logger.overview_layers import BUCKETS, Indices, Layer, Ring, Vector, finite
from logger.reading_off import Reading
from logger.recording import Gap

__all__ = ["BUCKETS", "Columns", "Overview", "gap_between"]


SAMPLES_KEPT = 1 << 19
"""Most recent samples held while recording (8 MB, taken at once): three hours at 50 a second."""

STRETCH_KEPT_S = 600.0
"""Where these reach less far back more samples are held: what has just happened is looked at closely."""

MOST_SAMPLES_KEPT = 1 << 22
"""The most that is held then (64 MB): 40 s at 100,000 a second."""

BUCKETS_KEPT = 1 << 18
"""Most recent buckets held of each level while recording (6 MB a level)."""

FLAT_LIMIT = 3 << 17
"""A stretch of at most this many items is reduced at once; longer ones by way of the next level."""

PIECE = 1 << 20
"""A large block is taken in pieces of this many samples, to keep temporary arrays small."""

OVERLOADS_KEPT = 4096


class Columns(NamedTuple):
    """What each pixel column shows: smallest and largest finite value (NaN where there is none)."""

    low: Vector
    high: Vector
    has_data: NDArray[np.bool_]


class Overview:
    """The looks at one channel's samples, while they arrive or afterwards.

    `add` is called on the recorder's thread, everything else on any thread; one lock guards all of it
    and is held for at most a few milliseconds.

    Parameters
    ----------
    channel : name of the channel whose samples are taken; blocks of others are passed over.
    samples_kept, buckets_kept : how many samples, and buckets of each level, stay in memory.
    most_samples_kept : how many samples stay at most, where they come so fast that `samples_kept` would not
        reach back `STRETCH_KEPT_S`.
    """

    def __init__(
        self,
        channel: str = "cell_voltage",
        *,
        samples_kept: int = SAMPLES_KEPT,
        buckets_kept: int = BUCKETS_KEPT,
        most_samples_kept: int = MOST_SAMPLES_KEPT,
    ) -> None:
        if not 4 * BUCKETS[0] <= samples_kept <= most_samples_kept <= buckets_kept * BUCKETS[0]:
            raise ValueError("256 <= samples_kept <= most_samples_kept <= 64 * buckets_kept must hold")
        self.channel = channel
        self._lock = threading.Lock()
        self._most_samples_kept = most_samples_kept
        samples = (Ring(samples_kept, at_once=samples_kept) for _ in range(2))
        self._raw = Layer(1, BUCKETS[0], *samples)
        self._held_quality = Ring(samples_kept, at_once=samples_kept)
        """Of the samples held; empty where it was not given."""
        parents = (*BUCKETS[1:], 0)
        self._layers = [self._raw] + [
            Layer(
                bucket,
                parent // bucket,
                *(Ring(buckets_kept, at_once=max(samples_kept // bucket, 1)) for _ in range(3)),
            )
            for bucket, parent in zip(BUCKETS, parents, strict=True)
        ]
        for finer, coarser in itertools.pairwise(self._layers):
            finer.coarser = coarser
        self._overloads: deque[list[float]] = deque(maxlen=OVERLOADS_KEPT)
        self._in_overload = False
        self._gaps_s = np.empty((0, 2))

    @classmethod
    def of(
        cls,
        times_s: Vector,
        values: NDArray[Any],
        *,
        quality: NDArray[np.uint8] | None = None,
        gaps: Iterable[Gap] = (),
        channel: str = "cell_voltage",
    ) -> Overview:
        """Return the overview of finished samples; the arrays are referred to, not copied.

        Parameters
        ----------
        times_s : float64, shape (n,); never decreasing.
        values : any real type, shape (n,); +-inf is overload.
        quality : shape (n,), bits of `drivers.samples.Quality`; for `reading` alone.
        """
        overview = cls(channel)
        count = max(values.size, 1)
        for layer in overview._layers:
            layer.hold_all(count // layer.bucket + 1)
        for begin in range(0, values.size, PIECE):
            overview._take(times_s[begin : begin + PIECE], values[begin : begin + PIECE], keep_raw=False)
        overview._raw.adopt(times_s, values)
        if quality is not None:
            overview._held_quality.adopt(quality)
        overview.set_gaps(gaps)
        return overview

    def add(self, samples: Samples) -> None:
        """Take a block of samples. Called on the recorder's thread."""
        if samples.channel != self.channel:
            return
        with self._lock:
            for begin in range(0, len(samples), PIECE):
                piece = slice(begin, begin + PIECE)
                self._take(samples.times_s[piece], samples.values[piece])
                self._held_quality.limit = self._raw.times.limit
                self._held_quality.append(samples.quality[piece])

    def set_gaps(self, gaps: Iterable[Gap]) -> None:
        """Say where this channel has no samples (a gap may be far narrower than a column)."""
        spans = sorted((g.begin_s, g.end_s) for g in gaps if g.channel in (self.channel, ""))
        with self._lock:
            self._gaps_s = np.array(spans, dtype=float).reshape(-1, 2)

    @property
    def gaps_s(self) -> Vector:
        """Begin and end of each gap, shape (g, 2), in order of time."""
        return self._gaps_s

    @property
    def overloads_s(self) -> Vector:
        """First and last time of each unbroken run of overload samples, shape (k, 2)."""
        with self._lock:
            return np.array(self._overloads, dtype=float).reshape(-1, 2)

    @property
    def revision(self) -> int:
        """Grows when the picture of the same samples has become better, so that it is to be drawn again."""
        return 0

    def __len__(self) -> int:
        return self._raw.times.count

    @property
    def extent_s(self) -> tuple[float, float] | None:
        """Time of the first sample (or first bucket still held) and of the last; None when empty."""
        with self._lock:
            if not self._raw.times.count:
                return None
            oldest = next(layer for layer in self._layers if not layer.times.first or layer.is_top)
            return float(oldest.times[oldest.times.first]), float(self._raw.times[self._raw.times.count - 1])

    @property
    def last(self) -> tuple[float, float] | None:
        """Time and value of the last sample (the value may be +-inf); None when empty."""
        with self._lock:
            end = self._raw.times.count - 1
            return (float(self._raw.times[end]), float(self._raw.low[end])) if end >= 0 else None

    def count_between(self, begin_s: float, end_s: float) -> int:
        """Return how many samples lie in [begin_s, end_s), held or not."""
        with self._lock:
            first, beyond = self._sample_numbers(np.array([begin_s, end_s]))
        return int(beyond - first)

    def number_at(self, time_s: float) -> int:
        """Return how many samples lie before `time_s`; about, where they are no longer held."""
        with self._lock:
            return int(self._sample_numbers(np.array([time_s]))[0])

    def reading(self, number: int) -> Reading | None:
        """Return the sample of that number, counted from 0, as it was measured; None where it is not held."""
        with self._lock:
            if not self._raw.times.first <= number < self._raw.times.count:
                return None
            value = float(self._raw.low[number])
            if number < self._held_quality.count:
                quality = Quality(int(self._held_quality[number]))
            else:
                quality = Quality.OVERLOAD if np.isinf(value) else Quality.GOOD
            return Reading(number, float(self._raw.times[number]), value, quality)

    def samples_between(self, begin_s: float, end_s: float) -> tuple[Vector, NDArray[Any]] | None:
        """Return times and values in [begin_s, end_s) and one more sample at either side.

        None when some of them are no longer held: then `columns` is all that can be shown.
        """
        with self._lock:
            begin, beyond = self._sample_numbers(np.array([begin_s, end_s]))
            if begin < self._raw.times.first:
                return None
            first = max(int(begin) - 1, self._raw.times.first)
            beyond = min(int(beyond) + 1, self._raw.times.count)
            return self._raw.times.part(first, beyond).copy(), self._raw.low.part(first, beyond).copy()

    def columns(self, edges_s: Vector) -> Columns:
        """Return the smallest and largest value in each column [edges_s[i], edges_s[i + 1]).

        Parameters
        ----------
        edges_s : float64, shape (m + 1,), never decreasing. Keep them on a fixed grid of time while
            following, or the picture shimmers.
        """
        with self._lock:
            numbers = self._sample_numbers(np.asarray(edges_s, dtype=float))
            low, high = self._reduce(numbers[:-1], numbers[1:])
        return Columns(low, high, ~np.isnan(low))

    def levels(self) -> dict[int, NDArray[Any]]:
        """Return {bucket: array (2, n)}: row 0 smallest, row 1 largest of each whole bucket still held.

        Overload is left out; a bucket of nothing else is NaN. In the samples' own type.
        """
        with self._lock:
            return {
                layer.bucket: np.stack([layer.low.part(), layer.high.part()])
                for layer in self._layers[1:]
                if layer.low.count
            }

    def _take(self, times_s: Vector, values: NDArray[Any], *, keep_raw: bool = True) -> None:
        if not values.size:
            return
        self._note_overload(times_s, values)
        if keep_raw:
            self._make_room(times_s)
            self._raw.append(times_s, values)
        shown = finite(values)
        block = (times_s, shown, shown)
        for layer in self._layers[1:]:
            block = layer.reduce_and_append(*block)
            if not block[0].size:
                break

    def _make_room(self, times_s: Vector) -> None:
        """Let more samples be held where those held would not reach back far enough."""
        held = self._raw.times
        if held.count > held.limit or held.count + times_s.size <= held.limit:
            return
        since_s = np.array([times_s[-1] - STRETCH_KEPT_S])
        before = held.count_before(since_s) + np.searchsorted(times_s, since_s)
        wanted = min(held.count + times_s.size - int(before[0]), self._most_samples_kept)
        limit = held.limit
        while limit < wanted:
            limit = min(2 * limit, self._most_samples_kept)  # a whole multiple of a bucket, as before
        self._raw.hold_all(limit)

    def _note_overload(self, times_s: Vector, values: NDArray[Any]) -> None:
        over = np.isinf(values)
        if not over.any():
            self._in_overload = False
            return
        self._raw.has_overload = True
        change = np.flatnonzero(np.diff(np.concatenate(([False], over, [False])).astype(np.int8)))
        for begin, end in change.reshape(-1, 2):
            if begin == 0 and self._in_overload:
                self._overloads[-1][1] = float(times_s[end - 1])
            else:
                self._overloads.append([float(times_s[begin]), float(times_s[end - 1])])
        self._in_overload = bool(over[-1])

    def _sample_numbers(self, edges_s: Vector) -> Indices:
        """Number of samples before each edge, as exact as what is held there allows."""
        if self._raw.held_from == 0 and self._raw.times.count:  # the usual: all are held
            return self._raw.times.count_before(edges_s)
        numbers = np.zeros(edges_s.shape, dtype=np.int64)
        open_ = np.ones(edges_s.shape, dtype=bool)
        for layer in self._layers:
            held = layer.held_from
            if layer.times.count <= held:
                continue
            here = open_ if layer.is_top else open_ & (edges_s > layer.times[held])
            if held == 0:
                here = open_
            numbers[here] = layer.bucket * layer.times.count_before(edges_s[here])
            open_ = open_ & ~here
            if not open_.any():
                break
        return numbers

    def _reduce(self, begin: Indices, beyond: Indices) -> tuple[Vector, Vector]:
        """Smallest and largest finite value of the samples numbered [begin, beyond) of each column."""
        low = np.full(begin.shape, np.nan)
        high = low.copy()
        rims: list[tuple[Layer, Indices, Indices, Indices, Indices]] = []
        for layer in self._layers:
            first, end = int(begin[0]), int(beyond[-1])
            if layer.is_top or (end - first <= FLAT_LIMIT and first >= layer.times.first):
                layer.fold_flat(begin, beyond, low, high)
                break
            whole_begin = np.minimum(-(-begin // layer.factor) * layer.factor, beyond)
            whole_end = np.maximum(beyond // layer.factor * layer.factor, whole_begin)
            rims.append((layer, begin, whole_begin, whole_end, beyond))
            begin, beyond = whole_begin // layer.factor, whole_end // layer.factor
        # From the coarsest: the more is known of a column, the fewer of its rims have to be read.
        for layer, begin, whole_begin, whole_end, beyond in reversed(rims):
            if layer.can_fold_edges(begin, beyond):
                layer.fold_edges(np.append(begin, beyond[-1]), low, high)
            else:
                layer.fold_rims(begin, whole_begin, low, high)
                layer.fold_rims(whole_end, beyond, low, high)
        return low, high


def gap_between(gaps_s: Vector, times_s: Sequence[float] | Vector) -> NDArray[np.bool_]:
    """Tell for each pair of consecutive times whether a gap (rows begin, end) lies between them."""
    times = np.asarray(times_s, dtype=float)
    if not len(gaps_s):
        return np.zeros(max(times.size - 1, 0), dtype=bool)
    middle = (gaps_s[:, 0] + gaps_s[:, 1]) / 2
    return np.diff(np.searchsorted(middle, times)) > 0
