"""The findings document: what a run shows, as plain data in the form that other programs rely on."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import numpy as np

from logger.analysis.caution import Caution
from logger.analysis.chosen_windows import ChosenWindow, chosen_windows
from logger.analysis.comparison import budget_lines
from logger.analysis.current import current_density_mA_cm2
from logger.analysis.damage import cautions_of_damage
from logger.analysis.gas import gas_amounts, gas_volumes
from logger.analysis.refusal import Refused
from logger.analysis.resistor_steps import tafel_of
from logger.analysis.run_analysis import RunAnalysis, analyse_run
from logger.analysis.run_faradaic import faradaic_of
from logger.analysis.run_interrupt import interrupts_of
from logger.analysis.run_plateau import Plateau
from logger.analysis.thermodynamics import energy_kWh_per_kg_hydrogen, voltage_efficiency
from logger.progress import Progress
from logger.recording import Recording
from logger.version import PROGRAM, VERSION

__all__ = ["document", "findings", "json_safe"]

V_PER_S_IN_MV_PER_MIN = 60e3


def findings(
    recording: Recording,
    chosen: Mapping[str, ChosenWindow] | None = None,
    progress: Progress | None = None,
) -> dict[str, Any]:
    """Analyse a recording and return its findings.

    Parameters
    ----------
    recording : Recording
        Finished, still running, or cut off.
    chosen : mapping, optional
        Windows that a person chose, for ``before`` and ``after``; by default those that the findings kept in
        the recording say were chosen. An empty mapping takes the choice back.
    progress : Progress, optional
        Is told how far the work is, and may stop it: `logger.progress.Cancelled` is raised then.

    Returns
    -------
    dict
        The keys are all there in every case. What the data do not support is None, and a warning says why
        and what would supply it. Only plain JSON types, and no number that is not finite.
    """
    if chosen is None:
        chosen = chosen_windows(recording.findings_json)
    return document(recording, analyse_run(recording, chosen, progress))


def document(recording: Recording, analysis: RunAnalysis) -> dict[str, Any]:
    """Lay an analysis out as a findings document; see `findings`."""
    tafel = tafel_of(recording, analysis.bench, evidence=analysis.evidence)
    faradaic, interrupts = faradaic_of(recording, analysis), interrupts_of(recording, analysis)
    laid_out: dict[str, Any] = {
        "file": str(recording.path),
        "program": PROGRAM,
        "version": VERSION,
        "run": _run(recording),
        "states": _spans("state", () if analysis.evidence is None else analysis.evidence.states),
        "phases": _spans("phase", () if analysis.evidence is None else analysis.evidence.phases.phases),
        "settled": {name: _settled(analysis.plateaus.get(name)) for name in ("before", "after")},
        "voltage_saved": _saved(analysis),
        "current": _current(analysis),
        "thermodynamics": _thermodynamics(analysis),
        "efficiency": _efficiency(analysis),
        "growth": _growth(analysis),
        "charge_C": _charge(analysis),
        "gas": _gas(analysis),
        "tafel": tafel.document,
        "warnings": [
            {"code": one.code, "message": one.message, "at_s": one.at_s}
            for one in (
                *cautions_of_damage(recording),
                *_cautions_of_start(recording),
                *analysis.cautions,
                *tafel.cautions,
                *faradaic.cautions,
                *interrupts.cautions,
            )
        ],
    }
    # Beyond the fixed keys, and only where somebody measured them.
    if faradaic.document is not None:
        laid_out["faradaic_efficiency"] = faradaic.document
    if interrupts.document is not None:
        laid_out["current_interrupt"] = interrupts.document
    safe: dict[str, Any] = json_safe(laid_out)
    return safe


def json_safe(value: Any) -> Any:
    """Return `value` with plain Python types only; a number that is not finite becomes None."""
    if isinstance(value, dict):
        return {str(key): json_safe(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [json_safe(one) for one in value]
    if isinstance(value, np.ndarray):
        return json_safe(value.tolist())
    if isinstance(value, np.generic):
        return json_safe(value.item())
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value


def _cautions_of_start(recording: Recording) -> tuple[Caution, ...]:
    if recording.has_known_start:
        return ()
    message = (
        "When the run began is not known: the readings come from a text file. Import them with the data "
        "package that was exported with them, which tells it."
    )
    return (Caution("start_not_known", message),)


def _run(recording: Recording) -> dict[str, Any]:
    channel = recording.channel("cell_voltage")
    return {
        "title": recording.title,
        "start_time": recording.start_time if recording.has_known_start else None,
        "duration_s": recording.duration_s,
        "samples": 0 if channel is None else channel.times_s.size,
        "gaps": [
            {"begin_s": one.begin_s, "end_s": one.end_s, "channel": one.channel, "reason": one.reason}
            for one in recording.gaps
        ],
    }


def _spans(kind: str, spans: tuple[Any, ...]) -> list[dict[str, Any]]:
    return [{kind: getattr(one, kind), "begin_s": one.begin_s, "end_s": one.end_s} for one in spans]


def _settled(plateau: Plateau | None) -> dict[str, Any] | None:
    if plateau is None:
        return None
    window = plateau.window
    by_hand = {"chosen_by_hand": True} if plateau.chosen_by_hand else {}
    return {
        "voltage_V": window.voltage_V,
        "standard_uncertainty_V": plateau.absolute.standard_uncertainty,
        "window_begin_s": window.begin_s,
        "window_end_s": window.end_s,
        "median_V": window.median_V,
        "drift_mV_per_min": V_PER_S_IN_MV_PER_MIN * window.drift.slope,
        "drift_interval90_mV_per_min": [V_PER_S_IN_MV_PER_MIN * end for end in window.drift.interval()],
        "effective_samples": window.effective_samples,
        "is_settled": window.is_settled,
        **by_hand,
    }


def _saved(analysis: RunAnalysis) -> dict[str, Any] | None:
    saved = analysis.saved
    if saved is None:
        return None
    equal = saved.at_equal_current
    lines = budget_lines(saved)
    return {
        "value_V": saved.raw.value_V,
        "standard_uncertainty_V": saved.raw.standard_uncertainty_V,
        "coverage_factor": saved.raw.combined.coverage_factor,
        "interval95_V": saved.raw.interval95_V,
        "at_equal_current_V": None if equal is None else equal.value_V,
        "at_equal_current_standard_uncertainty_V": None if equal is None else equal.standard_uncertainty_V,
        "at_equal_current_interval95_V": None if equal is None else equal.interval95_V,
        "budget": [
            {
                "source": one.source,
                "type": one.evaluation,
                "standard_uncertainty_V": one.standard_uncertainty_V,
            }
            for one in lines
        ],
    }


def _current(analysis: RunAnalysis) -> dict[str, Any] | None:
    found = {name: one.current for name, one in analysis.plateaus.items() if one.current is not None}
    if not found:
        return None
    before, after = found.get("before"), found.get("after")
    area_cm2 = analysis.bench.cell.anode_area_cm2
    change_percent = density = None
    if before is not None and after is not None:
        change_percent = 100.0 * (after.value_A / before.value_A - 1.0)
    if before is not None and area_cm2 is not None:
        density = current_density_mA_cm2(before.value_A, area_cm2)
    return {
        "before_A": None if before is None else before.value_A,
        "after_A": None if after is None else after.value_A,
        # A current that the supply is said to hold has none that is known.
        "standard_uncertainty_A": max(one.standard_uncertainty_A for one in found.values()) or None,
        "change_percent": change_percent,
        "density_before_mA_cm2": density,
    }


def _thermodynamics(analysis: RunAnalysis) -> dict[str, Any]:
    voltages = analysis.thermodynamics
    return {
        "temperature_C": voltages.temperature_C,
        "pressure_kPa": voltages.pressure_Pa / 1000.0,
        "reversible_voltage_V": voltages.reversible_voltage_V,
        "thermoneutral_voltage_V": voltages.thermoneutral_voltage_V,
        "lower_heating_voltage_V": voltages.lower_heating_voltage_V,
    }


def _efficiency(analysis: RunAnalysis) -> dict[str, Any] | None:
    if not analysis.plateaus:
        return None
    result: dict[str, Any] = {"before": None, "after": None}
    energy: dict[str, float | None] = {"before": None, "after": None}
    for name, plateau in analysis.plateaus.items():
        try:
            found = voltage_efficiency(plateau.window.voltage_V, analysis.thermodynamics)
        except Refused:
            continue
        result[name] = {
            "reversible": found.reversible,
            "higher_heating": found.higher_heating,
            "lower_heating": found.lower_heating,
        }
        energy[name] = energy_kWh_per_kg_hydrogen(plateau.window.voltage_V)
    return {**result, "energy_kWh_per_kg_hydrogen": energy}


def _growth(analysis: RunAnalysis) -> dict[str, Any] | None:
    grown = analysis.growth
    if grown is None:
        return None
    return {
        "model": grown.fit.model.name,
        "time_constant_s": grown.time_constant_s,
        "settling_voltage_V": grown.settling_voltage_V,
        "parameters": grown.fit.parameters,
        # Those of a fit that does not describe the curve say nothing.
        "standard_uncertainties": None if grown.is_poor else dict(grown.standard_uncertainties),
        "aicc": dict(grown.aicc),
        "lack_of_fit": grown.lack_of_fit,
    }


def _charge(analysis: RunAnalysis) -> dict[str, Any] | None:
    passed = analysis.charge
    if passed is None:
        return None
    return {"low": passed.low_C, "best": passed.best_C, "high": passed.high_C}


def _gas(analysis: RunAnalysis) -> dict[str, Any] | None:
    passed = analysis.charge
    if passed is None or passed.best_C < 0.0:
        return None
    conditions = analysis.thermodynamics
    amounts = gas_amounts(passed.best_C)
    volumes = gas_volumes(passed.best_C, conditions.temperature_C, conditions.pressure_Pa)
    return {
        "hydrogen_mol": amounts.hydrogen_mol,
        "hydrogen_mL": volumes.hydrogen_mL,
        "oxygen_mol": amounts.oxygen_mol,
        "oxygen_mL": volumes.oxygen_mL,
        "conditions": volumes.conditions,
    }
