"""Looking at a file of unknown origin in a process of its own, before anything here opens it.

A damaged HDF5 file can hang or kill whoever opens it, and a hostile one can point at other files, claim
sizes that fill the memory, or ask for plug-in code. So a child walks through it first, under a time
limit, and reads what a damaged file could choke on. Only a file that passed is opened here.
"""

from __future__ import annotations

import atexit
import contextlib
import json
import math
import os
import re
import signal
import subprocess
import sys
import threading
from pathlib import Path
from typing import Any

from logger.entries import is_plain_name
from logger.errors import RecordingError

__all__ = ["MOST_S", "NOT_ALLOWED", "SECONDS_PER_MB", "TOO_SLOW", "get_ready", "reason_to_refuse", "vet"]

TIME_LIMIT_S = 20.0
SECONDS_PER_MB = 0.5
MOST_S = 120.0
"""However large it says it is: holes in a file cost nothing, and of a large one little is read."""
READ_WHOLE_BELOW_BYTES = 64 * 2**20
"""Below this a file is read through; above, its structure and chunk index, where hangs come from."""
GAIN_LIMIT = 1100
"""Bytes that one stored byte may stand for: deflate gains 1032 at best (RFC 1951: 258 bytes in 2 bits)."""
MEMORY_LIMIT_BYTES = 2 * 2**30
"""What the look itself may use."""
OBJECT_LIMIT = 10_000
TEXT_LIMIT_BYTES = 64 * 2**20
CHUNK_LIMIT, SMALL_CHUNK = 2**17, 4096
"""Small parts that a dataset may be stored in, and values up to which one is small: a recorder's hold 16,384.
Opening a file keeps for each part where it lies."""
LONGEST_REASON = 240
"""Characters of a reason: groups in groups make a name of hundreds of thousands."""
FILTERS = {1, 2, 3}  # deflate, shuffle, fletcher32: the ones HDF5 brings itself
SIGNATURE = b"\x89HDF\r\n\x1a\n"
NOT_ALLOWED = "it may not be read; check its permissions"
TOO_SLOW = "looking at it takes too long; either it is damaged, or the computer or the disk is busy"
_FROM_OUTSIDE = {
    number
    for name in ("SIGHUP", "SIGINT", "SIGKILL", "SIGTERM")
    if (number := getattr(signal, name, None)) is not None
}
"""Signals that say nothing about the file."""

_ready: list[subprocess.Popen[str]] = []
_ready_lock = threading.Lock()


def vet(path: Path) -> None:
    """Return when `path` is an HDF5 file that can be opened without harm.

    Raises
    ------
    RecordingError : it is not HDF5, is damaged, or holds what a recording never holds.
    """
    limit_s = min(TIME_LIMIT_S + SECONDS_PER_MB * path.stat().st_size / 2**20, MOST_S)
    try:
        status, said = _look_apart(path.resolve(), limit_s)
    except subprocess.TimeoutExpired as error:
        raise RecordingError(_too_slow(path)) from error
    if status == 0:
        return
    if -status in _FROM_OUTSIDE:
        raise RecordingError(
            f"{path} could not be looked at: the look was ended from outside "
            f"({signal.Signals(-status).name}), or memory was short; try again"
        )
    lines = said.strip().splitlines()
    reason = lines[-1] if lines and status == 1 else "reading it breaks the HDF5 library"
    if reason == NOT_ALLOWED:
        raise RecordingError(f"{path} may not be read; check its permissions")
    raise RecordingError(_refusal(path, reason))


def get_ready() -> None:
    """Start the child for the next `vet` already: while somebody chooses a file, a quarter of a second.

    Where the system starts none now, `vet` tries again.
    """
    with _ready_lock, contextlib.suppress(OSError):
        if not _ready:
            _ready.append(_start())


def _look_apart(path: Path, limit_s: float) -> tuple[int, str]:
    """Have a child look at a file; return its status and what it said. Raises subprocess.TimeoutExpired."""
    with _ready_lock:
        child = _ready.pop() if _ready else None
    if child is not None and child.poll() is not None:
        with child:  # something ended it
            child = None
    with child or _start() as child:
        try:
            said, _ = child.communicate(json.dumps(str(path)) + "\n", timeout=limit_s)
        except BaseException:
            child.kill()
            raise
    return child.returncode, said


def _start() -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "logger.vetting"],
        cwd=Path(__file__).resolve().parent.parent,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        encoding="utf-8",
        errors="replace",
    )


@atexit.register
def _end_what_is_ready() -> None:
    while _ready:
        with _ready.pop() as child:
            child.kill()


def _refusal(path: Path, reason: str) -> str:
    """Say what was attempted, what was seen, and what to do."""
    said = f"{path} is not a recording, or not a whole one: {reason}"
    return _with_its_journal(path, said) or f"{said}; name another file, or use a copy of it"


def _too_slow(path: Path) -> str:
    said = f"{path} cannot be opened: {TOO_SLOW}"
    return _with_its_journal(path, said) or f"{said}; try again, or use a copy of it"


def _with_its_journal(path: Path, said: str) -> str:
    """Name the journal as the remedy where it lies beside the file; else return nothing."""
    journal = path.with_name(path.name + ".journal")
    return f"{said}; its journal is there: galvanote recover '{journal}'" if journal.is_file() else ""


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
                if not is_plain_name(name):
                    return f"{group.name} holds a name that no recording has"
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
                    continue
                reason = (
                    _dataset(item, size) if isinstance(item, h5py.Dataset) else f"{item.name} holds nothing"
                )
                if reason is not None:
                    return reason
    return None


def _attributes(item: Any) -> str | None:
    for name in item.attrs:
        if not is_plain_name(name):
            return f"{item.name} has an attribute with a name that no recording has"
        if item.attrs.get_id(name).get_storage_size() > TEXT_LIMIT_BYTES:
            return f"{item.name}@{name} is too large"
        item.attrs[name]
    return None


def _dataset(item: Any, file_bytes: int) -> str | None:
    import h5py

    plist = item.id.get_create_plist()
    if item.is_virtual or plist.get_external_count():
        return f"{item.name} keeps its data in another file"
    filters = {plist.get_filter(i)[0] for i in range(plist.get_nfilters())}
    if not filters <= FILTERS:
        return f"{item.name} needs a plug-in to be read"
    if item.size is None or item.ndim > 2:
        return f"{item.name} is no column of samples"
    is_text = h5py.check_string_dtype(item.dtype) is not None
    if (not is_text and item.dtype.kind not in "biuf") or item.dtype.itemsize > 1024:
        return f"{item.name} holds neither numbers nor texts"
    claim = f"{item.name} claims {item.size} values in a file of {file_bytes} bytes"
    stored = _stored_bytes(item)
    if stored is None or stored > file_bytes or item.size * item.dtype.itemsize > GAIN_LIMIT * stored:
        return claim
    if item.chunks is not None and item.size:
        count, values = _chunks_of(item), math.prod(item.chunks)
        if count > CHUNK_LIMIT and values < SMALL_CHUNK:
            return f"{item.name} is stored in {count} parts, far more than a recording has"
        if item.dtype.itemsize * values > TEXT_LIMIT_BYTES:
            return f"{item.name} has chunks that are too large"
    if item.dtype.kind == "O":
        item[()]
    elif file_bytes < READ_WHOLE_BELOW_BYTES and item.ndim == 1:
        for begin in range(0, item.shape[0], 2**20):
            item[begin : begin + 2**20]
    return None


def _stored_bytes(item: Any) -> int | None:
    """Return the bytes that a dataset has in the file; None when part of what it claims is not there."""
    if item.chunks is None:
        stored = int(item.id.get_storage_size())
        return stored if stored >= item.size * item.id.get_type().get_size() else None
    # Both go through the whole chunk index, in the library: a callback for each chunk took ten times as long.
    return None if item.id.get_num_chunks() < _chunks_of(item) else int(item.id.get_storage_size())


def _chunks_of(item: Any) -> int:
    """Return into how many chunks a dataset of its shape is cut."""
    return math.prod(-(-length // chunk) for length, chunk in zip(item.shape, item.chunks, strict=True))


def reason_to_refuse(path: Path) -> str | None:
    """Return in words why `path` must not be opened, or None. Only for a process that may hang or die."""
    _forget_plug_ins()
    try:
        reason = _not_begun_as_hdf5(path) or _look(path)
    except PermissionError:
        return NOT_ALLOWED
    except MemoryError:
        return "it claims more than the memory holds"
    except (OSError, RuntimeError, KeyError, ValueError, TypeError, OverflowError, AttributeError) as error:
        return _in_words(error)
    return reason if reason is None or len(reason) <= LONGEST_REASON else _shortened(reason)


def _shortened(reason: str) -> str:
    """Leave a name in the file its begin, and the reason its end, which says what is wrong."""
    return f"{reason[: LONGEST_REASON // 2]} … {reason[-LONGEST_REASON // 2 :]}"


def _forget_plug_ins() -> None:
    """Leave no folder in which HDF5 looks for code to load: it does so for every file that it cannot open."""
    from h5py import h5pl

    while h5pl.size():
        h5pl.remove(0)


def _not_begun_as_hdf5(path: Path) -> str | None:
    """Look for the signature where the format allows it: at 0, 512 and each doubling of that."""
    size = path.stat().st_size
    if size == 0:
        return "it is empty"
    with path.open("rb") as file:
        at = 0
        while at < size:
            file.seek(at)
            if file.read(len(SIGNATURE)) == SIGNATURE:
                return None
            at = 2 * at or 512
    return "it is no HDF5 file, as every recording is"


def _in_words(error: Exception) -> str:
    """Say what is wrong with an HDF5 file; the library's own words name its insides."""
    found = re.search(r"truncated file: eof = (\d+), sblock->base_addr = \d+, stored_eof = (\d+)", str(error))
    if found:
        return f"it was cut off: of {found[2]} bytes {found[1]} are there"
    return "its inner structure is damaged"


def _limit_memory() -> None:
    """Let a false claim end this process, not the computer. Where the system cannot limit it, nothing."""
    with contextlib.suppress(ImportError, OSError, ValueError):
        import resource

        used = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
        _, most = resource.getrlimit(resource.RLIMIT_AS)
        resource.setrlimit(resource.RLIMIT_AS, (used + MEMORY_LIMIT_BYTES, most))


def _main() -> int:
    import h5py  # noqa: F401 - what it needs itself does not count

    asked = sys.stdin.readline()
    if not asked:
        return 0  # nobody wants to know any more
    path = Path(json.loads(asked))
    _limit_memory()
    reason = reason_to_refuse(path)
    if reason is not None:
        sys.stdout.buffer.write(reason.encode("utf-8", "backslashreplace"))
        return 1
    return 0


if __name__ == "__main__":
    status = _main()
    sys.stdout.flush()
    os._exit(status)  # somebody waits for it, and the interpreter takes a fifth of the look to tidy up
