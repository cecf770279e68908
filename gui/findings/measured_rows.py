"""What somebody measured beside the voltage, as rows: gas that was collected, a lead that was lifted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from gui.live_texts import Row, whole_conditions
from gui.numbers import clock_text, significant, with_uncertainty
from gui.words import translate

__all__ = ["measured_rows"]


def measured_rows(findings: Mapping[str, Any]) -> tuple[Row, ...]:
    """Return the rows of a findings document; none where nobody measured anything."""
    return (*_collected(findings.get("faradaic_efficiency") or {}), *_lifted(findings))


def _collected(found: Mapping[str, Any]) -> Iterator[Row]:
    names = {
        "hydrogen": translate("Findings", "Found as hydrogen"),
        "oxygen": translate("Findings", "Found as oxygen"),
    }
    for gas, one in found.items():
        share = with_uncertainty(100 * one["value"], 200 * one["standard_uncertainty"], "%")
        note = translate("Findings", "{volume} for {charge}").format(
            volume=significant(one["volume_mL"], 3, "mL"), charge=significant(one["charge_C"], 3, "C")
        )
        yield Row(names.get(gas, gas), share, note, whole_conditions(one["conditions"]))


def _lifted(findings: Mapping[str, Any]) -> Iterator[Row]:
    for one in findings.get("current_interrupt") or ():
        doubt_ohm = 2 * one["resistance_standard_uncertainty_ohm"]
        at = translate("Findings", "lead lifted at {time}").format(time=clock_text(one["opened_at_s"]))
        shown = with_uncertainty(one["resistance_ohm"], doubt_ohm, "Ω")
        yield Row(translate("Findings", "Ohmic resistance"), shown, at)
