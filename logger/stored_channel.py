"""The columns of a channel that stay in their file, and the levels of its curve that lie beside them."""

from __future__ import annotations

from typing import Any

import numpy as np

from logger.block_cache import BlockCache, shared_cache
from logger.overview_layers import BUCKETS
from logger.recording import fault_of_times
from logger.stored_column import StoredColumn, StoredTimes
from logger.stored_file import StoredDataset, StoredFile
from logger.stored_level import StoredLevel

__all__ = ["stored_columns"]


def stored_columns(
    file: StoredFile, name: str, group: Any, cache: BlockCache | None = None
) -> dict[str, Any]:
    """Return what `ChannelData` holds of the open group of a channel, nothing of it read yet.

    Raises
    ------
    TypeError : a column holds no numbers.
    """
    cache = cache or shared_cache()

    def column(short: str, dtype: str, make: type[StoredColumn], **more: Any) -> StoredColumn:
        dataset = group[short]
        if dataset.dtype.kind not in "biuf":
            raise TypeError(f"{dataset.name} holds no numbers")
        full = f"run/{name}/{short}"
        known = file.take(full, dataset)
        return make(file, full, dataset.shape[0], np.dtype(dtype), cache, _chunk_of(known), **more)

    return {
        "times_s": column("time", "f8", StoredTimes, channel=name, fault=fault_of_times),
        "values": column("value", "f8", StoredColumn),
        "quality": column("quality", "u1", StoredColumn),
        "levels": _levels(file, name, group, cache),
    }


def _levels(file: StoredFile, name: str, group: Any, cache: BlockCache) -> dict[int, StoredLevel]:
    """Return the levels that are whole: as long as the readings make them, and of their form."""
    samples, found = group["value"].shape[0], {}
    for bucket in BUCKETS:
        short = f"overview/level_{bucket}"
        if short not in group:
            continue
        dataset, full = group[short], f"run/{name}/{short}"
        if dataset.shape == (2, samples // bucket) and dataset.dtype.kind == "f":
            found[bucket] = StoredLevel(
                file, full, dataset.shape[1], cache, _chunk_of(file.take(full, dataset))
            )
    return found


def _chunk_of(dataset: StoredDataset) -> int:
    return 1 if dataset.table is None else dataset.table.length
