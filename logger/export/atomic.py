"""Files that appear whole or not at all, alone or several together."""

from __future__ import annotations

import contextlib
import errno
import os
import secrets
import shutil
import stat
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from logger.disk import Disk
from logger.errors import LoggerError, OutputExists, RecordingBusy
from logger.portable_name import refuse_what_windows_refuses

__all__ = [
    "refuse_what_exists",
    "remove_leftovers",
    "working_folder",
    "written_together",
    "written_whole",
]

BEGIN, END, WORK = ".galvanote-", ".part", ".work"
MOST_TRIES = 100


@dataclass(slots=True)
class _Part:
    """A file on its way to the name `out`; `fd` holds its lock (where there are locks), -1 once closed.

    Of an export's files in one folder the first is locked, for all of them: each open file counts, and a
    system may allow no more than 256. The others are called after it, ``FIRST-2.part`` and so on.
    """

    out: Path
    path: Path
    fd: int

    def close(self) -> None:
        if self.fd >= 0:
            fd, self.fd = self.fd, -1
            os.close(fd)


@contextlib.contextmanager
def written_whole(out: Path, *, replace: bool) -> Iterator[Path]:
    """Yield a temporary name beside `out`; give the file made there the name `out` when all went well.

    Raises
    ------
    OutputExists : the name was taken meanwhile, and what has it may not be replaced.
    LoggerError : the folder cannot be written, or is full; `out` is as it was.
    """
    with written_together(replace=replace) as begin:
        yield begin(out)


@contextlib.contextmanager
def written_together(
    *, replace: bool, obsolete: Callable[[], Sequence[Path]] = tuple
) -> Iterator[Callable[[Path], Path]]:
    """Yield a function that takes a final name and returns a temporary one beside it.

    When all went well, every file made so gets its final name, in the order in which they were begun, and no
    other export gives a name in that folder meanwhile. When something was raised, an interrupt too, none is
    left and what had those names is as it was. Only a failure between two renamings can leave some replaced.

    Parameters
    ----------
    obsolete : is asked just before, and may raise; what it returns is removed before the last file, which
        describes the others, gets its name.

    Raises
    ------
    OutputExists : one of the names was taken meanwhile, and what has it may not be replaced.
    LoggerError : the folder cannot be written, or is full.
    """
    disk = Disk()
    parts: list[_Part] = []
    wanted: list[Path] = []

    def begin(out: Path) -> Path:
        first = next((part for part in parts if part.out.parent == out.parent), None)
        if first is None:
            remove_leftovers(out.absolute().parent, disk)
        wanted.append(out)
        parts.append(_part_of(out, disk) if first is None else _follower(out, first, len(parts) + 1))
        return parts[-1].path

    try:
        yield begin
        for part in parts:
            disk.sync_file(part.path)
        _give_names(parts, disk, obsolete, replace=replace)
    except LoggerError:
        raise
    except OSError as error:
        name = next(map(str, wanted), "the output")
        raise LoggerError(
            f"{name} could not be written ({error.strerror or error}); check free space and permissions"
        ) from error
    finally:
        for part in parts:
            if sys.platform == "win32":  # which removes no open file
                part.close()
            with contextlib.suppress(OSError):
                disk.remove(part.path)
            part.close()


@contextlib.contextmanager
def working_folder(part: Path) -> Iterator[Path]:
    """Yield a new folder for working files beside `part`, a name as `written_whole` yields it.

    It goes at the end, whatever happens; what a killed export left goes with the next one in that folder.

    Raises
    ------
    OSError : it cannot be made.
    """
    folder = part.with_suffix(WORK)
    try:
        folder.mkdir()
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def refuse_what_exists(paths: Sequence[Path], *, replace: bool) -> None:
    """Refuse names that are taken, where what has them may not be replaced, and names that cannot be.

    Raises
    ------
    OutputExists : the message names the first of them.
    LoggerError : no file can have a name, it is too long, its folder may not be looked into, or a folder, a
        pipe or a device has it, which no file replaces.
    """
    for path in paths:
        refuse_what_windows_refuses(path)
        try:
            mode = path.lstat().st_mode
        except (FileNotFoundError, NotADirectoryError):
            continue
        except OSError as error:
            too_long = error.errno == errno.ENAMETOOLONG
            remedy = "choose a shorter name" if too_long else "choose another place, or ask for permission"
            raise LoggerError(f"{path} cannot be written ({error.strerror}); {remedy}") from error
        if not replace:
            raise OutputExists.at(path)
        if stat.S_ISDIR(mode):
            raise LoggerError(f"{path} is a folder and is not replaced; choose another name, or move it")
        if not (stat.S_ISREG(mode) or stat.S_ISLNK(mode)):
            raise LoggerError(f"{path} is a pipe or a device and is not replaced; choose another name")


def remove_leftovers(folder: Path, disk: Disk | None = None) -> None:
    """Remove what exports that were killed have left in `folder`; one that is still written is locked."""
    disk = disk or Disk()
    with contextlib.suppress(OSError):
        parts = list(folder.glob(f"{BEGIN}*{END}"))
        for part in parts:
            if _first_of(part) != part:
                continue
            with contextlib.suppress(OSError, LoggerError), disk.hold(part) as held:
                shutil.rmtree(part.with_suffix(WORK), ignore_errors=True)
                held.remove()
        without_first = [part for part in parts if not os.path.lexists(_first_of(part))]
        if without_first:
            with disk.naming_in(folder):  # an export that gives names has given the first already
                for part in without_first:
                    disk.remove(part)
        for work in folder.glob(f"{BEGIN}*{WORK}"):  # its part was there, and locked, as long as it was used
            if not os.path.lexists(work.with_suffix(END)):
                shutil.rmtree(work, ignore_errors=True)


def _first_of(part: Path) -> Path:
    """Return the part that is locked for `part`, which may be itself."""
    return part.with_name(BEGIN + part.stem.removeprefix(BEGIN).partition("-")[0] + END)


def _follower(out: Path, first: _Part, number: int) -> _Part:
    """Make the empty temporary file for `out` under the lock of `first`, in its folder."""
    path = out.with_name(f"{first.path.stem}-{number}{END}")
    os.close(os.open(path, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o666))
    return _Part(out, path, -1)


def _give_names(
    parts: Sequence[_Part], disk: Disk, obsolete: Callable[[], Sequence[Path]], *, replace: bool
) -> None:
    """Give all parts their names; where nothing may be replaced, all of them or none."""
    given: list[Path] = []
    with contextlib.ExitStack() as folders:
        for folder in sorted({part.out.absolute().parent for part in parts}):
            folders.enter_context(disk.naming_in(folder))
        refuse_what_exists([part.out for part in parts], replace=replace)
        without = obsolete()
        try:
            for part in parts:
                if part is parts[-1]:
                    for path in without:
                        disk.remove(path)
                _give_name(part, disk, replace=replace)
                given.append(part.out)
        except BaseException:
            for out in () if replace else given:
                with contextlib.suppress(OSError):
                    disk.remove(out)
            raise


def _give_name(part: _Part, disk: Disk, *, replace: bool) -> None:
    if replace:
        if sys.platform == "win32":  # which renames no open file
            part.close()
        disk.replace(part.path, part.out)
        return
    fd, part.fd = part.fd, -1
    fd = fd if fd >= 0 else os.open(part.path, os.O_RDWR)
    try:
        os.close(disk.give_name(fd, part.path, part.out))
    except FileExistsError as error:  # by a program that knows nothing of our locks
        raise OutputExists.at(part.out) from error


def _part_of(out: Path, disk: Disk) -> _Part:
    """Make the empty temporary file for `out` and hold its lock, where there are locks."""
    for _ in range(MOST_TRIES):
        # A name of its own: two exports to one name must not meet, and a long name must not grow.
        path = out.with_name(f"{BEGIN}{secrets.token_hex(4)}{END}")
        try:
            part = _Part(out, path, os.open(path, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o666))
        except FileExistsError:
            continue
        try:
            disk.lock(part.fd, path)
        except RecordingBusy:
            part.close()
            continue  # taken for a leftover before its lock was held
        except OSError:
            return part  # no locks on this file system: nobody can take it for a leftover either
        if disk.has_name(part.fd, path):
            return part
        part.close()
    raise LoggerError(f"{out} could not be begun: other exports into its folder are in the way; try again")
