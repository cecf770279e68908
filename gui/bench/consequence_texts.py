"""What follows from the supply, cell and meter, in words and rows."""

from __future__ import annotations

from gui.live_texts import Row
from gui.message_words import message_words
from gui.numbers import plain, short, significant, with_uncertainty
from gui.words import translate
from logger.analysis.planned_current import AFTER_V, BEFORE_V
from logger.analysis.planned_parts import DryCell, Fuse, ResistorHeat
from logger.analysis.supply_plan import SupplyPlan
from logger.analysis.uncertainty import coverage_factor
from logger.quantity import human_conditions, rounded_down

__all__ = ["consequence_rows", "current_note", "current_text"]


def current_text(plan: SupplyPlan) -> str:
    """Return the current as the largest figure of the page."""
    return _amperes(plan.current.before_A)


def current_note(plan: SupplyPlan) -> str:
    """Return how sure the current is, and how it changes as the voltage falls."""
    current = plan.current
    if not current.standard_uncertainty_A:
        return translate("Bench", "held by the supply")
    half_mA = 1000 * coverage_factor(0.95, float("inf")) * current.standard_uncertainty_A
    return translate(
        "Bench", "{value} at {before} (95 %). It rises by {rise} while the voltage falls to {after}."
    ).format(
        value=with_uncertainty(1000 * current.before_A, half_mA, "mA"),
        before=plain(BEFORE_V, 2, "V"),
        rise=significant(current.rise_percent, 2, "%"),
        after=plain(AFTER_V, 2, "V"),
    )


def consequence_rows(plan: SupplyPlan) -> tuple[Row, ...]:
    """Return everything else as lines of a table."""
    current = plan.current
    rows = []
    if current.density_before_mA_cm2 is not None:
        rows.append(
            Row(
                translate("Bench", "Current density"), significant(current.density_before_mA_cm2, 3, "mA/cm²")
            )
        )
    if plan.stack_voltage_V is not None and plan.internal_resistance_ohm is not None:
        source = {
            "measured": translate("Bench", "measured"),
            "declared": translate("Bench", "as declared"),
            "assumed": translate("Bench", "assumed"),
        }.get(plan.stack_source or "", "")
        rows.append(Row(translate("Bench", "Stack"), significant(plan.stack_voltage_V, 3, "V"), source))
        regulation = translate("Bench", "regulation: {rise} from before to after")
        rows.append(
            Row(
                translate("Bench", "Current after"),
                _amperes(current.after_A),
                regulation.format(rise=significant(current.rise_percent, 2, "%")),
            )
        )
    if plan.heat is not None:
        rows += _heat(plan.heat)
    if plan.fuse is not None:
        rows.append(_fuse(plan.fuse))
    if plan.dry_cell is not None:
        rows.append(_dry_cell(plan.dry_cell))
    if plan.meter_share_percent is not None:
        share = significant(plan.meter_share_percent, 2, "%")
        rows.append(Row(translate("Bench", "Through the meter"), share, translate("Bench", "of the current")))
    if plan.batteries is not None:
        rows.append(
            Row(
                translate("Bench", "Batteries last"),
                significant(plan.batteries.hours, 2, "h"),
                translate("Bench", "at most"),
                message_words(plan.batteries.battery),
            )
        )
    return (*rows, *_hydrogen(plan))


def _heat(heat: ResistorHeat) -> list[Row]:
    touching = translate("Bench", "{power} while the electrodes touch").format(
        power=_watts(heat.touching_power_W)
    )
    rows = [Row(translate("Bench", "Heat in the resistor"), _watts(heat.power_W), touching)]
    if heat.stated_rating_W is not None:
        bears = (
            translate("Bench", "bears it") if heat.stated_rating_bears else translate("Bench", "TOO SMALL")
        )
        rows.append(Row(translate("Bench", "Its rating"), _given(heat.stated_rating_W, "W"), bears))
    elif heat.least_rating_W is not None:
        rows.append(
            Row(
                translate("Bench", "Take one rated"),
                _given(heat.least_rating_W, "W"),
                translate("Bench", "or more"),
            )
        )
    return rows


def _fuse(fuse: Fuse) -> Row:
    note = translate("Bench", "at the battery's terminal")
    return Row(translate("Bench", "Fuse"), _given(1000 * fuse.rating_A, "mA"), note)


def _dry_cell(dry: DryCell) -> Row:
    value = significant(dry.reading_V, 3, "V")
    name = translate("Bench", "A dry cell reads")
    if dry.is_within_range is None or dry.range_V is None:
        return Row(name, value, translate("Bench", "range not given"))
    limit = _given(dry.range_V, "V")
    if dry.is_within_range:
        return Row(name, value, translate("Bench", "within the range of {limit}").format(limit=limit))
    text = translate("Bench", "BEYOND the range of {limit}: divide by {divider}")
    return Row(name, value, text.format(limit=limit, divider=short(dry.divider)))


def _hydrogen(plan: SupplyPlan) -> list[Row]:
    found = plan.hydrogen
    conditions = human_conditions(message_words(found.conditions))
    rows = [Row(translate("Bench", "Hydrogen in an hour"), significant(found.rate_mL_h, 3, "mL"), conditions)]
    if found.time_to_4_percent_h is not None and found.headspace_mL is not None:
        note = translate("Bench", "a closed headspace of {volume} could be lit: leave the vessel open")
        rows.append(
            Row(
                translate("Bench", "After"),
                _hours(found.time_to_4_percent_h),
                note.format(volume=_given(found.headspace_mL, "mL")),
            )
        )
    return rows


def _given(value: float, unit: str) -> str:
    """Return a value that stands on a part: no digits are added or taken."""
    return short(value, 5, unit)


def _hours(hours: float) -> str:
    """Return a time after which something may burn: never later than it is."""
    if hours >= 2:
        return significant(rounded_down(hours, 2), 2, "h")
    return significant(rounded_down(60 * hours, 2), 2, "min")


def _watts(watt: float) -> str:
    return significant(watt, 2, "W") if watt >= 1 else significant(1000 * watt, 2, "mW")


def _amperes(ampere: float) -> str:
    if ampere >= 1:
        return significant(ampere, 3, "A")
    return significant(1e3 * ampere, 3, "mA") if ampere >= 1e-3 else significant(1e6 * ampere, 3, "µA")
