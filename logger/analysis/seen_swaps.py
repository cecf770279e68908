"""Lift-outs as the voltage shows them: an open interval between two stretches of electrolysis."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from logger.analysis.states import StateInterval
from logger.moments import Moment

__all__ = ["Swap", "electrolysing_stretches", "recognised_swaps", "unexplained_swaps"]

SHORTEST_SWAP_S, LONGEST_SWAP_S = 2.0, 900.0
AT_THE_BENCH_S = 30.0
"""How far from an open circuit the moment may lie that says what was done (common practice, no source)."""

OPENS_THE_CIRCUIT = frozenset({"resistor_changed", "lead_lifted", "lead_back"})
"""Moments that explain an open circuit otherwise than by a swap: the electrodes stayed where they were."""

TOUCHES_THE_CELL = frozenset({"electrodes_out", "electrodes_in", "solution_swapped", "buffer_in"})


@dataclass(frozen=True, slots=True)
class Swap:
    """An open interval between two stretches of electrolysis: electrodes out, electrodes in."""

    out_s: float
    in_s: float


def electrolysing_stretches(states: Sequence[StateInterval]) -> tuple[StateInterval, ...]:
    """Return the stretches of electrolysis, joined over short failures of reading.

    A gap in the readings alone does not end a stretch: nobody saw the cell do anything else.
    """
    joined: list[StateInterval] = []
    for k, one in enumerate(states):
        if one.state != "electrolysing":
            continue
        unread_before = (
            k > 1 and states[k - 1].state == "no_reading" and states[k - 2].state == "electrolysing"
        )
        if joined and unread_before:
            joined[-1] = StateInterval("electrolysing", joined[-1].begin_s, one.end_s)
        else:
            joined.append(one)
    return tuple(joined)


def recognised_swaps(states: Sequence[StateInterval]) -> tuple[Swap, ...]:
    """Return the lift-outs between two stretches of electrolysis, 2 s to 15 min long.

    The cell must have been open for 2 s in between: touching electrodes or a lifted lead are no swap.
    """
    stretches = electrolysing_stretches(states)
    swaps = []
    for last, following in pairwise(stretches):
        was_open = any(
            one.state == "open"
            and one.duration_s >= SHORTEST_SWAP_S
            and last.end_s <= one.begin_s < following.begin_s
            for one in states
        )
        if was_open and SHORTEST_SWAP_S <= following.begin_s - last.end_s <= LONGEST_SWAP_S:
            swaps.append(Swap(last.end_s, following.begin_s))
    return tuple(swaps)


def unexplained_swaps(states: Sequence[StateInterval], moments: Sequence[Moment]) -> tuple[Swap, ...]:
    """Return the recognised swaps without those of which a moment says that the circuit was opened otherwise.

    A moment within half a minute counts; one that says that the electrodes or the solution were touched makes
    it a swap, whatever else was done meanwhile.
    """

    def is_explained(swap: Swap) -> bool:
        begin_s, end_s = swap.out_s - AT_THE_BENCH_S, swap.in_s + AT_THE_BENCH_S
        near = {one.kind for one in moments if begin_s <= one.time_s <= end_s}
        return bool(near & OPENS_THE_CIRCUIT) and not near & TOUCHES_THE_CELL

    return tuple(one for one in recognised_swaps(states) if not is_explained(one))
