"""A plan of the supply as text for people."""

from __future__ import annotations

from logger.analysis.planned_current import AFTER_V, BEFORE_V, PlannedResistor
from logger.analysis.planned_parts import DryCell, Fuse, ResistorHeat
from logger.analysis.supply_plan import SupplyPlan
from logger.analysis.uncertainty import coverage_factor
from logger.cautions import DEFERENCE, IN_SHORT
from logger.quantity import plain, rounded_down, significant, with_uncertainty

__all__ = ["plan_text"]

_LABEL_WIDTH = 11


def plan_text(plan: SupplyPlan) -> str:
    """Return the plan as lines: what to take, what it gives, what it does, and what to mind."""
    lines = [
        ("Stack", _stack(plan)),
        ("Resistor", _resistor(plan)),
        ("", _alternatives(plan)),
        ("Current", _current(plan)),
        ("Heat", "" if plan.heat is None else _heat(plan.heat)),
        ("Fuse", "" if plan.fuse is None else _fuse(plan.fuse)),
        ("Dry cell", "" if plan.dry_cell is None else _dry_cell(plan.dry_cell)),
        ("Batteries", _batteries(plan)),
        ("Hydrogen", _hydrogen(plan)),
    ]
    parts = ["\n".join(f"{label:<{_LABEL_WIDTH}}{text}" for label, text in lines if text)]
    if plan.assumed:
        parts.append("\n".join(["Assumed:", *(f"- {one}" for one in plan.assumed)]))
    if plan.cautions:
        parts.append("\n".join(["To know:", *(f"- {one.message}" for one in plan.cautions)]))
    parts.append(f"{IN_SHORT}\n{DEFERENCE}")
    return "\n\n".join(parts)


def _stack(plan: SupplyPlan) -> str:
    if plan.stack_voltage_V is None or plan.internal_resistance_ohm is None:
        return "none: the supply holds the current itself"
    inside = _given(plan.internal_resistance_ohm, "Ω")
    return f"{_given(plan.stack_voltage_V, 'V')} ({plan.stack_source}), {inside} inside"


def _resistor(plan: SupplyPlan) -> str:
    if plan.resistor is None:
        return ""
    text = _ohms(plan.resistor.resistor_ohm)
    if plan.wanted_resistor_ohm is None:
        return f"{text}, as in the bench file"
    return f"{text} ({plan.resistor.series}, the nearest to {_ohms(plan.wanted_resistor_ohm)})"


def _alternatives(plan: SupplyPlan) -> str:
    return "; ".join(_alternative(one) for one in plan.alternatives)


def _alternative(one: PlannedResistor) -> str:
    named = "of the bench file" if one.series == "bench" else f"of {one.series}"
    off = "" if one.deviation_percent is None else f" ({_percent(one.deviation_percent)})"
    return f"{_ohms(one.resistor_ohm)} {named} would give {_amperes(one.current_A)}{off}"


def _current(plan: SupplyPlan) -> str:
    current = plan.current
    if current.standard_uncertainty_A > 0:
        half_mA = 1000.0 * coverage_factor(0.95, float("inf")) * current.standard_uncertainty_A
        text = f"{with_uncertainty(1000.0 * current.before_A, half_mA, 'mA')} at {BEFORE_V:g} V (95 %)"
        if plan.resistor is not None and plan.resistor.deviation_percent is not None:
            text += f", {_percent(plan.resistor.deviation_percent)} from what was wanted"
        text += (
            f"; {_amperes(current.after_A)} at {AFTER_V:.2f} V: it rises by "
            f"{significant(current.rise_percent, 2, '%')}"
        )
    else:
        text = f"{_amperes(current.before_A)}, held by the supply"
    if current.density_before_mA_cm2 is not None:
        text += f"; {significant(current.density_before_mA_cm2, 3, 'mA/cm²')}"
    return text


def _heat(heat: ResistorHeat) -> str:
    text = (
        f"{significant(heat.power_W, 2, 'W')} in use, {significant(heat.touching_power_W, 2, 'W')} with "
        f"touching electrodes ({_amperes(heat.touching_current_A)})"
    )
    if heat.stated_rating_bears and heat.stated_rating_W is not None:
        return f"{text}; rated {_given(heat.stated_rating_W, 'W')}, which bears it"
    if heat.least_rating_W is None:
        return f"{text}; no usual resistor bears twice that"
    return f"{text}; take one rated {_given(heat.least_rating_W, 'W')} or more"


def _fuse(fuse: Fuse) -> str:
    text = f"{_given(1000.0 * fuse.rating_A, 'mA')} at the battery's terminal"
    if fuse.rating_A > fuse.high_A:
        text += f", the smallest there is ({_amperes(fuse.low_A)} to {_amperes(fuse.high_A)} would fit)"
    short = (
        "" if fuse.stack_short_A is None else f", which can deliver {significant(fuse.stack_short_A, 2, 'A')}"
    )
    return f"{text}; it is there for a short of the stack{short}"


def _dry_cell(dry: DryCell) -> str:
    text = f"the meter must read {significant(dry.reading_V, 4, 'V')}"
    if dry.is_within_range is None:
        return f"{text} (its range is not known)"
    if dry.is_within_range:
        return f"{text}, within its range of {_given(dry.range_V or 0.0, 'V')}"
    return f"{text}, BEYOND its range of {_given(dry.range_V or 0.0, 'V')}: divide by {dry.divider:g}"


def _batteries(plan: SupplyPlan) -> str:
    if plan.stack_voltage_V is None:
        return ""
    life = plan.batteries
    if life is None:
        return (
            f"not known which; their capacity in mAh over {plain(1000 * plan.current.before_A, 3, 'mA')} is "
            "the run time in hours"
        )
    capacity = _given(life.capacity_mAh, "mAh")
    return (
        f"at most {significant(life.hours, 2, 'h')} ({capacity}: {life.battery}); renew them once the stack "
        "has lost a tenth"
    )


def _hydrogen(plan: SupplyPlan) -> str:
    hydrogen = plan.hydrogen
    conditions = hydrogen.conditions.replace("degC", "°C")
    text = f"{significant(hydrogen.rate_mL_h, 3, 'mL')} an hour ({conditions})"
    if hydrogen.time_to_4_percent_h is None or hydrogen.headspace_mL is None:
        return f"{text}; leave the vessel open"
    return (
        f"{text}; a closed headspace of {_given(hydrogen.headspace_mL, 'mL')} could be lit after "
        f"{_hours_at_least(hydrogen.time_to_4_percent_h)}: leave the vessel open"
    )


def _given(value: float, unit: str) -> str:
    """Return a value that somebody stated: no digits are added to it."""
    return f"{value:.5g}\u00a0{unit}"


def _hours_at_least(hours: float) -> str:
    if hours >= 2.0:
        return significant(rounded_down(hours, 2), 2, "h")
    if hours >= 1.0 / 60.0:
        return significant(rounded_down(60.0 * hours, 2), 2, "min")
    return significant(rounded_down(3600.0 * hours, 2), 2, "s")


def _ohms(ohm: float) -> str:
    for unit, factor in (("MΩ", 1e6), ("kΩ", 1e3)):
        if ohm >= factor:
            return f"{ohm / factor:.4g}\u00a0{unit}"
    return f"{ohm:.4g}\u00a0Ω"


def _amperes(ampere: float) -> str:
    for unit, factor in (("A", 1.0), ("mA", 1e-3)):
        if ampere >= factor:
            return significant(ampere / factor, 4, unit)
    return significant(1e6 * ampere, 4, "µA")


def _percent(percent: float) -> str:
    sign = "+" if percent > 0 else ""
    return f"{sign}{plain(percent, 1, '%')}"
