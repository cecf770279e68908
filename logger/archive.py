"""From the journal to the finished recording: a NeXus HDF5 file that appears whole or not at all.

HDF5 is written only here, in a short-lived process of its own: a library that fails on a full disk can
take its process down, and that must never be the recorder. The parent does what makes the file last:
sync, rename, sync of the folder, and only then the journal goes. Nothing may reorder these.
"""

from __future__ import annotations

import contextlib
import os
import re
import subprocess
import sys
from collections.abc import Callable, Iterable, Mapping
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import numpy as np

from drivers.samples import Quality
from logger.archived_channel import ArchivedChannel
from logger.attachment_groups import write_entry
from logger.checksum import seal
from logger.disk import Disk
from logger.entries import checked
from logger.errors import LoggerError, RecordingError
from logger.free_name import free_name
from logger.journal import FrameType, JournalWriter, has_frames_behind_damage, read_frames, target_of
from logger.ledger import ChannelEntry, Ledger
from logger.moments import Moment
from logger.orphan import is_orphan, my_id
from logger.payload import decode_samples
from logger.recording import LONGEST_S
from logger.version import PROGRAM, VERSION
from logger.vetting import vet

__all__ = ["ArchiveFailed", "assemble", "damaged_of", "finish", "part_of"]

PART_SUFFIX = ".part"
DAMAGED_SUFFIX = ".damaged"
BATCH_FRAMES = 4096

Tree = Mapping[str, Any]


class ArchiveFailed(LoggerError):
    """The finished file could not be made. The journal is whole and holds everything."""

    reason = ""
    """What was seen, in the words of the system."""


def part_of(target: Path) -> Path:
    """Return the name under which a recording is assembled."""
    return target.with_name(target.name + PART_SUFFIX)


def finish(journal: Path, *, disk: Disk | None = None, writer: JournalWriter | None = None) -> Path | None:
    """Make the recording out of a journal, then remove the journal. Return the recording's path.

    Holds the journal's lock all the while, so that two who finish the same run do not meet. May be called
    again after being cut off at any point. Returns None when the journal holds no valid head: then nothing
    had been acknowledged, and the file is left where it is.

    Parameters
    ----------
    writer : what wrote the journal, still open and so holding its lock; it is closed with the journal.

    Raises
    ------
    RecordingBusy : a recorder is still writing the journal, or somebody else is finishing it.
    ArchiveFailed : no finished file could be made (disk full, not permitted); the journal stays.
    """
    disk = disk or Disk()
    if writer is not None:
        return _finish_held(journal, writer.remove, disk)
    with disk.hold(journal) as held:
        return _finish_held(journal, held.remove, disk)


def _finish_held(journal: Path, remove_journal: Callable[[], None], disk: Disk) -> Path | None:
    target = target_of(journal)
    part = part_of(target)
    first = next(read_frames(journal), None)
    if first is None:
        disk.remove_for_good(part)
        return None
    head = checked(first)
    if target.exists() and _uuid_of(target) == head["uuid"]:
        # Cut off between rename and removal: the recording is whole, its name perhaps not yet durable.
        disk.sync_folder(target.parent)
    else:
        if not head.get("replace", False):
            target = free_name(target)
        disk.remove(part)
        _assemble_in_child(journal, part)
        disk.sync_file(part)
        disk.replace(part, target)
        disk.sync_folder(target.parent)
    disk.remove_for_good(part)  # what an earlier attempt left: without its journal nobody looks for it
    if has_frames_behind_damage(journal):
        disk.replace(journal, damaged_of(journal))  # what could not be read in order is not thrown away
    else:
        remove_journal()
    disk.sync_folder(target.parent)
    return target


def damaged_of(journal: Path) -> Path:
    """Return the name under which a damaged journal is kept beside what could be read of it."""
    return journal.with_name(journal.name + DAMAGED_SUFFIX)


def _uuid_of(recording: Path) -> str | None:
    import h5py

    try:
        vet(recording)  # it may be any file that happens to have the name
        with h5py.File(recording, "r") as file:
            value = file["run/entry_identifier_uuid"][()]
            return value.decode() if isinstance(value, bytes) else str(value)
    except (RecordingError, OSError, KeyError, ValueError, RuntimeError):
        return None  # not ours


def _assemble_in_child(journal: Path, part: Path) -> None:
    files = (str(journal.resolve()), str(part.resolve()))
    command = [sys.executable, "-m", "logger.archive", *files, my_id()]
    root = str(Path(__file__).resolve().parent.parent)
    result = subprocess.run(
        command,
        cwd=root,
        capture_output=True,
        text=True,
        stdin=subprocess.DEVNULL,
        start_new_session=True,  # a second Ctrl-C at the terminal must not reach it while it saves
        check=False,
    )
    if result.returncode != 0:
        with contextlib.suppress(OSError):
            part.unlink(missing_ok=True)  # half a file helps nobody, and takes room
        said = result.stderr.strip().splitlines()
        reason = said[-1] if said else f"its process ended with status {result.returncode}"
        failed = ArchiveFailed(
            f"{target_of(journal).name} could not be written yet ({reason}). What was recorded is safe in "
            f"{journal}. Make room or check the folder, then: galvanote recover '{journal}'"
        )
        failed.reason = reason
        raise failed


# ---------------------------------------------------------------- in the child


def assemble(journal: Path, part: Path) -> None:
    """Write the recording that `journal` holds to the new file `part`, in bounded memory.

    Raises
    ------
    RecordingError : the journal has no valid head.
    OSError : the file cannot be written.
    """
    import h5py

    ledger = Ledger()
    with h5py.File(part, "x") as file:
        run = file.create_group("run")
        channels: dict[int, ArchivedChannel] = {}
        for number, frame in enumerate(read_frames(journal), 1):
            ledger.take(frame)
            if frame.type == FrameType.SAMPLES:
                index, samples = decode_samples(frame.payload)
                if index not in ledger.channels:
                    raise RecordingError(f"{journal} holds readings of a channel that it does not describe")
                if index not in channels:
                    channels[index] = ArchivedChannel(run.create_group(ledger.channels[index].name))
                channels[index].add(samples)
            elif frame.type == FrameType.ATTACHMENT:
                write_entry(run, checked(frame))
            if number % BATCH_FRAMES == 0:  # frames of one sample each cost more than their samples
                for channel in channels.values():
                    channel.write()
        if not ledger.head:
            raise RecordingError(f"{journal} holds no run: its head is missing or damaged")
        for index, entry in ledger.channels.items():
            if index not in channels:
                channels[index] = ArchivedChannel(run.create_group(entry.name))
        for channel in channels.values():
            channel.finish()
        file.attrs["file_name"] = part.name.removesuffix(PART_SUFFIX)
        _describe(file, ledger, channels)


def _describe(file: Any, ledger: Ledger, channels: Mapping[int, ArchivedChannel]) -> None:
    """Write everything but the samples, by the names of the contract."""
    import h5py

    head = ledger.head
    run = file["run"]
    duration_s = ledger.duration_s(max((channel.last_s for channel in channels.values()), default=0.0))
    if not duration_s < LONGEST_S:
        raise RecordingError("the journal is not as a recorder writes it: its times are beyond all bounds")
    end_time = ledger.end_time or _later(head["start_time"], duration_s / head.get("speed", 1.0))
    file.attrs.update(
        NX_class="NXroot",
        default="run",
        file_time=datetime.now().astimezone().isoformat(timespec="seconds"),
        creator=PROGRAM,
        creator_version=VERSION,
        HDF5_Version=h5py.version.hdf5_version,
        h5py_version=h5py.version.version,
    )
    run.attrs["NX_class"] = "NXentry"
    entries = {index: entry for index, entry in ledger.channels.items() if index in channels}
    main = next((e.name for e in entries.values() if e.role == "cell_voltage"), None)
    main = main or next((e.name for e in entries.values()), None)
    if main is not None:
        run.attrs["default"] = main
    _text(run, "title", head["title"])
    _text(run, "start_time", head["start_time"])
    _text(run, "end_time", end_time)
    _text(run, "entry_identifier_uuid", head["uuid"])
    _text(run, "program_name", PROGRAM).attrs["version"] = _storable(head.get("version", VERSION))
    duration = run.create_dataset("duration", data=round(duration_s), dtype="i8")
    duration.attrs["units"] = "s"
    duration.attrs["exact"] = float(duration_s)
    duration.attrs["cut_off"] = bool(ledger.end is None)
    for index, entry in entries.items():
        _describe_channel(channels[index].group, entry, head["start_time"])
    instrument = _group(run, "instrument", "NXinstrument")
    for entry in entries.values():
        sensor = _group(instrument, entry.name, "NXsensor")
        _tree(sensor, entry.instrument)
    clock = _group(run, "clock", "NXcollection")
    _text(clock, "time_zone", head["time_zone"])
    clock.attrs["speed"] = float(head.get("speed", 1.0))
    _numbers(clock, "time", [a.time_s for a in ledger.anchors])
    _texts(clock, "utc", [a.utc for a in ledger.anchors])
    write_moments(run, ledger.moments, ledger.moments_history)
    gaps = ledger.gaps(duration_s)
    group = _group(run, "gaps", "NXcollection")
    _numbers(group, "begin", [g.begin_s for g in gaps])
    _numbers(group, "end", [g.end_s for g in gaps])
    _texts(group, "channel", [g.channel for g in gaps])
    _texts(group, "reason", [g.reason for g in gaps])
    _group(run, "bench", "NXcollection").attrs["toml"] = _storable(head.get("bench_toml", ""))
    seal(run)


def _describe_channel(group: Any, entry: ChannelEntry, start_time: str) -> None:
    group.attrs.update(
        NX_class="NXdata", signal="value", axes=["time"], time_indices=0, role=_storable(entry.role)
    )
    _text(group, "title", entry.name.replace("_", " "))
    time, value, quality = group["time"], group["value"], group["quality"]
    time.attrs.update(units="s", start=_storable(start_time), long_name="time since start (s)")
    unit = _storable(entry.unit)
    value.attrs.update(units=unit, long_name=f"{entry.name.replace('_', ' ')} ({unit})")
    bits = [f"{bit.value}={bit.name.lower()}" for bit in Quality if bit.name]
    quality.attrs["meanings"] = ", ".join(["0=good", *bits])
    time.make_scale("time")
    value.dims[0].attach_scale(time)
    quality.dims[0].attach_scale(time)
    if "board_ticks" in group:
        group["board_ticks"].attrs["long_name"] = "the board's own clock, unwrapped; -1 where unknown"
        group["board_ticks"].dims[0].attach_scale(time)


def write_moments(run: Any, moments: Iterable[Moment], history: Iterable[tuple[Moment, str]]) -> None:
    """Write the groups of moments and of what edits replaced into the open group `run`."""
    living, replaced = list(moments), list(history)
    group = _group(run, "moments", "NXcollection")
    _moment_arrays(group, living)
    group = _group(run, "moments_history", "NXcollection")
    _moment_arrays(group, [moment for moment, _ in replaced])
    _texts(group, "changed_at", [changed_at for _, changed_at in replaced])


def _moment_arrays(group: Any, moments: list[Moment]) -> None:
    _numbers(group, "time", [m.time_s for m in moments])
    _texts(group, "kind", [m.kind for m in moments])
    _texts(group, "label", [m.label for m in moments])
    _texts(group, "id", [m.id for m in moments])
    _texts(group, "noted_at", [m.noted_at for m in moments])
    group.create_dataset("revision", data=[m.revision for m in moments], dtype="i4")


def _group(parent: Any, name: str, nexus_class: str) -> Any:
    group = parent.create_group(name)
    group.attrs["NX_class"] = nexus_class
    return group


def _text(group: Any, name: str, text: str) -> Any:
    import h5py

    return group.create_dataset(name, data=_storable(text), dtype=h5py.string_dtype())


def _texts(group: Any, name: str, texts: list[str]) -> None:
    import h5py

    data = [_storable(text) for text in texts] or None
    group.create_dataset(name, shape=(len(texts),), data=data, dtype=h5py.string_dtype())


def _storable(text: str) -> str:
    """Replace what HDF5 cannot hold: an instrument may say anything of itself."""
    return text.replace("\0", "\ufffd").encode("utf-8", "replace").decode()


def _numbers(group: Any, name: str, seconds: list[float]) -> None:
    group.create_dataset(name, data=np.asarray(seconds, "f8"), dtype="f8").attrs["units"] = "s"


def _tree(group: Any, entries: Tree) -> None:
    """Write text and numbers as they are and nested mappings as collections."""
    for name, value in entries.items():
        if isinstance(value, Mapping):
            _tree(_group(group, name, "NXcollection"), value)
        elif isinstance(value, str):
            _text(group, name, value)
        else:
            group.create_dataset(name, data=float(value), dtype="f8")


def _later(start_time: str, seconds: float) -> str:
    """Return the time so much later; empty where there is none (a journal may claim any speed)."""
    try:
        later = datetime.fromisoformat(start_time) + timedelta(seconds=seconds)
    except OverflowError:
        return ""
    return later.isoformat(timespec="milliseconds")


def _plain(error: Exception) -> str:
    """Return an error in words; HDF5 hides the system's number in a line of addresses."""
    number = re.search(r"errno = (\d+)", str(error))
    return os.strerror(int(number[1])) if number else str(error)


def _main(arguments: list[str]) -> int:
    import h5py  # noqa: F401 - takes a while: only then is the look at the parent worth anything

    journal, part, parent = Path(arguments[0]), Path(arguments[1]), arguments[2]
    if is_orphan(parent):
        return 1
    try:
        assemble(journal, part)
    except (OSError, LoggerError, RuntimeError) as error:
        print(_plain(error), file=sys.stderr)  # noqa: T201 - the parent reads it
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(_main(sys.argv[1:]))
