"""A finished recording on disk, of which parts are read as they are needed.

The file is opened anew for each part, so that it can be edited meanwhile (an edit replaces it by a changed
copy, see `logger.amend`). When another file has taken its name, it is looked at as closely as when it was
opened first, and refused where it is not the same recording.
"""

from __future__ import annotations

import os
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import FileIO
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from logger.chunk_table import ChunkTable
from logger.errors import RecordingError

__all__ = ["StoredDataset", "StoredFile"]

ATTEMPTS = 3
UNREADABLE = (OSError, RuntimeError, KeyError, ValueError, TypeError, AttributeError)
"""What the library raises for a file that is not, or no longer, as it should be."""


@dataclass(frozen=True, slots=True)
class StoredDataset:
    """What is known of a dataset without reading it; `table` is None where only the library can read it."""

    shape: tuple[int, ...]
    dtype: np.dtype[Any]
    table: ChunkTable | None


class StoredFile:
    """A recording that may be read from several threads.

    Parameters
    ----------
    uuid : of the recording; a file with another one is not read.
    vet : looks at a file of unknown origin, and raises RecordingError.
    """

    def __init__(self, path: Path, uuid: str, vet: Callable[[Path], None]) -> None:
        self.path, self._uuid, self._vet = path, uuid, vet
        self._identity = identity_of(os.stat(path))
        self._datasets: dict[str, StoredDataset] = {}
        self._lock = threading.Lock()

    def take(self, name: str, dataset: Any) -> StoredDataset:
        """Note an open dataset, which is to be read later under `name`."""
        known = self._datasets[name] = StoredDataset(dataset.shape, dataset.dtype, ChunkTable.of(dataset))
        return known

    def read(self, name: str, begin: int, end: int) -> NDArray[Any]:
        """Return the samples [begin, end) of a dataset, shape (n,) or (rows, n).

        Raises
        ------
        RecordingError : they are damaged, or the file is gone or no longer this recording.
        """
        with self._opened() as file:
            table = self._datasets[name].table
            if table is not None:
                return self._decoded(file, name, table, begin, end)
        return self._by_library(name, begin, end)

    def _decoded(self, file: FileIO, name: str, table: ChunkTable, begin: int, end: int) -> NDArray[Any]:
        length = table.length
        first, last = begin // length, -(-end // length)
        beyond = min(last * length, table.shape[-1])
        # Chunks side by side where they go: the copy that joins them took a tenth of the time.
        whole = np.empty((*table.shape[:-1], beyond - first * length), table.dtype)
        for number in range(first, last):
            place = (number - first) * length
            into = whole[..., place : place + length]
            try:
                offset, size = table.places[number].tolist()
                file.seek(offset)
                table.decode(file.read(size), into)
            except ValueError as error:
                raise self._damaged(name, number * length, number * length + into.shape[-1]) from error
        return whole[..., begin - first * length : end - first * length]

    def _by_library(self, name: str, begin: int, end: int) -> NDArray[Any]:
        import h5py

        try:
            with self._opened(), h5py.File(self.path, "r") as file:
                return np.asarray(file[name][..., begin:end])
        except UNREADABLE as error:
            raise self._damaged(name, begin, end) from error

    @contextmanager
    def _opened(self) -> Iterator[FileIO]:
        try:
            for _attempt in range(ATTEMPTS):
                with FileIO(self.path) as file:
                    identity = identity_of(os.fstat(file.fileno()))
                    if identity == self._identity:
                        yield file
                        return
                self._look_again()
        except OSError as error:
            raise RecordingError(
                f"{self.path} cannot be read any further ({error.strerror or error}); "
                "check that it is still there, then open it again"
            ) from error
        raise RecordingError(f"{self.path} is being replaced all the time; open it again later")

    def _look_again(self) -> None:
        """Learn where everything lies in a file that took the place of the one looked at before."""
        import h5py

        with self._lock:
            identity = identity_of(os.stat(self.path))
            if identity == self._identity:
                return  # another thread was faster
            self._vet(self.path)
            try:
                with h5py.File(self.path, "r") as file:
                    uuid = file["run/entry_identifier_uuid"][()].decode()
                    fresh = {
                        name: StoredDataset(file[name].shape, file[name].dtype, ChunkTable.of(file[name]))
                        for name in self._datasets
                    }
            except UNREADABLE as error:
                raise RecordingError(
                    f"{self.path} was changed since it was opened and cannot be read; use another copy of it"
                ) from error
            is_same = all(
                (fresh[name].shape, fresh[name].dtype) == (known.shape, known.dtype)
                for name, known in self._datasets.items()
            )
            if uuid != self._uuid or not is_same:
                raise RecordingError(
                    f"{self.path} is another recording than when it was opened; open it again"
                )
            self._datasets, self._identity = fresh, identity

    def _damaged(self, name: str, begin: int, end: int) -> RecordingError:
        column = name.removeprefix("run/")
        return RecordingError(
            f"{self.path} is damaged: {column} cannot be read from number {begin} to {end}; "
            f"galvanote check '{self.path}' says what is whole"
        )


def identity_of(status: os.stat_result) -> tuple[int, ...]:
    """Return what stays the same as long as a file is the one that was looked at."""
    return status.st_dev, status.st_ino, status.st_size, status.st_mtime_ns
