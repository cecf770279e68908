"""What a recording holds of the cell voltage, made ready for analysis: magnitudes, states, phases."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from drivers.samples import Quality
from logger.analysis.caution import Cautions
from logger.analysis.first_look import FirstLook, look_through
from logger.analysis.foresight import flags_of
from logger.analysis.part_averages import PartAverages
from logger.analysis.phases import Phase, Phases, divide_phases
from logger.analysis.readings import PIECE, Between, CorrectedVoltage, Kept, Selection
from logger.analysis.refusal import Refused
from logger.analysis.resolution import resolution_from_readings_V
from logger.analysis.salt_effect import Fall, find_fall_of_pieces
from logger.analysis.seen_swaps import electrolysing_stretches
from logger.analysis.states import (
    StateInterval,
    StateRuns,
    StateThresholds,
    recognise_states,
    state_thresholds,
)
from logger.analysis.supply import STACK_AGREEMENT
from logger.bench_defaults import bench_circuit
from logger.bench_tables import Bench
from logger.moments import Moment
from logger.recording import Column

__all__ = [
    "UNUSABLE",
    "Evidence",
    "corrected",
    "gather_evidence",
    "is_above_stack",
    "open_circuit_V",
    "true_voltage_V",
]

UNUSABLE = int(Quality.HOLD | Quality.SUSPECT | Quality.REPEAT)
"""Readings with these bits stay in the recording but say nothing new or nothing sure about the cell."""

ASSUMED_INPUT_RESISTANCE_OHM = 10e6


@dataclass(frozen=True, slots=True)
class Evidence:
    """The cell voltage of a run, and what it shows.

    `times_s` and `voltage_V`, n each: usable readings, corrected for zero and gain of the meter where the
    bench gives them, computed where a slice of them is taken; overload is infinite. `magnitude_V` is their
    absolute value. `resolution_V` is one digit of the display in volts of the cell, 0 where it is not known.
    `is_above_stack` tells that the open cell stood far above what the bench file makes of the stack.
    """

    times_s: Column
    voltage_V: CorrectedVoltage
    magnitude_V: CorrectedVoltage
    resolution_V: float
    thresholds: StateThresholds
    states: tuple[StateInterval, ...]
    phases: Phases
    is_above_stack: bool = False
    averages: PartAverages = field(default_factory=PartAverages)

    def last_stretch(self, phase: Phase) -> slice:
        """Return the samples of the last stretch of electrolysis within a phase."""
        stretches = [
            one
            for one in electrolysing_stretches(self.states)
            if one.end_s > phase.begin_s and one.begin_s < phase.end_s
        ]
        begin_s = max(phase.begin_s, stretches[-1].begin_s) if stretches else phase.begin_s
        first = int(self.times_s.searchsorted(begin_s, "left"))
        # The reading at the end belongs to what comes next: the lift-out, the salt.
        last = int(self.times_s.searchsorted(phase.end_s, "left"))
        return slice(first, last)

    def within(self, begin_s: float, end_s: float) -> slice:
        """Return the samples from `begin_s` to `end_s`, both included."""
        first = int(self.times_s.searchsorted(begin_s, "left"))
        return slice(first, max(first, int(self.times_s.searchsorted(end_s, "right"))))

    def electrolysing(self, part: slice) -> Between:
        """Return the readings of a part of the run that can be voltages of an electrolysing cell."""
        limits = self.thresholds
        return Between(self.times_s, self.magnitude_V, part, limits.below_V, limits.poor_enter_V)


def true_voltage_V(shown_V: NDArray[np.float64], bench: Bench) -> NDArray[np.float64]:
    """Return readings corrected for the meter's zero and gain: (shown - zero)/gain.

    What no meter can show, beyond 10 kV, is an overload: infinite.
    """
    return corrected(shown_V, bench)[:]


def corrected(shown_V: Column, bench: Bench, *, is_magnitude: bool = False) -> CorrectedVoltage:
    """Return readings that are corrected where slices of them are taken; see `true_voltage_V`."""
    return CorrectedVoltage(shown_V, bench.meter.zero_V or 0.0, bench.meter.gain or 1.0, is_magnitude)


def open_circuit_V(bench: Bench) -> float | None:
    """Return what the meter reads with the cell dry, from the bench file, or None."""
    input_ohm = bench.meter.input_resistance_ohm or ASSUMED_INPUT_RESISTANCE_OHM
    circuit = bench_circuit(bench).circuit
    if circuit is not None:
        return circuit.dry_cell_voltage_V(input_ohm)
    return bench.supply.best_stack_voltage_V


def gather_evidence(
    times_s: Column,
    shown_V: Column,
    quality: Column,
    moments: Sequence[Moment],
    bench: Bench,
    reversible_voltage_V: float,
    cautions: Cautions,
) -> Evidence:
    """Prepare the cell voltage of a run.

    Parameters
    ----------
    times_s, shown_V, quality : Column of n
        A channel of a recording, as stored.
    moments : sequence of Moment
    bench : Bench
    reversible_voltage_V : float
        At the cell's temperature and pressure.
    cautions : Cautions
        Takes what the reader must know.
    """
    flags = flags_of(quality)
    if flags & UNUSABLE:
        usable = Selection(quality, UNUSABLE)
        times_s, shown_V = Kept(times_s, usable), Kept(shown_V, usable)
        cautions.say(
            "readings_left_out",
            f"{quality.size - times_s.size} readings were marked as held, repeated or suspect; they are kept "
            "but not used.",
        )
    if flags & Quality.RELATIVE:
        cautions.say(
            "relative_reading",
            "The meter subtracted a stored value from some readings (REL); absolute voltages are not sure.",
        )
    voltage_V, magnitude_V = corrected(shown_V, bench), corrected(shown_V, bench, is_magnitude=True)
    stated_V = open_circuit_V(bench)
    # Where the stack voltage is stated the states can be told at the first look through the readings.
    runs = None if stated_V is None else StateRuns(_thresholds(stated_V, reversible_voltage_V, None))
    seen = look_through(voltage_V, runs)
    _tell_reversed(times_s, seen, cautions)
    _tell_stack(stated_V, seen.open_circuit_V, cautions)
    thresholds = _thresholds(stated_V or seen.open_circuit_V, reversible_voltage_V, cautions)
    states = recognise_states(times_s, magnitude_V, thresholds) if runs is None else runs.intervals(times_s)
    limit = bench.settling.limit_mV_per_min / 60e3

    def find_salt(begin_s: float, end_s: float) -> Fall | None:
        first, last = times_s.searchsorted((begin_s, end_s)).tolist()
        readable = Between(
            times_s, magnitude_V, slice(first, last), thresholds.below_V, thresholds.poor_leave_V
        )
        return find_fall_of_pieces(readable, limit_V_per_s=limit, window_s=bench.settling.window_s)

    phases = divide_phases(states, moments, find_salt, _usual_interval_s(times_s))
    cautions.extend(phases.cautions)
    return Evidence(
        times_s=times_s,
        voltage_V=voltage_V,
        magnitude_V=magnitude_V,
        resolution_V=_resolution_V(shown_V, bench, cautions),
        thresholds=thresholds,
        states=states,
        phases=phases,
        is_above_stack=is_above_stack(bench.supply.best_stack_voltage_V, seen.open_circuit_V),
    )


def _usual_interval_s(times_s: Column) -> float:
    return float(np.median(np.diff(times_s[:PIECE]))) if times_s.size > 1 else 0.0


def _resolution_V(shown_V: Column, bench: Bench, cautions: Cautions) -> float:
    """Return one digit of the display: as stated, or as seen where that is coarser or nothing is stated.

    A digit shown stands for 1/gain of it at the cell.
    """
    gain = bench.meter.gain or 1.0
    stated_V, seen_V = bench.meter.resolution_V, resolution_from_readings_V(shown_V) or 0.0
    if stated_V is None:
        return seen_V / gain
    if seen_V > 1.5 * stated_V:
        cautions.say(
            "resolution_coarser",
            f"The readings go in steps of {1000 * seen_V:g} mV, coarser than the {1000 * stated_V:g} mV of "
            "the bench file; the coarser step counts. Lock the range that shows more digits.",
        )
    return max(stated_V, seen_V) / gain


def _tell_reversed(times_s: Column, seen: FirstLook, cautions: Cautions) -> None:
    if seen.backwards == 0 or seen.first_below is None:
        return
    first_s = float(times_s[seen.first_below])
    cautions.say(
        "leads_reversed",
        "The meter's leads were reversed (negative readings). Magnitudes are used; the recording stays as "
        "read. Swap the leads next time.",
        first_s,
    )
    if seen.forwards > 0:
        cautions.say(
            "polarity_changed",
            "The sign of the readings changed during the run. Leads swapped at the meter do no harm, but "
            "electrodes swapped at the supply make the comparison meaningless.",
            first_s,
        )


def is_above_stack(stated_V: float | None, seen_V: float | None) -> bool:
    """Tell whether an open cell was seen so far above the stated stack that this cannot be its voltage.

    Below it a range that ends there, or a contact, can be the reason; above it nothing but the stack.
    """
    return stated_V is not None and seen_V is not None and seen_V > (1.0 + STACK_AGREEMENT) * stated_V


def _tell_stack(stated_V: float | None, seen_V: float | None, cautions: Cautions) -> None:
    if seen_V is None:
        return
    if stated_V is None:
        cautions.say(
            "stack_voltage_from_readings",
            f"The stack voltage is not given; the highest reading ({seen_V:.2f} V) is taken for the open "
            "cell. Give supply.stack_voltage_V in the bench file.",
        )
    elif abs(seen_V / stated_V - 1.0) > STACK_AGREEMENT:
        cautions.say(
            "stack_voltage_differs",
            f"The open cell read {seen_V:.2f} V, but the bench file makes it {stated_V:.2f} V; "
            "check the batteries and supply.stack_voltage_V.",
        )


def _thresholds(
    open_V: float | None, reversible_voltage_V: float, cautions: Cautions | None
) -> StateThresholds:
    try:
        return state_thresholds(reversible_voltage_V, open_V)
    except Refused as refusal:
        if cautions is not None:
            words = f"The open cell is not recognised: {refusal.explained}."
            cautions.say("open_cell_not_recognised", words)
        return state_thresholds(reversible_voltage_V, None)
