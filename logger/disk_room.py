"""How much longer a run can go on before its disk is full."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path

__all__ = ["DiskRoom", "disk_room", "look_at_disk"]

BYTES_A_SAMPLE = 17
"""Time, value and quality, in the journal and again in the finished file."""

LEVELS_SHARE = 1.1
"""The finished file also holds the min/max levels of the chart."""

SPARE_BYTES = 100e6
LOW_S = 1800.0
"""Half an hour is time enough to make room; less is told (chosen for this, no source)."""


@dataclass(frozen=True, slots=True)
class DiskRoom:
    """Bytes free, for how many seconds of recording they do, whether to warn.

    No seconds (None) where no readings come, or where only `SPARE_BYTES` are left, but would do for long.
    """

    free_bytes: int
    left_s: float | None
    is_low: bool


def disk_room(free_bytes: int, journal_bytes: int, rate_per_s: float) -> DiskRoom:
    """Return how far `free_bytes` reach.

    The finished file is made beside the journal, so what has been recorded needs its room once more.

    Parameters
    ----------
    rate_per_s : readings of all channels per second of the computer.
    """
    room = free_bytes - journal_bytes * LEVELS_SHARE
    if rate_per_s <= 0:
        return DiskRoom(free_bytes, None, room < SPARE_BYTES)
    bytes_per_s = rate_per_s * BYTES_A_SAMPLE * (1 + LEVELS_SHARE)
    left_s = max(0.0, (room - SPARE_BYTES) / bytes_per_s)
    told_s = left_s if left_s > 0.0 or room < LOW_S * bytes_per_s else None
    return DiskRoom(free_bytes, told_s, left_s < LOW_S)


def look_at_disk(journal: Path, rate_per_s: float) -> DiskRoom | None:
    """Return the room on the disk of a run's journal, or None when the system does not tell."""
    try:
        return disk_room(shutil.disk_usage(journal.parent).free, journal.stat().st_size, rate_per_s)
    except OSError:
        return None
