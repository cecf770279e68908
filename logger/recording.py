"""A recording in memory: what every analysis, export and page works on. `logger.reader` makes it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from logger.attachments import Attachment
from logger.moments import Moment

__all__ = ["LONGEST_S", "Anchor", "ChannelData", "Gap", "Recording", "fault_of_times"]

LONGEST_S = 1e10
"""Three hundred years: no run has a later time."""
_SLICE = 2**20


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
    quality uint8 (n,), bits of drivers.samples.Quality; instrument: what is known about the meter
    (address, identity, accuracy, calibration, clock, details: text or nested mappings).
    """

    name: str
    role: str
    unit: str
    times_s: NDArray[np.float64]
    values: NDArray[np.float64]
    quality: NDArray[np.uint8]
    instrument: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Recording:
    """One run: its channels, moments, gaps and bench.

    `start_time` is ISO 8601 with UTC offset; `moments` are the living ones in order of time;
    `is_running` tells that a recorder is still writing.
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
    is_running: bool = False

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
