"""Where the numbered flags of moments go when they crowd. No Qt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = ["PITCH", "Flag", "lay_out", "standing_apart"]

PITCH = 18.0
"""Least distance between the middles of two flags, in pixels."""

CROWD_REACH = 4 * PITCH
"""Where more moments lie within this of one than fit there side by side, it is one of a crowd. Flags of a
crowd would be pushed far from their moments, and lie."""

LABEL_GAP = 14.0
SHORTEST_LABEL = 34.0


@dataclass(frozen=True, slots=True)
class Flag:
    """One flag: `index` into the moments, the middle of its disc, and the room for its label (0: none)."""

    index: int
    x: float
    anchor_x: float
    label_room: float


def standing_apart(places: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Tell for moments at `places` (pixels, ascending), shape (n,), which of them are in no crowd."""
    left = np.searchsorted(places, places - CROWD_REACH, "left")
    near = np.searchsorted(places, places + CROWD_REACH, "right") - left
    return np.asarray(near * PITCH <= 2 * CROWD_REACH)


def lay_out(
    places: Sequence[float], label_widths: Sequence[float], width: float, first_index: int = 0
) -> tuple[Flag, ...]:
    """Return the flags for moments at `places` (pixels, ascending) on a strip of `width` pixels.

    Flags that meet move apart. A label is shown where the next flag or crowd leaves room for enough of it.
    Moments of a crowd get no flag, nor any where there are more than fit side by side: ticks must do.
    """
    at_px = np.asarray(places, np.float64)
    is_apart = standing_apart(at_px)
    apart = [int(i) for i in np.flatnonzero(is_apart)]
    if len(apart) * PITCH > width + PITCH:
        return ()
    crowd = at_px[~is_apart]
    at = _apart([places[i] for i in apart], width)
    flags = []
    for rank, (i, x) in enumerate(zip(apart, at, strict=True)):
        end = at[rank + 1] - PITCH / 2 if rank + 1 < len(at) else width
        behind = int(np.searchsorted(crowd, x))
        if behind < crowd.size:
            end = min(end, float(crowd[behind]))
        room = min(end - (x + PITCH / 2 + 4) - LABEL_GAP / 2, label_widths[i])
        wanted = min(label_widths[i], SHORTEST_LABEL)
        has_label = label_widths[i] > 0 and room >= wanted
        flags.append(Flag(first_index + i, x, places[i], room if has_label else 0.0))
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
