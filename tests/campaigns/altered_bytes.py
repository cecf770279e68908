"""A finished recording with one altered place at a time: does `check` see it, and does what it missed matter?

    python -m tests.campaigns.altered_bytes [--places 3000] [--bytes 1] [--seed 1] [FILE.h5]

At each place (by chance, anywhere in the file) so many bytes are replaced by others. What `check` finds is
held against what any HDF5 reader finds: every value of every dataset and every attribute, by its path,
compared with the file as it was. The place is told by where the library says that columns, chunks and texts
lie; the rest is the library's own structure and unused room. Each place is looked at in a process of its own,
since a spoilt file may end or hang whoever opens it. Exit status 1 when `check` called a file whole whose
contents differ, or that no reader can read.
"""

from __future__ import annotations

import argparse
import hashlib
import os
import random
import shutil
import signal
import sys
import tempfile
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import h5py
import numpy as np

from logger import inspection
from tests.campaigns.table import print_table

PLACES, QUICK_PLACES = 3000, 60
LIMIT_S = 30
WHOLE, SEEN = 0, 1
LINKS = frozenset({"DIMENSION_LIST", "REFERENCE_LIST", "CLASS", "NAME"})
"""What HDF5 keeps to link axes; no value is read by way of them here."""

Contents = dict[str, str]


def contents_of(path: Path) -> Contents:
    """Return a digest of each value and attribute in an HDF5 file, by its path."""
    found: Contents = {}

    def take(name: str, item: Any) -> None:
        for key in item.attrs:
            if key not in LINKS:
                found[f"{name}@{key}"] = _digest(item.attrs[key])
        if isinstance(item, h5py.Dataset):
            found[name] = f"{item.dtype} {item.shape} {_digest(item[()])}"

    with h5py.File(path, "r") as file:
        take("/", file)
        file.visititems(lambda name, item: take(f"/{name}", item))
    return found


def _digest(value: Any) -> str:
    array = np.asarray(value)
    data = repr(array.tolist()).encode() if array.dtype.hasobject else array.tobytes()
    return hashlib.sha256(data).hexdigest()


def ranges_of(path: Path) -> list[tuple[int, int, str]]:
    """Return where (begin, end, kind) values lie in the file, as far as the library tells."""
    found: list[tuple[int, int, str]] = []

    def take(name: str, item: Any) -> None:
        if not isinstance(item, h5py.Dataset):
            return
        kind = "chart levels" if "/overview/" in name else name.split("/")[1]
        if item.chunks is None:
            begin = item.id.get_offset()
            if begin is not None:
                found.append((begin, begin + item.id.get_storage_size(), f"values of {kind}"))
            return
        for number in range(item.id.get_num_chunks()):
            chunk = item.id.get_chunk_info(number)
            found.append((chunk.byte_offset, chunk.byte_offset + chunk.size, f"readings of {kind}"))

    with h5py.File(path, "r") as file:
        file.visititems(take)
    return sorted(found)


def kind_of(place: int, ranges: Sequence[tuple[int, int, str]]) -> str:
    """Return what lies at a place of the file."""
    return next((kind for begin, end, kind in ranges if begin <= place < end), "structure, texts, unused")


def altered(data: bytes, place: int, count: int, chance: random.Random) -> bytes:
    """Return the file with `count` bytes at `place` replaced by others."""
    piece = bytes((byte + chance.randrange(1, 256)) % 256 for byte in data[place : place + count])
    return data[:place] + piece + data[place + len(piece) :]


def look(path: Path, before: Contents, report: int) -> None:
    """In a child: say what `check` finds, and which contents differ, into the pipe `report`."""
    try:
        said = WHOLE if inspection.inspect(path).is_whole else SEEN
    except Exception:  # noqa: BLE001 - whatever it is: it was seen
        said = SEEN
    try:
        after = contents_of(path)
    except Exception:  # noqa: BLE001 - whatever it is: nobody can read it
        os.write(report, f"{said}\n\n".encode())
        return
    differing = sorted(name for name in before.keys() | after.keys() if before.get(name) != after.get(name))
    os.write(report, "\n".join([str(said), *(differing or ["nothing"])])[:60_000].encode())


def looked_at(path: Path, before: Contents) -> tuple[bool, list[str] | None]:
    """Return whether `check` found the file whole, and which contents differ; None: no reader can read it."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        signal.alarm(LIMIT_S)
        devnull = os.open(os.devnull, os.O_WRONLY)
        os.dup2(devnull, 2)
        look(path, before, writing)
        os._exit(0)
    os.close(writing)
    with os.fdopen(reading) as pipe:
        said = pipe.read().split("\n")
    os.waitpid(child, 0)
    if said == [""]:
        return False, None  # it ended or hung the child: `check` looks in a child of its own and says so
    differing = [name for name in said[1:] if name and name != "nothing"]
    return said[0] == str(WHOLE), None if said[1] == "" else differing


def main() -> int:
    """Alter, look, count."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("file", nargs="?", type=Path, default=Path("recordings/invented/good-lesson.h5"))
    parser.add_argument("--places", type=int, default=PLACES)
    parser.add_argument("--bytes", type=int, default=1)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--quick", action="store_true")
    arguments = parser.parse_args()
    chance = random.Random(arguments.seed)
    data, before = arguments.file.read_bytes(), contents_of(arguments.file)
    ranges = ranges_of(arguments.file)
    # `check` has a child look first, which may refuse more; without it places take a tenth of the time.
    inspection.vet = lambda _path: None
    count: Counter[tuple[str, str]] = Counter()
    missed: Counter[str] = Counter()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "altered.h5"
        shutil.copy(arguments.file, path)
        for _ in range(QUICK_PLACES if arguments.quick else arguments.places):
            place = chance.randrange(len(data))
            path.write_bytes(altered(data, place, arguments.bytes, chance))
            is_whole, differing = looked_at(path, before)
            kind = kind_of(place, ranges)
            if not is_whole:
                count[kind, "seen"] += 1
            elif differing is None:
                count[kind, "missed, unreadable to others"] += 1
                missed["unreadable to others"] += 1
            elif differing:
                count[kind, "missed, contents differ"] += 1
                missed.update(differing)
            else:
                count[kind, "contents the same"] += 1
    outcomes = sorted({outcome for _, outcome in count})
    kinds = sorted({kind for kind, _ in count})
    print_table(["where", *outcomes], [[kind, *(count[kind, one] for one in outcomes)] for kind in kinds])
    for name, times in missed.most_common(30):
        print(f"missed: {name} ({times} times)")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
