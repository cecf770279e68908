"""Files that appear whole or not at all."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from pathlib import Path

from logger.disk import Disk
from logger.errors import LoggerError

__all__ = ["written_whole"]


@contextlib.contextmanager
def written_whole(out: Path) -> Iterator[Path]:
    """Yield a temporary name beside `out`; give the file made there the name `out` when all went well.

    Raises
    ------
    LoggerError : the folder cannot be written, or is full; `out` is as it was.
    """
    disk = Disk()
    part = out.with_name(f".{out.name}.part")
    try:
        yield part
        disk.sync_file(part)
        disk.replace(part, out)
    except OSError as error:
        raise LoggerError(
            f"{out} could not be written ({error.strerror or error}); check free space and permissions"
        ) from error
    finally:
        with contextlib.suppress(OSError):
            disk.remove(part)
