"""Reading a recording: a finished file, or the journal of a run that goes on or was cut off."""

from __future__ import annotations

import functools
import hashlib
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from drivers.samples import Samples
from logger.attachment_groups import read_attachments
from logger.attachments import attachment_of, living
from logger.checksum import ATTRIBUTE, compared_parts, update
from logger.disk import Disk
from logger.edit_journal import merge, pending_edits
from logger.entries import is_unit
from logger.errors import RecordingError
from logger.journal import SUFFIX, FrameType, journal_of, read_frames, target_of
from logger.ledger import ChannelEntry, Ledger
from logger.moments import MOST_REVISIONS, Moment
from logger.payload import decode_samples
from logger.recording import LONGEST_S, Anchor, ChannelData, Gap, Recording, fault_of_times
from logger.stored_channel import stored_columns
from logger.stored_file import StoredFile
from logger.vetting import vet

__all__ = ["is_recording", "load_library", "read_recording", "read_stored"]

HELD_SAMPLES = 1 << 22
"""Readings up to which a recording is taken into memory: 71 MB, half a day of a meter's hundred a second."""


def read_recording(path: Path, *, is_own: bool = False, held_samples: int = HELD_SAMPLES) -> Recording:
    """Return the recording in `path`: a finished file, or the run that is becoming that file.

    The readings of a long finished recording stay in the file (see `logger.recording.ChannelData`).

    Parameters
    ----------
    is_own : this process has just written the file, or had it looked at, so that no child need look at it
        first.
    held_samples : readings up to which a finished recording is taken into memory as a whole.

    Raises
    ------
    RecordingError : no such file, not a recording, or not readable; the message names the remedy.
    """
    if path.name.endswith(SUFFIX):
        return _read_journal(path)
    if path.is_dir():
        raise RecordingError(f"{path} is a folder; name a recording in it (a file ending in .h5)")
    if not path.exists():
        if journal_of(path).exists():
            return _read_journal(journal_of(path))
        raise RecordingError(f"{path} is not there; check the name and the folder")
    if not is_own:
        vet(path)
    recording = _read_finished(path, held_samples)
    pending = pending_edits(path, recording.uuid)
    moments, history = merge(recording.moments, recording.moments_history, pending.revisions)
    found, date = pending.findings or (recording.findings_json, recording.findings_date)
    attached = living((*recording.attachments, *map(attachment_of, pending.pictures)))
    return replace(
        recording, moments=moments, moments_history=history, attachments=attached,
        findings_json=found, findings_date=date,
    )  # fmt: skip


def load_library() -> None:
    """Load the HDF5 library, which takes a tenth of a second, before the first recording is read."""
    import h5py  # noqa: F401 - not used here


def is_recording(path: Path) -> bool:
    """Tell whether a file is a finished recording that can be opened."""
    import h5py

    try:
        vet(path)
        with h5py.File(path, "r") as file:
            return "run/start_time" in file
    except (RecordingError, OSError, RuntimeError, KeyError, ValueError):
        return False


def read_stored(path: Path, *, is_own: bool = False) -> Recording:
    """Return a finished recording as it is in its file, without edits that still lie beside it.

    `is_own`, and what is raised: as `read_recording`.
    """
    if not is_own:
        vet(path)
    return _read_finished(path, HELD_SAMPLES)


# ---------------------------------------------------------------- journal


def _read_journal(path: Path) -> Recording:
    ledger = Ledger()
    blocks: dict[int, list[Samples]] = {}
    try:
        is_running = Disk().is_locked(path)
        for frame in read_frames(path):
            if frame.type == FrameType.SAMPLES:
                index, samples = decode_samples(frame.payload)
                blocks.setdefault(index, []).append(samples)
            else:
                ledger.take(frame)
    except OSError as error:
        raise RecordingError(
            f"{path} cannot be read ({error.strerror}); check the name and permissions"
        ) from error
    except RecordingError as error:
        raise RecordingError(f"{path} is not a whole journal: {error}") from error
    if not blocks.keys() <= ledger.channels.keys():
        raise RecordingError(f"{path} holds readings of a channel that it does not describe")
    if not ledger.head:
        raise RecordingError(
            f"{path} holds no run: its first entry is missing or damaged, nothing can be read"
        )
    channels = tuple(_channel_of(entry, blocks.get(index, [])) for index, entry in ledger.channels.items())
    for channel in channels:
        if (fault := fault_of_times(channel.times_s[:])) is not None:
            raise RecordingError(f"{path} is not as a recorder writes it: in {channel.name} {fault}")
    last_s = max((float(c.times_s[-1]) for c in channels if c.times_s.size), default=0.0)
    duration_s = ledger.duration_s(last_s)
    return Recording(
        path=target_of(path),
        uuid=ledger.head["uuid"],
        title=ledger.head["title"],
        start_time=ledger.head["start_time"],
        end_time=ledger.end_time,
        time_zone=ledger.head["time_zone"],
        duration_s=duration_s,
        channels=channels,
        moments=ledger.moments,
        moments_history=ledger.moments_history,
        attachments=ledger.attachments,
        gaps=ledger.gaps(duration_s),
        anchors=tuple(ledger.anchors),
        bench_toml=ledger.head.get("bench_toml", ""),
        is_running=is_running,
    )


def _channel_of(entry: ChannelEntry, blocks: list[Samples]) -> ChannelData:
    return ChannelData(
        name=entry.name,
        role=entry.role,
        unit=entry.unit,
        times_s=np.concatenate([b.times_s for b in blocks]) if blocks else np.empty(0),
        values=np.concatenate([b.values for b in blocks]) if blocks else np.empty(0),
        quality=np.concatenate([b.quality for b in blocks]) if blocks else np.empty(0, np.uint8),
        instrument=entry.instrument,
    )


# ---------------------------------------------------------------- finished file


def _read_finished(path: Path, held_samples: int) -> Recording:
    import h5py

    try:
        with h5py.File(path, "r") as file:
            if "run" not in file or "start_time" not in file["run"]:
                raise RecordingError(
                    f"{path} is an HDF5 file but not a recording of this program: it has no /run/start_time; "
                    "choose a file that galvanote recorded or imported"
                )
            return _recording_in(path, file["run"], held_samples)
    except PermissionError as error:
        raise RecordingError(f"{path} may not be read; check its permissions") from error
    except (OSError, RuntimeError) as error:
        raise RecordingError(
            f"{path} is not a recording, or a damaged one: it cannot be opened as HDF5; "
            "if a file of that name ending in .journal lies beside it, recover that"
        ) from error
    except (KeyError, ValueError, TypeError, AttributeError, OverflowError) as error:
        raise RecordingError(
            f"{path} is not a whole recording: {_in_words(error)}; use another copy of it if there is one"
        ) from error


class _Unlike(ValueError):
    """Something in a file is not as in a recording; the message says what."""


def _in_words(error: Exception) -> str:
    if isinstance(error, _Unlike):
        return str(error)
    if isinstance(error, UnicodeDecodeError):
        return "a text in it is not UTF-8"
    missing = re.search(r"object '([^']*)' doesn't exist", str(error))
    if missing:
        return f"{missing[1]} is missing"
    if "component not found" in str(error):
        return "a group of it is missing"
    return "a part of it has another form than in a recording"


def _recording_in(path: Path, run: Any, held_samples: int) -> Recording:
    moments = tuple(sorted(_moments(run, "moments"), key=lambda m: m.time_s))
    if len({moment.id for moment in moments}) < len(moments):
        raise _Unlike("two of the moments have one id")
    channels = tuple(_channels(path, run, held_samples))
    replaced = _moments(run, "moments_history")
    changed_at = _texts(run, "moments_history/changed_at")
    findings = run["findings/json"][()].decode() if "findings/json" in run else None
    return Recording(
        path=path,
        uuid=_text(run, "entry_identifier_uuid"),
        title=_text(run, "title"),
        start_time=_text(run, "start_time"),
        end_time=_text(run, "end_time") or None,
        time_zone=_text(run, "clock/time_zone"),
        duration_s=_seconds(run["duration"].attrs.get("exact", run["duration"][()]), "the duration"),
        channels=channels,
        moments=moments,
        moments_history=tuple(zip(replaced, changed_at, strict=True)),
        attachments=read_attachments(run),
        gaps=_gaps(run),
        anchors=_anchors(run),
        bench_toml=_attribute(run["bench"], "toml") if "bench" in run else "",
        findings_json=findings,
        findings_date=_text(run, "findings/date") if "findings/date" in run else None,
        damaged=(*_changed_readings(run, channels), *_damaged_parts(run)),
    )


def _changed_readings(run: Any, channels: tuple[ChannelData, ...]) -> tuple[str, ...]:
    """Return the names of the columns in memory whose values are not those that were recorded."""
    found = []
    for channel in channels:
        columns = (("time", channel.times_s), ("value", channel.values), ("quality", channel.quality))
        for name, column in columns:
            dataset = run[channel.name][name]
            kept = dataset.attrs.get(ATTRIBUTE)
            if kept is None or not isinstance(column, np.ndarray) or column.dtype != dataset.dtype:
                continue
            digest = hashlib.sha256()
            update(digest, column)
            if digest.hexdigest() != kept:
                found.append(f"{channel.name}/{name}")
    return tuple(found)


def _damaged_parts(run: Any) -> tuple[str, ...]:
    """Return the names of the parts, readings apart, that are not as they were written."""
    try:
        parts = compared_parts(run)
    except (OSError, RuntimeError, KeyError, ValueError, TypeError, AttributeError):
        return ("some texts",)
    return () if parts is None else (*parts.missing, *parts.changed)


def _channels(path: Path, run: Any, held_samples: int) -> list[ChannelData]:
    groups = {
        name: group
        for name, group in run.items()
        if group.attrs.get("NX_class") == "NXdata" and "role" in group.attrs
    }
    for name, group in groups.items():
        shapes = {group[column].shape for column in ("time", "value", "quality")}
        if len(shapes) != 1 or len(shapes.pop()) != 1:
            raise _Unlike(f"the arrays of channel {name} differ in length")
        _check_units(name, group)
    columns: Callable[[str, Any], dict[str, Any]] = _held_columns
    if sum(group["value"].shape[0] for group in groups.values()) > held_samples:
        file = StoredFile(path, _text(run, "entry_identifier_uuid"), vet)
        columns = functools.partial(stored_columns, file)
    found = []
    for name, group in groups.items():
        sensor = run.get(f"instrument/{name}")
        found.append(
            ChannelData(
                name=name,
                role=_attribute(group, "role"),
                unit=_unit(group["value"]),
                instrument={} if sensor is None else _tree(sensor),
                **columns(name, group),
            )
        )
    # The default channel first: h5py lists groups by name.
    default = run.attrs.get("default")
    return sorted(found, key=lambda c: c.name != default)


def _check_units(name: str, group: Any) -> None:
    """Refuse times that are no seconds and voltages that are no volts, as files of other origin hold them."""
    time_unit, unit = _unit(group["time"]), _unit(group["value"])
    if time_unit not in ("", "s"):
        raise _Unlike(f"the times of channel {name} are in {time_unit}, those of a recording in s")
    if _attribute(group, "role").endswith(("_voltage", "_potential")) and unit not in ("", "V"):
        raise _Unlike(f"the values of channel {name} are in {unit}, those of a recording in V")


def _held_columns(name: str, group: Any) -> dict[str, Any]:
    """Return the columns of a channel in memory, by their names in `ChannelData`."""
    times = np.asarray(group["time"][()], np.float64)
    if (fault := fault_of_times(times)) is not None:
        raise _Unlike(f"in channel {name} {fault}")
    return {
        "times_s": times,
        "values": np.asarray(group["value"][()], np.float64),
        "quality": np.asarray(group["quality"][()], np.uint8),
    }


def _moments(run: Any, group: str) -> list[Moment]:
    if group not in run:
        return []
    revisions = run[f"{group}/revision"][()] if f"{group}/revision" in run else None
    columns = [_texts(run, f"{group}/{name}") for name in ("id", "kind", "label", "noted_at")]
    times = run[f"{group}/time"][()]
    if revisions is not None and np.shape(revisions) != np.shape(times):
        raise _Unlike("the columns of the moments differ in length")
    return [
        Moment(
            identity,
            _seconds(t, "a moment"),
            kind,
            label,
            noted_at,
            _revision(revisions[i]) if revisions is not None else 0,
        )
        for i, (t, identity, kind, label, noted_at) in enumerate(zip(times, *columns, strict=True))
    ]


def _revision(value: Any) -> int:
    number = int(value)
    if not 0 <= number < MOST_REVISIONS:
        raise ValueError(number)
    return number


def _anchors(run: Any) -> tuple[Anchor, ...]:
    if "clock" not in run:
        return ()
    return tuple(
        Anchor(_seconds(t, "the time of an anchor"), utc)
        for t, utc in zip(run["clock/time"][()], _texts(run, "clock/utc"), strict=True)
    )


def _gaps(run: Any) -> tuple[Gap, ...]:
    if "gaps" not in run:
        return ()
    begins, ends = run["gaps/begin"][()], run["gaps/end"][()]
    channels, reasons = _texts(run, "gaps/channel"), _texts(run, "gaps/reason")
    return tuple(
        Gap(_seconds(b, "a gap"), _seconds(e, "a gap"), channel, reason)
        for b, e, channel, reason in zip(begins, ends, channels, reasons, strict=True)
    )


def _attribute(item: Any, name: str) -> str:
    value = item.attrs.get(name, "")
    text = value.decode() if isinstance(value, bytes) else value
    if not isinstance(text, str):
        raise _Unlike(f"{item.name}@{name} is no text")
    return text


def _unit(column: Any) -> str:
    unit = _attribute(column, "units")
    if not is_unit(unit):
        raise _Unlike(f"{column.name} has a unit that cannot be one")
    return unit


def _seconds(value: Any, what: str) -> float:
    time_s = float(value)
    if not abs(time_s) < LONGEST_S:
        raise _Unlike(f"{what} is at {time_s} s")
    return time_s


def _text(run: Any, name: str) -> str:
    value = run[name][()] if name in run else b""
    return value.decode() if isinstance(value, bytes) else str(value)


def _texts(run: Any, name: str) -> list[str]:
    return [t.decode() if isinstance(t, bytes) else str(t) for t in run[name][()]] if name in run else []


def _tree(group: Any) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for name, item in group.items():
        if hasattr(item, "items"):
            found[name] = _tree(item)
        else:
            value = item[()]
            found[name] = value.decode() if isinstance(value, bytes) else float(value)
    return found
