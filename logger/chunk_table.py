"""Where the chunks of a dataset lie in its file, and how one becomes numbers again.

The HDF5 library lets one thread read at a time and inflates at a third of the speed possible. So the columns
of a recording are read without it where they are stored as the recorder does: little-endian numbers, chunks
along the samples, shuffled and deflated or neither. The form is the one of the HDF5 file format
specification, version 3.0, sections IV.A.2.l (filter pipeline) and VII (chunk index); where a chunk lies is
asked of the library.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from logger.inflate import inflated

__all__ = ["ChunkTable"]

DEFLATE, SHUFFLE = 1, 2
"""Numbers of the filters (HDF5 file format specification, section IV.A.2.l)."""

FORMS = ((), (DEFLATE,), (SHUFFLE,), (SHUFFLE, DEFLATE))


@dataclass(frozen=True, slots=True)
class ChunkTable:
    """The chunks of one dataset of shape (n,), or (rows, n) where a chunk holds all rows.

    `length` : samples in a chunk. `places` : int64, shape (chunks, 2): offset in the file and bytes there.
    """

    shape: tuple[int, ...]
    dtype: np.dtype[Any]
    length: int
    filters: tuple[int, ...]
    places: NDArray[np.int64]

    @classmethod
    def of(cls, dataset: Any) -> ChunkTable | None:
        """Return the table of an open dataset; None where only the library can read it."""
        plist = dataset.id.get_create_plist()
        filters = tuple(plist.get_filter(i)[0] for i in range(plist.get_nfilters()))
        dtype = dataset.dtype
        if dataset.chunks is None or filters not in FORMS or dtype.newbyteorder("<") != dtype:
            return None
        if dtype.kind not in "iuf" or dataset.ndim > 2 or dataset.chunks[:-1] != dataset.shape[:-1]:
            return None
        length, end = int(dataset.chunks[-1]), dataset.shape[-1]
        chunks: list[Any] = []
        dataset.id.chunk_iter(chunks.append)
        places = np.full((-(-end // length), 2), -1, dtype=np.int64)
        if len(chunks) != len(places):  # some are missing, lie beyond the end, or are there twice
            return None
        offsets, masks, *found = zip(*chunks, strict=True) if chunks else ((), (), (), ())
        try:
            begins = np.array(offsets, np.int64).reshape(-1, dataset.ndim)
            spans = np.array(found, np.int64).T
        except OverflowError:  # beyond what any file can hold
            return None
        if any(masks) or begins[:, :-1].any() or (begins[:, -1] >= end).any():
            return None
        places[begins[:, -1] // length] = spans
        if (places < 0).any():
            return None
        return cls(dataset.shape, dtype, length, filters, places)

    @property
    def chunk_bytes(self) -> int:
        """Bytes of a chunk once it is read."""
        return self.length * int(np.prod(self.shape[:-1], dtype=np.int64)) * self.dtype.itemsize

    def decode(self, stored: bytes, into: NDArray[Any]) -> None:
        """Put a stored chunk into the array `into`, shape (length,) or (rows, length), last part cut off.

        Raises
        ------
        ValueError : it is damaged.
        """
        size = self.chunk_bytes
        plain = inflated(stored, size) if DEFLATE in self.filters else stored
        if len(plain) != size:
            raise ValueError(f"a part of {len(plain)} bytes should have {size}")
        whole = (*self.shape[:-1], self.length)
        kept = into.shape[-1]
        if SHUFFLE in self.filters and self.dtype.itemsize > 1:
            planes = np.frombuffer(plain, np.uint8).reshape(self.dtype.itemsize, *whole)
            target = into.view(np.uint8)
            for place, plane in enumerate(planes):
                target[..., place :: self.dtype.itemsize] = plane[..., :kept]
        else:
            into[...] = np.frombuffer(plain, self.dtype).reshape(whole)[..., :kept]
