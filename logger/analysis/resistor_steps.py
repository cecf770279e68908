"""The Tafel run within a recording: a settled voltage for each resistor, and the line through them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from typing import Any

from logger.analysis.caution import Caution, Cautions
from logger.analysis.comparison import from_readings
from logger.analysis.evidence import Evidence, gather_evidence
from logger.analysis.phase_window import settled_in_phase
from logger.analysis.phases import Phase
from logger.analysis.plateau_current import plateau_current, resistor_changes
from logger.analysis.refusal import Refused
from logger.analysis.run_conditions import run_conditions
from logger.analysis.run_current import CurrentSource, current_source
from logger.analysis.seen_swaps import electrolysing_stretches
from logger.analysis.settled import SettledWindow
from logger.analysis.tafel import TafelFit, fit_tafel
from logger.analysis.tafel_hysteresis import Hysteresis, tafel_hysteresis
from logger.analysis.uncertainty import rectangular_standard_uncertainty
from logger.bench_defaults import bench_accuracy
from logger.bench_tables import Bench
from logger.moments import Moment
from logger.quantity import plain
from logger.recording import Recording

__all__ = ["ResistorPoint", "RunTafel", "tafel_of"]

SEPARATES = ("buffer_in", "electrodes_out", "electrodes_in", "salt_added", "solution_swapped")
"""Moments after which the electrodes or the solution are others: no Tafel line goes across them."""

FEWEST_POINTS = 4
"""With three points the ohmic drop cannot be told from the slope, which then comes out far too large."""

MOST_UNCERTAIN_SHARE = 0.5
"""A slope whose standard uncertainty is a larger part of it says nothing (common practice, no source)."""

LEAST_UNCERTAINTY_V = 1e-9


@dataclass(frozen=True, slots=True)
class ResistorPoint:
    """A settled voltage with one resistor.

    `standard_uncertainty_V` holds scatter, drift and resolution: the meter's gain is the same for all
    points and goes into the slope's uncertainty.
    """

    resistor_ohm: float
    current_A: float
    current_uncertainty_A: float
    voltage_V: float
    standard_uncertainty_V: float
    window_begin_s: float
    window_end_s: float


@dataclass(frozen=True, slots=True)
class RunTafel:
    """The Tafel line of a run.

    Attributes
    ----------
    fit : TafelFit or None
        None where the run supports none; ``no_tafel`` or ``no_tafel_line`` among the cautions says why.
    slope_uncertainty_V : float
        Standard uncertainty of the slope with the meter's gain; NaN without a fit.
    points : tuple of ResistorPoint
        In order of time.
    cautions : tuple of Caution
    """

    fit: TafelFit | None
    slope_uncertainty_V: float
    points: tuple[ResistorPoint, ...]
    cautions: tuple[Caution, ...]

    @property
    def document(self) -> dict[str, Any] | None:
        """The object ``tafel`` of the findings, or None."""
        if self.fit is None:
            return None
        resistance = self.fit.ohmic_resistance_ohm
        return {
            "slope_V_per_decade": self.fit.slope_V_per_decade.value,
            "standard_uncertainty": self.slope_uncertainty_V,
            "ohmic_resistance_ohm": None if resistance is None else resistance.value,
            "ohmic_standard_uncertainty_ohm": None if resistance is None else resistance.standard_uncertainty,
            "points": [
                {
                    "resistor_ohm": one.resistor_ohm,
                    "current_A": one.current_A,
                    "current_standard_uncertainty_A": one.current_uncertainty_A,
                    "voltage_V": one.voltage_V,
                    "standard_uncertainty_V": one.standard_uncertainty_V,
                    "window_begin_s": one.window_begin_s,
                    "window_end_s": one.window_end_s,
                }
                for one in self.points
            ],
        }


@dataclass(frozen=True, slots=True)
class _Step:
    """A stretch of the run with one resistor; `resistor_ohm` is None where no label tells it."""

    begin_s: float
    end_s: float
    resistor_ohm: float | None


def tafel_of(recording: Recording, bench: Bench, *, evidence: Evidence | None = None) -> RunTafel:
    """Return the Tafel line through the settled voltages with several resistors.

    Parameters
    ----------
    recording : Recording
        Each moment ``resistor_changed`` (label: ohms) begins a step; the resistor of the bench file is that
        of the first.
    bench : Bench
        Supply, area, meter and settling rule.
    evidence : Evidence, optional
        That of the same recording, where it is at hand; otherwise it is gathered here.

    Returns
    -------
    RunTafel
        Never raises for what the data hold.

    Notes
    -----
    A step counts where its voltage settled (`logger.analysis.settled`). Steps are only joined while neither
    solution nor electrodes were touched; of several such series the one with the most settled steps is
    taken, the later one where they are equal. Slope and ohmic resistance are fitted together.
    """
    changes = resistor_changes(recording.moments)
    if not changes:
        return _none(
            "A Tafel slope needs settled voltages with four or more resistors over a decade of current; tag "
            "each change of the resistor with its ohms.",
            code="no_tafel",
        )
    if bench.supply.current_A is not None:
        return _none("The supply holds the current by itself, so changing the resistor gives no Tafel slope.")
    found = evidence or _evidence(recording, bench)
    if found is None:
        return _none("The recording holds no readings of the cell voltage.")
    return _Steps(recording, bench, found).line()


def _none(reason: str, *others: Caution, code: str = "no_tafel_line") -> RunTafel:
    """Return no line, and why: ``no_tafel`` where nobody meant one, ``no_tafel_line`` where one failed."""
    return RunTafel(None, math.nan, (), (*others, Caution(code, reason)))


def _evidence(recording: Recording, bench: Bench) -> Evidence | None:
    channel = recording.channel("cell_voltage")
    if channel is None or channel.times_s.size == 0:
        return None
    reversible_V = run_conditions(bench).voltages.reversible_voltage_V
    return gather_evidence(
        channel.times_s,
        channel.values,
        channel.quality,
        recording.moments,
        bench,
        reversible_V,
        Cautions(),  # whoever analyses the run says these
    )


def _series(moments: Sequence[Moment], first_ohm: float | None, end_s: float) -> Iterator[tuple[_Step, ...]]:
    """Yield the steps between two touches of solution or electrodes; only where the resistor was changed."""
    touches = [(one.time_s, True, None) for one in moments if one.kind in SEPARATES]
    changes = [(at_s, False, ohm) for at_s, ohm in resistor_changes(moments)]
    steps: list[_Step] = []
    begin_s, ohm = 0.0, first_ohm
    for at_s, is_touch, changed_ohm in sorted([*touches, *changes], key=lambda event: event[0]):
        steps.append(_Step(begin_s, at_s, ohm))
        begin_s = at_s
        if not is_touch:
            ohm = changed_ohm
            continue
        if len(steps) > 1:
            yield tuple(steps)
        steps = []
    if steps:
        yield (*steps, _Step(begin_s, end_s, ohm))


class _Steps:
    """The search for settled steps in one recording."""

    def __init__(self, recording: Recording, bench: Bench, evidence: Evidence) -> None:
        self._recording = recording
        self._bench = bench
        self._evidence = evidence
        self._source = self._current_source()
        self._meter = bench_accuracy(bench.meter).accuracy
        self._gain = rectangular_standard_uncertainty(self._meter.percent_of_reading / 100.0)
        self._resolution_V = max(self._meter.resolution_V, evidence.resolution_V) / math.sqrt(12.0)

    def line(self) -> RunTafel:
        if not self._source.is_known:
            return _none(f"A Tafel slope needs {' and '.join(self._source.missing)} in the bench file.")
        best: tuple[ResistorPoint, ...] = ()
        cautions = Cautions()
        last_s = float(self._evidence.times_s[-1]) if self._evidence.times_s.size else 0.0
        for steps in _series(self._recording.moments, self._bench.supply.resistor_ohm, last_s):
            said = Cautions()
            points = tuple(one for one in (self._point(step, said) for step in steps) if one is not None)
            if len(points) >= len(best):
                best, cautions = points, said
        if len(best) < FEWEST_POINTS:
            return _none(
                f"A Tafel slope needs settled voltages with {FEWEST_POINTS} or more resistors; "
                f"{len(best)} settled.",
                *cautions.all,
            )
        return self._fitted(best, cautions)

    def _current_source(self) -> CurrentSource:
        supply = self._bench.supply
        if supply.resistor_ohm is None:
            # The labels tell the resistors; a first one is needed for the circuit to be known at all.
            labels = [ohm for _, ohm in resistor_changes(self._recording.moments) if ohm is not None]
            supply = replace(supply, resistor_ohm=labels[0] if labels else None)
        return current_source(replace(self._bench, supply=supply))

    def _point(self, step: _Step, cautions: Cautions) -> ResistorPoint | None:
        if not self._electrolyses(step):
            return None
        if step.resistor_ohm is None:
            _leave_out(cautions, step, "nothing says how many ohms it had (label the moment with them)")
            return None
        try:
            window = settled_in_phase(self._evidence, Phase("step", step.begin_s, step.end_s), self._bench)
        except Refused as refusal:
            _leave_out(cautions, step, refusal.explained)
            return None
        if not window.is_settled:
            _leave_out(cautions, step, "its voltage had not settled")
            return None
        return self._measured(step.resistor_ohm, window, cautions)

    def _measured(
        self, resistor_ohm: float, window: SettledWindow, cautions: Cautions
    ) -> ResistorPoint | None:
        u_V = math.hypot(from_readings(window).standard_uncertainty, self._resolution_V)
        current = plateau_current(self._recording, self._source, window, u_V, self._meter, cautions)
        if current is None or current.value_A <= 0.0:
            return None
        return ResistorPoint(
            resistor_ohm=resistor_ohm,
            current_A=current.value_A,
            current_uncertainty_A=current.standard_uncertainty_A,
            voltage_V=window.voltage_V,
            standard_uncertainty_V=u_V,
            window_begin_s=window.begin_s,
            window_end_s=window.end_s,
        )

    def _electrolyses(self, step: _Step) -> bool:
        stretches = electrolysing_stretches(self._evidence.states)
        return any(one.begin_s < step.end_s and one.end_s > step.begin_s for one in stretches)

    def _fitted(self, points: tuple[ResistorPoint, ...], cautions: Cautions) -> RunTafel:
        amperes = [one.current_A for one in points]
        volts = [one.voltage_V for one in points]
        # Readings without any noise or digit (computed ones) still need a weight.
        u_V = [max(one.standard_uncertainty_V, LEAST_UNCERTAINTY_V) for one in points]
        u_A = [one.current_uncertainty_A for one in points]
        area_cm2 = self._bench.cell.anode_area_cm2
        try:
            fit = fit_tafel(
                amperes,
                volts,
                voltage_uncertainty_V=u_V,
                current_uncertainty_A=u_A,
                area_cm2=area_cm2,
            )
        except Refused as refusal:
            return _none(f"No Tafel slope was found: {refusal.explained}.", *cautions.all)
        slope = fit.slope_V_per_decade
        widened_V = math.hypot(slope.standard_uncertainty, self._gain * slope.value)
        if widened_V > MOST_UNCERTAIN_SHARE * abs(slope.value):
            slope_mV, doubt_mV = 1000.0 * slope.value, 1000.0 * widened_V
            return _none(
                f"No Tafel slope was found: {plain(slope_mV, 0)} mV per decade would be uncertain by "
                f"{doubt_mV:.0f} mV. Take resistors that spread the current over a decade or more.",
                *cautions.all,
            )
        if slope.value <= 0.0:
            return _none(
                "No Tafel slope was found: the voltage does not rise with the current. Check the ohms of the "
                "labels and of the bench file.",
                *cautions.all,
            )
        cautions.extend(fit.cautions)
        with suppress(Refused):  # one way only, or too few points: nothing to compare
            both_ways = tafel_hysteresis(amperes, volts, voltage_uncertainty_V=u_V, current_uncertainty_A=u_A)
            _tell_hysteresis(both_ways, cautions)
        return RunTafel(fit, widened_V, points, cautions.all)


def _tell_hysteresis(found: Hysteresis, cautions: Cautions) -> None:
    if found.is_shown:
        offset_mV = 1000.0 * abs(found.offset_V)
        if found.offset_V > 0.0:
            words = (
                f"Falling, the current took {offset_mV:.1f} mV more than rising: the electrodes changed, or "
                "had not settled."
            )
        else:
            words = (
                f"Falling, the current took {offset_mV:.1f} mV less than rising: the electrodes changed, or "
                "had not settled."
            )
        cautions.say("tafel_hysteresis", words)


def _leave_out(cautions: Cautions, step: _Step, reason: str) -> None:
    named = "an unknown resistor" if step.resistor_ohm is None else f"{step.resistor_ohm:g} ohm"
    cautions.say(
        "tafel_point_left_out", f"The step with {named} is not in the Tafel line: {reason}.", step.begin_s
    )
