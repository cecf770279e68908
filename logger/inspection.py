"""Reading everything in a recording or journal, and saying what is whole and what is not."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from drivers.samples import Samples
from logger.archive import DAMAGED_SUFFIX
from logger.attachment_groups import GROUP, damaged_pictures
from logger.checksum import ATTRIBUTE, SLICE, compared_parts, digest_of, level_digest_of
from logger.edit_journal import EDITS_SUFFIX, edits_of
from logger.entries import checked
from logger.errors import RecordingError
from logger.journal import (
    SUFFIX,
    Frame,
    FrameType,
    has_frames_behind_damage,
    is_laid_out_ahead,
    journal_of,
    read_frames,
)
from logger.ledger import Ledger
from logger.moment_pictures import orphans
from logger.payload import decode_samples
from logger.reader import read_recording
from logger.recording import fault_of_times
from logger.vetting import vet

__all__ = ["Finding", "Inspection", "inspect"]


JOURNAL_ENDINGS = (SUFFIX, EDITS_SUFFIX, SUFFIX + DAMAGED_SUFFIX)
PARTS = "texts and moments"


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing looked at: what, whether it is whole (None: cannot be told), and in words."""

    what: str
    is_whole: bool | None
    text: str


@dataclass(frozen=True, slots=True)
class Inspection:
    """What was found in one file. `is_whole` is true when nothing was found wrong."""

    path: Path
    findings: tuple[Finding, ...]

    @property
    def is_whole(self) -> bool:
        """True when nothing that was looked at is wrong."""
        return all(f.is_whole is not False for f in self.findings)


def inspect(path: Path) -> Inspection:
    """Read everything in a recording or journal. What cannot be read at all is a finding, too."""
    try:
        if path.is_dir():
            text = f"it is a folder; name files in it, for example {path / '*.h5'}"
            return Inspection(path, (Finding("file", False, text),))
        if not path.exists() and journal_of(path).exists():
            path = journal_of(path)
        if not path.exists():
            return Inspection(
                path, (Finding("file", False, "it is not there; check the name and the folder"),)
            )
        if path.name.endswith(JOURNAL_ENDINGS):
            return Inspection(path, _journal(path))
        return Inspection(path, _recording(path))
    except OSError as error:
        return Inspection(path, (Finding("file", False, f"it cannot be read ({error.strerror or error})"),))


def _recording(path: Path) -> tuple[Finding, ...]:
    try:
        vet(path)
    except RecordingError as error:
        return (Finding("form", False, _without_path(error, path)),)
    try:
        found = _contents(path)
    except (OSError, RuntimeError, KeyError, ValueError, TypeError, AttributeError):
        found = [Finding(PARTS, False, "some of them have another form than in a recording")]
    try:
        recording = read_recording(path, is_own=True)
    except RecordingError as error:
        return (Finding("form", False, _without_path(error, path)), *found)
    found.insert(0, Finding("form", True, "opens as a recording; all parts are there"))
    found.append(_moments(recording.moments, recording.duration_s))
    if left := orphans(recording):
        text = f"{len(left)} in the file though the moment was removed; galvanote moment '{path}' list"
        found.append(Finding("pictures of no moment", None, text))
    if edits_of(path).is_file():
        text = f"edits lie beside it; galvanote recover '{edits_of(path)}' folds them in"
        found.append(Finding("edits", None, text))
    return tuple(found)


def _without_path(error: RecordingError, path: Path) -> str:
    return str(error).removeprefix(f"{path} ")


def _contents(path: Path) -> list[Finding]:
    import h5py

    found: list[Finding] = []
    with h5py.File(path, "r") as file:
        run = file["run"]
        for name, group in run.items():
            if group.attrs.get("NX_class") != "NXdata":
                continue
            columns = (c for c in ("time", "value", "quality", "board_ticks") if c in group)
            found.extend(_checksum(f"{name}/{column}", group[column]) for column in columns)
            if "time" in group and _is_column(group["time"]):
                found.append(_times(name, group["time"]))
            if len(group.get("overview", ())):
                found.append(_levels(name, group["overview"]))
        found.append(_structure(file))
        found.append(_parts(run))
        if GROUP in run:
            found.append(_pictures(run))
    return found


def _structure(file: Any) -> Finding:
    """Go to every object and attribute, as any program may, by whatever way leads there."""
    count = 0

    def look(_name: str, item: Any) -> None:
        nonlocal count
        count += 1 + sum(1 for _ in item.attrs.items())

    try:
        look("/", file)
        file.visititems(look)
    except (OSError, RuntimeError, KeyError, ValueError, TypeError, AttributeError):
        return Finding("structure", False, "not everything in it can be reached by every program")
    return Finding("structure", True, f"{count} objects and attributes can be reached")


def _parts(run: Any) -> Finding:
    parts = compared_parts(run)
    if parts is None:
        return Finding(PARTS, None, "can be read; no checksum was kept with them")
    said = (
        ("missing", parts.missing),
        ("not as written (SHA-256 differs)", parts.changed),
        ("added by others", parts.added),  # by another program: no damage
    )
    text = "; ".join(f"{', '.join(names)}: {text}" for text, names in said if names)
    is_whole = not parts.missing and not parts.changed
    return Finding(PARTS, is_whole, text or f"all {len(parts.there)} parts are as they were written")


def _pictures(run: Any) -> Finding:
    damaged = damaged_pictures(run)
    if damaged:
        names = ", ".join(one[:8] for one in damaged)
        text = f"not as they were attached (SHA-256 differs): {names}; the others are whole"
        return Finding("pictures", False, text)
    count = len(run[GROUP])
    return Finding("pictures", True, f"{count} picture{'s' if count > 1 else ''}, as attached")


def _levels(name: str, overview: Any) -> Finding:
    """What becomes of the curve seen from afar: the readings themselves are looked at elsewhere."""
    damaged, unknown = [], 0
    for level, dataset in overview.items():
        kept = dataset.attrs.get(ATTRIBUTE)
        try:
            is_same = level_digest_of(dataset) == kept
        except (OSError, IndexError, AttributeError):
            damaged.append(level)
            continue
        if kept is None:
            unknown += 1
        elif not is_same:
            damaged.append(level)
    what = f"{name}/overview"
    if damaged:
        text = f"the curve from afar is damaged ({', '.join(damaged)}); the readings are not concerned"
        return Finding(what, False, text)
    if unknown:
        return Finding(what, None, "can be read; no checksum was kept with it")
    return Finding(what, True, f"{len(overview)} levels of the curve, as they were made")


def _checksum(what: str, dataset: Any) -> Finding:
    if not _is_column(dataset):
        return Finding(what, False, "it is no column of values")
    kept = dataset.attrs.get(ATTRIBUTE)
    count = dataset.shape[0]
    try:
        found = digest_of(dataset)
    except OSError:
        return Finding(what, False, f"part of its {count} values cannot be read")
    if kept is None:
        return Finding(what, None, f"{count} values can be read; no checksum was kept with them")
    if kept != found:
        return Finding(
            what, False, f"its {count} values are not the ones that were recorded (SHA-256 differs)"
        )
    return Finding(what, True, f"{count} values, as they were recorded")


def _is_column(dataset: Any) -> bool:
    return len(getattr(dataset, "shape", None) or ()) == 1


def _times(name: str, times: Any) -> Finding:
    last_s = 0.0
    for begin in range(0, times.shape[0], SLICE):
        part = np.asarray(times[begin : begin + SLICE], np.float64)
        if (fault := fault_of_times(part, last_s)) is not None:
            return Finding(f"{name}/time order", False, fault)
        last_s = float(part[-1])
    return Finding(f"{name}/time order", True, "the times never go backwards")


def _moments(moments: Any, duration_s: float) -> Finding:
    outside = [m for m in moments if not 0 <= m.time_s <= duration_s + 1e-9]
    if outside:
        return Finding("moments", False, f"{len(outside)} of {len(moments)} moments lie outside the run")
    return Finding("moments", True, f"{len(moments)} moments, all within the run")


def _journal(path: Path) -> tuple[Finding, ...]:
    tally = _JournalTally()
    try:
        for frame in read_frames(path):
            tally.take(frame)
    except RecordingError as error:
        return (Finding("frames", False, f"not as a recorder writes them: {error}"),)
    if tally.end == 0:
        return (Finding("head", False, "no valid head: nothing in it was ever acknowledged"),)
    text = f"{tally.samples} readings and {tally.edits} entries of moments are whole"
    found = [Finding("frames", True, text)]
    if tally.backward:
        found.append(Finding("time order", False, "the times go backwards, or are not numbers"))
    rest = path.stat().st_size - tally.end
    if rest > 0 and has_frames_behind_damage(path):
        found.append(Finding("rest", False, f"damaged: more of the run lies in {rest} bytes behind"))
    elif rest > 0 and not is_laid_out_ahead(path, tally.end):
        text = f"{rest} bytes behind the last whole frame: cut off while written"
        found.append(Finding("rest", None, text))
    if path.name.endswith(DAMAGED_SUFFIX):
        found.append(Finding("state", None, "kept since more of it lies behind a damaged spot"))
    elif path.name.endswith(EDITS_SUFFIX):
        found.append(Finding("state", True, f"edits; galvanote recover '{path}' folds them in"))
    else:
        state = "was ended" if tally.ledger.end is not None else "goes on or was cut off"
        text = f"the run {state}; galvanote recover '{path}' makes the recording"
        found.append(Finding("state", True, text))
    return tuple(found)


class _JournalTally:
    """What the frames of a journal hold, counted one by one."""

    def __init__(self) -> None:
        self.samples = self.edits = self.end = 0
        self.backward = False
        self.ledger = Ledger()
        self._last_s: dict[int, float] = {}

    def take(self, frame: Frame) -> None:
        """Count one frame. Raises RecordingError where it is not as the recorder writes it."""
        if frame.type == FrameType.SAMPLES:
            self._take_samples(*decode_samples(frame.payload))
        elif frame.type == FrameType.HEAD and "title" not in frame.json():
            pass  # of a side journal, which knows the recording's uuid only
        elif frame.type == FrameType.MOMENT:
            checked(frame)
            self.edits += 1
        else:
            self.ledger.take(frame)
        self.end = frame.end

    def _take_samples(self, index: int, samples: Samples) -> None:
        if index not in self.ledger.channels:
            raise RecordingError("readings of a channel that is not described before them")
        if len(samples):
            fault = fault_of_times(samples.times_s)
            self.backward |= fault is not None or samples.times_s[0] < self._last_s.get(index, 0.0)
            self._last_s[index] = float(samples.times_s[-1])
        self.samples += len(samples)
