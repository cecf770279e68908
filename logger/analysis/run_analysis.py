"""One run from its recording to results: the same steps for the findings, the window and the report."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from logger.analysis.allan import AveragingAdvice
from logger.analysis.caution import Caution, Cautions
from logger.analysis.charge import Charge, charge_of_pieces, gap_limit_s
from logger.analysis.chosen_windows import ChosenWindow
from logger.analysis.comparison import compare, with_meter
from logger.analysis.current import Current
from logger.analysis.evidence import Evidence, gather_evidence
from logger.analysis.meter_accuracy import MeterAccuracy
from logger.analysis.one_sided import one_sided_noise
from logger.analysis.phase_window import averaging_in_window, chosen_in_run, settled_in_phase
from logger.analysis.phases import Phase, electrolysing_stretches
from logger.analysis.plateau_current import plateau_current, resistor_changes
from logger.analysis.plateau_temperature import plateau_temperature_C, temperature_difference
from logger.analysis.reading_faults import meter_changed, never_moved, several_channels
from logger.analysis.readings import slices_of
from logger.analysis.refusal import Refused
from logger.analysis.run_conditions import run_conditions
from logger.analysis.run_current import CurrentSource, current_source
from logger.analysis.run_growth import RunGrowth, growth_of_run
from logger.analysis.saving import VoltageSaved
from logger.analysis.settled import SettledWindow
from logger.analysis.states import STEPS_LOOKED_AT, StateInterval
from logger.analysis.thermodynamics import CellThermodynamics, cell_thermodynamics
from logger.analysis.uncertainty import Combined
from logger.bench import parse_bench
from logger.bench_defaults import bench_accuracy, bench_kinetics
from logger.bench_tables import Bench
from logger.errors import BenchError
from logger.quantity import interval_words
from logger.recording import ChannelData, Recording

__all__ = ["Plateau", "RunAnalysis", "analyse_run"]

CHANGES_THE_CELL = (
    "electrodes_out", "electrodes_in", "solution_swapped", "resistor_changed", "lead_lifted", "lead_back",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Plateau:
    """The settled end of a phase: its window, its absolute uncertainty, its current and temperature.

    `current` and `temperature_C` are None where they are not known or were not measured; `chosen_by_hand`
    tells that a person chose the window; `averaging` how long its readings are worth averaging, where it is
    long enough to tell.
    """

    window: SettledWindow
    absolute: Combined
    current: Current | None
    temperature_C: float | None
    chosen_by_hand: bool = False
    averaging: AveragingAdvice | None = None


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

    @property
    def averaging_words(self) -> dict[str, str]:
        """How long to average, in words, by the name of the plateau."""
        return {name: one.averaging.words for name, one in self.plateaus.items() if one.averaging is not None}


def analyse_run(recording: Recording, chosen: Mapping[str, ChosenWindow] | None = None) -> RunAnalysis:
    """Analyse a recording, finished or still running. Never raises for what the data hold.

    Parameters
    ----------
    recording : Recording
    chosen : mapping, optional
        Windows that a person chose, for ``before`` and ``after``.

    Returns
    -------
    RunAnalysis
    """
    return _Analysis(recording, chosen or {}).run()


class _Analysis:
    """The analysis of one recording in progress."""

    def __init__(self, recording: Recording, chosen: Mapping[str, ChosenWindow]) -> None:
        self._recording = recording
        self._chosen = chosen
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
        self._say(several_channels(self._recording))
        evidence = None if channel is None else self._gather(channel, standard)
        meter = self._meter(evidence)
        # A display that never moved has states, but nothing else follows from it.
        is_stuck = channel is not None and self._say(never_moved(channel))
        usable = None if is_stuck else evidence
        plateaus = {} if usable is None else self._plateaus(usable, meter)
        saved = self._saved(plateaus, meter)
        passed = None if usable is None else self._charge(usable)
        grown = None if usable is None else self._growth(usable, plateaus)
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

    def _say(self, caution: Caution | None) -> bool:
        """Take a caution, if there is one; tell whether there was."""
        if caution is not None:
            self._cautions.extend((caution,))
        return caution is not None

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
            phase, by_hand = evidence.phases.named(name), self._chosen.get(name)
            if phase is None and by_hand is not None:
                phase = Phase(name, by_hand.begin_s, by_hand.end_s)
            if phase is None:
                continue
            try:
                if by_hand is not None:
                    window = chosen_in_run(evidence, by_hand, self._bench)
                    self._tell_chosen(name, window)
                else:
                    changed_s = tuple(at_s for at_s, _ in changes)
                    window = settled_in_phase(evidence, phase, self._bench, changed_s)
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
                chosen_by_hand=by_hand is not None,
                averaging=averaging_in_window(evidence, window),
            )
        return plateaus

    def _tell_chosen(self, name: str, window: SettledWindow) -> None:
        self._cautions.say(
            f"window_chosen_{name}",
            f"The window {name} was chosen by hand, not found by the program; say so with the result.",
            window.begin_s,
        )

    def _tell_window(self, evidence: Evidence, name: str, window: SettledWindow, absolute: Combined) -> None:
        if not window.is_settled:
            low_mV, high_mV = (60e3 * end for end in window.drift.interval())
            self._cautions.say(
                f"not_settled_{name}",
                f"The voltage {name} had not settled: its drift lies {interval_words(low_mV, high_mV)} "
                f"mV/min, the limit is {self._bench.settling.limit_mV_per_min:g}. Wait longer next time.",
                window.end_s,
            )
            self._tell_early_salt(evidence, name)
        self._say(one_sided_noise(evidence, name, window))

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
        channel = self._recording.channel("cell_voltage")
        if before is None or after is None or channel is None:
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
                same_meter=not self._say(meter_changed(channel, before.window, after.window)),
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
        events = [one.time_s for one in self._recording.moments if one.kind in CHANGES_THE_CELL]
        try:
            return charge_of_pieces(
                self._currents(evidence, stretches),
                gap_limit_s=gap_limit_s(np.diff(evidence.times_s[:STEPS_LOOKED_AT])),
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

    def _currents(
        self, evidence: Evidence, stretches: tuple[StateInterval, ...]
    ) -> Iterator[tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.bool_]]]:
        """Yield times, currents and which readings electrolyse, a piece at a time."""
        # A stretch ends with the first reading of the next state.
        active = [evidence.within(one.begin_s, np.nextafter(one.end_s, one.begin_s)) for one in stretches]
        changes = [
            (evidence.within(at_s, np.inf).start, self._source.with_resistor(ohm))
            for at_s, ohm in resistor_changes(self._recording.moments)
        ]
        for piece in slices_of(0, evidence.times_s.size):
            magnitudes = evidence.magnitude_V[piece]
            currents = self._source.series_A(magnitudes)
            for first, source in changes:
                later = slice(max(first - piece.start, 0), None)
                currents[later] = source.series_A(magnitudes[later])
            is_active = np.zeros(magnitudes.size, dtype=np.bool_)
            for one in active:
                is_active[max(one.start - piece.start, 0) : max(one.stop - piece.start, 0)] = True
            yield evidence.times_s[piece], currents, is_active
