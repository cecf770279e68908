"""The findings of a finished run in words and rows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from gui.chart_notes import expanded_V
from gui.findings.advice import advice, page_that_helps
from gui.findings.measured_rows import measured_rows
from gui.live_texts import Row, short_conditions, whole_conditions
from gui.message_words import message_words
from gui.numbers import clock_text, day_and_time, plain, short, significant, with_uncertainty
from gui.words import translate
from logger.recording import Recording
from logger.remarks import worth_saying

__all__ = [
    "BudgetRow",
    "WarningText",
    "budget_rows",
    "budget_sentence",
    "growth_rows",
    "growth_sentence",
    "headings",
    "headline",
    "headline_note",
    "result_rows",
    "tafel_rows",
    "tafel_sentence",
    "warning_texts",
    "warnings",
]

MISSING = "–"

LEAST_SHOWN_V = 1e-6
"""A source of uncertainty below a microvolt counts for nothing; its digits would fill the line."""

Findings = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class BudgetRow:
    """One source of uncertainty: its name, type A or B, standard uncertainty, and share of the variance."""

    source: str
    kind: str
    value: str
    share: float


@dataclass(frozen=True, slots=True)
class WarningText:
    """What happened, what to do, and the page where it can be done (empty: none)."""

    text: str
    advice: str
    page: str


def headings(recording: Recording) -> tuple[str, ...]:
    """Return start time, length and number of readings in one line; then the same with less and less."""
    count = sum(channel.times_s.size for channel in recording.channels)
    start = day_and_time(recording.start_time) or recording.start_time
    if not recording.has_known_start:
        start = translate("Findings", "Start not known")
    length = translate("Findings", "{length} long").format(length=clock_text(recording.duration_s))
    readings = translate("Findings", "{count} readings").format(count=count)
    return f"{start}, {length}, {readings}", f"{start}, {length}", start


def headline(findings: Findings) -> str:
    """Return the voltage saved with its 95 % uncertainty, or that it is not determined."""
    saved = findings.get("voltage_saved") or {}
    if saved.get("value_V") is None:
        return translate("Findings", "not determined")
    return with_uncertainty(1000 * saved["value_V"], 1000 * expanded_V(saved), "mV")


def headline_note(findings: Findings) -> str:
    """Return what the headline means, how sure it is, and whether it is provisional."""
    saved = findings.get("voltage_saved") or {}
    if saved.get("value_V") is None:
        text = translate("Findings", "The warnings under “{tab}” say why, and what would help.")
        return text.format(tab=translate("Findings", "Result"))
    parts = [translate("Findings", "95 % interval.")]
    equal = saved.get("at_equal_current_V")
    if equal is not None:
        text = translate("Findings", "At equal current {value}.")
        parts.append(text.format(value=plain(1000 * equal, 0, "mV")))
    levels = [level for level in (findings.get("settled") or {}).values() if level]
    if any(level.get("is_settled") is False for level in levels):
        parts.append(translate("Findings", "Provisional: not both levels had settled."))
    if any(level.get("chosen_by_hand") for level in levels):
        parts.append(translate("Findings", "With a stretch chosen by hand."))
    return " ".join(parts)


def result_rows(findings: Findings) -> tuple[Row, ...]:
    """Return the table of results; what is missing reads as a dash."""
    settled = findings.get("settled") or {}
    current = findings.get("current") or {}
    efficiency = findings.get("efficiency") or {}
    heat_V = (findings.get("thermodynamics") or {}).get("thermoneutral_voltage_V")
    gas = findings.get("gas") or {}
    charge = findings.get("charge_C") or {}
    change = current.get("change_percent")
    of_heat = translate("Findings", "of {voltage}")
    codes = {one.get("code") for one in findings.get("warnings") or ()}
    is_meter_known = "meter_unknown" not in codes
    return (
        _level(translate("Findings", "Before"), settled.get("before"), is_meter_known),
        _level(translate("Findings", "After"), settled.get("after"), is_meter_known),
        Row(
            translate("Findings", "Current"),
            _pair(current.get("before_A"), current.get("after_A"), 1000, "mA"),
            "" if change is None else f"{'+' if change >= 0 else ''}{plain(change, 1)} %",
        ),
        Row(
            translate("Findings", "Voltage efficiency"),
            _pair(
                (efficiency.get("before") or {}).get("higher_heating"),
                (efficiency.get("after") or {}).get("higher_heating"),
                100,
                "%",
            ),
            "" if heat_V is None else of_heat.format(voltage=plain(heat_V, 3, "V")),
        ),
        Row(
            translate("Findings", "Charge"),
            _one(charge.get("best"), "C"),
            _range(charge.get("low"), charge.get("high")),
        ),
        Row(
            translate("Findings", "Hydrogen"),
            _one(gas.get("hydrogen_mL"), "mL"),
            short_conditions(gas.get("conditions") or ""),
            whole_conditions(gas.get("conditions") or ""),
        ),
        *measured_rows(findings),
    )


def warnings(findings: Findings) -> tuple[str, ...]:
    """Return the messages, with the time where there is one."""
    return tuple(one.text for one in warning_texts(findings))


def warning_texts(findings: Findings) -> tuple[WarningText, ...]:
    """Return the warnings with what to do about each; mere remarks are left out."""
    found = []
    for warning in worth_saying(findings.get("warnings")):
        at_s = warning.get("at_s")
        when = ""
        if at_s is not None:
            when = translate("Findings", "At {time}: ").format(time=clock_text(at_s))
        code = warning.get("code") or ""
        found.append(
            WarningText(when + message_words(warning["message"]), advice(code), page_that_helps(code))
        )
    return tuple(found)


def budget_rows(findings: Findings) -> tuple[BudgetRow, ...]:
    """Return the sources of the saving's uncertainty, largest first; sources of nothing are left out."""
    lines = (findings.get("voltage_saved") or {}).get("budget") or ()
    total = sum((one["standard_uncertainty_V"] or 0.0) ** 2 for one in lines)
    found = []
    for one in sorted(lines, key=lambda line: -(line["standard_uncertainty_V"] or 0.0)):
        value_V = one["standard_uncertainty_V"]
        if value_V:
            value = significant(1000 * value_V, 2, "mV")
            if value_V < LEAST_SHOWN_V:
                value = f"< {plain(1000 * LEAST_SHOWN_V, 3, 'mV')}"
            source = message_words(one["source"])
            source = source[:1].upper() + source[1:]
            found.append(BudgetRow(source, one["type"], value, value_V**2 / total))
    return tuple(found)


def budget_sentence(findings: Findings) -> str:
    """Return what the budget sums up to."""
    saved = findings.get("voltage_saved") or {}
    if saved.get("value_V") is None:
        return translate("Findings", "Without a voltage saved there is no budget.")
    text = translate(
        "Findings",
        "Standard uncertainty {standard}, times {factor} for 95 %: ±\u00a0{expanded}. Bars show each "
        "source's share of the variance; type A from the readings, B from what is known.",
    )
    return text.format(
        standard=significant(1000 * saved["standard_uncertainty_V"], 2, "mV"),
        factor=plain(saved.get("coverage_factor") or 2.0, 2),
        expanded=significant(1000 * expanded_V(dict(saved)), 2, "mV"),
    )


def growth_sentence(findings: Findings) -> str:
    """Return what describes the growth, and how well; or why nothing does."""
    growth = findings.get("growth")
    if not growth:
        reasons = [
            message_words(one["message"])
            for one in findings.get("warnings") or ()
            if one.get("code") in ("no_growth", "no_growth_fit")
        ]
        return " ".join(reasons) or translate("Findings", "There is no growth to fit.")
    fit = growth.get("lack_of_fit")
    text = translate("Findings", "Described by: {model}.").format(model=message_words(growth["model"]))
    if fit is None:
        return text
    if fit > 2.0:
        left = translate("Findings", "What is left is {times} times the noise: the curve has another shape.")
        return f"{text} {left.format(times=significant(fit, 2))}"
    left = translate("Findings", "What is left is noise ({times} times what the readings show).")
    return f"{text} {left.format(times=significant(fit, 2))}"


def growth_rows(findings: Findings) -> tuple[Row, ...]:
    """Return the parameters of the growth."""
    growth = findings.get("growth")
    if not growth:
        return ()
    doubts = growth.get("standard_uncertainties") or {}
    rows = []
    for name, value in growth["parameters"].items():
        if value is None:
            continue
        words, unit, factor = _parameter(name)
        doubt = doubts.get(name)
        shown = significant(factor * value, 3, unit)
        if doubt:
            shown = with_uncertainty(factor * value, 2 * factor * doubt, unit)
        rows.append(Row(words, shown))
    settling = growth.get("settling_voltage_V")
    note = "" if settling is not None else translate("Findings", "not followed long enough to say")
    text = MISSING if settling is None else plain(settling, 3, "V")
    rows.append(Row(translate("Findings", "Would settle at"), text, note))
    return tuple(rows)


def tafel_sentence(findings: Findings) -> str:
    """Return the slope of the Tafel line, or what one needs."""
    tafel = findings.get("tafel")
    if not tafel:
        reasons = [
            message_words(one["message"])
            for one in findings.get("warnings") or ()
            if one.get("code") in ("no_tafel", "no_tafel_line")
        ]
        return " ".join(reasons) or translate(
            "Findings", "A Tafel line needs settled voltages at four currents or more: change the resistor."
        )
    slope = with_uncertainty(
        1000 * tafel["slope_V_per_decade"], 2000 * (tafel["standard_uncertainty"] or 0.0), "mV"
    )
    text = translate(
        "Findings",
        "Slope {slope} for a decade of current, of both electrodes together (95 %). The meter's accuracy is "
        "in it, and not in the voltages below: those are of the readings alone.",
    )
    return text.format(slope=slope)


def tafel_rows(findings: Findings) -> tuple[Row, ...]:
    """Return the points of the Tafel line, smallest current first, and the ohmic resistance."""
    tafel = findings.get("tafel")
    if not tafel:
        return ()
    rows = []
    for one in sorted(tafel["points"], key=lambda point: float(point["current_A"])):
        ohm = one.get("resistor_ohm")
        note = "" if ohm is None else translate("Findings", "with {ohm}").format(ohm=_ohms(ohm))
        voltage = with_uncertainty(one["voltage_V"], 2 * (one["standard_uncertainty_V"] or 0.0), "V")
        rows.append(Row(significant(1000 * one["current_A"], 3, "mA"), voltage, note))
    resistance = tafel.get("ohmic_resistance_ohm")
    doubt = tafel.get("ohmic_standard_uncertainty_ohm")
    if resistance is not None and doubt is not None:  # findings of before say nothing of how sure it is
        name = translate("Findings", "Ohmic resistance")
        rows.append(Row(name, with_uncertainty(resistance, 2 * doubt, "Ω")))
    return tuple(rows)


def _ohms(ohm: float) -> str:
    """Return a resistance as it stands on the part."""
    for unit, factor in (("MΩ", 1e6), ("kΩ", 1e3)):
        if ohm >= factor:
            return short(ohm / factor, 4, unit)
    return short(ohm, 4, "Ω")


def _parameter(name: str) -> tuple[str, str, float]:
    """Return words, unit and factor of a parameter of a growth model."""
    return {
        "settling_voltage_V": (translate("Findings", "Settling voltage of the fit"), "V", 1.0),
        "fall_V": (translate("Findings", "Fall"), "mV", 1000.0),
        "first_fall_V": (translate("Findings", "First fall"), "mV", 1000.0),
        "second_fall_V": (translate("Findings", "Second fall"), "mV", 1000.0),
        "time_constant_s": (translate("Findings", "Time constant"), "s", 1.0),
        "first_time_constant_s": (translate("Findings", "First time constant"), "s", 1.0),
        "second_time_constant_s": (translate("Findings", "Second time constant"), "s", 1.0),
        "beta": (translate("Findings", "Stretching exponent"), "", 1.0),
        "first_voltage_V": (translate("Findings", "Voltage at the salt"), "V", 1.0),
        "slope_V_per_decade": (translate("Findings", "Slope for a decade of time"), "mV", 1000.0),
        "start_s": (translate("Findings", "Onset"), "s", 1.0),
    }.get(name, (name, "", 1.0))


def _level(name: str, level: dict[str, Any] | None, is_meter_known: bool) -> Row:
    if not level or level.get("voltage_V") is None:
        return Row(name, MISSING)
    expanded = 2 * (level.get("standard_uncertainty_V") or 0.0)
    settled = level.get("is_settled")
    if level.get("chosen_by_hand"):
        note = (
            translate("Findings", "settled, chosen by hand")
            if settled
            else translate("Findings", "not settled, chosen by hand")
        )
    elif not is_meter_known:
        note = (
            translate("Findings", "settled, without the meter")
            if settled
            else translate("Findings", "not settled, without the meter")
        )
    else:
        note = (
            translate("Findings", "settled, meter included")
            if settled
            else translate("Findings", "not settled, meter included")
        )
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
