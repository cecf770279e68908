"""Looking at a file of unknown origin in a process of its own, before anything here opens it.

A damaged HDF5 file can hang or kill whoever opens it, and a hostile one can point at other files, claim
sizes that fill the memory, or ask for plug-in code. So a child walks through it first, under a time
limit, and reads what a damaged file could choke on. Only a file that passed is opened here.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Any

from logger.errors import RecordingError

__all__ = ["reason_to_refuse", "vet"]

TIME_LIMIT_S = 20.0
SECONDS_PER_MB = 0.5
READ_WHOLE_BELOW_BYTES = 64 * 2**20
"""Below this a file is read through; above, its structure and chunk index, where hangs come from."""
VALUES_PER_BYTE = 2000
"""More values than this for each byte of the file are a false claim: gzip gains about 1000 at best."""
OBJECT_LIMIT = 10_000
TEXT_LIMIT_BYTES = 64 * 2**20
FILTERS = {1, 2, 3}  # deflate, shuffle, fletcher32: the ones HDF5 brings itself


def vet(path: Path) -> None:
    """Return when `path` is an HDF5 file that can be opened without harm.

    Raises
    ------
    RecordingError : it is not HDF5, is damaged, or holds what a recording never holds.
    """
    limit_s = TIME_LIMIT_S + SECONDS_PER_MB * path.stat().st_size / 2**20
    try:
        result = subprocess.run(
            [sys.executable, "-m", "logger.vetting", str(path.resolve())],
            cwd=Path(__file__).resolve().parent.parent,
            capture_output=True,
            text=True,
            errors="replace",
            stdin=subprocess.DEVNULL,
            timeout=limit_s,
            check=False,
        )
    except subprocess.TimeoutExpired as error:
        raise RecordingError(f"{path} is not a recording, or a damaged one: reading it never ends") from error
    if result.returncode == 0:
        return
    said = result.stdout.strip().splitlines()
    reason = said[-1] if said and result.returncode == 1 else "reading it breaks the HDF5 library"
    raise RecordingError(f"{path} is not a recording, or a damaged one: {reason}")


# ---------------------------------------------------------------- in the child


def _look(path: Path) -> str | None:
    """Return why the file must not be opened, or None."""
    import h5py

    size = path.stat().st_size
    with h5py.File(path, "r") as file:
        seen = 0
        groups = [file["/"]]
        visited: set[Any] = set()
        while groups:
            group = groups.pop()
            for name in group:
                seen += 1
                if seen > OBJECT_LIMIT:
                    return f"it holds more than {OBJECT_LIMIT} objects"
                if not isinstance(group.get(name, getlink=True), h5py.HardLink):
                    return f"{group.name}/{name} is a link to another place"
                item = group[name]
                reason = _attributes(item)
                if reason is not None:
                    return reason
                address = h5py.h5o.get_info(item.id).addr
                if address in visited:
                    return f"{item.name} is there under two names"
                visited.add(address)
                if isinstance(item, h5py.Group):
                    groups.append(item)
                elif isinstance(item, h5py.Dataset):
                    reason = _dataset(item, size)
                    if reason is not None:
                        return reason
    return None


def _attributes(item: Any) -> str | None:
    for name in item.attrs:
        attribute = item.attrs.get_id(name)
        if attribute.get_storage_size() > TEXT_LIMIT_BYTES:
            return f"{item.name}@{name} is too large"
        if attribute.dtype.kind != "V" and attribute.dtype.metadata is None:
            item.attrs[name]
    return None


def _dataset(item: Any, file_bytes: int) -> str | None:
    plist = item.id.get_create_plist()
    if item.is_virtual or plist.get_external_count():
        return f"{item.name} keeps its data in another file"
    filters = {plist.get_filter(i)[0] for i in range(plist.get_nfilters())}
    if not filters <= FILTERS:
        return f"{item.name} needs a plug-in to be read"
    if item.size is None or item.ndim > 2:
        return f"{item.name} is no column of samples"
    if item.dtype.kind == "O":
        if item.size > file_bytes:
            return f"{item.name} claims {item.size} texts in a file of {file_bytes} bytes"
        item[()]
        return None
    if item.dtype.itemsize > 1024 or item.size > VALUES_PER_BYTE * file_bytes:
        return f"{item.name} claims {item.size} values in a file of {file_bytes} bytes"
    if item.chunks is not None:
        if item.id.get_num_chunks() and max(item.chunks) * item.dtype.itemsize > TEXT_LIMIT_BYTES:
            return f"{item.name} has chunks that are too large"
        stored = _read_chunk_index(item)
        if stored > file_bytes:
            return f"{item.name} claims more bytes than the file has"
    if file_bytes < READ_WHOLE_BELOW_BYTES and item.ndim == 1:
        for begin in range(0, item.shape[0], 2**20):
            item[begin : begin + 2**20]
    return None


def _read_chunk_index(item: Any) -> int:
    total = 0

    def add(chunk: Any) -> None:
        nonlocal total
        total += chunk.size

    item.id.chunk_iter(add)
    return total


def reason_to_refuse(path: Path) -> str | None:
    """Return in words why `path` must not be opened, or None. Only for a process that may hang or die."""
    try:
        return _look(path)
    except (OSError, RuntimeError, KeyError, ValueError, TypeError, OverflowError, MemoryError) as error:
        return f"it cannot be read as HDF5 ({' '.join(str(error).split())[:200]})"


def _main(path: Path) -> int:
    reason = reason_to_refuse(path)
    if reason is not None:
        print(reason)  # noqa: T201 - the parent reads it
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(_main(Path(sys.argv[1])))
