"""The settled window of a phase of a run: found by the program, or chosen by a person."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from logger.analysis.allan import AveragingAdvice, averaging_advice
from logger.analysis.caution import Caution
from logger.analysis.chosen_windows import ChosenWindow
from logger.analysis.evidence import Evidence
from logger.analysis.grid import grid_of_pieces
from logger.analysis.phases import Phase
from logger.analysis.readings import Between, bounds_of, slices_of
from logger.analysis.refusal import Refused
from logger.analysis.settled import (
    MOST_SAMPLES,
    SettledWindow,
    given_window_of_pieces,
    settled_window_of_pieces,
)
from logger.bench_tables import Bench
from logger.moments import Moment

__all__ = [
    "Unreadable",
    "averaging_in_window",
    "chosen_in_run",
    "gap_in_phase",
    "lead_lifts",
    "part_of_phase",
    "settled_in_phase",
    "with_its_phase",
]

MOST_UNUSABLE_SHARE = 0.10
LEAST_STRETCH_S = 60.0
SHORTEST_GAP_S = 10.0
"""Shorter stretches without a reading are a meter that jumps; as for the charge."""


class Unreadable(Refused):
    """The readings of a phase cannot be taken for its voltage, however long it had lasted."""


def lead_lifts(moments: Iterable[Moment]) -> tuple[tuple[float, float], ...]:
    """Return from when to when a lead was off, where moments in order of time say both.

    On the battery's side of the meter the cell then discharges, at a voltage that looks like electrolysis.
    """
    lifts, lifted_s = [], None
    for one in moments:
        if one.kind == "lead_lifted":
            lifted_s = one.time_s if lifted_s is None else lifted_s
        elif one.kind == "lead_back" and lifted_s is not None:
            lifts.append((lifted_s, one.time_s))
            lifted_s = None
    return tuple(lifts)


def settled_in_phase(
    evidence: Evidence,
    phase: Phase,
    bench: Bench,
    changes_s: tuple[float, ...] = (),
    lifts_s: tuple[tuple[float, float], ...] = (),
) -> SettledWindow:
    """Return the settled window of a phase.

    Parameters
    ----------
    evidence : Evidence
    phase : Phase
    bench : Bench
        Its settling rule.
    changes_s : tuple of float
        Run times at which the resistor was changed: before the salt only what follows the last change
        counts, afterwards only what precedes the first.
    lifts_s : tuple of (float, float)
        From when to when a lead was off; see `lead_lifts`.

    Raises
    ------
    Refused
        See `settled_window`; also where more than a tenth of the readings are no voltages of an electrolysing
        cell, or the sign of the readings changes.
    """
    return settled_window_of_pieces(
        _usable(evidence, part_of_phase(evidence, phase, changes_s, lifts_s)),
        limit_V_per_s=bench.settling.limit_mV_per_min / 60e3,
        window_s=bench.settling.window_s,
        resolution_V=evidence.resolution_V,
        average=evidence.averages.of,
    )


def part_of_phase(
    evidence: Evidence,
    phase: Phase,
    changes_s: tuple[float, ...] = (),
    lifts_s: tuple[tuple[float, float], ...] = (),
) -> slice:
    """Return the readings of a phase among which its settled window is looked for; see `settled_in_phase`."""
    inside = [at_s for at_s in changes_s if phase.begin_s < at_s < phase.end_s]
    if inside:
        is_before = phase.phase == "before"
        begin_s, end_s = (max(inside), phase.end_s) if is_before else (phase.begin_s, min(inside))
        phase = Phase(phase.phase, begin_s, end_s)
    return evidence.last_stretch(_between_lifts(phase, lifts_s))


def _between_lifts(phase: Phase, lifts_s: tuple[tuple[float, float], ...]) -> Phase:
    """Return the last stretch of a phase with all leads on that is worth a window, or else the longest."""
    edges_s = [phase.begin_s]
    for lift in lifts_s:
        if lift[0] < phase.end_s and lift[1] > phase.begin_s:
            edges_s += lift
    edges_s.append(phase.end_s)
    stretches = [
        Phase(phase.phase, begin_s, end_s)
        for begin_s, end_s in zip(edges_s[::2], edges_s[1::2], strict=True)
        if end_s > begin_s
    ]
    if not stretches:
        return phase
    worth = [one for one in stretches if one.end_s - one.begin_s >= LEAST_STRETCH_S]
    return worth[-1] if worth else max(stretches, key=lambda one: one.end_s - one.begin_s)


def chosen_in_run(evidence: Evidence, chosen: ChosenWindow, bench: Bench) -> SettledWindow:
    """Return what a window that a person chose holds.

    Raises
    ------
    Refused
        By the same rules as for one that is found; see `settled_in_phase`.
    """
    limit = bench.settling.limit_mV_per_min / 60e3
    usable = _usable(evidence, evidence.within(chosen.begin_s, chosen.end_s))
    return given_window_of_pieces(usable, limit_V_per_s=limit, average=evidence.averages.of)


def averaging_in_window(evidence: Evidence, window: SettledWindow) -> AveragingAdvice | None:
    """Return how long the readings of a window are worth averaging; None where it is too short to tell."""
    usable = evidence.electrolysing(evidence.within(window.begin_s, window.end_s))
    try:
        grid = grid_of_pieces(usable, MOST_SAMPLES)
        return averaging_advice(grid.values, grid.step_s)
    except Refused:
        return None


def gap_in_phase(evidence: Evidence, phase: Phase, until_s: float) -> Caution | None:
    """Say that readings are missing in a phase before `until_s`, for a tenth of it or more; None where not.

    A settled window does not reach across such a gap.
    """
    gaps = [
        one
        for one in evidence.states
        if one.state == "no_reading" and phase.begin_s <= one.begin_s and one.end_s <= until_s
    ]
    longest = max(gaps, key=lambda one: one.duration_s, default=None)
    if longest is None or longest.duration_s < MOST_UNUSABLE_SHARE * (phase.end_s - phase.begin_s):
        return None
    if longest.duration_s < SHORTEST_GAP_S:
        return None
    return Caution(
        f"gap_{phase.phase}",
        f"For {longest.duration_s:.0f} s nothing could be read in the phase '{phase.phase}'; its settled "
        "voltage is looked for in what follows. Check the cable, the range and the battery of the meter.",
        longest.begin_s,
    )


def with_its_phase(evidence: Evidence, name: str, window: SettledWindow) -> tuple[tuple[float, float], ...]:
    """Return begin and end of a settled window, and those of its phase up to the end of the window."""
    phase = evidence.phases.named(name)
    begin_s = window.begin_s if phase is None else min(phase.begin_s, window.begin_s)
    return (window.begin_s, window.end_s), (begin_s, window.end_s)


def _usable(evidence: Evidence, part: slice) -> Between:
    """Return the readings of an electrolysing cell in a part of the run, checked for share and sign.

    Single readings outside belong to no state long enough to be one, and not to the plateau either. Seconds
    without any readable one are a gap, as if nothing had been read.
    """
    usable = evidence.electrolysing(part)
    number, negative = 0, 0
    for k, piece in enumerate(slices_of(part.start, part.stop)):
        number += usable.count(k)
        negative += _negative_of(evidence, piece)
    _check_share(number, part.stop - part.start - _unread(evidence, part))
    _check_signs(negative, number)
    return usable


def _unread(evidence: Evidence, part: slice) -> int:
    """Count the readings of a part that lie in long stretches without a readable one."""
    unread = 0
    for one in evidence.states:
        if one.state == "no_reading" and one.duration_s >= SHORTEST_GAP_S:
            within = evidence.within(one.begin_s, np.nextafter(one.end_s, one.begin_s))
            unread += max(0, min(within.stop, part.stop) - max(within.start, part.start))
    return unread


def _negative_of(evidence: Evidence, piece: slice) -> int:
    """Count the usable readings of a piece that are negative."""
    known = bounds_of(evidence.voltage_V, piece)
    if known is not None and known[0] >= 0.0:
        return 0
    volts, limits = evidence.voltage_V[piece], evidence.thresholds
    if volts.size and volts.min() >= 0.0:
        return 0
    return int(((volts < -limits.below_V) & (volts > -limits.poor_enter_V)).sum())


def _check_share(number: int, of: int) -> None:
    share = 1.0 - number / of if of else 0.0
    if share > MOST_UNUSABLE_SHARE:
        raise Unreadable(
            "readings outside electrolysis in percent",
            100.0 * share,
            "the meter jumped between a voltage and something else",
            f"at most {100 * MOST_UNUSABLE_SHARE:g} % may be left out; lock the range, check the leads",
        )


def _check_signs(negative: int, number: int) -> None:
    if 0 < negative < number:
        raise Unreadable(
            "sign of the readings",
            f"{negative} of {number} negative",
            "it changes within one phase",
            "leave the leads where they are from before to after",
        )
