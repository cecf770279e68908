"""Where the numbered flags of moments go when they crowd. No Qt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["PITCH", "Flag", "are_too_many", "lay_out"]

PITCH = 18.0
"""Least distance between the middles of two flags, in pixels."""

LABEL_GAP = 14.0
SHORTEST_LABEL = 34.0


@dataclass(frozen=True, slots=True)
class Flag:
    """One flag: `index` into the moments, the middle of its disc, and the room for its label (0: none)."""

    index: int
    x: float
    anchor_x: float
    label_room: float


def are_too_many(count: int, width: float) -> bool:
    """Tell whether so many flags do not fit side by side on a strip of `width` pixels."""
    return count * PITCH > width + PITCH


def lay_out(
    places: Sequence[float], label_widths: Sequence[float], width: float, first_index: int = 0
) -> tuple[Flag, ...]:
    """Return the flags for moments at `places` (pixels, ascending) on a strip of `width` pixels.

    Crowding flags move apart. A label is shown where the next flag leaves room for enough of it. When
    there are more than fit side by side, none is returned: then ticks must do.
    """
    if are_too_many(len(places), width):
        return ()
    at = _apart(places, width)
    flags = []
    for i, (x, anchor_x, label_width) in enumerate(zip(at, places, label_widths, strict=True)):
        end = at[i + 1] - PITCH / 2 if i + 1 < len(at) else width
        room = min(end - (x + PITCH / 2 + 4) - LABEL_GAP / 2, label_width)
        wanted = min(label_width, SHORTEST_LABEL)
        flags.append(Flag(first_index + i, x, anchor_x, room if label_width and room >= wanted else 0.0))
    return tuple(flags)


def _apart(places: Sequence[float], width: float) -> list[float]:
    """Least moves that keep `PITCH` between neighbours (pool adjacent violators), inside the strip."""
    pools: list[list[float]] = []  # sum and count of places, each less its rank times the pitch
    for rank, x in enumerate(places):
        pools.append([x - rank * PITCH, 1.0])
        while len(pools) > 1 and pools[-2][0] / pools[-2][1] > pools[-1][0] / pools[-1][1]:
            total, count = pools.pop()
            pools[-1][0] += total
            pools[-1][1] += count
    level = [total / count for total, count in pools for _ in range(int(count))]
    last = width - PITCH / 2 - (len(places) - 1) * PITCH
    return [min(max(base, 0.0), max(last, 0.0)) + rank * PITCH for rank, base in enumerate(level)]
