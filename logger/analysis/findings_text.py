"""The findings as text for people: what, how much, how sure, and what to do."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from logger.cautions import DEFERENCE, IN_SHORT
from logger.quantity import human_conditions, interval_words, plain, significant, with_uncertainty
from logger.remarks import worth_saying
from logger.touching import touching_count, touching_times

__all__ = ["findings_text"]

CAUTION_LINE = f"Cautions: {IN_SHORT} {DEFERENCE}"


def findings_text(document: dict[str, Any], averaging: Mapping[str, str] | None = None) -> str:
    """Return a findings document (see `logger.analysis.findings`) as text of several lines.

    Parameters
    ----------
    document : dict
    averaging : mapping, optional
        How long to average, in words, for ``before`` and ``after``; the document holds no such thing.
    """
    parts = [
        _headline(document),
        _saved_lines(document),
        _plateau_lines(document, averaging or {}),
        _current_lines(document),
        _measured_lines(document),
        _growth_lines(document),
        _course_lines(document),
        _warning_lines(document),
        [CAUTION_LINE],
    ]
    return "\n\n".join("\n".join(lines) for lines in parts if lines)


def _time(seconds: float | None) -> str:
    if seconds is None:
        return ""
    whole = round(seconds)
    hours, rest = divmod(whole, 3600)
    return f"{hours}:{rest // 60:02d}:{rest % 60:02d}" if hours else f"{rest // 60}:{rest % 60:02d}"


def _headline(document: dict[str, Any]) -> list[str]:
    run = document["run"]
    lines = [document["file"]]
    if run["title"]:
        lines.append(run["title"])
    count = "1 reading" if run["samples"] == 1 else f"{run['samples']} readings"
    lines.append(f"{run['start_time'] or 'Start not known'}, {_time(run['duration_s'])} long, {count}")
    if run["gaps"]:
        missing_s = sum(gap["end_s"] - gap["begin_s"] for gap in run["gaps"])
        gaps = "1 gap of" if len(run["gaps"]) == 1 else f"{len(run['gaps'])} gaps, together"
        lines.append(f"{gaps} {missing_s:.0f} s")
    return lines


def _saved_lines(document: dict[str, Any]) -> list[str]:
    saved = document["voltage_saved"]
    if saved is None:
        return ["Voltage saved: not known (see below)."]
    codes = {one["code"] for one in document["warnings"]}
    low, high = saved["interval95_V"]
    shown = with_uncertainty(1000.0 * saved["value_V"], 1000.0 * (high - low) / 2.0, "mV")
    word = "provisional" if "provisional" in codes else "95 % sure to lie within"
    lines = [f"Voltage saved: {shown} ({word})"]
    if "no_effect_shown" in codes:
        lines.append("  No effect is shown: the change is no larger than its uncertainty.")
    if saved["at_equal_current_V"] is not None:
        low, high = saved["at_equal_current_interval95_V"]
        equal = with_uncertainty(1000.0 * saved["at_equal_current_V"], 1000.0 * (high - low) / 2.0, "mV")
        lines.append(f"  at the current of the first voltage: {equal}")
    largest = sorted(saved["budget"], key=lambda one: -one["standard_uncertainty_V"])[:3]
    named = ", ".join(
        f"{one['source']} {significant(1000 * one['standard_uncertainty_V'], 2, 'mV')}" for one in largest
    )
    lines.append(f"  mostly uncertain by: {named} (standard uncertainties)")
    return lines


def _plateau_lines(document: dict[str, Any], averaging: Mapping[str, str]) -> list[str]:
    lines = []
    for name in ("before", "after"):
        found = document["settled"][name]
        if found is None:
            lines.append(f"Settled voltage {name}: not known")
            continue
        word = "settled" if found["is_settled"] else "NOT settled"
        if found.get("chosen_by_hand"):
            word += ", window chosen by hand"
        low, high = found["drift_interval90_mV_per_min"]
        length_s = found["window_end_s"] - found["window_begin_s"]
        shown = with_uncertainty(found["voltage_V"], 2.0 * found["standard_uncertainty_V"], "V")
        lines.append(
            f"Settled voltage {name}: {shown} ({word}; {length_s:.0f} s up to "
            f"{_time(found['window_end_s'])}, drift {interval_words(low, high)} mV/min)"
        )
        if name in averaging:
            lines.append(f"  how long to average: {averaging[name]}")
        lines += _efficiency_line(document, name)
    if lines and any(document["settled"].values()):
        codes = {one["code"] for one in document["warnings"]}
        meter = "not fully known" if "meter_unknown" in codes else "included"
        lines.append(f"  ± is twice the standard uncertainty, the meter's own accuracy {meter}.")
    return lines


def _efficiency_line(document: dict[str, Any], name: str) -> list[str]:
    efficiency = document["efficiency"]
    found = None if efficiency is None else efficiency[name]
    if found is None:
        return []
    energy = efficiency["energy_kWh_per_kg_hydrogen"][name]
    level = document["settled"][name]
    share = 2.0 * level["standard_uncertainty_V"] / level["voltage_V"]

    def percent(convention: str) -> str:
        return with_uncertainty(100 * found[convention], 100 * share * found[convention], "%")

    return [
        f"  voltage efficiency {percent('higher_heating')} (thermoneutral voltage), "
        f"{percent('lower_heating')} (lower heating value), {percent('reversible')} (reversible voltage); "
        f"at least {with_uncertainty(energy, share * energy, 'kWh')} per kg hydrogen"
    ]


def _current_lines(document: dict[str, Any]) -> list[str]:
    lines = []
    current = document["current"]
    if current is not None and current["before_A"] is not None:
        half_mA = 2000.0 * (current["standard_uncertainty_A"] or 0.0)
        line = f"Current before: {with_uncertainty(1000.0 * current['before_A'], half_mA, 'mA')}"
        if current["density_before_mA_cm2"] is not None:
            line += f", {significant(current['density_before_mA_cm2'], 3, 'mA/cm²')}"
        if current["change_percent"] is not None:
            line += f"; {plain(current['change_percent'], 2)} % change to after"
        lines.append(line)
    passed, gas = document["charge_C"], document["gas"]
    if passed is not None:
        line = f"Charge: {_sharing(passed['best'], current, 'C')}"
        if passed["high"] is None or passed["high"] - passed["low"] > 0.005 * max(passed["best"], 1e-12):
            high = "unknown" if passed["high"] is None else f"{passed['high']:.4g}"
            line += f" (between {passed['low']:.4g} and {high} C, for the gaps)"
        lines.append(line)
    if gas is not None:
        lines.append(
            f"Gas at most: {_sharing(gas['hydrogen_mL'], current, 'mL')} hydrogen, "
            f"{_sharing(gas['oxygen_mL'], current, 'mL')} oxygen "
            f"({human_conditions(gas['conditions'])})"
        )
    conditions = document["thermodynamics"]
    if conditions is not None:
        lines.append(
            f"At {conditions['temperature_C']:g} °C and {conditions['pressure_kPa']:g} kPa: "
            f"reversible voltage {conditions['reversible_voltage_V']:.4f} V, thermoneutral "
            f"{conditions['thermoneutral_voltage_V']:.4f} V"
        )
    return lines


def _sharing(value: float, current: dict[str, Any] | None, unit: str) -> str:
    """Return a quantity that follows from the current, with the current's relative uncertainty (k = 2)."""
    known_A = None if current is None else current["before_A"] or current["after_A"]
    if current is None or not known_A:
        return significant(value, 2, unit)
    if current["standard_uncertainty_A"] is None:
        return significant(value, 3, unit)
    share = 2.0 * current["standard_uncertainty_A"] / known_A
    return with_uncertainty(value, share * value, unit)


def _measured_lines(document: dict[str, Any]) -> list[str]:
    """Say what somebody measured beside the voltage: gas that was collected, a lead that was lifted."""
    lines = []
    for gas, found in (document.get("faradaic_efficiency") or {}).items():
        half = 200.0 * found["standard_uncertainty"]
        lines.append(
            f"Faradaic efficiency: {with_uncertainty(100.0 * found['value'], half, '%')} ({gas}: "
            f"{significant(found['volume_mL'], 3, 'mL')} {human_conditions(found['conditions'])}, for "
            f"{significant(found['charge_C'], 3, 'C')} from {_time(found['begin_s'])} to "
            f"{_time(found['end_s'])})"
        )
    lines += _real_energy_line(document)
    for one in document.get("current_interrupt") or ():
        ohm = with_uncertainty(one["resistance_ohm"], 2.0 * one["resistance_standard_uncertainty_ohm"], "Ω")
        drop = with_uncertainty(1000.0 * one["ohmic_drop_V"], 2000.0 * one["standard_uncertainty_V"], "mV")
        lines.append(
            f"Ohmic drop when the lead was lifted at {_time(one['opened_at_s'])}: {drop}, which is {ohm} at "
            f"{significant(1000.0 * one['current_A'], 3, 'mA')}"
        )
    return lines


def _real_energy_line(document: dict[str, Any]) -> list[str]:
    """Say what a kilogram of hydrogen costs when not every electron makes hydrogen."""
    found = (document.get("faradaic_efficiency") or {}).get("hydrogen")
    energies = (document["efficiency"] or {}).get("energy_kWh_per_kg_hydrogen") or {}
    if found is None or not any(energies.values()):
        return []
    doubt = 2.0 * found["standard_uncertainty"] / found["value"]
    parts = [
        f"{with_uncertainty(energy / found['value'], doubt * energy / found['value'], 'kWh')} per kg {name}"
        for name, energy in energies.items()
        if energy is not None
    ]
    return [f"  with it, the energy for hydrogen is {', '.join(parts)}"]


def _growth_lines(document: dict[str, Any]) -> list[str]:
    growth = document["growth"]
    if growth is None:
        return []
    line = f"Growth: {growth['model']}"
    if growth["standard_uncertainties"] is None:
        return [f"{line}, which does not describe it (see below)"]
    if growth["time_constant_s"] is not None:
        line += f", time constant {significant(growth['time_constant_s'], 3, 's')}"
    if growth["settling_voltage_V"] is not None:
        line += f", towards {growth['settling_voltage_V']:.4f} V"
    return [line]


def _course_lines(document: dict[str, Any]) -> list[str]:
    if not document["phases"] and not touching_count(document):
        return []
    spans = ", ".join(
        f"{one['phase']} {_time(one['begin_s'])} to {_time(one['end_s'])}" for one in document["phases"]
    )
    lines = [f"Course: {spans}"] if spans else []
    if touching_count(document):
        count = touching_count(document)
        lines.append(f"Electrodes touched, or leads were shorted: {count} ({touching_times(document)})")
    return lines


def _warning_lines(document: dict[str, Any]) -> list[str]:
    shown = worth_saying(document["warnings"])
    if not shown:
        return []
    lines = ["To know:"]
    for one in shown:
        at = "" if one["at_s"] is None else f" [{_time(one['at_s'])}]"
        lines.append(f"- {one['message']}{at}")
    return lines
