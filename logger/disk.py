"""File operations with their durability: what has reached the disk, and in which order.

Everything the recorder does to files goes through a `Disk`, so that tests can hand in one that is
full, slow, failing, or that writes down each operation.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from logger.errors import RecordingBusy

__all__ = ["Disk"]

_ON_WINDOWS = sys.platform == "win32"


class Disk:
    """The real disk. Every method raises OSError as the operating system gives it."""

    def create(self, path: Path) -> int:
        """Create a new file for reading and writing and return its descriptor.

        Raises
        ------
        FileExistsError : the file is there already; it is left as it is.
        """
        return os.open(path, os.O_RDWR | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o644)

    def write_at(self, fd: int, data: bytes, offset: int) -> None:
        """Write all of `data` at `offset`, also where the system takes it in portions."""
        view = memoryview(data)
        while view:
            if _ON_WINDOWS:
                os.lseek(fd, offset, os.SEEK_SET)
                written = os.write(fd, view)
            else:
                written = os.pwrite(fd, view, offset)
            view = view[written:]
            offset += written

    def sync_data(self, fd: int) -> None:
        """Return once the file's content would survive a power cut."""
        if sys.platform == "darwin":
            import fcntl

            # fsync on this system only hands the data to the drive; this also empties its cache.
            fcntl.fcntl(fd, fcntl.F_FULLFSYNC)
        elif _ON_WINDOWS:
            os.fsync(fd)
        else:
            os.fdatasync(fd)

    def sync_file(self, path: Path) -> None:
        """Make the content of a closed file durable."""
        fd = os.open(path, os.O_RDWR | getattr(os, "O_BINARY", 0))
        try:
            if _ON_WINDOWS or sys.platform == "darwin":
                self.sync_data(fd)
            else:
                os.fsync(fd)
        finally:
            os.close(fd)

    def sync_folder(self, folder: Path) -> None:
        """Make names created, renamed or removed in `folder` durable (on Windows the system does)."""
        if _ON_WINDOWS:
            return
        fd = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(fd)
        finally:
            os.close(fd)

    def replace(self, source: Path, target: Path) -> None:
        """Give `source` the name `target`, in one step, over what had that name."""
        os.replace(source, target)

    def remove(self, path: Path) -> None:
        """Remove a file; nothing happens when it is not there."""
        path.unlink(missing_ok=True)

    def close(self, fd: int) -> None:
        """Close a descriptor."""
        os.close(fd)

    def lock(self, fd: int, path: Path) -> None:
        """Take the one-writer lock on an open file; it ends with the descriptor or the process.

        Raises
        ------
        RecordingBusy : another process holds it.
        """
        try:
            if _ON_WINDOWS:
                import msvcrt

                os.lseek(fd, 2**40, os.SEEK_SET)  # far behind the data: readers are not kept out
                msvcrt.locking(fd, msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined,unused-ignore]
            else:
                import fcntl

                fcntl.flock(fd, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            raise RecordingBusy(
                f"{path} is being written by another process; stop that recording first"
            ) from error

    def is_locked(self, path: Path) -> bool:
        """Tell whether another open descriptor holds the one-writer lock on the file."""
        fd = os.open(path, os.O_RDWR | getattr(os, "O_BINARY", 0))
        try:
            self.lock(fd, path)
        except RecordingBusy:
            return True
        finally:
            os.close(fd)
        return False
