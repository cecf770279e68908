"""A recording made from text tables of other origin."""

from __future__ import annotations

import contextlib
import os
import uuid
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from drivers.samples import Samples
from logger.archive import ArchiveFailed, finish, part_of
from logger.attachments import entry_of
from logger.disk import Disk
from logger.errors import LoggerError, OutputExists
from logger.import_csv import CHANNEL, Readings
from logger.import_package import Package
from logger.import_pictures import ImportedPicture
from logger.journal import FrameType, JournalWriter, journal_of, target_of
from logger.moments import Moment
from logger.payload import BLOCK_LIMIT, encode_json, encode_samples
from logger.recording import IMPORTED, SIMULATED_CELL, START_OF_PACKAGE, Gap
from logger.version import VERSION

__all__ = ["ImportedChannel", "import_recording"]


@dataclass(frozen=True, slots=True)
class ImportedChannel:
    """A further channel beside the cell voltage: its name in the recording, role, unit and readings.

    `is_simulated` tells that the simulated cell made them, before they became a table.
    """

    name: str
    role: str
    unit: str
    readings: Readings
    is_simulated: bool = False


def import_recording(
    readings: Readings,
    moments: tuple[Moment, ...],
    out: Path,
    *,
    origin: Path,
    channels: Sequence[ImportedChannel] = (),
    gaps: tuple[Gap, ...] = (),
    pictures: tuple[ImportedPicture, ...] = (),
    bench_toml: str = "",
    title: str = "",
    package: Package | None = None,
    replace: bool = False,
) -> Path:
    """Write readings, moments, gaps and pictures as a recording; it appears whole or not at all.

    `readings` are those of the cell voltage, under the name that `package` tells; further `channels` have
    names of their own.

    Title, start, time zone and length are those that the data `package` of an export tells. Where it tells no
    start, the date of the text file stands in its place, and the recording says that the start is not known.

    Raises
    ------
    OutputExists : `out` exists and may not be replaced, or an unfinished run of that name does.
    LoggerError : it could not be written.
    """
    if out.exists() and not replace:
        raise OutputExists(f"{out} exists; choose another name, or add --replace to replace it")
    package = package or Package(origin)
    written = datetime.fromtimestamp(os.path.getmtime(origin), UTC).astimezone()
    start_time = package.start_time or written.isoformat(timespec="seconds")
    head = {
        "uuid": str(uuid.uuid4()),
        "title": title or package.title or out.stem,
        "start_time": start_time,
        "time_zone": package.time_zone or (written.tzname() or "UTC" if package.start_time is None else ""),
        "version": VERSION,
        "speed": 1.0,
        "replace": replace,
        "bench_toml": bench_toml,
    }
    disk = Disk()
    try:
        journal = JournalWriter(journal_of(out), head, disk)
    except FileExistsError as error:
        raise OutputExists(
            f"an unfinished run of that name lies beside it; first: galvanote recover '{journal_of(out)}'"
        ) from error
    except OSError as error:
        raise LoggerError(f"no recording can be begun in {out.parent} ({error.strerror})") from error
    try:
        voltage = ImportedChannel(package.recorded_name, CHANNEL, "V", readings, package.is_simulated)
        every = [voltage, *channels]
        for index, channel in enumerate(every):
            _describe(journal, index, channel, origin, package)
        for index, channel in enumerate(every):
            _fill(journal, index, channel)
        _add(journal, moments, gaps, pictures)
        _end(journal, start_time, _last_s(every, moments, gaps, package))
        saved = finish(journal.path, disk=disk, writer=journal)
    except (OSError, LoggerError) as error:
        _give_up(journal)
        reason = (
            error.reason if isinstance(error, ArchiveFailed) else getattr(error, "strerror", None) or error
        )
        raise LoggerError(
            f"{out} could not be written ({reason}); the readings are in {origin} as before. "
            "Check free space and permissions."
        ) from error
    except BaseException:
        # The readings are still in the text file: a half-made journal of them helps nobody.
        if journal.is_open:
            _give_up(journal)
        raise
    finally:
        journal.close()
    assert saved is not None  # its head was just written
    return saved


def _give_up(journal: JournalWriter) -> None:
    """Leave nothing behind. Its lock is held until the journal goes: the half recording is nobody else's."""
    with contextlib.suppress(OSError):
        part_of(target_of(journal.path)).unlink(missing_ok=True)
    journal.remove()


def _describe(
    journal: JournalWriter, index: int, channel: ImportedChannel, origin: Path, package: Package
) -> None:
    """Declare a channel: the text file stands for an instrument."""
    clock = {"method": "times as in the text file; the start time is the text file's own date"}
    if package.start_time is not None:
        clock = {"method": "times as in the text file", "start": START_OF_PACKAGE}
    instrument = {
        "address": f"{IMPORTED}{origin.name}",
        "identity": "readings of other origin (text)",
        "clock": clock,
        **({"details": {"original_address": SIMULATED_CELL}} if channel.is_simulated else {}),
    }
    entry = {"index": index, "name": channel.name, "role": channel.role, "unit": channel.unit}
    journal.append(FrameType.CHANNEL, encode_json({**entry, "instrument": instrument}))


def _fill(journal: JournalWriter, index: int, channel: ImportedChannel) -> None:
    readings = channel.readings
    for begin in range(0, readings.times_s.size, BLOCK_LIMIT):
        part = slice(begin, begin + BLOCK_LIMIT)
        block = Samples(channel.name, readings.times_s[part], readings.values[part], readings.quality[part])
        journal.append(FrameType.SAMPLES, encode_samples(index, block))


def _add(
    journal: JournalWriter,
    moments: tuple[Moment, ...],
    gaps: tuple[Gap, ...],
    pictures: tuple[ImportedPicture, ...],
) -> None:
    for moment in moments:
        journal.append(FrameType.MOMENT, encode_json(moment.as_dict()))
    for gap in gaps:
        journal.append(FrameType.GAP, encode_json({"id": uuid.uuid4().hex, **asdict(gap)}))
    for picture in pictures:
        data = picture.path.read_bytes()
        journal.append(FrameType.ATTACHMENT, encode_json(entry_of(picture.attachment, data)))


def _end(journal: JournalWriter, start_time: str, last_s: float) -> None:
    """End the run at the time at which it ended."""
    ended = datetime.fromisoformat(start_time) + timedelta(seconds=last_s)
    end_time = ended.isoformat(timespec="milliseconds")
    journal.append(FrameType.END, encode_json({"time_s": last_s, "end_time": end_time}))
    journal.sync()


def _last_s(
    channels: Sequence[ImportedChannel],
    moments: tuple[Moment, ...],
    gaps: tuple[Gap, ...],
    package: Package,
) -> float:
    """Return the run time of the last that is known of the run."""
    lasts_s = (float(one.readings.times_s[-1]) for one in channels)
    known = [*lasts_s, *(m.time_s for m in moments), *(g.end_s for g in gaps)]
    return max([*known, package.duration_s or 0.0])
