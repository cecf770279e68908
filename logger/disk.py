"""File operations with their durability: what has reached the disk, and in which order.

Everything the recorder does to files goes through a `Disk`, so that tests can hand in one that is
full, slow, failing, or that writes down each operation.
"""

from __future__ import annotations

import contextlib
import errno
import os
import stat
import sys
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import BinaryIO

from logger.errors import RecordingBusy

__all__ = ["Disk", "HeldFile", "open_file", "refuse_unless_file"]

_ON_WINDOWS = sys.platform == "win32"
_BINARY = getattr(os, "O_BINARY", 0)
_AT_ONCE = getattr(os, "O_NONBLOCK", 0)  # opening a pipe would wait for whoever writes it
_NOT_SUPPORTED = (errno.EINVAL, errno.ENOTSUP, errno.ENOSYS)
_PARTS_AT_ONCE = 512
"""Fewer than any system takes (IOV_MAX)."""
_WAIT_S, _MOST_WAITS = 0.01, 500
_LOCKED = (errno.EWOULDBLOCK, errno.EACCES, errno.EDEADLK)


class Disk:
    """The real disk. Every method raises OSError as the operating system gives it."""

    def create(self, path: Path) -> int:
        """Create a new file for reading and writing and return its descriptor.

        Raises
        ------
        FileExistsError : the file is there already; it is left as it is.
        """
        return os.open(path, os.O_RDWR | os.O_CREAT | os.O_EXCL | _BINARY, 0o644)

    def write_at(self, fd: int, parts: Sequence[bytes | memoryview], offset: int) -> None:
        """Write the parts one behind the other at `offset`, also where the system takes it in portions."""
        if not hasattr(os, "pwritev"):
            self._write_joined_at(fd, b"".join(parts), offset)
            return
        while parts:
            written = os.pwritev(fd, parts[:_PARTS_AT_ONCE], offset)
            offset += written
            parts = _behind(parts, written)

    def _write_joined_at(self, fd: int, data: bytes, offset: int) -> None:
        view = memoryview(data)
        os.lseek(fd, offset, os.SEEK_SET)
        while view:
            view = view[os.write(fd, view) :]

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
        fd = os.open(path, os.O_RDWR | _BINARY)
        try:
            if _ON_WINDOWS or sys.platform == "darwin":
                self.sync_data(fd)
            else:
                os.fsync(fd)
        finally:
            os.close(fd)

    def sync_folder(self, folder: Path) -> None:
        """Make names created, renamed or removed in `folder` durable.

        Where there is no such thing (Windows, some network drives) the system does it when it does.
        """
        if _ON_WINDOWS:
            return
        fd = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(fd)
        except OSError as error:
            if error.errno not in _NOT_SUPPORTED:
                raise
        finally:
            os.close(fd)

    def replace(self, source: Path, target: Path) -> None:
        """Give `source` the name `target`, in one step, over what had that name."""
        os.replace(source, target)

    def give_name(self, fd: int, source: Path, target: Path) -> int:
        """Give the open, locked file `source` the new name `target`; return its descriptor, locked too.

        The caller sees to it that nobody else can give that name meanwhile: not every file system can
        rename without overwriting. Whatever this raises, `fd` is closed then.

        Raises
        ------
        FileExistsError : the name is taken; the file of that name is left as it is, `source` is removed.
        """
        if target.exists():
            self.remove_open(fd, source)
            raise FileExistsError(errno.EEXIST, "the name is taken", str(target))
        if _ON_WINDOWS:
            return self._give_name_on_windows(fd, source, target)
        try:
            os.rename(source, target)
        except OSError:
            self.remove_open(fd, source)
            raise
        return fd

    def _give_name_on_windows(self, fd: int, source: Path, target: Path) -> int:
        self.close(fd)  # which renames no open file
        os.rename(source, target)
        fd = os.open(target, os.O_RDWR | _BINARY)
        try:
            self.lock(fd, target)
        except BaseException:
            self.close(fd)
            raise
        return fd

    def remove(self, path: Path) -> None:
        """Remove a file; nothing happens when it is not there."""
        path.unlink(missing_ok=True)

    def remove_for_good(self, path: Path) -> None:
        """Remove a file so that it stays removed after a power cut; nothing happens when it is not there."""
        if path.exists():
            self.remove(path)
            self.sync_folder(path.parent)

    def remove_open(self, fd: int, path: Path) -> None:
        """Remove a file that is open here and close it: its lock is held until it is gone."""
        if _ON_WINDOWS:  # which removes no open file
            self.close(fd)
            self.remove(path)
            return
        try:
            self.remove(path)
        finally:
            self.close(fd)

    def close(self, fd: int) -> None:
        """Close a descriptor."""
        os.close(fd)

    def lock(self, fd: int, path: Path) -> None:
        """Take the one-writer lock on an open file; it ends with the descriptor or the process.

        Raises
        ------
        RecordingBusy : another process holds it.
        OSError : this file system knows no locks.
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
            if error.errno not in _LOCKED:
                raise
            raise RecordingBusy(
                f"{path} is being written by another process; stop that recording first"
            ) from error

    def is_locked(self, path: Path) -> bool:
        """Tell whether another open descriptor holds the one-writer lock on the file."""
        fd = os.open(path, os.O_RDWR | _BINARY if _ON_WINDOWS else os.O_RDONLY | _AT_ONCE)
        try:
            refuse_unless_file(fd, path)
            if _ON_WINDOWS:
                self.lock(fd, path)
            else:
                import fcntl

                fcntl.flock(fd, fcntl.LOCK_SH | fcntl.LOCK_NB)  # shared: two who look do not see each other
        except RecordingBusy:
            return True
        except OSError as error:  # where there are no locks, nothing can be recorded either
            return error.errno in _LOCKED
        finally:
            os.close(fd)
        return False

    def has_name(self, fd: int, path: Path) -> bool:
        """Tell whether `path` is the name of the open file, and not of another one or of none."""
        try:
            return os.path.samestat(os.fstat(fd), path.stat())
        except (FileNotFoundError, NotADirectoryError):
            return False

    @contextlib.contextmanager
    def naming_in(self, folder: Path) -> Iterator[None]:
        """Keep others who ask the same from giving names in `folder` meanwhile; they wait, for moments.

        Where a folder cannot be locked (Windows, some network drives), nobody is kept from anything.
        """
        if _ON_WINDOWS:
            yield
            return
        fd = os.open(folder, os.O_RDONLY)
        try:
            self._wait_for_folder(fd)
            yield
        finally:
            os.close(fd)

    def _wait_for_folder(self, fd: int) -> None:
        import fcntl

        for _ in range(_MOST_WAITS):  # not for ever: another program may hold such a lock for its own reasons
            try:
                fcntl.flock(fd, fcntl.LOCK_EX | fcntl.LOCK_NB)
                return
            except OSError as error:
                if error.errno not in _LOCKED:
                    return
            time.sleep(_WAIT_S)

    @contextlib.contextmanager
    def hold(self, path: Path) -> Iterator[HeldFile]:
        """Hold the one-writer lock on a file that is there already.

        Raises
        ------
        RecordingBusy : another process holds it.
        FileNotFoundError : it is not there, or was removed by who held the lock before.
        """
        fd = os.open(path, os.O_RDWR | _BINARY)
        held = HeldFile(self, fd, path)
        try:
            refuse_unless_file(fd, path)
            self.lock(fd, path)
            if not self.has_name(fd, path):
                raise FileNotFoundError(errno.ENOENT, "another file has that name now", str(path))
            yield held
        finally:
            held.close()


def open_file(path: Path) -> BinaryIO:
    """Open an ordinary file for reading; a pipe or device of that name is refused, and never waited for.

    Raises
    ------
    OSError : it is no ordinary file, or cannot be read.
    """
    fd = os.open(path, os.O_RDONLY | _BINARY | _AT_ONCE)
    try:
        refuse_unless_file(fd, path)
    except BaseException:
        os.close(fd)
        raise
    return os.fdopen(fd, "rb")


def refuse_unless_file(fd: int, path: Path) -> None:
    """Raise OSError unless the open descriptor is an ordinary file's."""
    if not stat.S_ISREG(os.fstat(fd).st_mode):
        raise OSError(errno.EINVAL, "it is a pipe or a device, no ordinary file", str(path))


def _behind(parts: Sequence[bytes | memoryview], written: int) -> list[bytes | memoryview]:
    """Return what is left of the parts when so many of their bytes have been written."""
    for number, part in enumerate(parts):
        if written < len(part):
            return [memoryview(part)[written:], *parts[number + 1 :]]
        written -= len(part)
    return []


class HeldFile:
    """A file whose one-writer lock is held until `close` or `remove`."""

    def __init__(self, disk: Disk, fd: int, path: Path) -> None:
        self.path = path
        self._disk = disk
        self._fd = fd

    def remove(self) -> None:
        """Remove the file; the lock ends with it."""
        fd, self._fd = self._fd, -1
        self._disk.remove_open(fd, self.path)

    def close(self) -> None:
        """Give up the lock. May be called twice, and after `remove`."""
        if self._fd >= 0:
            fd, self._fd = self._fd, -1
            self._disk.close(fd)
