"""One run from its recording to results: the same steps for the findings, the window and the report."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from logger.analysis.caution import Caution, Cautions
from logger.analysis.charge import Charge
from logger.analysis.chosen_windows import ChosenWindow
from logger.analysis.comparison import with_meter
from logger.analysis.evidence import Evidence, gather_evidence
from logger.analysis.foresight import Foresight
from logger.analysis.meter_accuracy import MeterAccuracy
from logger.analysis.one_sided import one_sided_noise
from logger.analysis.phase_window import (
    Unreadable,
    averaging_in_window,
    chosen_in_run,
    gap_in_phase,
    lead_lifts,
    part_of_phase,
    settled_in_phase,
)
from logger.analysis.phases import Phase
from logger.analysis.plateau_current import (
    current_named,
    resistor_changes,
    unknown_resistors,
)
from logger.analysis.plateau_meters import plateau_meters
from logger.analysis.plateau_step import step_in_phase
from logger.analysis.plateau_temperature import (
    plateau_temperature_C,
)
from logger.analysis.reading_faults import (
    few_readings,
    never_moved,
    not_in_volts,
    several_channels,
    time_stood_still,
)
from logger.analysis.refusal import Refused
from logger.analysis.resolution import are_multiples
from logger.analysis.run_charge import charge_of_run
from logger.analysis.run_conditions import run_conditions
from logger.analysis.run_current import CurrentSource, current_source, stated_current
from logger.analysis.run_growth import GROWTH_CELLS, RunGrowth, growth_of_run
from logger.analysis.run_plateau import Plateau
from logger.analysis.run_saving import saving_of_run
from logger.analysis.saving import VoltageSaved
from logger.analysis.settled import FINEST_CELLS, SettledWindow
from logger.analysis.thermodynamics import CellThermodynamics, cell_thermodynamics
from logger.analysis.uncertainty import Combined
from logger.bench import parse_bench
from logger.bench_defaults import bench_accuracy
from logger.bench_tables import Bench
from logger.errors import BenchError
from logger.progress import Progress
from logger.quantity import interval_words
from logger.recording import ChannelData, Recording

__all__ = ["RunAnalysis", "analyse_run"]

PLATEAU_SHARE = {"before": 0.81, "after": 0.91}
CHARGE_SHARE = (0.45, 0.8)
"""How far the work is, as measured on a run of 20 million readings."""


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


def analyse_run(
    recording: Recording,
    chosen: Mapping[str, ChosenWindow] | None = None,
    progress: Progress | None = None,
) -> RunAnalysis:
    """Analyse a recording, finished or still running. Never raises for what the data hold.

    Parameters
    ----------
    recording : Recording
    chosen : mapping, optional
        Windows that a person chose, for ``before`` and ``after``.
    progress : Progress, optional
        Is told how far the work is, and may stop it: `logger.progress.Cancelled` is raised then.

    Returns
    -------
    RunAnalysis
    """
    chosen, progress, channel = chosen or {}, progress or Progress(), recording.channel("cell_voltage")
    if channel is None:
        return _Analysis(recording, chosen, progress).run()
    foresight = Foresight(channel, recording.gaps)
    try:
        found = _Analysis(recording, chosen, progress).run()
        was_right = foresight.was_right()
    except BaseException:
        foresight.withdraw()
        raise
    return found if was_right else _Analysis(recording, chosen, progress.part(1.0, 1.0)).run()


class _Analysis:
    """The analysis of one recording in progress."""

    def __init__(self, recording: Recording, chosen: Mapping[str, ChosenWindow], progress: Progress) -> None:
        self._recording = recording
        self._chosen = chosen
        self._progress = progress
        self._cautions = Cautions()
        self._bench = self._read_bench()
        self._source = current_source(self._bench)
        self._conditions = run_conditions(self._bench)

    def run(self) -> RunAnalysis:
        self._say(stated_current(self._source))
        if self._conditions.assumed:
            self._cautions.say("conditions_assumed", _assumed_words(self._conditions.assumed))
        if self._conditions.refusal:
            self._cautions.say(
                "conditions_impossible",
                f"The temperature and the pressure of the bench file were not used: "
                f"{self._conditions.refusal}.",
            )
        standard = self._conditions.voltages
        channel = self._recording.channel("cell_voltage")
        if channel is None:
            self._cautions.say("no_cell_voltage", "The recording holds no channel with the cell voltage.")
        self._say(several_channels(self._recording))
        self._progress.reach(0.0)
        # Few readings have states, and so has a display that never moved; nothing else follows from them.
        is_idle = channel is not None and self._is_idle(channel)
        told = Cautions() if is_idle else self._cautions
        evidence = None if channel is None else self._gather(channel, standard, told)
        if evidence is not None and evidence.is_above_stack:
            self._source = self._source.without_stack()
        meter = self._meter(evidence)
        usable = None if is_idle else evidence
        passed, of_charge, charging = None, Cautions(), self._progress.part(*CHARGE_SHARE)
        if usable is not None:
            self._expect_averages(usable)
            passed = charge_of_run(self._recording, self._source, usable, of_charge, charging)
        self._progress.reach(CHARGE_SHARE[1])
        plateaus = {} if usable is None else self._plateaus(usable, meter)
        meters = {} if usable is None else self._meters(usable, plateaus, meter)
        plateaus = {
            name: replace(one, absolute=with_meter(one.window, meters[name]))
            for name, one in plateaus.items()
        }
        saved = saving_of_run(
            self._recording, self._bench, self._source, usable, plateaus, meters, self._cautions
        )
        self._cautions.extend(of_charge.all)
        if channel is not None and usable is not None:  # by now the file remembers its intervals
            self._say(time_stood_still(channel))
        grown = None if usable is None else self._growth(usable, plateaus)
        self._progress.reach(1.0)
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

    def _is_idle(self, channel: ChannelData) -> bool:
        """Tell whether the readings are too few, all alike, no volts, or all at one time; say so."""
        is_few = self._say(few_readings(channel))
        is_none = self._say(never_moved(channel)) or self._say(not_in_volts(channel))
        times = channel.times_s
        is_still = not is_few and times.size > 0 and times[0] == times[-1]
        if is_still:
            self._say(time_stood_still(channel))
        return is_few or is_none or bool(is_still)

    def _expect_averages(self, evidence: Evidence) -> None:
        """Have what the plateaus and the growth need averaged while the charge is added up."""
        changes_s = tuple(at_s for at_s, _ in resistor_changes(self._recording.moments))
        lifts_s = lead_lifts(self._recording.moments)
        parts = []
        for name in ("before", "after"):
            phase, by_hand = evidence.phases.named(name), self._chosen.get(name)
            if by_hand is not None:
                parts.append((evidence.within(by_hand.begin_s, by_hand.end_s), FINEST_CELLS))
            elif phase is not None:
                parts.append((part_of_phase(evidence, phase, changes_s, lifts_s), FINEST_CELLS))
        if (growth := evidence.phases.named("growth")) is not None:
            parts.append((evidence.within(growth.begin_s, growth.end_s), GROWTH_CELLS))
        for part, cells in parts:
            evidence.averages.expect(evidence.electrolysing(part), cells)

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
                "Record or import with a bench file.",
            )
            return Bench()
        try:
            return parse_bench(text)
        except BenchError as error:
            self._cautions.say("bench_unreadable", f"The bench file in the recording was not used: {error}.")
            return Bench()

    def _gather(self, channel: ChannelData, standard: CellThermodynamics, told: Cautions) -> Evidence | None:
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
            told,
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
        digit_V = max(given.resolution_V, seen_V)
        in_counts = evidence is not None and are_multiples(evidence.magnitude_V, digit_V)
        return replace(given, resolution_V=digit_V, in_whole_counts=in_counts)

    def _plateaus(self, evidence: Evidence, meter: MeterAccuracy) -> dict[str, Plateau]:
        plateaus: dict[str, Plateau] = {}
        changes = resistor_changes(self._recording.moments)
        self._cautions.extend(unknown_resistors(changes, self._source))
        for name in ("before", "after"):
            self._progress.reach(PLATEAU_SHARE[name])
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
                    lifts_s = lead_lifts(self._recording.moments)
                    window = settled_in_phase(evidence, phase, self._bench, changed_s, lifts_s)
                    part = part_of_phase(evidence, phase, changed_s, lifts_s)
                    self._say(step_in_phase(evidence, phase, part, self._recording.moments))
            except Refused as refusal:
                self._say(gap_in_phase(evidence, phase, phase.end_s))
                self._cautions.say(
                    f"no_settled_{name}", f"No settled voltage {name}: {refusal.explained}.", phase.end_s
                )
                if not isinstance(refusal, Unreadable):
                    self._tell_early_salt(evidence, name)
                continue
            absolute = with_meter(window, meter)
            self._say(gap_in_phase(evidence, phase, window.begin_s))
            self._tell_window(evidence, name, window, absolute)
            plateaus[name] = Plateau(
                window=window,
                absolute=absolute,
                current=current_named(
                    name, self._recording, self._source, window, absolute, meter, self._bench, self._cautions
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
        has_other_reason = self._cautions.has("salt_late") or self._cautions.has("gap_before")
        if name == "before" and growth is not None and not has_other_reason:
            self._cautions.say(
                "salt_too_early",
                "The salt went in before the voltage had settled, so what the bare electrodes need is not "
                "known well. Next time wait until the program says settled.",
                growth.begin_s,
            )

    def _meters(
        self, evidence: Evidence, plateaus: Mapping[str, Plateau], meter: MeterAccuracy
    ) -> dict[str, MeterAccuracy]:
        channel = self._recording.channel("cell_voltage")
        if channel is None:
            return dict.fromkeys(plateaus, meter)
        windows = {name: one.window for name, one in plateaus.items()}
        stated = bench_accuracy(self._bench.meter).accuracy
        return plateau_meters(channel, evidence, windows, stated, meter, self._cautions)

    def _thermodynamics(
        self, plateaus: Mapping[str, Plateau], standard: CellThermodynamics
    ) -> CellThermodynamics:
        measured = [one.temperature_C for one in plateaus.values() if one.temperature_C is not None]
        if not measured:
            return standard
        try:
            return cell_thermodynamics(float(np.mean(measured)), standard.pressure_Pa)
        except Refused as refusal:
            self._cautions.say(
                "temperature_not_used", f"The measured temperature was not used: {refusal.explained}."
            )
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
            self._cautions.say(
                "no_growth_fit", f"The growth was not fitted: {refusal.explained}.", phase.begin_s
            )
            return None


def _assumed_words(assumed: Sequence[str]) -> str:
    """Return what was assumed of temperature and pressure; each case is one wording, to be translated."""
    first = assumed[0]
    if len(assumed) == 1:
        return f"Assumed: {first}. Give temperature_C and pressure_kPa in the bench file."
    second = assumed[1]
    return f"Assumed: {first} and {second}. Give temperature_C and pressure_kPa in the bench file."
