"""The recorder's safety steps, each to be left out once, to see that the campaigns notice."""

from __future__ import annotations

import contextlib
import types
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from unittest import mock

from logger import amend, archive
from logger.disk import Disk
from logger.journal import read_head, target_of
from tests.campaigns.recorded_disk import RecordedDisk

Record = type[RecordedDisk]
Patch = Callable[[], contextlib.AbstractContextManager[object]]


@dataclass(frozen=True)
class Omission:
    """What is left out, how, and in which scene that must show."""

    name: str
    scene: str
    disk: Callable[[Record], Record] = lambda disk: disk
    patched: Patch = contextlib.nullcontext
    over_old_journal: bool = False


# ---------------------------------------------------------------- steps of the disk left out


def _without_sync_of_part(base: Record) -> Record:
    class Lax(base):
        def sync_file(self, path: Path) -> None:
            self.take(path)

    return Lax


def _without_data_sync(base: Record) -> Record:
    class Lax(base):
        def sync_data(self, fd: int) -> None:
            pass

    return Lax


def _without_folder_sync_after(operation: str) -> Callable[[Record], Record]:
    """Leave out the first sync of the folder after each journal that is named, or file that is replaced."""

    def changed(base: Record) -> Record:
        class Lax(base):
            skip = False

            def give_name(self, fd: int, source: Path, target: Path) -> int:
                self.skip = operation == "name"
                return super().give_name(fd, source, target)

            def replace(self, source: Path, target: Path) -> None:
                self.skip = operation == "replace"
                super().replace(source, target)

            def sync_folder(self, folder: Path) -> None:
                if not self.skip:
                    super().sync_folder(folder)
                self.skip = False

        return Lax

    return changed


def _old_recording_removed_first(base: Record) -> Record:
    class Lax(base):
        def give_name(self, fd: int, source: Path, target: Path) -> int:
            fd = super().give_name(fd, source, target)
            self.remove(target_of(target))
            return fd

    return Lax


def _named_before_its_head_is_durable(base: Record) -> Record:
    class Lax(base):
        has_named = False

        def sync_data(self, fd: int) -> None:
            if self.has_named:
                super().sync_data(fd)

        def give_name(self, fd: int, source: Path, target: Path) -> int:
            self.has_named = True
            return super().give_name(fd, source, target)

    return Lax


def _acknowledged_when_written(base: Record) -> Record:
    class Lax(base):
        def sync_data(self, fd: int) -> None:
            self.late_fd = fd  # the sync comes only before the next write: after the acknowledgement

        def write_at(self, fd: int, parts: Sequence[bytes | memoryview], offset: int) -> None:
            if (late := getattr(self, "late_fd", None)) is not None:
                self.late_fd = None
                super().sync_data(late)
            super().write_at(fd, parts, offset)

    return Lax


# ---------------------------------------------------------------- steps of the program left out


@contextlib.contextmanager
def _no_checksum() -> Iterator[None]:
    with mock.patch("logger.journal.crc32", return_value=0):
        yield


@contextlib.contextmanager
def _no_salt() -> Iterator[None]:
    with mock.patch("logger.journal.os", types.SimpleNamespace(urandom=bytes)):
        yield


@contextlib.contextmanager
def _edited_in_place() -> Iterator[None]:
    def in_place(recording: Path, amendment: amend.Amendment, disk: RecordedDisk) -> None:
        change = {
            "moments": [m.as_dict() for m in amendment.moments],
            "history": [[m.as_dict(), changed_at] for m, changed_at in amendment.history],
            "findings": amendment.findings,
            "pictures": [dict(entry) for entry in amendment.pictures],
        }
        amend._edit_in_child(recording, change)
        if isinstance(disk, RecordedDisk):
            disk.take(recording)
        disk.sync_file(recording)

    with mock.patch("logger.editing.amend", in_place):
        yield


@contextlib.contextmanager
def _assembled_under_its_own_name() -> Iterator[None]:
    def finish(journal: Path, remove_journal: Callable[[], None], disk: Disk) -> Path | None:
        if read_head(journal) is None:
            return None
        target = target_of(journal)
        disk.remove(target)
        archive._assemble_in_child(journal, target)
        disk.sync_file(target)
        disk.sync_folder(target.parent)
        remove_journal()
        return target

    with mock.patch.object(archive, "_finish_held", finish):
        yield


@contextlib.contextmanager
def _journal_removed_first() -> Iterator[None]:
    def finish(journal: Path, remove_journal: Callable[[], None], disk: Disk) -> Path | None:
        if read_head(journal) is None:
            return None
        target = target_of(journal)
        part = archive.part_of(target)
        disk.remove(part)
        archive._assemble_in_child(journal, part)
        disk.sync_file(part)
        remove_journal()
        disk.sync_folder(target.parent)
        disk.replace(part, target)
        disk.sync_folder(target.parent)
        return target

    with mock.patch.object(archive, "_finish_held", finish):
        yield


@contextlib.contextmanager
def _part_of_earlier_attempt_kept() -> Iterator[None]:
    real = Disk.remove

    def remove(self: Disk, path: Path) -> None:
        if not path.name.endswith(archive.PART_SUFFIX):
            real(self, path)

    with mock.patch.object(Disk, "remove", remove):
        yield


@contextlib.contextmanager
def _run_that_is_archived_already_ignored() -> Iterator[None]:
    with mock.patch.object(archive, "_uuid_of", return_value=None):
        yield


OMISSIONS = (
    Omission("no fdatasync of the journal", "plain", _without_data_sync),
    Omission("acknowledged before the sync", "plain", _acknowledged_when_written),
    Omission(
        "journal named before its head is durable, old journal beneath",
        "plain",
        _named_before_its_head_is_durable,
        over_old_journal=True,
    ),
    Omission("no folder sync after naming the journal", "plain", _without_folder_sync_after("name")),
    Omission("no sync of the part before the rename", "plain", _without_sync_of_part),
    Omission("no folder sync between rename and removal", "plain", _without_folder_sync_after("replace")),
    Omission("journal removed before the rename", "plain", patched=_journal_removed_first),
    Omission("assembled under its own name", "plain", patched=_assembled_under_its_own_name),
    Omission("no CRC check", "plain", patched=_no_checksum),
    Omission("no salt, old journal beneath", "plain", patched=_no_salt, over_old_journal=True),
    Omission("old recording removed before the new is whole", "replacing", _old_recording_removed_first),
    Omission("recording edited in place", "edits", patched=_edited_in_place),
    Omission("no fdatasync of the side journal", "edits", _without_data_sync),
    Omission("no folder sync after naming the side journal", "edits", _without_folder_sync_after("name")),
    Omission("no sync of the changed copy", "edits", _without_sync_of_part),
    Omission("part of an earlier attempt kept", "plain", patched=_part_of_earlier_attempt_kept),
    Omission("archived run not known again", "plain", patched=_run_that_is_archived_already_ignored),
)


def by_name(name: str) -> Omission:
    """Return one of `OMISSIONS`."""
    return next(one for one in OMISSIONS if one.name == name)
