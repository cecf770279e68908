"""Files that appear whole or not at all, alone or several together."""

from __future__ import annotations

import contextlib
import os
import secrets
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

from logger.disk import Disk
from logger.errors import LoggerError, RecordingBusy

__all__ = ["remove_leftovers", "written_together", "written_whole"]

BEGIN, END = ".galvanote-", ".part"
MOST_TRIES = 100


@contextlib.contextmanager
def written_whole(out: Path) -> Iterator[Path]:
    """Yield a temporary name beside `out`; give the file made there the name `out` when all went well.

    Raises
    ------
    LoggerError : the folder cannot be written, or is full; `out` is as it was.
    """
    with written_together() as begin:
        yield begin(out)


@contextlib.contextmanager
def written_together() -> Iterator[Callable[[Path], Path]]:
    """Yield a function that takes a final name and returns a temporary one beside it.

    When all went well, every file made so gets its final name, in the order in which they were begun. When
    something was raised, an interrupt too, none is left and what had those names is as it was.

    Raises
    ------
    LoggerError : the folder cannot be written, or is full.
    """
    disk = Disk()
    parts: dict[Path, Path] = {}
    locks: list[int] = []
    wanted: list[Path] = []

    def begin(out: Path) -> Path:
        if not any(other.parent == out.parent for other in parts):
            remove_leftovers(out.absolute().parent, disk)
        wanted.append(out)
        parts[out] = _part_of(out, disk, locks)
        return parts[out]

    try:
        yield begin
        for part in parts.values():
            disk.sync_file(part)
        if sys.platform == "win32":  # which renames no open file
            _close(locks)
        for out, part in parts.items():
            disk.replace(part, out)
    except OSError as error:
        name = next(map(str, wanted), "the output")
        raise LoggerError(
            f"{name} could not be written ({error.strerror or error}); check free space and permissions"
        ) from error
    finally:
        if sys.platform == "win32":
            _close(locks)
        for part in parts.values():
            with contextlib.suppress(OSError):
                disk.remove(part)
        _close(locks)


def remove_leftovers(folder: Path, disk: Disk | None = None) -> None:
    """Remove what exports that were killed have left in `folder`; one that is still written is locked."""
    disk = disk or Disk()
    with contextlib.suppress(OSError):
        for part in folder.glob(f"{BEGIN}*{END}"):
            with contextlib.suppress(OSError, LoggerError), disk.hold(part) as held:
                held.remove()


def _part_of(out: Path, disk: Disk, locks: list[int]) -> Path:
    """Make the empty temporary file for `out` and hold its lock, added to `locks`, where there are locks."""
    for _ in range(MOST_TRIES):
        # A name of its own: two exports to one name must not meet, and a long name must not grow.
        part = out.with_name(f"{BEGIN}{secrets.token_hex(4)}{END}")
        try:
            part.touch(exist_ok=False)
        except FileExistsError:
            continue
        try:
            lock = os.open(part, os.O_RDWR)
        except FileNotFoundError:
            continue  # taken for a leftover before its lock was held
        try:
            disk.lock(lock, part)
        except RecordingBusy:
            os.close(lock)
            continue
        except OSError:
            os.close(lock)  # no locks on this file system: nobody can take it for a leftover either
            return part
        if disk.has_name(lock, part):
            locks.append(lock)
            return part
        os.close(lock)
    raise LoggerError(f"{out} could not be begun: other exports into its folder are in the way; try again")


def _close(locks: list[int]) -> None:
    while locks:
        os.close(locks.pop())
