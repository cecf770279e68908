"""The ohmic resistance where somebody lifted a lead during a run, and the readings are fast."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from logger.analysis.caution import Caution, Cautions
from logger.analysis.interrupt import SLOWEST_RATE_HZ, Interrupt, current_interrupt
from logger.analysis.plateau_current import source_at
from logger.analysis.refusal import Refused
from logger.analysis.run_analysis import RunAnalysis
from logger.recording import Recording

__all__ = ["RunInterrupts", "interrupts_of"]

NEAR_S = 5.0
"""How far from the moment the break may lie: a hand lifts the lead, the other presses the key."""

BEFORE_S, AFTER_S = 0.05, 0.06
NORMAL_MEDIAN = 0.6744897501960817
"""The median of the magnitude of normal noise, over its standard deviation."""

NOISES = 8.0
"""The break is the first step of more than so many standard deviations of the steps of the noise: putting the
lead back makes a larger one."""


@dataclass(frozen=True, slots=True)
class RunInterrupts:
    """The breaks of a run with the current before each, and what must be said about them."""

    measured: tuple[tuple[Interrupt, float], ...]
    cautions: tuple[Caution, ...]

    @property
    def document(self) -> list[dict[str, Any]] | None:
        """The list ``current_interrupt`` of the findings; None where nothing was measured."""
        return [
            {
                "opened_at_s": one.opened_at_s,
                "ohmic_drop_V": one.drop_V,
                "standard_uncertainty_V": one.drop_uncertainty_V,
                "resistance_ohm": one.resistance_ohm,
                "resistance_standard_uncertainty_ohm": one.resistance_uncertainty_ohm,
                "current_A": current_A,
                "readings_per_s": one.rate_Hz,
            }
            for one, current_A in self.measured
        ] or None


def interrupts_of(recording: Recording, analysis: RunAnalysis) -> RunInterrupts:
    """Read off the ohmic drop at each ``lead_lifted`` moment.

    Parameters
    ----------
    recording : Recording
    analysis : RunAnalysis
        Of the same recording.

    Returns
    -------
    RunInterrupts
        Never raises for what the data hold. Without 5000 readings a second there is none, and a caution
        says so once.
    """
    cautions = Cautions()
    measured = []
    for at_s, times, volts in _stretches(recording, analysis):
        step_s = float(np.median(np.diff(times))) if times.size > 1 else np.inf
        if step_s <= 0.0 or 1.0 / step_s < SLOWEST_RATE_HZ:
            cautions.say(
                "no_interrupt_slow",
                "A lead was lifted, but the readings are too far apart to read off the ohmic drop: it is "
                f"gone within milliseconds, and {SLOWEST_RATE_HZ:g} readings a second or more are needed. A "
                "set of resistors tells it too.",
            )
            continue
        try:
            measured.append(_measured(recording, analysis, times, volts, cautions))
        except Refused as refusal:
            cautions.say("no_interrupt", f"No ohmic drop was read off: {refusal.explained}.", at_s)
    return RunInterrupts(tuple(measured), cautions.all)


def _stretches(
    recording: Recording, analysis: RunAnalysis
) -> Iterator[tuple[float, NDArray[np.float64], NDArray[np.float64]]]:
    """Yield each moment at which a lead was lifted, with the times and magnitudes around it."""
    evidence = analysis.evidence
    if evidence is None:
        return
    for moment in recording.moments:
        if moment.kind == "lead_lifted" and not moment.removed:
            part = evidence.within(moment.time_s - NEAR_S, moment.time_s + NEAR_S)
            yield moment.time_s, evidence.times_s[part], evidence.magnitude_V[part]


def _measured(
    recording: Recording,
    analysis: RunAnalysis,
    times: NDArray[np.float64],
    volts: NDArray[np.float64],
    cautions: Cautions,
) -> tuple[Interrupt, float]:
    broken = _first_step(volts)
    first, last = np.searchsorted(times, (times[broken] - BEFORE_S, times[broken] + AFTER_S)).tolist()
    source = source_at(analysis.source, recording.moments, float(times[broken]))
    current = source.at(float(np.mean(volts[first : broken + 1])))
    if current is None:
        raise Refused(
            "current before the break",
            "none",
            "it is not known",
            "give the stack voltage and the resistor in the bench file",
        )
    found = current_interrupt(
        times[first:last],
        volts[first:last],
        current.value_A,
        current_uncertainty_A=current.standard_uncertainty_A,
    )
    for one in found.cautions:
        cautions.say(one.code, one.message, found.opened_at_s)
    return found, current.value_A


def _first_step(volts: NDArray[np.float64]) -> int:
    """Return the last reading before the first step that is none of the noise, or before the largest."""
    steps = np.nan_to_num(np.abs(np.diff(volts)), nan=0.0, posinf=0.0)
    moving = steps[steps > 0.0]  # a display, or an input at its limit, may stand still
    deviation = float(np.median(moving)) / NORMAL_MEDIAN if moving.size else 0.0
    beyond = np.flatnonzero(steps > NOISES * deviation)
    return int(beyond[0]) if beyond.size else int(np.argmax(steps))
