"""A column of readings that stays in its file: slices of it are read where they are asked for."""

from __future__ import annotations

import itertools
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from logger.block_cache import BlockCache
from logger.errors import RecordingError
from logger.stored_file import StoredFile

__all__ = ["StoredColumn", "StoredTimes"]

BLOCK = 1 << 16
"""Readings read together, as nearly as the chunks of the file allow: half a megabyte."""

AHEAD = 3
"""Blocks read ahead where a column is gone through in order."""

Side = Literal["left", "right"]
_NUMBERS = itertools.count()


class StoredColumn:
    """Numbers in a file, to be sliced like an array. A slice is read-only and is float64 or uint8.

    Raises RecordingError, in one clear line, where a part is damaged or the file is gone.
    """

    def __init__(
        self, file: StoredFile, name: str, size: int, dtype: np.dtype[Any], cache: BlockCache, chunk: int = 1
    ) -> None:
        self._file, self._name, self._cache = file, name, cache
        self._number = next(_NUMBERS)  # the identity of an object may come again, a number does not
        self.size = size
        self.dtype = dtype
        self.block = chunk * max(1, BLOCK // chunk)
        """Numbers read together."""
        self._blocks = -(-size // self.block)
        self._followed = -1
        self._bounds = np.full((2, self._blocks), np.nan)
        """Smallest and largest number of each block, read or foretold; no number where one is none."""
        self._was_read = np.zeros(self._blocks, np.bool_)
        self._was_right = True
        self._lock = threading.Lock()  # workers read, too

    @property
    def path(self) -> Path:
        """The file."""
        return self._file.path

    def __len__(self) -> int:
        return self.size

    @property
    def shape(self) -> tuple[int]:
        """One length."""
        return (self.size,)

    @property
    def nbytes(self) -> int:
        """Bytes that all of it would take in memory."""
        return self.size * self.dtype.itemsize

    def __getitem__(self, part: Any, /) -> Any:
        """Return a slice as an array, shape (m,), or one number. Steps other than 1 are not for files."""
        if not isinstance(part, slice):
            number = range(self.size)[part]
            return self._slice(number, number + 1)[0]
        begin, end, step = part.indices(self.size)
        if step != 1:
            raise ValueError("a column in a file is read in order, every reading")
        return self._slice(begin, max(begin, end))

    def searchsorted(self, limits: Any, side: Side = "left") -> Any:
        """Return for each limit how many numbers lie before it, in a column that never decreases."""
        wanted = np.asarray(limits, dtype=np.float64)
        found = np.array([self._count_before(one, side) for one in wanted.ravel()], dtype=np.int64)
        return found.reshape(wanted.shape)[()]

    def bounds(self, part: slice) -> tuple[float, float] | None:
        """Return numbers between which all of a slice lie, without reading; None where that is not known.

        What was foretold of a block counts until it is read; see `confirm`.
        """
        begin, end, _ = part.indices(self.size)
        first, last = begin // self.block, (end - 1) // self.block
        low, high = self._bounds[:, first : last + 1]
        if last < first or not (low == low).all():
            return None
        return float(low.min()), float(high.max())

    def foretell(self, rows: NDArray[np.float64], each: int) -> None:
        """Take the smallest and the largest number of the blocks that were not read yet on trust.

        Parameters
        ----------
        rows : ndarray, shape (2, m)
            Smallest and largest of `each` numbers in a row from the first on, NaN where that is not known.
        each : int
            A divisor of `block`.
        """
        together = self.block // each
        whole = min(rows.shape[1] // together, self._blocks)
        low, high = rows[:, : whole * together].reshape(2, whole, together)
        with self._lock:
            unread = np.flatnonzero(~self._was_read[:whole])
            self._bounds[:, unread] = low.min(axis=1)[unread], high.max(axis=1)[unread]

    @property
    def was_read(self) -> bool:
        """Whether all of it was read at some time, so that nothing needs to be foretold."""
        return bool(self._was_read.all())

    def confirm(self) -> bool:
        """Tell whether all that was ever foretold was right; what was not read yet is read for it.

        From then on everything is known from the numbers themselves.
        """
        for block in np.flatnonzero(~self._was_read).tolist():
            self._slice(block * self.block, block * self.block + 1)
        return self._was_right

    def withdraw(self) -> None:
        """Forget what was foretold of the blocks that were not read yet."""
        with self._lock:
            self._bounds[:, ~self._was_read] = np.nan

    def spots(self, numbers: NDArray[np.int64]) -> NDArray[Any]:
        """Return single numbers far apart, without keeping what lies around them, shape (m,)."""
        return np.array([self._file.read(self._name, n, n + 1)[0] for n in numbers.tolist()], self.dtype)

    def _count_before(self, limit: float, side: Side) -> int:
        low, high = 0, self._blocks  # the first number of every block before `low` lies before the limit
        while low < high:
            middle = (low + high) // 2
            first = self._first_of(middle)
            if first < limit or (side == "right" and first == limit):
                low = middle + 1
            else:
                high = middle
        if low == 0:
            return 0
        return (low - 1) * self.block + int(np.searchsorted(self._read(low - 1), limit, side=side))

    def _first_of(self, block: int) -> float:
        return float(self._read(block)[0])

    def _slice(self, begin: int, end: int) -> NDArray[Any]:
        if end <= begin:
            return np.empty(0, self.dtype)
        first, last = begin // self.block, (end - 1) // self.block
        if first in (self._followed, self._followed + 1) and last > self._followed:
            for block in range(last + 1, min(last + 1 + AHEAD, self._blocks)):
                self._cache.expect((self._number, block), self._loader(block))
        self._followed = last
        if first == last:
            return self._read(first)[begin - first * self.block : end - first * self.block]
        parts = [self._read(block) for block in range(first, last + 1)]
        parts[0] = parts[0][begin - first * self.block :]
        parts[-1] = parts[-1][: end - last * self.block]
        return np.concatenate(parts)

    def _read(self, block: int) -> NDArray[Any]:
        return self._cache.get((self._number, block), self._loader(block))

    def _loader(self, block: int) -> Callable[[], NDArray[Any]]:
        return lambda: self._load(block)

    def _load(self, block: int) -> NDArray[Any]:
        begin = block * self.block
        found = self._file.read(self._name, begin, min(begin + self.block, self.size))
        found = found.astype(self.dtype, copy=False)
        found.flags.writeable = False
        if not self._was_read[block]:
            self._note(block, np.array([found.min(), found.max()]))
        return found

    def _note(self, block: int, bounds: NDArray[np.float64]) -> None:
        """Remember the true bounds of a block, and whether they are other than foretold."""
        with self._lock:
            foretold = self._bounds[:, block]
            if not self._was_read[block] and not np.isnan(foretold).any() and (foretold != bounds).any():
                self._was_right = False
            self._bounds[:, block], self._was_read[block] = bounds, True


class StoredTimes(StoredColumn):
    """The times of a channel: what is read of them is looked at as `fault_of_times` does."""

    def __init__(self, *arguments: Any, channel: str, fault: Callable[..., str | None], **more: Any) -> None:
        super().__init__(*arguments, **more)
        self._channel, self._fault = channel, fault
        self._ends = np.full((2, self._blocks), np.nan)
        """First and last time of each block, once it was read."""
        self._steps_s = np.full((2, self._blocks), np.nan)
        """Shortest and longest interval within each block, once it was read."""
        self._longest_foretold_s: float | None = None

    def step_bounds(self, part: slice) -> tuple[float, float]:
        """Return what no interval of the blocks of a slice is shorter than, and none longer.

        The interval before the first reading of the slice counts, too. Reads what was not read before, unless
        the longest interval was foretold: then none is shorter than 0, and none longer than that.
        """
        first, last = part.start // self.block, (part.stop - 1) // self.block
        for block in range(max(first - 1, 0), last + 1):
            if self._ends[0, block] == self._ends[0, block]:
                continue
            if self._longest_foretold_s is not None:
                return 0.0, self._longest_foretold_s
            self._slice(block * self.block, block * self.block + 1)
        between = self._ends[0, max(first, 1) : last + 1] - self._ends[1, max(first, 1) - 1 : last]
        shortest, longest = self._steps_s[:, first : last + 1]
        return (
            float(min(np.min(shortest), between.min(initial=np.inf))),
            float(max(np.max(longest), between.max(initial=-np.inf))),
        )

    def foretell_steps(self, longest_s: float) -> None:
        """Take it on trust that no interval is longer, in seconds, as long as not all was read."""
        self._longest_foretold_s = longest_s

    def confirm(self) -> bool:
        """Tell whether all that was ever foretold was right; what was not read yet is read for it."""
        was_right = super().confirm()
        foretold_s = self._longest_foretold_s
        return was_right and (foretold_s is None or self.step_bounds(slice(0, self.size))[1] <= foretold_s)

    def withdraw(self) -> None:
        """Forget what was foretold of the blocks that were not read yet."""
        super().withdraw()
        self._longest_foretold_s = None

    def _first_of(self, block: int) -> float:
        known = float(self._ends[0, block])
        return known if known == known else super()._first_of(block)

    def _load(self, block: int) -> NDArray[Any]:
        times_s = super()._load(block)
        if (self._ends[:, block] == times_s[[0, -1]]).all():
            return times_s  # looked at before
        before_s = float(self._ends[1, block - 1]) if block else 0.0
        self._refuse(self._fault(times_s, before_s if before_s == before_s else 0.0))
        if block + 1 < self._blocks and self._ends[0, block + 1] < times_s[-1]:
            self._refuse("the times go backwards")
        steps_s = np.diff(times_s)
        self._steps_s[:, block] = steps_s.min(initial=np.inf), steps_s.max(initial=-np.inf)
        self._ends[:, block] = times_s[0], times_s[-1]
        return times_s

    def _refuse(self, fault: str | None) -> None:
        if fault is not None:
            raise RecordingError(
                f"{self._file.path} is not a whole recording: in channel {self._channel} {fault}; "
                "use another copy of it if there is one"
            )
