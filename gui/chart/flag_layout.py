"""Where the numbered flags of moments go when they crowd. No Qt."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = ["PITCH", "Flag", "lay_out"]

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


def lay_out(
    places: NDArray[np.float64], label_width: Callable[[int], float], width: float, first_index: int = 0
) -> tuple[Flag, ...]:
    """Return the flags for moments at `places` (pixels, ascending) on a strip of `width` pixels.

    Flags that meet move apart. A label is shown where the next flag or crowd leaves room for enough of it.
    Moments of a crowd get no flag, nor any where there are more than fit side by side: ticks must do. The
    `label_width` in pixels is asked only of those with a flag: a crowd may be of thousands.
    """
    in_crowd = _in_crowd(places)
    numbers = np.flatnonzero(~in_crowd)
    if numbers.size * PITCH > width + PITCH:
        return ()
    crowd, anchors = places[in_crowd], places[numbers].tolist()
    at = _apart(anchors, width)
    flags = []
    for rank, (number, x) in enumerate(zip(numbers.tolist(), at, strict=True)):
        end = at[rank + 1] - PITCH / 2 if rank + 1 < len(at) else width
        behind = int(np.searchsorted(crowd, x))
        if behind < crowd.size:
            end = min(end, float(crowd[behind]))
        label = label_width(number)
        room = min(end - (x + PITCH / 2 + 4) - LABEL_GAP / 2, label)
        has_label = label > 0 and room >= min(label, SHORTEST_LABEL)
        flags.append(Flag(first_index + number, x, anchors[rank], room if has_label else 0.0))
    return tuple(flags)


def _in_crowd(places: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Tell of each whether more lie within reach of it than fit: it is one of so many in a row that all do.

    To look at each of its places in such a row takes a third of the time of searching for the ends of
    its reach.
    """
    most = int(2 * CROWD_REACH / PITCH)
    rows = places.size - most  # of most + 1 neighbours each
    is_one = np.zeros(places.size, dtype=bool)
    if rows <= 0:
        return is_one
    begin, end = places - CROWD_REACH, places + CROWD_REACH
    for rank in range(most + 1):
        here = slice(rank, rank + rows)
        is_one[here] |= (places[:rows] >= begin[here]) & (places[most:] <= end[here])
    return is_one


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
