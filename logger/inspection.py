"""Reading everything in a recording or journal, and saying what is whole and what is not."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from logger.checksum import ATTRIBUTE, SLICE, digest_of
from logger.edit_journal import edits_of
from logger.errors import RecordingError
from logger.journal import (
    SUFFIX,
    FrameType,
    decode_samples,
    has_frames_behind_damage,
    journal_of,
    read_frames,
)
from logger.ledger import Ledger
from logger.reader import read_recording
from logger.vetting import vet

__all__ = ["Finding", "Inspection", "inspect"]


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
    """Read everything in a file.

    Raises
    ------
    RecordingError : the file is not there.
    """
    if path.name.endswith(SUFFIX):
        return Inspection(path, _journal(path))
    if not path.exists() and journal_of(path).exists():
        return Inspection(journal_of(path), _journal(journal_of(path)))
    if not path.is_file():
        raise RecordingError(f"{path} is not there, or is no file; name a recording or a journal")
    try:
        vet(path)
        recording = read_recording(path, is_own=True)
        found = [Finding("form", True, "opens as a recording; all parts are there")]
        found += _samples(path)
    except RecordingError as error:
        return Inspection(path, (Finding("form", False, str(error)),))
    found.append(_moments(recording.moments, recording.duration_s))
    if edits_of(path).is_file():
        found.append(
            Finding("edits", None, f"edits lie beside it; galvanote recover '{edits_of(path)}' folds them in")
        )
    return Inspection(path, tuple(found))


def _samples(path: Path) -> list[Finding]:
    import h5py

    found: list[Finding] = []
    with h5py.File(path, "r") as file:
        for name, group in file["run"].items():
            if group.attrs.get("NX_class") != "NXdata":
                continue
            columns = (c for c in ("time", "value", "quality", "board_ticks") if c in group)
            found.extend(_checksum(f"{name}/{column}", group[column]) for column in columns)
            found.append(_times(name, group["time"]))
    return found


def _checksum(what: str, dataset: Any) -> Finding:
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


def _times(name: str, times: Any) -> Finding:
    last = -np.inf
    for begin in range(0, times.shape[0], SLICE):
        part = times[begin : begin + SLICE]
        if not np.isfinite(part).all() or part[0] < last or (np.diff(part) < 0).any():
            return Finding(f"{name}/time", False, "the times go backwards, or are not numbers")
        last = part[-1]
    return Finding(f"{name}/time order", True, "the times never go backwards")


def _moments(moments: Any, duration_s: float) -> Finding:
    outside = [m for m in moments if not 0 <= m.time_s <= duration_s + 1e-9]
    if outside:
        return Finding("moments", False, f"{len(outside)} of {len(moments)} moments lie outside the run")
    return Finding("moments", True, f"{len(moments)} moments, all within the run")


def _journal(path: Path) -> tuple[Finding, ...]:
    samples = moments = 0
    end = 0
    ledger = Ledger()
    try:
        size = path.stat().st_size
        for frame in read_frames(path):
            end = frame.end
            ledger.take(frame)
            moments += frame.type == FrameType.MOMENT
            if frame.type == FrameType.SAMPLES:
                samples += len(decode_samples(frame.payload)[1])
    except RecordingError as error:
        return (Finding("frames", False, f"not as a recorder writes them: {error}"),)
    except OSError as error:
        raise RecordingError(f"{path} cannot be read ({error.strerror})") from error
    if end == 0:
        return (Finding("head", False, "no valid head: nothing of this run was ever acknowledged"),)
    found = [Finding("frames", True, f"{samples} readings and {moments} entries of moments are whole")]
    if size > end and has_frames_behind_damage(path):
        found.append(Finding("rest", False, f"damaged: more of the run lies in {size - end} bytes behind"))
    elif size > end:
        found.append(
            Finding("rest", None, f"{size - end} bytes behind the last whole frame: cut off while written")
        )
    state = "was ended" if ledger.end is not None else "goes on or was cut off"
    found.append(Finding("state", True, f"the run {state}; galvanote recover '{path}' makes the recording"))
    return tuple(found)
