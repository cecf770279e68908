"""Laying several runs over one another: which moment they can be aligned at, and how they are told apart."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from logger.moments import KINDS
from logger.recording import Recording

__all__ = ["MOST_RUNS", "START", "Alignment", "alignments", "distinct_names", "zero_s"]

MOST_RUNS = 8
"""Runs that can be told apart over one another (common practice, no source)."""

START = "start"
_PHASES = ("before", "growth", "after")


@dataclass(frozen=True, slots=True)
class Alignment:
    """What is put at time zero.

    `key` is ``start``, ``moment:KIND`` (its first one) or ``phase:NAME`` (its begin); `count` tells how many
    of the runs have it.
    """

    key: str
    count: int


def alignments(runs: Sequence[tuple[Recording, Mapping[str, Any]]]) -> tuple[Alignment, ...]:
    """Return what these runs, each with its findings, can be aligned at: the start, then what most have.

    Notes are left out: they mean something else in each run.
    """
    keys = [f"phase:{name}" for name in _PHASES] + [f"moment:{kind}" for kind in KINDS if kind != "note"]
    counts = {key: sum(zero_s(key, *run) is not None for run in runs) for key in keys}
    found = [Alignment(key, count) for key, count in counts.items() if count]
    found.sort(key=lambda one: -one.count)
    return (Alignment(START, len(runs)), *found)


def zero_s(key: str, recording: Recording, findings: Mapping[str, Any]) -> float | None:
    """Return the run time that `key` puts at zero, None where the run has no such moment or phase."""
    sort, _, name = key.partition(":")
    if sort == START:
        return 0.0
    if sort == "moment":
        return next((m.time_s for m in recording.moments if m.kind == name), None)
    phases = findings.get("phases") or ()
    return next((float(p["begin_s"]) for p in phases if p["phase"] == name), None)


def distinct_names(titles: Sequence[str], paths: Sequence[Path]) -> tuple[str, ...]:
    """Return a name for each run: its title, or its file's name where titles are missing or the same."""
    return tuple(
        title if title and list(titles).count(title) == 1 else path.stem
        for title, path in zip(titles, paths, strict=True)
    )
