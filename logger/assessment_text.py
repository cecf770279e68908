"""What the live assessment says: one plain sentence, and warnings."""

from __future__ import annotations

from logger.analysis.caution import Caution
from logger.settling_watch import VerdictWord

__all__ = ["live_cautions", "sentence"]

_ELECTROLYSING: dict[str | None, dict[str, str]] = {
    "before": {
        "settled": "Splitting water. The voltage has settled: the salt can go in.",
        "not_yet": "Splitting water. The voltage is still settling.",
    },
    "growth": {
        "settled": "Splitting water. The catalyst has grown: the voltage no longer falls.",
        "falling": "Splitting water. The voltage is still falling while the catalyst grows.",
        "not_yet": "Splitting water while the catalyst grows.",
    },
    "after": {
        "settled": "Splitting water in fresh buffer. The voltage has settled: the run can end.",
        "not_yet": "Splitting water in fresh buffer. The voltage is still settling.",
    },
    None: {"settled": "Splitting water. The voltage has settled.", "not_yet": "Splitting water."},
}

_OTHER_STATES = {
    "silent": "What the cell does now is not known: these are its last readings.",
    "no_reading": "The meter shows no voltage that can be read.",
    "touching": "No voltage: the electrodes touch, or nothing is switched on.",
    "below_reversible": "The voltage is too low to split water.",
    "poor_contact": "Too high for splitting water: the cell is dry, a clip is loose, or solution is missing.",
}


def sentence(
    state: str | None, phase: str | None, verdict: VerdictWord, *, is_falling: bool, has_electrolysed: bool
) -> str:
    """Return one sentence that tells a pupil what is going on.

    Parameters
    ----------
    state : present state, as in the findings; None before the first reading, ``silent`` where none comes.
    phase : present phase, or None between phases.
    verdict : of the settling rule.
    is_falling : the voltage surely falls.
    has_electrolysed : the cell has electrolysed before, so an open cell is a lift-out.
    """
    if state is None:
        return "Waiting for the first reading."
    if state == "open":
        if has_electrolysed:
            return "The circuit is open: the electrodes are out of the solution, or a lead is off."
        return "The cell is dry: the meter shows the whole stack."
    if state != "electrolysing":
        return _OTHER_STATES.get(state, "")
    texts = _ELECTROLYSING.get(phase, _ELECTROLYSING[None])
    if verdict == "settled":
        return texts["settled"]
    return texts["falling"] if is_falling and "falling" in texts else texts["not_yet"]


def live_cautions(
    state: str,
    *,
    silent_s: float | None,
    is_overload: bool,
    is_reversed: bool,
    is_meter_changed: bool,
    since_s: float | None,
) -> tuple[Caution, ...]:
    """Return the warnings that belong to the present moment, the most urgent first.

    Parameters
    ----------
    state : present state.
    silent_s : how long no reading has come, if that is too long, else None.
    is_overload : the last reading was an overload.
    is_reversed : the last readings were negative.
    is_meter_changed : the readings go in other steps than those of the voltage before.
    since_s : when the state began.
    """
    found: list[Caution] = []
    if state == "touching":
        found.append(
            Caution(
                "touching",
                "The electrodes or leads touch, or the supply is off. Separate them: the resistor gets warm.",
                since_s,
            )
        )
    if silent_s is not None:
        found.append(Caution("stale", f"No reading for {silent_s:.0f} s. Check the meter and its cable."))
    if is_overload:
        found.append(Caution("overload", "The meter shows overload. Choose a larger range and keep it."))
    if state == "open":
        found.append(Caution("open", "The circuit is open.", since_s))
    if state == "poor_contact" and silent_s is None:  # what the cell does now is not known
        found.append(
            Caution(
                "poor_contact",
                "The voltage is too high: a dry cell, a loose clip, or too little solution.",
                since_s,
            )
        )
    if is_reversed:
        found.append(
            Caution("leads_reversed", "The meter's leads are reversed. The recording is kept as read.")
        )
    if is_meter_changed:
        found.append(
            Caution(
                "meter_changed",
                "The readings go in other steps than before: another meter or range? Its accuracy counts for "
                "each voltage now. Go back to the former range and lock it.",
            )
        )
    return tuple(found)
