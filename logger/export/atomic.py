"""Files that appear whole or not at all, alone or several together."""

from __future__ import annotations

import contextlib
import secrets
from collections.abc import Callable, Iterator
from pathlib import Path

from logger.disk import Disk
from logger.errors import LoggerError

__all__ = ["written_together", "written_whole"]


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

    def begin(out: Path) -> Path:
        # A name of its own: two exports to one name must not meet, and a long name must not grow.
        parts[out] = out.with_name(f".galvanote-{secrets.token_hex(4)}.part")
        return parts[out]

    try:
        yield begin
        for part in parts.values():
            disk.sync_file(part)
        for out, part in parts.items():
            disk.replace(part, out)
    except OSError as error:
        name = next(map(str, parts), "the output")
        raise LoggerError(
            f"{name} could not be written ({error.strerror or error}); check free space and permissions"
        ) from error
    finally:
        for part in parts.values():
            with contextlib.suppress(OSError):
                disk.remove(part)
