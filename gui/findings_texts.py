"""The findings of a finished run in words and rows. No Qt."""

from __future__ import annotations

from typing import Any

from gui.chart_notes import expanded_V
from gui.live_texts import Row, short_conditions
from logger.quantity import plain, significant, with_uncertainty
from logger.recording import Recording
from logger.scale import clock_text

__all__ = ["heading", "headline", "headline_note", "result_rows", "warnings"]

MISSING = "–"


def heading(recording: Recording) -> str:
    """Return start time, length and number of readings in one line."""
    count = sum(channel.times_s.size for channel in recording.channels)
    start = recording.start_time[:16].replace("T", " ")
    return f"{start}, {clock_text(recording.duration_s)} long, {count} readings"


def headline(findings: dict[str, Any]) -> str:
    """Return the voltage saved with its 95 % uncertainty, or that it is not determined."""
    saved = findings.get("voltage_saved") or {}
    if saved.get("value_V") is None:
        return "not determined"
    return with_uncertainty(1000 * saved["value_V"], 1000 * expanded_V(saved), "mV")


def headline_note(findings: dict[str, Any]) -> str:
    """Return what the headline means, how sure it is, and whether it is provisional."""
    saved = findings.get("voltage_saved") or {}
    if saved.get("value_V") is None:
        return "The warnings below say why, and what would help."
    parts = ["95 % interval."]
    equal = saved.get("at_equal_current_V")
    if equal is not None:
        parts.append(f"At equal current {plain(1000 * equal, 0, 'mV')}.")
    if any(level and level.get("is_settled") is False for level in (findings.get("settled") or {}).values()):
        parts.append("Provisional: not both levels had settled.")
    return " ".join(parts)


def result_rows(findings: dict[str, Any]) -> tuple[Row, ...]:
    """Return the table of results; what is missing reads as a dash."""
    settled = findings.get("settled") or {}
    current = findings.get("current") or {}
    efficiency = findings.get("efficiency") or {}
    heat_V = (findings.get("thermodynamics") or {}).get("thermoneutral_voltage_V")
    gas = findings.get("gas") or {}
    charge = findings.get("charge_C") or {}
    change = current.get("change_percent")
    return (
        _level("Before", settled.get("before")),
        _level("After", settled.get("after")),
        Row(
            "Current",
            _pair(current.get("before_A"), current.get("after_A"), 1000, "mA"),
            "" if change is None else f"{'+' if change >= 0 else ''}{plain(change, 1)} %",
        ),
        Row(
            "Voltage efficiency",
            _pair(
                (efficiency.get("before") or {}).get("higher_heating"),
                (efficiency.get("after") or {}).get("higher_heating"),
                100,
                "%",
            ),
            "" if heat_V is None else f"of {plain(heat_V, 3, 'V')}",
        ),
        Row("Charge", _one(charge.get("best"), "C"), _range(charge.get("low"), charge.get("high"))),
        Row(
            "Hydrogen",
            _one(gas.get("hydrogen_mL"), "mL"),
            short_conditions(gas.get("conditions") or ""),
            gas.get("conditions") or "",
        ),
    )


def warnings(findings: dict[str, Any]) -> tuple[str, ...]:
    """Return the messages, with the time where there is one."""
    found = []
    for warning in findings.get("warnings") or ():
        at_s = warning.get("at_s")
        when = "" if at_s is None else f"At {clock_text(at_s)}: "
        found.append(when + warning["message"])
    return tuple(found)


def _level(name: str, level: dict[str, Any] | None) -> Row:
    if not level or level.get("voltage_V") is None:
        return Row(name, MISSING)
    expanded = 2 * (level.get("standard_uncertainty_V") or 0.0)
    note = "settled" if level.get("is_settled") else "not settled"
    note += ", meter included"
    return Row(name, with_uncertainty(level["voltage_V"], expanded, "V"), note)


def _pair(before: float | None, after: float | None, factor: float, unit: str) -> str:
    if before is None and after is None:
        return MISSING
    if after is None and before is not None:
        return significant(factor * before, 3, unit)
    texts = [MISSING if value is None else significant(factor * value) for value in (before, after)]
    return f"{texts[0]} → {texts[1]}\u00a0{unit}"


def _one(value: float | None, unit: str) -> str:
    return MISSING if value is None else significant(value, 3, unit)


def _range(low: float | None, high: float | None) -> str:
    if low is None or high is None or significant(low) == significant(high):
        return ""
    return f"{significant(low)} … {significant(high)}"
