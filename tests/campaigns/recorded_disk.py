"""A disk that writes down every operation, so that a crash at any of them can be built afterwards.

What a child process writes (the archive, the changed copy of a recording) does not go through the disk. Its
content is taken when the parent first touches the finished file, to sync or to rename it, and put into the
log before that operation, as writes that nothing has made durable yet.
"""

from __future__ import annotations

import threading
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from logger.disk import Disk

PIECE_BYTES = 64 * 1024
"""A file that is taken as a whole enters the log in pieces of this size, so that a crash can part them."""


@dataclass(frozen=True, slots=True)
class Create:
    """A new, empty file got a name. `file` numbers files, as inodes do."""

    file: int
    path: str


@dataclass(frozen=True, slots=True)
class Write:
    file: int
    offset: int
    data: bytes


@dataclass(frozen=True, slots=True)
class Truncate:
    file: int
    size: int


@dataclass(frozen=True, slots=True)
class SyncFile:
    """All earlier writes of this file have reached the disk; its name perhaps not."""

    file: int


@dataclass(frozen=True, slots=True)
class Rename:
    file: int
    source: str
    target: str


@dataclass(frozen=True, slots=True)
class Remove:
    path: str


@dataclass(frozen=True, slots=True)
class SyncFolder:
    folder: str


@dataclass(frozen=True, slots=True)
class Ack:
    """From here on at least knowledge number `level` (see `scenes.Truth`) was said to be durable."""

    level: int


Event = Create | Write | Truncate | SyncFile | Rename | Remove | SyncFolder | Ack


@dataclass
class Log:
    """What was on the disk at first, and what happened then. Paths are relative to the folder."""

    initial: dict[str, bytes] = field(default_factory=dict)
    events: list[Event] = field(default_factory=list)

    def upto(self, position: int) -> Log:
        """Return the log of a process that was killed before event number `position`."""
        return Log(self.initial, self.events[:position])


class RecordedDisk(Disk):
    """Works on the real files below `folder` and keeps a log of what it does there.

    Parameters
    ----------
    earlier : go on with this log, of a process that was killed: what it had not synced is still not durable.
    """

    def __init__(self, folder: Path, earlier: Log | None = None) -> None:
        self.folder = folder.resolve()
        self._lock = threading.RLock()
        self._by_fd: dict[int, int] = {}
        self._content: dict[int, bytearray] = {}
        self._names: dict[str, int] = {}
        self._count = 0
        if earlier is None:
            self.log = Log({self._name(p): p.read_bytes() for p in self.folder.rglob("*") if p.is_file()})
        else:
            self.log = Log(earlier.initial, list(earlier.events))
        for name, content in self.log.initial.items():
            self._names[name] = self._number(content)
        for event in tuple(self.log.events):
            self._follow(event)

    def acknowledge(self, level: int) -> None:
        """Put an acknowledgement into the log."""
        with self._lock:
            self.log.events.append(Ack(level))

    def take(self, path: Path) -> None:
        """Put what somebody else wrote to `path` into the log, as writes that are not durable."""
        with self._lock:
            name, content = self._name(path), path.read_bytes()
            if name not in self._names:
                self._add(Create(self._count, name))
            file = self._names[name]
            known = self._content[file]
            if len(content) < len(known):
                self._add(Truncate(file, len(content)))
            for offset in range(0, len(content), PIECE_BYTES):
                piece = content[offset : offset + PIECE_BYTES]
                if known[offset : offset + PIECE_BYTES] != piece:
                    self._add(Write(file, offset, piece))

    # ------------------------------------------------------------ the operations of a disk

    def create(self, path: Path) -> int:
        with self._lock:
            fd = super().create(path)
            self._add(Create(self._count, self._name(path)))
            self._by_fd[fd] = self._names[self._name(path)]
            return fd

    def write_at(self, fd: int, parts: Sequence[bytes | memoryview], offset: int) -> None:
        with self._lock:
            super().write_at(fd, parts, offset)
            self._add(Write(self._by_fd[fd], offset, b"".join(parts)))

    def sync_data(self, fd: int) -> None:
        with self._lock:
            super().sync_data(fd)
            self._add(SyncFile(self._by_fd[fd]))

    def sync_file(self, path: Path) -> None:
        with self._lock:
            self.take(path)
            super().sync_file(path)
            self._add(SyncFile(self._names[self._name(path)]))

    def sync_folder(self, folder: Path) -> None:
        with self._lock:
            super().sync_folder(folder)
            self._add(SyncFolder(self._name(folder)))

    def replace(self, source: Path, target: Path) -> None:
        with self._lock:
            self.take(source)
            super().replace(source, target)
            self._add(Rename(self._names[self._name(source)], self._name(source), self._name(target)))

    def give_name(self, fd: int, source: Path, target: Path) -> int:
        with self._lock:
            fd = super().give_name(fd, source, target)
            self._add(Rename(self._by_fd[fd], self._name(source), self._name(target)))
            return fd

    def remove(self, path: Path) -> None:
        with self._lock:
            if path.exists() and self._name(path) not in self._names:
                self.take(path)
            if self._name(path) in self._names:
                super().remove(path)
                self._add(Remove(self._name(path)))

    # ------------------------------------------------------------ the log

    def _add(self, event: Event) -> None:
        self.log.events.append(event)
        self._follow(event)

    def _follow(self, event: Event) -> None:
        """Keep names and contents as they are for a process that looks now."""
        if isinstance(event, Create):
            assert event.file == self._count
            self._names[event.path] = self._number(b"")
        elif isinstance(event, Write):
            overwrite(self._content[event.file], event.offset, event.data)
        elif isinstance(event, Truncate):
            del self._content[event.file][event.size :]
        elif isinstance(event, Rename):
            self._names.pop(event.source)
            self._names[event.target] = event.file
        elif isinstance(event, Remove):
            self._names.pop(event.path, None)

    def _number(self, content: bytes) -> int:
        self._content[self._count] = bytearray(content)
        self._count += 1
        return self._count - 1

    def _name(self, path: Path) -> str:
        return str(path.resolve().relative_to(self.folder))


def overwrite(content: bytearray, offset: int, data: bytes) -> None:
    """Write into a file's content as pwrite does: what was never written before it reads as zeros."""
    if len(content) < offset:
        content.extend(bytes(offset - len(content)))
    content[offset : offset + len(data)] = data
