"""The journal: the truth of a run while it is recorded.

An append-only file of frames. Each frame is a header (magic, type, version, payload length, sequence
number, the run's random salt), a CRC-32 over header and payload, and the payload. A reader stops at
the first frame in which anything is wrong: what follows was never acknowledged. The salt keeps an old
journal's bytes, left on the disk under a new one, from being taken for its continuation.
"""

from __future__ import annotations

import contextlib
import errno
import json
import mmap
import os
import struct
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import IntEnum
from pathlib import Path
from typing import Any, BinaryIO, NamedTuple

from logger.crc import crc32
from logger.disk import Disk, open_file
from logger.errors import RecordingBusy, RecordingError
from logger.payload import Payload, encode_json, parts_of, size_of

__all__ = [
    "BEGUN_SUFFIX",
    "SUFFIX",
    "Frame",
    "FrameType",
    "JournalFollower",
    "JournalWriter",
    "Position",
    "begun_of",
    "has_frames_behind_damage",
    "is_laid_out_ahead",
    "journal_of",
    "read_frames",
    "read_head",
    "target_of",
]

SUFFIX = ".journal"
BEGUN_SUFFIX = ".begun"
FORMAT_VERSION = 1
AHEAD_BYTES = 128 * 1024
"""How far a journal is laid out with zeros: five minutes at 10 readings a second, seven seconds at 1 kHz."""
PAYLOAD_LIMIT = 64 * 2**20
_MAGIC = b"GJ"
_HEADER = struct.Struct("<2sBBIII")
_CRC = struct.Struct("<I")
_FRONT_BYTES = _HEADER.size + _CRC.size


class FrameType(IntEnum):
    """What a frame holds. All but SAMPLES hold one JSON object."""

    HEAD = 1  # the run: uuid, title, start, bench, output file
    CHANNEL = 2  # index, name, role, unit, instrument; the last one of an index counts
    SAMPLES = 3
    MOMENT = 4  # one revision of a moment; the highest of an id counts
    GAP = 5  # id, begin_s, end_s or null, channel, reason; the last one of an id counts
    ANCHOR = 6  # run time and UTC
    END = 7  # the run was ended on purpose
    FINDINGS = 8  # in a side journal only: findings as JSON text, and their date
    ATTACHMENT = 9  # a picture of a moment, or that one was removed; the last one of an id counts


_TYPES = frozenset(int(kind) for kind in FrameType)


@dataclass(frozen=True, slots=True)
class Frame:
    """One frame as read back. `end` is the offset of the first byte after it."""

    type: FrameType
    payload: bytes
    end: int

    def json(self) -> dict[str, Any]:
        """Return the payload of any frame but SAMPLES.

        Raises
        ------
        RecordingError : it is no JSON object.
        """
        try:
            value = json.loads(self.payload)
        except (ValueError, RecursionError) as error:
            raise RecordingError(f"an entry {self.type.name} cannot be read") from error
        if not isinstance(value, dict):
            raise RecordingError(f"an entry {self.type.name} is no JSON object")
        return value


class Position(NamedTuple):
    """A place between two frames: offset in bytes, and the sequence number of the frame behind it."""

    offset: int
    sequence: int


def journal_of(recording: Path) -> Path:
    """Return the name of the journal that becomes `recording`."""
    return recording.with_name(recording.name + SUFFIX)


def begun_of(journal: Path) -> Path:
    """Return the name that a journal has until its head is durable."""
    return journal.with_name(journal.name + BEGUN_SUFFIX)


def target_of(journal: Path) -> Path:
    """Return the name of the recording that `journal` becomes."""
    return journal.with_name(journal.name.removesuffix(SUFFIX))


class JournalWriter:
    """Appends frames to a new journal. Used by one thread.

    Making one creates the file, writes the head and makes both durable: after that the run may be
    called recording. Until its head is durable the file has another name (`begun_of`): after a power cut
    a journal shows either its own head or nothing, never what lay on those sectors before.

    Raises
    ------
    FileExistsError : there is a journal of that name, of a run that goes on or was cut off, or another
        process is just beginning one.
    OSError : the folder cannot be written.
    """

    def __init__(self, path: Path, head: Mapping[str, Any], disk: Disk | None = None) -> None:
        self.path = path
        self._disk = disk or Disk()
        self._salt = int.from_bytes(os.urandom(4), "little")
        self._end = Position(0, 0)
        self._synced_offset = self._laid_out_offset = 0
        if path.exists():
            raise FileExistsError(errno.EEXIST, "there is a journal of that name", str(path))
        self._name = begun_of(path)
        _remove_stale(self._name, self._disk)
        self._fd = self._disk.create(self._name)
        try:
            self._lock()
            self.append(FrameType.HEAD, encode_json(head))
            self._disk.sync_data(self._fd)
            # Nobody else can take the name meanwhile: they would need the lock on the name before it.
            fd, self._fd = self._fd, -1
            self._fd = self._disk.give_name(fd, self._name, path)
            self._name = path
            self._disk.sync_folder(path.parent)
        except BaseException:
            self.remove()
            raise

    def _lock(self) -> None:
        """Take the lock; whoever took the file for a stale one before has removed it."""
        try:
            self._disk.lock(self._fd, self._name)
        except RecordingBusy as error:
            raise FileExistsError(errno.EEXIST, "another process begins a journal", str(self.path)) from error
        if not self._disk.has_name(self._fd, self._name):
            raise FileExistsError(errno.EEXIST, "another process begins a journal", str(self.path))

    @property
    def is_open(self) -> bool:
        """The file is open and its lock held."""
        return self._fd >= 0

    @property
    def end(self) -> Position:
        """Where the next frame goes: behind what has been written completely."""
        return self._end

    @property
    def has_its_name(self) -> bool:
        """The file can still be found by its name: nobody has removed, renamed or replaced it."""
        return self._disk.has_name(self._fd, self._name)

    def frames(self) -> Iterator[Frame]:
        """Yield the frames of the open file, also where its name is gone. Write nothing meanwhile."""
        with open(self._fd, "rb", closefd=False) as file:
            file.seek(0)
            yield from JournalFollower(file)

    def append(self, kind: FrameType, payload: Payload) -> None:
        """Write one frame behind the last.

        When this raises OSError nothing has been appended: call it again with the same payload, and
        the same frame goes to the same place.
        """
        self.append_all([(kind, payload)])

    def append_all(self, frames: Sequence[tuple[FrameType, Payload]]) -> None:
        """Write frames behind the last in one go. When this raises OSError none has been appended."""
        # Only complete frames move the end: partial ones are overwritten by the next attempt.
        self._end = self._put(frames, self._end)

    def write_again(self, begin: Position, frames: Iterable[tuple[FrameType, Payload]]) -> None:
        """Write frames once more that stand from `begin` on, each to its place: a disk may have lost them.

        Raises
        ------
        OSError : the disk does not take them.
        """
        for frame in frames:
            begin = self._put([frame], begin)

    def _put(self, frames: Sequence[tuple[FrameType, Payload]], begin: Position) -> Position:
        parts: list[bytes | memoryview] = []
        size = 0
        for number, (kind, payload) in enumerate(frames, begin.sequence):
            length = size_of(payload)
            header = _HEADER.pack(_MAGIC, kind, FORMAT_VERSION, length, number, self._salt)
            crc = crc32(header)
            for part in parts_of(payload):
                crc = crc32(part, crc)
            parts += (header + _CRC.pack(crc), *parts_of(payload))
            size += _FRONT_BYTES + length
        self._disk.write_at(self._fd, parts, begin.offset)
        return Position(begin.offset + size, begin.sequence + len(frames))

    def lay_out_ahead(self) -> None:
        """Put zeros where the next frames will go, if frames are few: a sync takes half the time then.

        The file system need not note a new length with each sync. A file to which much is written is
        better left alone: everything would be written twice. Readers stop at the zeros, as they do at
        anything that is no frame. A disk without room for them is no fault: the frames come first.
        """
        recent = self._end.offset - self._synced_offset
        if recent > AHEAD_BYTES // 4 or self._end.offset + recent <= self._laid_out_offset:
            return
        begin = max(self._end.offset, self._laid_out_offset)
        with contextlib.suppress(OSError):
            self._disk.write_at(self._fd, [bytes(AHEAD_BYTES)], begin)
            self._laid_out_offset = begin + AHEAD_BYTES

    def sync(self) -> None:
        """Return once every appended frame would survive a power cut."""
        self._disk.sync_data(self._fd)
        self._synced_offset = self._end.offset

    def remove(self) -> None:
        """Remove the file and close it: what it held is durable elsewhere, or was nothing."""
        fd, self._fd = self._fd, -1
        if fd < 0:
            return
        if self._disk.has_name(fd, self._name):
            self._disk.remove_open(fd, self._name)
        else:
            self._disk.close(fd)

    def close(self) -> None:
        """Close the file and give up its lock. May be called twice, and after `remove`."""
        if self._fd >= 0:
            fd, self._fd = self._fd, -1
            self._disk.close(fd)


def _remove_stale(begun: Path, disk: Disk) -> None:
    """Remove a beginning that was cut off: nothing was acknowledged in it."""
    try:
        with disk.hold(begun) as held:
            held.remove()
    except FileNotFoundError:
        return
    except RecordingBusy as error:
        raise FileExistsError(errno.EEXIST, "another process begins a journal", str(begun)) from error


def read_frames(path: Path) -> Iterator[Frame]:
    """Yield the valid frames of a journal, oldest first, in bounded memory.

    Ends silently at the first frame that is incomplete or wrong in any way. Yields nothing when the
    head itself is not valid: then nothing of this run was ever acknowledged.

    Raises
    ------
    OSError : it cannot be read, or is no ordinary file.
    """
    with open_file(path) as file:
        yield from JournalFollower(file)


class JournalFollower:
    """Yields the valid frames of an open journal; iterated again, those that have come since.

    Each iteration ends at the first frame that is incomplete or wrong in any way, and the next one tries
    that frame again.
    """

    def __init__(self, file: BinaryIO) -> None:
        self._file = file
        self._salt: int | None = None
        self._sequence = 0
        self._end = 0

    def __iter__(self) -> Iterator[Frame]:
        self._file.seek(self._end)
        while (frame := self._next()) is not None:
            self._sequence += 1
            self._end = frame.end
            yield frame

    def _next(self) -> Frame | None:
        raw = self._file.read(_FRONT_BYTES)
        if len(raw) < _FRONT_BYTES:
            return None
        magic, kind, version, length, number, salt = _HEADER.unpack_from(raw)
        if magic != _MAGIC or version != FORMAT_VERSION or length > PAYLOAD_LIMIT:
            return None
        if number != self._sequence or (self._salt is not None and salt != self._salt):
            return None
        payload = self._file.read(length)
        (crc,) = _CRC.unpack_from(raw, _HEADER.size)
        if len(payload) != length or crc32(payload, crc32(raw[: _HEADER.size])) != crc:
            return None
        if kind not in _TYPES or (self._sequence == 0) != (kind == FrameType.HEAD):
            return None
        self._salt = salt
        return Frame(FrameType(kind), payload, self._end + len(raw) + length)


def is_laid_out_ahead(path: Path, end: int) -> bool:
    """Tell whether nothing but zeros follows `end`: no frame was being written when the journal was left."""
    with path.open("rb") as file:
        file.seek(end)
        return all(piece.count(0) == len(piece) for piece in iter(lambda: file.read(AHEAD_BYTES), b""))


def has_frames_behind_damage(path: Path) -> bool:
    """Tell whether whole frames of this run lie behind the place at which reading ends.

    After a cut-off at most the last writes are torn. Whole frames further on mean that something has damaged
    the file: they are not read as data, since what is missing before them is not known, but they must not
    be thrown away either.
    """
    end, salt = 0, None
    for frame in read_frames(path):
        end = frame.end
    with path.open("rb") as file:
        first = file.read(_HEADER.size)
        if len(first) < _HEADER.size or path.stat().st_size <= end:
            return False
        salt = _HEADER.unpack(first)[5]
        with mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ) as content:
            at = content.find(_MAGIC, end)
            while at >= 0:
                if _is_frame(content, at, salt):
                    return True
                at = content.find(_MAGIC, at + 1)
    return False


def _is_frame(content: mmap.mmap, at: int, salt: int) -> bool:
    body = at + _FRONT_BYTES
    if body > len(content):
        return False
    header = content[at : at + _HEADER.size]
    _, _, version, length, _, its_salt = _HEADER.unpack(header)
    if version != FORMAT_VERSION or its_salt != salt or body + length > len(content):
        return False
    (crc,) = _CRC.unpack_from(content, at + _HEADER.size)
    return bool(crc32(content[body : body + length], crc32(header)) == crc)


def read_head(path: Path) -> dict[str, Any] | None:
    """Return the head of a journal, or None when it has no valid one."""
    frame = next(read_frames(path), None)
    return None if frame is None else frame.json()
