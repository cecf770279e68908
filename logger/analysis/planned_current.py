"""The current of a planned run, the resistors that give it, and the hydrogen it makes."""

from __future__ import annotations

from dataclasses import dataclass

from logger.analysis.current import cell_current, current_density_mA_cm2
from logger.analysis.gas import hydrogen_rate_mL_h, time_to_flammable_h
from logger.analysis.refusal import Refused, require_finite, require_within
from logger.analysis.supply import SupplyCircuit
from logger.bench_defaults import Conditions
from logger.bench_rules import SECTIONS, Number
from logger.bench_tables import Bench

__all__ = [
    "AFTER_V",
    "BEFORE_V",
    "GREATEST_DENSITY_mA_cm2",
    "Hydrogen",
    "PlannedCurrent",
    "PlannedResistor",
    "checked_current_A",
    "current_from_density_A",
    "planned_current",
    "planned_hydrogen",
    "require_density",
]

BEFORE_V, AFTER_V = 2.25, 2.00
"""Cell voltages planned with: bare electrodes and a good catalyst at some mA/cm2 (common practice, no
source). A quarter of a volt more or less changes the current by a hundredth."""

GREATEST_DENSITY_mA_cm2 = 500.0
"""More is a slip of the current or of the area (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class PlannedResistor:
    """A resistor one can buy and the current it gives at `BEFORE_V`.

    `series` is the IEC 60063 series, or ``bench`` for the one of the bench file; `deviation_percent` is the
    current's from the wanted one, None where none was wanted.
    """

    resistor_ohm: float
    series: str
    current_A: float
    deviation_percent: float | None


@dataclass(frozen=True, slots=True)
class PlannedCurrent:
    """The current that really flows.

    Attributes
    ----------
    before_A, after_A : float
        At `BEFORE_V` and `AFTER_V`.
    standard_uncertainty_A : float
        Of `before_A`, from the tolerance of the resistor and what is known of the stack; 0 where a supply
        holds the current.
    rise_percent : float
        From before to after: how well the supply holds the current.
    density_before_mA_cm2 : float or None
        None where the anode's area is not known.
    """

    before_A: float
    after_A: float
    standard_uncertainty_A: float
    rise_percent: float
    density_before_mA_cm2: float | None


@dataclass(frozen=True, slots=True)
class Hydrogen:
    """Hydrogen made at `before_A`, dry, at `conditions`.

    `time_to_4_percent_h` is when a closed headspace of `headspace_mL` could be lit; None where the bench
    file gives no headspace.
    """

    rate_mL_h: float
    headspace_mL: float | None
    time_to_4_percent_h: float | None
    conditions: str


def checked_current_A(current_A: float) -> float:
    """Return a wanted current.

    Raises
    ------
    Refused
        Not finite, out of the range of the bench file's ``supply.current_A``, or of the size of another unit.
    """
    current_A = require_finite("current in A", current_A)
    rule = SECTIONS["supply"]["current_A"]
    assert isinstance(rule, Number)
    units = [f"{unit} (then write {value:.6g})" for unit, value in rule.meant(current_A)]
    if units:
        raise Refused("current in A", current_A, f"it looks like {' or '.join(units)}", rule.reason)
    return require_within("current in A", current_A, rule.low, rule.high, rule.reason)


def current_from_density_A(density_mA_cm2: float, bench: Bench) -> float:
    """Return the current of a density on the anode of the bench.

    Raises
    ------
    Refused
        The density is not within 0.0001 to 500 mA/cm2, the bench file gives no area, or the current is out
        of range.
    """
    density = require_within(
        "current density in mA/cm2",
        density_mA_cm2,
        1e-4,
        GREATEST_DENSITY_mA_cm2,
        "a cell of this kind takes 0.0001 to 500 mA/cm2",
    )
    area_cm2 = bench.cell.anode_area_cm2
    if area_cm2 is None:
        raise Refused(
            "current density in mA/cm2",
            density,
            "the area of the anode is not known",
            "give [cell] anode_area_cm2 in a bench file, or --current instead",
        )
    return checked_current_A(density * area_cm2 / 1000.0)


def require_density(current_A: float, area_cm2: float | None) -> float | None:
    """Return the density of a current in mA/cm2; None where no area is known.

    Raises
    ------
    Refused
        More than 500 mA/cm2.
    """
    if area_cm2 is None:
        return None
    return require_within(
        "current density in mA/cm2",
        current_density_mA_cm2(current_A, area_cm2),
        0.0,
        GREATEST_DENSITY_mA_cm2,
        "a cell of this kind takes no more; check the current and the area",
    )


def planned_current(circuit: SupplyCircuit, area_cm2: float | None) -> PlannedCurrent:
    """Return the current that a circuit gives.

    Raises
    ------
    Refused
        The stack drives none, or the density exceeds 500 mA/cm2.
    """
    before = cell_current(circuit, BEFORE_V)
    after_A = circuit.current_A(AFTER_V)
    return PlannedCurrent(
        before_A=before.value_A,
        after_A=after_A,
        standard_uncertainty_A=before.standard_uncertainty_A,
        rise_percent=100.0 * (after_A / before.value_A - 1.0),
        density_before_mA_cm2=require_density(before.value_A, area_cm2),
    )


def planned_hydrogen(current_A: float, headspace_mL: float | None, conditions: Conditions) -> Hydrogen:
    """Return the hydrogen that a current makes; a headspace of zero is an open vessel."""
    temperature_C, pressure_Pa = conditions.temperature_C, conditions.pressure_Pa
    until_h = None
    if headspace_mL:
        until_h = time_to_flammable_h(current_A, headspace_mL, temperature_C, pressure_Pa)
    return Hydrogen(
        rate_mL_h=hydrogen_rate_mL_h(current_A, temperature_C, pressure_Pa),
        headspace_mL=headspace_mL or None,
        time_to_4_percent_h=until_h,
        conditions=f"dry, {temperature_C:g} degC, {conditions.pressure_kPa:g} kPa",
    )
