"""The side journal of a finished recording: what has been changed and is not yet in the file itself.

``FILE.h5.edits`` is a journal like that of a run, with the recording's uuid in its head. It is normally
there for a moment only (`logger.editing`). Being cut off leaves it beside the recording: readers of this
program take it into account, and the next edit, or `galvanote recover`, folds it in.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from logger.entries import checked
from logger.journal import FrameType, read_frames
from logger.moments import Moment, apply_revision

__all__ = ["EDITS_SUFFIX", "Pending", "edits_of", "merge", "pending_edits", "real_path"]

EDITS_SUFFIX = ".edits"

History = Sequence[tuple[Moment, str]]


@dataclass(frozen=True, slots=True)
class Pending:
    """Edits that lie beside a recording: revisions of moments, (findings as JSON text, date), pictures."""

    revisions: tuple[Moment, ...] = ()
    findings: tuple[str, str] | None = None
    pictures: tuple[Mapping[str, Any], ...] = ()
    """Entries as `logger.attachments` makes them: pictures, or that one is removed."""

    def __bool__(self) -> bool:
        return bool(self.revisions) or bool(self.pictures) or self.findings is not None


def real_path(recording: Path) -> Path:
    """Return where a recording lies: what a link leads to, unless that leads round in a circle."""
    return Path(os.path.realpath(recording)) if recording.is_symlink() else recording


def edits_of(recording: Path) -> Path:
    """Return the name of the side journal of a recording; by a link, beside what it leads to."""
    real = real_path(recording)
    return real.with_name(real.name + EDITS_SUFFIX)


def pending_edits(recording: Path, uuid: str) -> Pending:
    """Return what lies beside the recording and is not folded in (or not yet removed)."""
    path = edits_of(recording)
    if not path.is_file():
        return Pending()
    frames = list(read_frames(path))
    if not frames or frames[0].json().get("uuid") != uuid:
        return Pending()  # it belongs to a recording that had this name before
    revisions = tuple(Moment(**checked(frame)) for frame in frames if frame.type == FrameType.MOMENT)
    findings = [checked(frame) for frame in frames if frame.type == FrameType.FINDINGS]
    pictures = tuple(checked(frame) for frame in frames if frame.type == FrameType.ATTACHMENT)
    return Pending(revisions, (findings[-1]["json"], findings[-1]["date"]) if findings else None, pictures)


def merge(
    moments: Sequence[Moment], history: History, revisions: Sequence[Moment]
) -> tuple[tuple[Moment, ...], tuple[tuple[Moment, str], ...]]:
    """Return living moments (in order of time) and history after the given revisions.

    Merging the same revisions twice changes nothing.
    """
    latest = {m.id: m for m in moments}
    replaced = list(history)
    past: dict[str, int] = {}
    for moment, _ in history:
        past[moment.id] = max(past.get(moment.id, moment.revision), moment.revision)
    for revision in revisions:
        known = latest.get(revision.id)
        if known is None and revision.revision <= past.get(revision.id, -1):
            continue  # what came of it has been removed since
        if known is not None and revision.revision > known.revision:
            replaced.append((known, revision.noted_at))
        apply_revision(latest, revision)
    living = sorted((m for m in latest.values() if not m.removed), key=lambda m: m.time_s)
    return tuple(living), tuple(replaced)
