"""Volumes of gas that somebody read off and wrote down as a note: ``hydrogen 4.30 mL``."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from logger.analysis.caution import Cautions
from logger.analysis.gas import Gas
from logger.analysis.uncertainty import rectangular_standard_uncertainty
from logger.moments import Moment

__all__ = ["GasReading", "gas_readings"]

_NUMBER = r"\d+(?:[.,]\d+)?"
_READING = re.compile(
    rf"(?P<gas>hydrogen|oxygen|Wasserstoff|Sauerstoff|H2|O2)\s*[:=]?\s*(?P<volume>{_NUMBER})"
    rf"(?:\s*(?:±|\+-|\+/-)\s*(?P<half>{_NUMBER}))?\s*(?:mL|cm3|cm³)"
    rf"(?:[\s,]+column\s*(?P<column>[-−]?{_NUMBER})\s*mm)?",
    re.IGNORECASE,
)
_MEANT = re.compile(
    rf"\b(?:gas|hydrogen|oxygen|Wasserstoff|Sauerstoff|H2|O2)\b.*{_NUMBER}\s*(?:[mµμu]?L\b|cm3|cm³|ccm\b|cc\b)",
    re.IGNORECASE,
)
_GASES: dict[str, Gas] = {
    **dict.fromkeys(("hydrogen", "h2", "wasserstoff"), "hydrogen"),
    **dict.fromkeys(("oxygen", "o2", "sauerstoff"), "oxygen"),
}


@dataclass(frozen=True, slots=True)
class GasReading:
    """One reading of the volume of one gas, collected over water.

    `uncertainty_mL` is a standard uncertainty, from the half-width that was noted or, without one, from one
    step of the last digit. `column_mm` is how much higher the water stands inside the tube than outside.
    """

    time_s: float
    gas: Gas
    volume_mL: float
    uncertainty_mL: float
    column_mm: float = 0.0


def gas_readings(moments: Iterable[Moment], cautions: Cautions) -> tuple[GasReading, ...]:
    """Return the volumes of gas among the notes of a run, in order of time.

    Parameters
    ----------
    moments : iterable of Moment
        A ``note`` counts where its whole text is ``hydrogen 4.30 mL`` or ``oxygen 2.1 ± 0.1 mL``, with
        ``column 50 mm`` behind it where the water stood higher inside the tube. German names are taken too.
    cautions : Cautions
        Told where a note speaks of a volume of gas in another form.
    """
    found = []
    for moment in sorted(moments, key=lambda one: one.time_s):
        if moment.kind != "note" or moment.removed:
            continue
        reading = _READING.fullmatch(moment.label.strip())
        if reading is not None:
            found.append(_read(moment.time_s, reading))
        elif _MEANT.search(moment.label):
            cautions.say(
                "gas_note_unread",
                f"The note “{moment.label}” was not taken as a volume of gas. Write it as “hydrogen 4.30 mL” "
                "or “oxygen 2.15 mL”: one gas alone, never their mixture.",
                moment.time_s,
            )
    return tuple(found)


def _read(time_s: float, reading: re.Match[str]) -> GasReading:
    volume, half, column = (reading[name] for name in ("volume", "half", "column"))
    decimals = len(re.split(r"[.,]", volume)[1]) if re.search(r"[.,]", volume) else 0
    half_mL = 10.0**-decimals if half is None else _number(half)
    return GasReading(
        time_s=time_s,
        gas=_GASES[reading["gas"].lower()],
        volume_mL=_number(volume),
        uncertainty_mL=rectangular_standard_uncertainty(half_mL),
        column_mm=0.0 if column is None else _number(column),
    )


def _number(text: str) -> float:
    return float(text.replace(",", ".").replace("−", "-"))
