"""Which moments about electrodes and solution belong to one lift-out, and which lift-out was the swap."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from logger.moments import Moment

__all__ = ["NEAR_S", "TaggedLift", "tagged_lifts", "the_swap"]

NEAR_S = 120.0
"""How far beside its act a moment may lie and still belong to it (common practice, no source)."""

NEW_SOLUTION = frozenset({"solution_swapped", "buffer_in"})
BEGINS = frozenset({"electrodes_out", "solution_swapped"})
BELONGS = BEGINS | {"electrodes_in", "buffer_in"}


@dataclass(frozen=True, slots=True)
class TaggedLift:
    """One lift-out as tagged: its moments in order of time, one or more."""

    moments: tuple[Moment, ...]

    @property
    def out_s(self) -> float:
        """When it began."""
        return self.moments[0].time_s

    @property
    def in_s(self) -> float:
        """When its last moment was."""
        return self.moments[-1].time_s

    @property
    def is_into_new_solution(self) -> bool:
        """Whether a moment says that the solution was another one afterwards."""
        return any(one.kind in NEW_SOLUTION for one in self.moments)

    @property
    def came_back(self) -> bool:
        """Whether the moments say that the electrodes were in a solution again."""
        return self.in_s > self.out_s or self.moments[-1].kind == "solution_swapped"

    def begins_with(self, kind: str) -> bool:
        """Whether its first moment is of that kind."""
        return self.moments[0].kind == kind

    def is_near(self, begin_s: float, end_s: float) -> bool:
        """Whether it may be what was seen between two run times."""
        return begin_s - NEAR_S <= self.in_s and self.out_s <= end_s + NEAR_S


def tagged_lifts(moments: Iterable[Moment], after_s: float) -> tuple[TaggedLift, ...]:
    """Return the lift-outs that moments later than `after_s` (in order of time) tell of.

    A lift-out begins with the electrodes out or the solution swapped, and ends where the next one begins. A
    key pressed twice begins no second one. A swap long after the electrodes went back in does.
    """
    lifts: list[list[Moment]] = []
    for one in moments:
        if one.time_s <= after_s or one.kind not in BELONGS:
            continue
        if one.kind in BEGINS and (not lifts or _is_another(lifts[-1], one)):
            lifts.append([one])
        elif lifts:
            lifts[-1].append(one)
    return tuple(TaggedLift(tuple(each)) for each in lifts)


def _is_another(lift: Sequence[Moment], one: Moment) -> bool:
    is_pressed_twice = one.kind == lift[-1].kind and one.time_s - lift[-1].time_s <= NEAR_S
    if one.kind == "electrodes_out":
        return not is_pressed_twice
    returned_s = [each.time_s for each in lift if each.kind == "electrodes_in"]
    return bool(returned_s) and one.time_s - returned_s[-1] > NEAR_S


def the_swap(lifts: Sequence[TaggedLift]) -> TaggedLift | None:
    """Return the lift-out that was the swap: the first into another solution, else the last that came back.

    Where none came back the first one, and None where there is none.
    """
    swaps = [one for one in lifts if one.is_into_new_solution]
    if swaps:
        return swaps[0]
    back = [one for one in lifts if one.came_back]
    return back[-1] if back else next(iter(lifts), None)
