"""The words and numbers beside the curve, made from what the logger knows. Touches no widget."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QT_TRANSLATE_NOOP

from gui.bench.source_texts import kind_texts
from gui.message_words import message_words
from gui.numbers import clock_text, localised, plain, significant, with_uncertainty
from gui.words import translate
from logger.quantity import human_conditions

if TYPE_CHECKING:
    from logger.assessment_view import AssessmentView
    from logger.feed import SourceStatus
    from logger.run import RunStatus

__all__ = [
    "STALE_S",
    "Row",
    "age_text",
    "big_unit",
    "big_voltage",
    "drift_text",
    "rough_time",
    "rows",
    "running_texts",
    "saved_words",
    "source_words",
    "state_words",
]

STALE_S = 3.0
"""A reading older than this (host seconds) is shown grey, with its age."""

MISSING = "–"

IDENTITY_PARTS = 4
"""Maker, model, serial number, firmware: IEEE 488.2, 10.14."""


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table: what, how much, in small type by what convention, and that at length."""

    name: str
    value: str
    note: str = ""
    detail: str = ""


def big_voltage(voltage_V: float | None) -> str:
    """Return the number to be read across the room: four digits, so that it does not jump."""
    if voltage_V is None or math.isnan(voltage_V):
        return MISSING
    if math.isinf(voltage_V):
        return translate("Live texts", "over")
    return plain(voltage_V, 3 if abs(voltage_V) < 9.9995 else 2)


def big_unit(voltage_V: float | None) -> str:
    """Return the unit beside `big_voltage`: none where that is no number."""
    return "V" if voltage_V is not None and math.isfinite(voltage_V) else ""


def age_text(age_s: float) -> str:
    """Return an age in words, coarse enough not to flicker."""
    if age_s < 9.95:
        time = plain(age_s, 1, "s")
    elif age_s < 120:
        time = plain(age_s, 0, "s")
    else:
        time = f"{clock_text(age_s)}\u00a0{'min' if age_s < 3600 else 'h'}"
    return translate("Live texts", "{time} ago").format(time=time)


def state_words(view: AssessmentView, *, is_over: bool) -> str:
    """Return in a sentence what is going on; in a run that is over nothing is, and it can end no more."""
    if is_over:
        return translate("Live texts", "The run is over: these are its last readings.")
    return message_words(view.sentence)


def drift_text(view: AssessmentView, *, is_over: bool = False) -> str:
    """Return where the drift lies (its 90 % interval), the verdict, and why it is not settled yet.

    Where the run `is_over` not what is waited for: nothing comes any more.
    """
    reason = message_words(view.verdict_reason)
    if view.drift_mV_per_min is None:
        return reason or translate("Live texts", "no drift yet")
    low, high = view.drift_interval90_mV_per_min or (view.drift_mV_per_min, view.drift_mV_per_min)
    text = f"{_drift_words(low, high)}: {verdict_words(view, is_over=is_over)}"
    return text if view.verdict == "settled" or is_over or not reason else f"{text}. {reason}"


def _drift_words(low: float, high: float) -> str:
    """Return in words where a drift from `low` to `high` (mV/min) leads."""
    digits = 1 if max(abs(low), abs(high)) < 99.95 else 0
    if low <= 0.0 <= high:
        most = plain(max(-low, high), digits, "mV/min")
        return translate("Live texts", "Steady within {most}").format(most=most)
    text = (
        translate("Live texts", "Rising by {least} to {most}")
        if low > 0.0
        else translate("Live texts", "Falling by {least} to {most}")
    )
    slower, faster = sorted((abs(low), abs(high)))
    return text.format(least=plain(slower, digits), most=plain(faster, digits, "mV/min"))


def verdict_words(view: AssessmentView, *, is_over: bool = False) -> str:
    """Return the verdict as a pupil would say it, with how long it still needs while the run goes on."""
    if view.verdict == "settled":
        return translate("Live texts", "settled")
    if is_over:
        is_known = view.verdict == "not_yet"
        return translate("Live texts", "not settled") if is_known else translate("Live texts", "cannot tell")
    if view.verdict == "not_yet":
        if view.seconds_needed is not None and math.isfinite(view.seconds_needed):
            time = rough_time(view.seconds_needed)
            return translate("Live texts", "not settled yet, about {time} more").format(time=time)
        return translate("Live texts", "not settled yet")
    return translate("Live texts", "cannot tell yet")


def rough_time(time_s: float) -> str:
    """Return a time that is only about known: ``20 s``, ``6 min``."""
    if time_s < 90:
        return plain(max(10.0, round(time_s, -1)), 0, "s")
    return plain(time_s / 60, 0, "min")


def rows(view: AssessmentView) -> tuple[Row, ...]:
    """Return the lines of the table; what is not known reads as a dash with the reason in small type."""
    change = view.current_change_percent
    since = ""
    if change is not None:
        sign = "+" if change >= 0 else ""
        text = translate("Live texts", "{change} since before")
        since = text.format(change=sign + plain(change, 1, "%"))
    elif view.current_A is None:
        since = message_words(view.current_missing)
    return (
        Row(translate("Live texts", "Current"), _amount(view.current_A, 1000, "mA"), since),
        Row(translate("Live texts", "Charge"), _amount(view.charge_C, 1, "C")),
        Row(
            translate("Live texts", "Hydrogen"),
            _amount(view.hydrogen_mL, 1, "mL"),
            short_conditions(view.gas_conditions) if view.hydrogen_mL else "",
            whole_conditions(view.gas_conditions),
        ),
        Row(
            translate("Live texts", "Voltage efficiency"),
            _amount(view.efficiency, 100, "%"),
            _short_efficiency(view.efficiency_label) if view.efficiency else "",
            message_words(view.efficiency_label),
        ),
    )


def short_conditions(conditions: str) -> str:
    """Return the first two conditions of a gas volume in short words: ``moist, 22 °C``."""
    parts = [part.strip() for part in conditions.split(",")[:2]]
    moist = translate("Live texts", "moist")
    words = (moist if part == "saturated with water vapour" else message_words(part) for part in parts)
    return human_conditions(", ".join(words))


def whole_conditions(conditions: str) -> str:
    """Return the conditions of a gas volume at length."""
    return human_conditions(message_words(conditions))


def _short_efficiency(label: str) -> str:
    """Return ``of 1.482 V`` for ``1.482 V (higher heating value) over the cell voltage``."""
    voltage = localised(label.partition(" (")[0]).replace(" V", "\u00a0V")
    return translate("Live texts", "of {voltage}").format(voltage=voltage) if label else ""


def _amount(value: float | None, factor: float, unit: str) -> str:
    return MISSING if value is None else significant(factor * value, 3, unit)


def saved_words(view: AssessmentView) -> str | None:
    """Return the voltage saved so far with its 95 % uncertainty, or None when there is none to show."""
    if view.saved is None:
        return None
    return with_uncertainty(1000 * view.saved.value_V, 1000 * view.saved.expanded_uncertainty_V, "mV")


def running_texts(status: RunStatus) -> tuple[str, ...]:
    """Return how long the run has lasted and how fresh the disk is; then, for less room, only the first."""
    lasted = translate("Live texts", "{time} running").format(time=clock_text(status.now_s))
    if status.synced_age_s is None:
        return (lasted,)
    saved = translate("Live texts", "saved to disk {age}").format(age=age_text(status.synced_age_s))
    return f"{lasted}, {saved}", lasted


def source_words(status: RunStatus, *, is_named: bool = True) -> tuple[str, tuple[str, ...]]:
    """Return the look (good, warning, danger) of the light for the sources, and its words, longest first.

    The age of the last reading is what stays longest.
    Not `is_named` : beside a mark that says that all is simulated; how the readings come has more room then.
    """
    looks = {"streaming": "good", "silent": "danger", "lost": "danger"}
    found = [looks.get(source.state, "warning") for source in status.sources]
    worst = next((look for look in ("danger", "warning") if look in found), "good")
    if not status.sources:
        return worst, (translate("Live texts", "no source"),)
    each = [_source(source, is_named) for source in status.sources]
    if len(each) == 1:
        return worst, tuple(dict.fromkeys(each[0]))
    whole, no_rate, _no_name = (" · ".join(words) for words in zip(*each, strict=True))
    return worst, tuple(dict.fromkeys((whole, no_rate, *_several(status.sources))))


def _several(sources: Sequence[SourceStatus]) -> tuple[str, ...]:
    """Return, longest first, which of several sources send nothing, else the oldest age."""
    silent = [source for source in sources if source.state != "streaming"]
    count = len(sources)
    if silent:
        named = " · ".join(_source(source, True)[0] for source in silent)
        if len(silent) == 1:
            return named, translate("Live texts", "1 of {count} sends nothing").format(count=count)
        text = translate("Live texts", "{silent} of {count} send nothing")
        return named, text.format(silent=len(silent), count=count)
    ages = [source.last_sample_age_s for source in sources if source.last_sample_age_s is not None]
    if not ages:
        return (translate("Live texts", "{count} sources").format(count=count),)
    text = translate("Live texts", "{count} sources, last {age}")
    return (text.format(count=count, age=age_text(max(ages))),)


def _source(source: SourceStatus, is_named: bool) -> tuple[str, str, str]:
    """Return the words for one source: all, without the rate, without the name."""
    kind = source.address.partition(":")[0]
    name = kind_texts().get(kind, source.address)
    if kind != "cell":
        name = _instrument_name(source.identity) or name
    if source.state != "streaming":
        state = translate("Live texts", STATE_WORDS.get(source.state, source.state))
        whole = f"{_short(name)}: {state}"
        return whole, whole, state
    names = [_short(name)] if is_named else []
    rates, ages = [], []
    if source.rate_per_s:
        rate = significant(source.rate_per_s, 2)
        rates.append(translate("Live texts", "{rate}\u00a0readings/s").format(rate=rate))
    if source.last_sample_age_s is not None:
        ages.append(translate("Live texts", "last {age}").format(age=age_text(source.last_sample_age_s)))
    whole, no_rate, no_name = (
        ", ".join(parts or [_short(name)]) for parts in ([*names, *rates, *ages], [*names, *ages], ages)
    )
    return whole, no_rate, no_name


def _instrument_name(identity: str) -> str:
    """Return maker and model of an answer to ``*IDN?``; what is no such answer stays as it is."""
    parts = identity.split(",")
    return identity if len(parts) < IDENTITY_PARTS else " ".join(part.strip() for part in parts[:2])


STATE_WORDS = {
    "connecting": str(QT_TRANSLATE_NOOP("Live texts", "connecting")),
    "silent": str(QT_TRANSLATE_NOOP("Live texts", "sends nothing")),
    "lost": str(QT_TRANSLATE_NOOP("Live texts", "gone, trying again")),
    "ended": str(QT_TRANSLATE_NOOP("Live texts", "has ended")),
}


def _short(name: str) -> str:
    return name if len(name) <= 34 else name[:33].rstrip() + "…"
