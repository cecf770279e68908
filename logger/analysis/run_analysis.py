"""One run from its recording to results: the same steps for the findings, the window and the report."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from logger.analysis.caution import Caution, Cautions
from logger.analysis.charge import Charge, charge
from logger.analysis.comparison import compare, with_meter
from logger.analysis.current import Current
from logger.analysis.evidence import Evidence, gather_evidence
from logger.analysis.meter_accuracy import MeterAccuracy
from logger.analysis.phases import Phase, electrolysing_stretches
from logger.analysis.plateau_current import plateau_current, resistor_changes
from logger.analysis.plateau_temperature import plateau_temperature_C, temperature_difference
from logger.analysis.refusal import Refused
from logger.analysis.run_conditions import run_conditions
from logger.analysis.run_current import CurrentSource, current_source
from logger.analysis.run_growth import RunGrowth, growth_of_run
from logger.analysis.saving import VoltageSaved
from logger.analysis.settled import SettledWindow, settled_window
from logger.analysis.thermodynamics import CellThermodynamics, cell_thermodynamics
from logger.analysis.uncertainty import Combined
from logger.bench import parse_bench
from logger.bench_defaults import bench_accuracy, bench_kinetics
from logger.bench_tables import Bench
from logger.errors import BenchError
from logger.recording import ChannelData, Recording

__all__ = ["Plateau", "RunAnalysis", "analyse_run", "settled_in_phase"]

MOST_UNUSABLE_SHARE = 0.10
CHANGES_THE_CELL = (
    "electrodes_out", "electrodes_in", "solution_swapped", "resistor_changed", "lead_lifted", "lead_back",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Plateau:
    """The settled end of a phase: its window, its absolute uncertainty, its current and temperature.

    `current` and `temperature_C` are None where they are not known or were not measured.
    """

    window: SettledWindow
    absolute: Combined
    current: Current | None
    temperature_C: float | None


@dataclass(frozen=True, slots=True)
class RunAnalysis:
    """What a recording shows. What it does not support is None or absent, and `cautions` say why."""

    bench: Bench
    evidence: Evidence | None
    source: CurrentSource
    meter: MeterAccuracy
    thermodynamics: CellThermodynamics
    plateaus: Mapping[str, Plateau]
    saved: VoltageSaved | None
    charge: Charge | None
    growth: RunGrowth | None
    cautions: tuple[Caution, ...]


def analyse_run(recording: Recording) -> RunAnalysis:
    """Analyse a recording, finished or still running. Never raises for what the data hold.

    Parameters
    ----------
    recording : Recording

    Returns
    -------
    RunAnalysis
    """
    return _Analysis(recording).run()


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


class _Analysis:
    """The analysis of one recording in progress."""

    def __init__(self, recording: Recording) -> None:
        self._recording = recording
        self._cautions = Cautions()
        self._bench = self._read_bench()
        self._source = current_source(self._bench)
        self._conditions = run_conditions(self._bench)

    def run(self) -> RunAnalysis:
        if self._conditions.assumed:
            words = " and ".join(self._conditions.assumed)
            self._cautions.say(
                "conditions_assumed",
                f"Assumed: {words}. Give temperature_C and pressure_kPa in the bench file.",
            )
        if self._conditions.refusal:
            self._cautions.say("conditions_impossible", f"{self._conditions.refusal}.")
        standard = self._conditions.voltages
        channel = self._recording.channel("cell_voltage")
        if channel is None:
            self._cautions.say("no_cell_voltage", "The recording holds no channel with the cell voltage.")
        evidence = None if channel is None else self._gather(channel, standard)
        meter = self._meter(evidence)
        plateaus = {} if evidence is None else self._plateaus(evidence, meter)
        saved = self._saved(plateaus, meter)
        passed = None if evidence is None else self._charge(evidence)
        grown = None if evidence is None else self._growth(evidence, plateaus)
        return RunAnalysis(
            bench=self._bench,
            evidence=evidence,
            source=self._source,
            meter=meter,
            thermodynamics=self._thermodynamics(plateaus, standard),
            plateaus=plateaus,
            saved=saved,
            charge=passed,
            growth=grown,
            cautions=self._cautions.all,
        )

    def _read_bench(self) -> Bench:
        text = self._recording.bench_toml
        if not text.strip():
            self._cautions.say(
                "no_bench",
                "The recording holds no bench file: supply, meter, electrodes and conditions are not known. "
                "Record or import with --bench.",
            )
            return Bench()
        try:
            return parse_bench(text)
        except BenchError as error:
            self._cautions.say("bench_unreadable", f"The bench file in the recording was not used: {error}.")
            return Bench()

    def _gather(self, channel: ChannelData, standard: CellThermodynamics) -> Evidence | None:
        if channel.times_s.size == 0:
            self._cautions.say("no_readings", "The recording holds no readings of the cell voltage.")
            return None
        return gather_evidence(
            channel.times_s,
            channel.values,
            channel.quality,
            self._recording.moments,
            self._bench,
            standard.reversible_voltage_V,
            self._cautions,
        )

    def _meter(self, evidence: Evidence | None) -> MeterAccuracy:
        found = bench_accuracy(self._bench.meter)
        seen_V = 0.0 if evidence is None else evidence.resolution_V
        unknown = [key for key in found.missing if not (key.endswith("resolution_V") and seen_V)]
        if unknown:
            self._cautions.say(
                "meter_unknown",
                f"The meter's accuracy is not fully known ({', '.join(unknown)}), so the uncertainty of the "
                "voltages is understated. Give it in the bench file.",
            )
        given = found.accuracy
        return MeterAccuracy(given.percent_of_reading, given.counts, max(given.resolution_V, seen_V))

    def _plateaus(self, evidence: Evidence, meter: MeterAccuracy) -> dict[str, Plateau]:
        plateaus: dict[str, Plateau] = {}
        changes = resistor_changes(self._recording.moments)
        self._tell_unknown_resistors(changes)
        for name in ("before", "after"):
            phase = evidence.phases.named(name)
            if phase is None:
                continue
            try:
                window = settled_in_phase(evidence, phase, self._bench, tuple(at_s for at_s, _ in changes))
            except Refused as refusal:
                self._cautions.say(
                    f"no_settled_{name}", f"No settled voltage {name}. {refusal}.", phase.end_s
                )
                self._tell_early_salt(evidence, name)
                continue
            absolute = with_meter(window, meter)
            self._tell_window(evidence, name, window, absolute)
            plateaus[name] = Plateau(
                window=window,
                absolute=absolute,
                current=plateau_current(
                    self._recording, self._source, window, absolute.standard_uncertainty, self._cautions
                ),
                temperature_C=plateau_temperature_C(self._recording, phase, window, self._cautions),
            )
        return plateaus

    def _tell_window(self, evidence: Evidence, name: str, window: SettledWindow, absolute: Combined) -> None:
        if not window.is_settled:
            low, high = (60e3 * end for end in window.drift.interval())
            self._cautions.say(
                f"not_settled_{name}",
                f"The voltage {name} had not settled: its drift lies between {low:.1f} and {high:.1f} "
                f"mV/min, the limit is {self._bench.settling.limit_mV_per_min:g}. Wait longer next time.",
                window.end_s,
            )
            self._tell_early_salt(evidence, name)
        spread_V = abs(window.voltage_V - window.median_V)
        if spread_V > max(2.0 * window.scatter_uncertainty_V, evidence.resolution_V) > 0.0:
            self._cautions.say(
                f"one_sided_{name}",
                f"Mean and median {name} differ by {1000 * spread_V:.1f} mV: the noise is one-sided "
                "(large bubbles?).",
                window.end_s,
            )

    def _tell_early_salt(self, evidence: Evidence, name: str) -> None:
        growth = evidence.phases.named("growth")
        if name == "before" and growth is not None:
            self._cautions.say(
                "salt_too_early",
                "The salt went in before the voltage had settled, so what the bare electrodes need is not "
                "known well. Next time wait until the program says settled.",
                growth.begin_s,
            )

    def _saved(self, plateaus: Mapping[str, Plateau], meter: MeterAccuracy) -> VoltageSaved | None:
        before, after = plateaus.get("before"), plateaus.get("after")
        if before is None or after is None:
            self._cautions.say("no_saving", "The voltage saved needs a voltage before and a voltage after.")
            return None
        currents = None
        if before.current is not None and after.current is not None:
            currents = (before.current, after.current)
        kinetics = bench_kinetics(self._bench.cell)
        try:
            warmed = temperature_difference(before.temperature_C, after.temperature_C)
            saved = compare(
                before.window,
                after.window,
                meter,
                currents,
                kinetics.kinetics,
                self._cautions,
                temperature=warmed,
            )
        except Refused as refusal:
            self._cautions.say("no_saving", f"{refusal}.")
            return None
        if saved is not None:
            self._tell_saved(saved, kinetics.assumed)
        return saved

    def _tell_saved(self, saved: VoltageSaved, assumed: tuple[str, ...]) -> None:
        if saved.at_equal_current is not None and self._source.circuit is not None:
            self._cautions.say(
                "kinetics_assumed",
                f"For the saving at equal current were assumed: {'; '.join(assumed)}.",
            )
        if saved.at_equal_current is None and not self._cautions.has("no_equal_current"):
            self._cautions.say(
                "no_equal_current",
                "The saving is stated as measured; at equal current it needs the currents.",
            )
        if saved.is_provisional:
            self._cautions.say(
                "provisional", "The voltage saved is provisional, since a voltage had not settled."
            )
        if saved.effect == "none_shown":
            self._cautions.say(
                "no_effect_shown", "No effect is shown: the change is within two standard uncertainties."
            )
        elif saved.effect == "lost":
            self._cautions.say("voltage_rose", "The cell needs more voltage after than before.")

    def _thermodynamics(
        self, plateaus: Mapping[str, Plateau], standard: CellThermodynamics
    ) -> CellThermodynamics:
        measured = [one.temperature_C for one in plateaus.values() if one.temperature_C is not None]
        if not measured:
            return standard
        try:
            return cell_thermodynamics(float(np.mean(measured)), standard.pressure_Pa)
        except Refused as refusal:
            self._cautions.say("temperature_not_used", f"The measured temperature was not used. {refusal}.")
            return standard

    def _growth(self, evidence: Evidence, plateaus: Mapping[str, Plateau]) -> RunGrowth | None:
        phase = evidence.phases.named("growth")
        if phase is None:
            self._cautions.say("no_growth", "There is no growth phase to fit.")
            return None
        windows = [plateaus[name].window for name in ("after", "before") if name in plateaus]
        try:
            return growth_of_run(evidence, phase, windows, self._cautions)
        except Refused as refusal:
            shown = f"{refusal.value:.3g}" if isinstance(refusal.value, float) else refusal.value
            why = f"{refusal.reason}; {refusal.accepted} ({refusal.quantity}: {shown})"
            self._cautions.say("no_growth_fit", f"The growth was not fitted: {why}.", phase.begin_s)
            return None

    def _charge(self, evidence: Evidence) -> Charge | None:
        stretches = electrolysing_stretches(evidence.states)
        if not stretches:
            return None
        if not self._source.is_known:
            self._cautions.say(
                "no_current",
                f"Current, charge and gas need {' and '.join(self._source.missing)} in the bench file.",
            )
            return None
        if self._source.assumed:
            self._cautions.say(
                "supply_assumed", f"Assumed for the current: {'; '.join(self._source.assumed)}."
            )
        is_active = np.zeros(evidence.times_s.shape, dtype=np.bool_)
        for one in stretches:
            is_active[evidence.within(one.begin_s, np.nextafter(one.end_s, one.begin_s))] = True
        events = [one.time_s for one in self._recording.moments if one.kind in CHANGES_THE_CELL]
        try:
            return charge(
                evidence.times_s,
                self._currents_A(evidence),
                electrolysing=is_active,
                events_s=events,
                greatest_current_A=self._source.greatest_A,
            )
        except Refused as refusal:
            self._cautions.say("no_charge", f"The charge was not found. {refusal}.")
            return None

    def _tell_unknown_resistors(self, changes: tuple[tuple[float, float | None], ...]) -> None:
        for at_s, resistor_ohm in changes:
            if resistor_ohm is None and self._source.circuit is not None:
                self._cautions.say(
                    "resistor_unknown",
                    "The resistor was changed, but the label of that moment holds no ohms: the current is "
                    "not known from then on. Give the moment a label such as 4.7k.",
                    at_s,
                )

    def _currents_A(self, evidence: Evidence) -> NDArray[np.float64]:
        currents = self._source.series_A(evidence.magnitude_V)
        for at_s, resistor_ohm in resistor_changes(self._recording.moments):
            later = evidence.within(at_s, np.inf)
            currents[later] = self._source.with_resistor(resistor_ohm).series_A(evidence.magnitude_V[later])
        return currents
