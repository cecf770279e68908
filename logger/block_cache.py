"""Blocks of readings that were read lately, in bounded memory, and blocks that will be wanted soon.

Worker threads read ahead where a column is gone through in order: inflating leaves Python's lock, so that it
runs beside the arithmetic.
"""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Any

from numpy.typing import NDArray

__all__ = ["BlockCache", "shared_cache"]

Block = NDArray[Any]
LIMIT_BYTES = 96 * 2**20
WORKERS = 2


class BlockCache:
    """Keeps the blocks used last, up to `limit_bytes` of them. May be used from any thread."""

    def __init__(self, limit_bytes: int = LIMIT_BYTES, workers: int = WORKERS) -> None:
        self.limit_bytes = limit_bytes
        self._workers = workers
        self._lock = threading.Lock()
        self._held: OrderedDict[Hashable, Block] = OrderedDict()
        self._bytes = 0
        self._ahead: dict[Hashable, Future[Block]] = {}
        self._pool: ThreadPoolExecutor | None = None

    @property
    def held_bytes(self) -> int:
        """Bytes of all blocks held."""
        return self._bytes

    def get(self, key: Hashable, load: Callable[[], Block]) -> Block:
        """Return the block of that key, read by `load` where it is not held. Raises what `load` raises."""
        with self._lock:
            found = self._held.get(key)
            if found is not None:
                self._held.move_to_end(key)
                return found
            coming = self._ahead.pop(key, None)
        block = coming.result() if coming is not None and not coming.cancel() else load()
        self._keep(key, block)
        return block

    def expect(self, key: Hashable, load: Callable[[], Block]) -> None:
        """Have a block read that will be wanted soon. What goes wrong is told to whoever wants it."""
        with self._lock:
            if key in self._held or key in self._ahead:
                return
            if self._pool is None:
                self._pool = ThreadPoolExecutor(self._workers, thread_name_prefix="read ahead")
            self._ahead[key] = self._pool.submit(load)
            for old in list(self._ahead)[: -8 * self._workers]:  # expected, but never asked for
                self._ahead.pop(old).cancel()

    def _keep(self, key: Hashable, block: Block) -> None:
        with self._lock:
            if key in self._held:
                return
            self._held[key] = block
            self._bytes += block.nbytes
            while self._bytes > self.limit_bytes and len(self._held) > 1:
                _, dropped = self._held.popitem(last=False)
                self._bytes -= dropped.nbytes


_SHARED = BlockCache()


def shared_cache() -> BlockCache:
    """Return the cache that all recordings of this process share: its limit is one of the process."""
    return _SHARED
