"""The settled window of a phase of a run: found by the program, or chosen by a person."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from logger.analysis.chosen_windows import ChosenWindow
from logger.analysis.evidence import Evidence
from logger.analysis.phases import Phase
from logger.analysis.refusal import Refused
from logger.analysis.settled import SettledWindow, given_window, settled_window
from logger.bench_tables import Bench

__all__ = ["chosen_in_run", "settled_in_phase"]

MOST_UNUSABLE_SHARE = 0.10


def settled_in_phase(
    evidence: Evidence, phase: Phase, bench: Bench, changes_s: tuple[float, ...] = ()
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

    Raises
    ------
    Refused
        See `settled_window`; also where more than a tenth of the readings are no voltages of an electrolysing
        cell, or the sign of the readings changes.
    """
    inside = [at_s for at_s in changes_s if phase.begin_s < at_s < phase.end_s]
    if inside:
        is_before = phase.phase == "before"
        begin_s, end_s = (max(inside), phase.end_s) if is_before else (phase.begin_s, min(inside))
        phase = Phase(phase.phase, begin_s, end_s)
    part = evidence.last_stretch(phase)
    times, volts = evidence.times_s[part], evidence.magnitude_V[part]
    limits = evidence.thresholds
    # Single readings outside belong to no state long enough to be one, and not to the plateau either.
    usable = (volts > limits.below_V) & (volts < limits.poor_enter_V)
    if not usable.all():
        _check_share(usable)
        times, volts = times[usable], volts[usable]
    _check_signs(evidence.voltage_V[part][usable])
    return settled_window(
        times,
        volts,
        limit_V_per_s=bench.settling.limit_mV_per_min / 60e3,
        window_s=bench.settling.window_s,
        resolution_V=evidence.resolution_V,
    )


def chosen_in_run(evidence: Evidence, chosen: ChosenWindow, bench: Bench) -> SettledWindow:
    """Return what a window that a person chose holds.

    Raises
    ------
    Refused
        By the same rules as for one that is found; see `settled_in_phase`.
    """
    part = evidence.within(chosen.begin_s, chosen.end_s)
    volts = evidence.magnitude_V[part]
    usable = (volts > evidence.thresholds.below_V) & (volts < evidence.thresholds.poor_enter_V)
    if usable.size:
        _check_share(usable)
    _check_signs(evidence.voltage_V[part][usable])
    limit = bench.settling.limit_mV_per_min / 60e3
    return given_window(evidence.times_s[part][usable], volts[usable], limit_V_per_s=limit)


def _check_share(usable: NDArray[np.bool_]) -> None:
    share = 1.0 - float(np.count_nonzero(usable)) / usable.size
    if share > MOST_UNUSABLE_SHARE:
        raise Refused(
            "readings outside electrolysis in percent",
            100.0 * share,
            "the meter jumped between a voltage and something else",
            f"at most {100 * MOST_UNUSABLE_SHARE:g} % may be left out; lock the range, check the leads",
        )


def _check_signs(volts: NDArray[np.float64]) -> None:
    negative = int(np.count_nonzero(volts < 0.0))
    if 0 < negative < volts.size:
        raise Refused(
            "sign of the readings",
            f"{negative} of {volts.size} negative",
            "it changes within one phase",
            "leave the leads where they are from before to after",
        )
