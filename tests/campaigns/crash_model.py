"""Every state of a folder that an untimely stop can leave, built from the log of a `RecordedDisk`.

The model (what a file system is allowed to do, not what a particular one does):

* Durable is what a sync covers that had returned before the stop. Of everything after it:
* each sector (512 or 4096 bytes) of a file holds any of the versions it had since the last sync of that
  file, independently of all others; the file has any of the sizes it had since then;
* what was never written below that size reads as zeros, as garbage, or as what an old file left there;
* names given, changed or removed last only with a sync of their folder. Of those not yet durable, an
  "ordered" folder keeps a beginning (journaling file systems), an "any" folder any subset.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from tests.campaigns.recorded_disk import (
    Ack,
    Create,
    Log,
    Remove,
    Rename,
    SyncFile,
    SyncFolder,
    Truncate,
    Write,
    overwrite,
)

FOLDER_MODELS = ("ordered", "any")
SECTORS = (512, 4096)
KINDS = ("exact", "synced", "torn", "subset", "all but one", "one only", "late first")
FILLINGS = ("zeros", "garbage", "old file")

Change = Write | Truncate
Naming = Create | Rename | Remove


@dataclass(frozen=True)
class Choice:
    """Which state to build. `old` lies under every new file when `filling` is "old file"."""

    position: int
    kind: str
    folder_model: str
    sector: int
    filling: str
    seed: int


@dataclass(frozen=True)
class State:
    """What the disk holds when the computer is started again, and what had been acknowledged by then."""

    files: Mapping[str, bytes]
    level: int

    def lay_out(self, folder: Path) -> None:
        """Write the files into an empty folder."""
        for name, content in self.files.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)


@dataclass
class _File:
    durable: bytearray = field(default_factory=bytearray)
    pending: list[Change] = field(default_factory=list)

    def make_durable(self) -> None:
        for change in self.pending:
            _apply_change(self.durable, change)
        self.pending = []


@dataclass(frozen=True)
class Stop:
    """What was durable and what was not when a process or the computer stopped."""

    files: Mapping[int, _File]
    names: Mapping[str, int]
    pending_names: Sequence[Naming]
    level: int


def stop_before(log: Log, position: int) -> Stop:
    """Follow the log up to event number `position`."""
    files = {i: _File(bytearray(content)) for i, content in enumerate(log.initial.values())}
    names = {name: i for i, name in enumerate(log.initial)}
    pending: list[Naming] = []
    level = 0
    for event in log.events[:position]:
        if isinstance(event, Create):
            files[event.file] = _File()
            pending.append(event)
        elif isinstance(event, Rename | Remove):
            pending.append(event)
        elif isinstance(event, Write | Truncate):
            files[event.file].pending.append(event)
        elif isinstance(event, SyncFile):
            files[event.file].make_durable()
        elif isinstance(event, SyncFolder):
            pending = _sync_names(names, pending, event.folder)
        elif isinstance(event, Ack):
            level = max(level, event.level)
    return Stop(files, names, pending, level)


def build(stop: Stop, choice: Choice, old: bytes = b"") -> State:
    """Return one state that the disk may be in when the computer is started again."""
    rng = random.Random(choice.seed)
    names = dict(stop.names)
    for naming in _namings_kept(stop.pending_names, choice, rng):
        _apply_naming(names, naming)
    contents = {name: bytes(_content(stop.files[number], choice, rng, old)) for name, number in names.items()}
    return State(contents, stop.level)


def choices(
    log: Log, count: int, seed: int, fillings: Sequence[str] = FILLINGS[:2], begin: int = 0
) -> list[Choice]:
    """Return `count` choices over the positions of the log from `begin` on, both folder models and all kinds.

    They come in the order of their positions.
    """
    rng = random.Random(seed)
    positions = range(begin, len(log.events) + 1)
    found = [
        Choice(position, kind, "ordered", SECTORS[0], FILLINGS[0], 0)
        for position in positions
        for kind in ("exact", "synced")
    ]
    rng.shuffle(found)
    found = found[: count // 4]
    unsettled = [p for p in _unsettled(log) if p >= begin] or positions
    while len(found) < count:
        found.append(
            Choice(
                rng.choice(unsettled),
                rng.choice(KINDS[2:]),
                FOLDER_MODELS[len(found) % 2],
                rng.choice(SECTORS),
                rng.choice(fillings),
                rng.getrandbits(48),
            )
        )
    return sorted(found, key=lambda choice: choice.position)


def _unsettled(log: Log) -> list[int]:
    """Return the positions at which something is not durable: elsewhere all states are one."""
    found = []
    dirty: set[object] = set()
    for position, event in enumerate(log.events, 1):
        if isinstance(event, Write | Truncate):
            dirty.add(event.file)
        elif isinstance(event, SyncFile):
            dirty.discard(event.file)
        elif isinstance(event, SyncFolder):
            dirty.discard(event.folder)
        elif not isinstance(event, Ack):
            dirty |= _folders(event)
        if dirty:
            found.append(position)
    return found


def _sync_names(names: dict[str, int], pending: list[Naming], folder: str) -> list[Naming]:
    """Make the namings in one folder durable; return those of other folders (which may become so too)."""
    left: list[Naming] = []
    for naming in pending:
        if folder in _folders(naming):
            _apply_naming(names, naming)
        else:
            left.append(naming)
    return left


def _folders(naming: Naming) -> set[str]:
    paths = (naming.source, naming.target) if isinstance(naming, Rename) else (naming.path,)
    return {str(PurePosixPath(path).parent) for path in paths}


def _apply_naming(names: dict[str, int], naming: Naming) -> None:
    if isinstance(naming, Create):
        names[naming.path] = naming.file
    elif isinstance(naming, Remove):
        names.pop(naming.path, None)
    else:
        names.pop(naming.source, None)
        names[naming.target] = naming.file


def _namings_kept(pending: Sequence[Naming], choice: Choice, rng: random.Random) -> Sequence[Naming]:
    if choice.kind == "exact":
        return pending
    if choice.kind == "synced":
        return []
    if choice.folder_model == "ordered":
        return pending[: rng.randint(0, len(pending))]
    return [naming for naming in pending if rng.random() < 0.5]


# ---------------------------------------------------------------- contents


def _content(file: _File, choice: Choice, rng: random.Random, old: bytes) -> bytearray:
    content = bytearray(file.durable)
    if not file.pending or choice.kind == "synced":
        return content
    if choice.kind == "exact":
        for change in file.pending:
            _apply_change(content, change)
        return content
    if choice.kind == "torn":
        *whole, last = file.pending
        for change in whole:
            _apply_change(content, change)
        _apply_change(content, _torn(last, choice.sector, rng))
        return content
    return _mixed(file, choice, rng, old)


def _torn(change: Change, sector: int, rng: random.Random) -> Change:
    """Cut a write off at any byte, or where a sector ends."""
    if isinstance(change, Truncate):
        return change
    cut = rng.randint(0, len(change.data))
    if rng.random() < 0.5:
        cut = max(0, (change.offset + cut) // sector * sector - change.offset)
    return Write(change.file, change.offset, change.data[:cut])


def _mixed(file: _File, choice: Choice, rng: random.Random, old: bytes) -> bytearray:
    """Let each sector have any of its versions and the file any of its sizes."""
    sector = choice.sector
    sizes = [len(file.durable)]
    for change in file.pending:
        grown = max(sizes[-1], change.offset + len(change.data)) if isinstance(change, Write) else change.size
        sizes.append(grown)
    touched: dict[int, int] = {}
    for change in file.pending:
        for number in _sectors(change, sector, max(sizes)):
            touched[number] = touched.get(number, 0) + 1
    kept = _versions(touched, choice.kind, rng)
    size = rng.choice(sizes) if choice.kind == "subset" else sizes[-1]
    content = _filled(file.durable, max(sizes), choice.filling, rng, old)
    seen: dict[int, int] = {}
    for change in file.pending:
        for number in _sectors(change, sector, max(sizes)):
            seen[number] = seen.get(number, 0) + 1
            if seen[number] <= kept[number]:
                if seen[number] == 1:
                    _clear_beyond(content, len(file.durable), number, sector)
                _apply_to_sector(content, change, number, sector)
    return content[:size]


def _versions(touched: Mapping[int, int], kind: str, rng: random.Random) -> dict[int, int]:
    """Return how many of the changes of each sector have reached the disk."""
    numbers = sorted(touched)
    if kind == "all but one":
        left_out = rng.choice(numbers)
        return {n: rng.randrange(touched[n]) if n == left_out else touched[n] for n in numbers}
    if kind == "one only":
        only = rng.choice(numbers)
        return {n: touched[n] if n == only else 0 for n in numbers}
    if kind == "late first":
        first = rng.randint(0, len(numbers))
        return {n: touched[n] if i >= first else 0 for i, n in enumerate(numbers)}
    share = rng.choice((0.1, 0.5, 0.9))
    return {
        n: rng.randint(0, touched[n]) if rng.random() < 0.5 else touched[n] * (rng.random() < share)
        for n in numbers
    }


def _filled(durable: bytearray, size: int, filling: str, rng: random.Random, old: bytes) -> bytearray:
    """Return the durable content, and behind it what an unwritten sector shows."""
    begin = len(durable)
    if filling == "garbage":
        behind = rng.randbytes(max(0, size - begin))
    elif filling == "old file":
        behind = old[begin:size].ljust(max(0, size - begin), b"\0")
    else:
        behind = bytes(max(0, size - begin))
    return durable + behind


def _clear_beyond(content: bytearray, durable_size: int, number: int, sector: int) -> None:
    """A sector that is written is written whole: what the program left out of it is zeros, nothing old."""
    begin, end = max(number * sector, durable_size), min((number + 1) * sector, len(content))
    if begin < end:
        content[begin:end] = bytes(end - begin)


def _sectors(change: Change, sector: int, size: int) -> range:
    if isinstance(change, Truncate):
        return range(change.size // sector, -(-size // sector))
    return range(change.offset // sector, -(-(change.offset + len(change.data)) // sector))


def _apply_change(content: bytearray, change: Change) -> None:
    if isinstance(change, Truncate):
        del content[change.size :]
    elif change.data:
        overwrite(content, change.offset, change.data)


def _apply_to_sector(content: bytearray, change: Change, number: int, sector: int) -> None:
    begin, end = number * sector, (number + 1) * sector
    if isinstance(change, Truncate):
        begin = max(begin, change.size)
        content[begin:end] = bytes(len(content[begin:end]))
        return
    begin, end = max(begin, change.offset), min(end, change.offset + len(change.data))
    content[begin:end] = change.data[begin - change.offset : end - change.offset]
