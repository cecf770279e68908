"""Files of an earlier export of tables that would stay beside those that replace it, and pass for theirs."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Collection, Iterator
from pathlib import Path
from typing import Any

from logger.errors import LoggerError
from logger.version import PROGRAM

__all__ = ["PACKAGE_NAME", "left_over"]

PACKAGE_NAME = "galvanote-run"
"""The name of every data package of ours: it tells them from those of other programs."""

LARGEST_PACKAGE_BYTES = 16 * 2**20
BYTES_AT_ONCE = 2**22


def left_over(package: Path, names: Collection[str]) -> list[Path]:
    """Return the files that the data package at `package` names and that the new set, `names`, has not.

    Only of a package that this program wrote, and only files beside it that are still as it wrote them.

    Raises
    ------
    LoggerError : one of them was changed since: it is somebody's work by now, and not removed.
    """
    kept = {name.casefold() for name in names}
    found = []
    for path, resource in _named(package):
        if path.name.casefold() in kept or path.is_symlink() or not path.is_file():
            continue
        if resource.get("bytes") != path.stat().st_size or resource.get("hash") != _hash_of(path):
            raise LoggerError(
                f"{path} belongs to the tables that would be replaced, and was changed since they were "
                "written; move it elsewhere, or choose another name for the new tables"
            )
        found.append(path)
    return found


def _named(package: Path) -> Iterator[tuple[Path, dict[str, Any]]]:
    """Yield what a package of ours names, as far as it lies beside it under a name like its own."""
    stem = package.name.removesuffix("datapackage.json")
    document = _document(package)
    if document.get("name") != PACKAGE_NAME or PROGRAM not in str(document.get("contributors")):
        return
    for resource in document.get("resources") or ():
        name = resource.get("path") if isinstance(resource, dict) else None
        if isinstance(name, str) and name.startswith(stem) and Path(name).name == name and "\\" not in name:
            yield package.with_name(name), resource


def _document(package: Path) -> dict[str, Any]:
    try:
        if package.stat().st_size > LARGEST_PACKAGE_BYTES:
            return {}
        document = json.loads(package.read_text("utf-8"))
    except (OSError, ValueError, RecursionError):
        return {}
    return document if isinstance(document, dict) else {}


def _hash_of(path: Path) -> str:
    digest = hashlib.sha256()
    with path.open("rb") as file:
        while piece := file.read(BYTES_AT_ONCE):
            digest.update(piece)
    return f"sha256:{digest.hexdigest()}"
