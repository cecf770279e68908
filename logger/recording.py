"""A recording: what every analysis, export and page works on. `logger.reader` makes it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, Literal, Protocol

import numpy as np
from numpy.typing import NDArray

from logger.attachments import Attachment
from logger.moments import Moment, now_iso
from logger.stored_level import StoredLevel

__all__ = [
    "IMPORTED",
    "LONGEST_S",
    "SIMULATED_CELL",
    "START_OF_PACKAGE",
    "Anchor",
    "ChannelData",
    "Column",
    "Gap",
    "Recording",
    "fault_of_times",
    "with_findings",
]

LONGEST_S = 1e10
"""Three hundred years: no run has a later time."""
_SLICE = 2**20

IMPORTED = "import:"
SIMULATED_CELL = "cell:"
"""Begins the address of an instrument that was a text file."""

START_OF_PACKAGE = "as the data package says"
"""Stands as `start` in the clock of imported readings whose data package tells when the run began."""


class Column(Protocol):
    """Numbers in order of which slices can be taken: an array, or one that stays in its file.

    Whoever goes through a column does so in pieces: it may be longer than the memory.
    """

    @property
    def size(self) -> int:
        """How many there are."""

    @property
    def nbytes(self) -> int:
        """Bytes that all of them take in memory."""

    def __getitem__(self, part: Any, /) -> Any:
        """Return a slice of them as an array, or one of them."""

    def searchsorted(self, limits: Any, side: Literal["left", "right"] = "left") -> Any:
        """Return for each limit how many lie before it, as `numpy.searchsorted` does."""


@dataclass(frozen=True, slots=True)
class Gap:
    """A stretch without samples of one channel, in run seconds, and why."""

    begin_s: float
    end_s: float
    channel: str
    reason: str


@dataclass(frozen=True, slots=True)
class Anchor:
    """Run time and the UTC time (ISO 8601) at that moment; one a minute shows sleep and clock steps."""

    time_s: float
    utc: str


@dataclass(frozen=True, slots=True)
class ChannelData:
    """All samples of one channel.

    times_s float64 (n,) run seconds, never decreasing; values float64 (n,) in `unit`, overload is +-inf;
    quality uint8 (n,), bits of drivers.samples.Quality: arrays, or columns in the file of a long recording,
    which are read where slices of them are taken. instrument: what is known about the meter
    (address, identity, accuracy, calibration, clock, details: text or nested mappings).
    levels: of a long recording the stored overview, {bucket: shape (2, n // bucket)}, where it is whole.
    """

    name: str
    role: str
    unit: str
    times_s: Column
    values: Column
    quality: Column
    instrument: Mapping[str, Any] = field(default_factory=dict)
    levels: Mapping[int, StoredLevel] = field(default_factory=dict)

    @property
    def is_simulated(self) -> bool:
        """Tell whether the simulated cell made the readings, be it by way of a replay or a table."""
        details = self.instrument.get("details")
        original = details.get("original_address") if isinstance(details, Mapping) else ""
        return is_simulated_cell(str(self.instrument.get("address", "")), str(original or ""))


def is_simulated_cell(*addresses: str) -> bool:
    """Tell whether one of the source addresses, now and originally, is the simulated cell's."""
    return any(address.startswith(SIMULATED_CELL) for address in addresses)


@dataclass(frozen=True, slots=True)
class Recording:
    """One run: its channels, moments, gaps and bench.

    `start_time` is ISO 8601 with UTC offset; `moments` are the living ones in order of time;
    `findings_date` says when `findings_json` was kept; `is_running` tells that a recorder is still writing;
    `damaged` names the parts of its file that are not as they were written (see `logger.checksum`; of a long
    recording not the readings).
    """

    path: Path
    uuid: str
    title: str
    start_time: str
    end_time: str | None
    time_zone: str
    duration_s: float
    channels: tuple[ChannelData, ...]
    moments: tuple[Moment, ...] = ()
    moments_history: tuple[tuple[Moment, str], ...] = ()
    attachments: tuple[Attachment, ...] = ()
    gaps: tuple[Gap, ...] = ()
    anchors: tuple[Anchor, ...] = ()
    bench_toml: str = ""
    findings_json: str | None = None
    findings_date: str | None = None
    is_running: bool = False
    damaged: tuple[str, ...] = ()

    @property
    def has_known_start(self) -> bool:
        """Tell whether `start_time` is when the run began; of text readings often nobody knows."""
        return all(
            not str(one.instrument.get("address", "")).startswith(IMPORTED)
            or (one.instrument.get("clock") or {}).get("start") == START_OF_PACKAGE
            for one in self.channels
        )

    @property
    def stays_in_file(self) -> bool:
        """Tell whether the readings are not in memory: each look through all of them takes seconds."""
        return not all(isinstance(one.times_s, np.ndarray) for one in self.channels)

    def channel(self, role: str) -> ChannelData | None:
        """Return the first channel with that role, or None."""
        return next((c for c in self.channels if c.role == role), None)


def fault_of_times(times_s: NDArray[np.float64], after_s: float = 0.0) -> str | None:
    """Say what is wrong with the times of a channel, None when they are as a recorder writes them.

    `times_s` : float64, shape (n,), behind a reading at `after_s`. Looked at in slices: a long run must not
    need its memory twice.
    """
    last_s = after_s
    for begin in range(0, times_s.size, _SLICE):
        part = times_s[begin : begin + _SLICE]
        if not np.isfinite(part).all():
            return "some times are not numbers"
        if part[0] < last_s or (part[1:] < part[:-1]).any():
            return "the times go backwards"
        last_s = float(part[-1])
        if last_s >= LONGEST_S:
            return "the times go beyond all bounds"
    return None


def with_findings(recording: Recording, findings: Mapping[str, Any]) -> Recording:
    """Return a recording as it is once `findings`, worked out just now, are kept in it."""
    text = json.dumps(findings, ensure_ascii=False, allow_nan=False)
    return replace(recording, findings_json=text, findings_date=now_iso())
