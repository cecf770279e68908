"""The live assessment as something to show: plain values, frozen."""

from __future__ import annotations

import math
from dataclasses import dataclass

from logger.analysis.caution import Caution
from logger.analysis.comparison import from_readings
from logger.analysis.gas import gas_volumes
from logger.analysis.phases import Phase
from logger.analysis.refusal import Refused
from logger.analysis.settled import SettledWindow
from logger.analysis.thermodynamics import voltage_efficiency
from logger.assessment_text import live_cautions, sentence
from logger.live_run import LiveRun
from logger.settling_watch import NOT_SPLITTING, Verdict, VerdictWord

__all__ = ["AssessmentView", "LivePlateau", "LiveSaving", "look_at"]

REVERSED_READINGS = 3
INDUCTION_S = 600.0
"""How long after the salt a steady voltage is not yet called grown (common practice, no source)."""

V_PER_S_IN_MV_PER_MIN = 60e3

NO_SUPPLY = "no supply on the bench"
NO_OHMS = "ohms not given"


@dataclass(frozen=True, slots=True)
class LivePlateau:
    """A settled voltage in volts, with its standard uncertainty from the readings alone (no meter)."""

    voltage_V: float
    standard_uncertainty_V: float
    begin_s: float
    end_s: float
    is_settled: bool


@dataclass(frozen=True, slots=True)
class LiveSaving:
    """The voltage saved so far, in volts.

    `expanded_uncertainty_V` is the half-width of the 95 % interval of `value_V`. `at_equal_current_V` is
    None where the currents are not known. `effect` is ``saved``, ``lost`` or ``none_shown``;
    `is_provisional` until both voltages have settled.
    """

    value_V: float
    expanded_uncertainty_V: float
    at_equal_current_V: float | None
    effect: str
    is_provisional: bool


@dataclass(frozen=True, slots=True)
class AssessmentView:
    """What the run shows at one moment. Times in run seconds; None where nothing can be said.

    Attributes
    ----------
    now_s, voltage_V, reading_age_s : the moment, the last reading as the meter showed it (sign kept;
        infinite in overload), and how old it is.
    state, state_since_s : as in the findings, and since when.
    sentence : what is going on, in one sentence.
    drift_mV_per_min, drift_interval90_mV_per_min, drift_window_s, limit_mV_per_min : the present drift.
    verdict, verdict_reason, seconds_needed : ``settled``, ``not_yet`` or ``cannot_tell``, why, and about
        how much longer it takes.
    phase, phases : the present phase (None between phases), and all so far.
    before : the settled voltage before the catalyst, once that phase is over.
    after : the settled voltage in fresh buffer, as long as it is settled.
    saved : the voltage saved so far.
    current_A, current_change_percent : at the last reading, and its change since the voltage before.
    charge_C, hydrogen_mL, gas_conditions : so far, with the words that belong to the volume.
    efficiency, efficiency_label : voltage efficiency as a fraction, and its numerator in words.
    cautions : warnings of the moment, the most urgent first.
    current_missing : what is not known that the current would need, in few words; empty where it is known,
        and where the cell does not electrolyse.
    """

    now_s: float
    voltage_V: float | None
    reading_age_s: float | None
    state: str
    state_since_s: float | None
    sentence: str
    drift_mV_per_min: float | None
    drift_interval90_mV_per_min: tuple[float, float] | None
    drift_window_s: float | None
    limit_mV_per_min: float
    verdict: VerdictWord
    verdict_reason: str
    seconds_needed: float | None
    phase: str | None
    phases: tuple[Phase, ...]
    before: LivePlateau | None
    after: LivePlateau | None
    saved: LiveSaving | None
    current_A: float | None
    current_change_percent: float | None
    charge_C: float | None
    hydrogen_mL: float | None
    gas_conditions: str
    efficiency: float | None
    efficiency_label: str
    cautions: tuple[Caution, ...]
    current_missing: str = ""


def look_at(run: LiveRun, now_s: float) -> AssessmentView:
    """Put together what `run` knows, as of run time `now_s`."""
    age_s = None if run.last is None else max(0.0, float(now_s) - run.last[0])
    silent_s = age_s if age_s is not None and age_s > run.silent_after_s else None
    # Looks are seconds apart: what the last one said of a stretch that has ended since is not the present.
    is_followed = run.states.state == "electrolysing" and run.watch.is_looking
    drift = run.watch.drift if is_followed else None
    interval = None if drift is None else _in_mV_per_min(drift.drift.interval())
    phase = _present_phase(run)
    verdict = _verdict(run, phase, silent_s)
    current_A, change_percent = _current(run)
    hydrogen_mL, gas_conditions = _hydrogen(run)
    efficiency, efficiency_label = _efficiency(run)
    return AssessmentView(
        now_s=float(now_s),
        voltage_V=None if run.last is None else run.last[1],
        reading_age_s=age_s,
        state=run.states.state,
        state_since_s=run.states.since_s,
        sentence=sentence(
            None if run.last is None else run.states.state if silent_s is None else "silent",
            phase,
            verdict.word,
            is_falling=interval is not None and interval[1] < 0.0,
            has_electrolysed=any(one.state == "electrolysing" for one in run.states.intervals),
        ),
        drift_mV_per_min=None if drift is None else V_PER_S_IN_MV_PER_MIN * drift.drift.slope,
        drift_interval90_mV_per_min=interval,
        drift_window_s=None if drift is None else drift.window_s,
        limit_mV_per_min=run.bench.settling.limit_mV_per_min,
        verdict=verdict.word,
        verdict_reason=verdict.reason,
        seconds_needed=verdict.seconds_needed,
        phase=phase,
        phases=run.phases.phases,
        before=_plateau(run.before),
        after=_plateau(run.after),
        saved=_saved(run),
        current_A=current_A,
        current_change_percent=change_percent,
        charge_C=run.charge_C,
        hydrogen_mL=hydrogen_mL,
        gas_conditions=gas_conditions,
        efficiency=efficiency,
        efficiency_label=efficiency_label,
        cautions=live_cautions(
            run.states.state,
            silent_s=silent_s,
            is_overload=run.last is not None and math.isinf(run.last[1]),
            is_reversed=run.negative_in_a_row >= REVERSED_READINGS,
            is_meter_changed=run.is_meter_changed,
            since_s=run.states.since_s,
        ),
        current_missing=_current_missing(run),
    )


def _in_mV_per_min(interval: tuple[float, float]) -> tuple[float, float]:
    return V_PER_S_IN_MV_PER_MIN * interval[0], V_PER_S_IN_MV_PER_MIN * interval[1]


def _present_phase(run: LiveRun) -> str | None:
    """Return the phase of the last reading; phases are made at looks, so the last one may lag behind."""
    if run.last is None or not run.phases.phases:
        return None
    latest = run.phases.phases[-1]
    if latest.phase == "dry":
        return "dry" if run.states.state == "open" else None
    return latest.phase if run.states.state == "electrolysing" and run.last[0] >= latest.begin_s else None


def _verdict(run: LiveRun, phase: str | None, silent_s: float | None) -> Verdict:
    """Return the verdict of the settling rule, unless there is more to know than the drift."""
    if silent_s is not None:
        return Verdict("cannot_tell", "No readings come from the meter.")
    if run.last is not None and run.states.state != "electrolysing":
        return Verdict("cannot_tell", NOT_SPLITTING)
    if run.last is not None and not run.watch.is_looking:
        since_s = run.last[0] if run.states.since_s is None else run.states.since_s
        return run.watch.begun(run.last[0] - since_s)
    found = run.watch.verdict
    if found.word == "settled" and phase == "growth" and run.last is not None:
        left_s = INDUCTION_S - (run.last[0] - run.phases.phases[-1].begin_s)
        if left_s > 0.0:
            return Verdict("not_yet", "A catalyst may need minutes before it shows.", left_s)
    return found


def _plateau(window: SettledWindow | None) -> LivePlateau | None:
    if window is None:
        return None
    own = from_readings(window)
    return LivePlateau(
        window.voltage_V, own.standard_uncertainty, window.begin_s, window.end_s, window.is_settled
    )


def _saved(run: LiveRun) -> LiveSaving | None:
    saved = run.saved
    if saved is None:
        return None
    return LiveSaving(
        value_V=saved.raw.value_V,
        expanded_uncertainty_V=saved.raw.expanded_uncertainty_V,
        at_equal_current_V=None if saved.at_equal_current is None else saved.at_equal_current.value_V,
        effect=saved.effect,
        is_provisional=saved.is_provisional,
    )


def _current(run: LiveRun) -> tuple[float | None, float | None]:
    if run.last is None or run.states.state != "electrolysing" or not math.isfinite(run.last[1]):
        return None, None
    try:
        present = run.source_at(run.last[0]).at(abs(run.last[1]))
        first = None if run.before is None else run.source_at(run.before.begin_s).at(run.before.voltage_V)
    except Refused:
        return None, None
    if present is None:
        return None, None
    if first is None:
        return present.value_A, None
    return present.value_A, 100.0 * (present.value_A / first.value_A - 1.0)


def _current_missing(run: LiveRun) -> str:
    if run.last is None or run.states.state != "electrolysing":
        return ""
    if not run.source.is_known:
        return NO_SUPPLY
    return "" if run.source_at(run.last[0]).is_known else NO_OHMS


def _hydrogen(run: LiveRun) -> tuple[float | None, str]:
    if run.charge_C is None or run.charge_C < 0.0:
        return None, ""
    found = gas_volumes(run.charge_C, run.conditions.temperature_C, run.conditions.pressure_Pa)
    return found.hydrogen_mL, found.conditions


def _efficiency(run: LiveRun) -> tuple[float | None, str]:
    numerator_V = run.conditions.thermoneutral_voltage_V
    label = f"{numerator_V:.3f} V (higher heating value) over the cell voltage"
    if run.last is None or run.states.state != "electrolysing" or not math.isfinite(run.last[1]):
        return None, label
    try:
        return voltage_efficiency(abs(run.last[1]), run.conditions).higher_heating, label
    except Refused:
        return None, label
