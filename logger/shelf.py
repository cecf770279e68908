"""The recordings of a folder, with what was read of each kept for the next time.

What is kept is only ever a help: an entry is used when the file's size and time of change are still the
same and it could be read, and everything is read anew where the kept file is missing, damaged or of another
version.
"""

from __future__ import annotations

import hashlib
import json
import threading
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

from logger.errors import LoggerError
from logger.export.atomic import written_whole
from logger.journal import SUFFIX, journal_of
from logger.shelf_entry import EntryError, ShelfEntry
from logger.shelf_reader import ShelfReader

__all__ = ["Shelf", "recordings_in"]

KEPT_VERSION = 3
KEPT_LIMIT_BYTES = 64 * 2**20
MOST_FILES = 5000
ENDINGS = (".h5", ".h5" + SUFFIX)


def recordings_in(folder: Path) -> list[Path]:
    """Return recordings and journals in a folder, not below it, newest first; at most 5000.

    A journal beside its finished recording is left out: that recording is the run.

    Raises
    ------
    LoggerError : the folder cannot be read.
    """
    try:
        found = {path for path in folder.iterdir() if path.name.endswith(ENDINGS) and path.is_file()}
    except OSError as error:
        raise LoggerError(
            f"the folder {folder} cannot be read ({error.strerror or error}); choose another one"
        ) from error
    finished = {path for path in found if path.suffix == ".h5"}
    runs = finished | {path for path in found - finished if path.with_suffix("") not in finished}
    return sorted(runs, key=lambda path: (-_changed_ns(path), path.name))[:MOST_FILES]


class Shelf:
    """Reads the recordings of folders and files, through a child process, and keeps what it read.

    Parameters
    ----------
    kept_in : folder for what is kept; None keeps nothing.
    reader : reads one file; see `ShelfReader`.
    """

    def __init__(self, kept_in: Path | None = None, *, reader: ShelfReader | None = None) -> None:
        self._kept_in = kept_in
        self._reader = reader or ShelfReader()
        self._stopping = threading.Event()

    def read_folder(self, folder: Path, take: Callable[[ShelfEntry], None]) -> int:
        """Hand every recording of a folder to `take`, one by one as it is known; return how many.

        Blocks: for a thread of its own. `stop`, from another thread, ends it early.

        Raises
        ------
        LoggerError : the folder cannot be read.
        """
        paths = recordings_in(folder)
        known = self._kept(folder)
        fresh: dict[str, ShelfEntry] = {}
        try:
            for path in sorted(paths, key=lambda path: _was_damaged(known.get(str(path)))):  # may take long
                if self._stopping.is_set():
                    break
                entry = known.get(str(path))
                if entry is None or not _is_current(entry, path):
                    entry = self.read_file(path)
                fresh[str(path)] = entry
                take(entry)
        finally:
            self._reader.close()
        if not self._stopping.is_set() and fresh != known:
            self._keep(folder, fresh.values())
        return len(fresh)

    def read_file(self, path: Path) -> ShelfEntry:
        """Return what is known of one file; a damaged one is told as such, never raised."""
        changed_ns, size = _changed_ns(path), _size(path)
        told = self._reader.read(path)
        plain: dict[str, Any] = ShelfEntry(path, "damaged").as_dict()
        plain.update({key: told[key] for key in plain.keys() & told.keys()})
        plain.update(path=str(path), size_bytes=size, changed_ns=changed_ns)
        try:
            return ShelfEntry.from_dict(plain)
        except EntryError as error:
            return ShelfEntry(path, "damaged", str(error), size_bytes=size, changed_ns=changed_ns)

    def end(self) -> None:
        """End reading after the present file, without waiting for it; the shelf is not used again."""
        self._stopping.set()

    def stop(self) -> None:
        """End reading at once; the shelf is not used again."""
        self._stopping.set()
        self._reader.close()

    def _kept_file(self, folder: Path) -> Path | None:
        if self._kept_in is None:
            return None
        return self._kept_in / f"{hashlib.sha256(str(folder.resolve()).encode()).hexdigest()[:24]}.json"

    def _kept(self, folder: Path) -> dict[str, ShelfEntry]:
        file = self._kept_file(folder)
        try:
            if file is None or file.stat().st_size > KEPT_LIMIT_BYTES:
                return {}
            document = json.loads(file.read_text(encoding="utf-8"))
            if document["version"] != KEPT_VERSION:
                return {}
            entries = [ShelfEntry.from_dict(one) for one in document["entries"]]
        except (OSError, ValueError, KeyError, TypeError, RecursionError):
            return {}
        return {str(entry.path): entry for entry in entries}

    def _keep(self, folder: Path, entries: Iterable[ShelfEntry]) -> None:
        file = self._kept_file(folder)
        if file is None:
            return
        document = {"version": KEPT_VERSION, "entries": [entry.as_dict() for entry in entries]}
        try:
            file.parent.mkdir(parents=True, exist_ok=True)
            with written_whole(file, replace=True) as part:
                part.write_text(json.dumps(document), encoding="utf-8")
        except (OSError, LoggerError):
            return  # read anew next time


def _was_damaged(entry: ShelfEntry | None) -> bool:
    return entry is not None and entry.state == "damaged"


def _is_current(entry: ShelfEntry, path: Path) -> bool:
    if _was_damaged(entry):  # for a while only, perhaps: permissions, a disk, or a computer that was busy
        return False
    if entry.state == "recording" or (entry.state == "finished" and journal_of(path).exists()):
        return False
    return (entry.size_bytes, entry.changed_ns) == (_size(path), _changed_ns(path))


def _size(path: Path) -> int:
    try:
        return path.stat().st_size
    except OSError:
        return 0


def _changed_ns(path: Path) -> int:
    try:
        return path.stat().st_mtime_ns
    except OSError:
        return 0
