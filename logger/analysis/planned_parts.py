"""The parts of a planned supply: heat in the resistor, fuse, reading of the dry cell, batteries."""

from __future__ import annotations

import math
from dataclasses import dataclass

from logger.analysis.evidence import ASSUMED_INPUT_RESISTANCE_OHM
from logger.analysis.supply import RESISTOR_MARGIN, SupplyCircuit, battery_life_h, fuse_range_A
from logger.bench_tables import Meter, Supply

__all__ = [
    "BatteryLife",
    "DryCell",
    "Fuse",
    "ResistorHeat",
    "battery_life",
    "dry_cell",
    "planned_fuse",
    "resistor_heat",
]

RATINGS_W = (0.125, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 25.0, 50.0, 100.0)
"""Resistors as they are sold (common practice, no source)."""

FUSES_A = tuple(
    1e-3 * number * decade
    for decade in (1, 10, 100)
    for number in (10, 12.5, 16, 20, 25, 31.5, 40, 50, 63, 80)
    if number * decade >= 31.5
)
"""Ratings of miniature fuses from 31.5 mA (sold as 32 mA) to 8 A (IEC 60127, from memory)."""

BOARD_INPUT_V = (3.3, 6.0)
"""What the input of a converter board bears, typically (common practice, no source)."""

DIVIDER_MARGIN = 1.1
"""The dry cell's reading may exceed the nominal stack: fresh nine-volt blocks read up to 9.5 V."""

_CAPACITIES_mAh = (
    (8.0, 10.0, 500.0, "a fresh alkaline nine-volt block"),
    (1.2, 1.7, 2000.0, "a fresh AA cell"),
)


@dataclass(frozen=True, slots=True)
class ResistorHeat:
    """Heat in the resistor: in use, and with touching electrodes.

    `least_rating_W` is the smallest rating on sale of at least twice the latter (common practice, no
    source), None where none is; `stated_rating_W` is that of the bench file, and `stated_rating_bears` tells
    whether it exceeds the heat with touching electrodes.
    """

    power_W: float
    touching_power_W: float
    touching_current_A: float
    least_rating_W: float | None
    stated_rating_W: float | None
    stated_rating_bears: bool | None


@dataclass(frozen=True, slots=True)
class Fuse:
    """The fuse at the battery's terminal.

    Attributes
    ----------
    low_A, high_A : float
        1.5 to 5 times the working current (common practice, no source).
    rating_A : float
        The smallest on sale within these limits, or the next larger one.
    stack_short_A : float or None
        What the shorted stack can deliver; None where its internal resistance is zero.
    """

    low_A: float
    high_A: float
    rating_A: float
    stack_short_A: float | None


@dataclass(frozen=True, slots=True)
class DryCell:
    """What the meter reads across a dry cell, and whether it bears that.

    `is_within_range` is None where the bench file gives no range. `divider` is by how much the voltage must
    be divided, 1 where not at all; `advice` says what to do, empty where nothing.
    """

    reading_V: float
    range_V: float | None
    is_within_range: bool | None
    divider: float
    advice: str


@dataclass(frozen=True, slots=True)
class BatteryLife:
    """How long the batteries last at the working current: an upper bound."""

    capacity_mAh: float
    hours: float
    battery: str


def resistor_heat(circuit: SupplyCircuit, cell_V: float, stated_rating_W: float | None) -> ResistorHeat:
    """Return the heat in the resistor of a circuit, and the rating it needs."""
    wanted_W = RESISTOR_MARGIN * circuit.touching_power_W
    return ResistorHeat(
        power_W=circuit.resistor_power_W(cell_V),
        touching_power_W=circuit.touching_power_W,
        touching_current_A=circuit.touching_current_A,
        least_rating_W=next((rating for rating in RATINGS_W if rating >= wanted_W), None),
        stated_rating_W=stated_rating_W,
        stated_rating_bears=None if stated_rating_W is None else stated_rating_W >= circuit.touching_power_W,
    )


def planned_fuse(circuit: SupplyCircuit, cell_V: float) -> Fuse:
    """Return the fuse of a circuit; see `logger.analysis.supply.fuse_range_A`."""
    low_A, high_A = fuse_range_A(circuit, cell_V)
    inner_ohm = circuit.internal_resistance_ohm
    rating_A = next((one for one in FUSES_A if one >= low_A), FUSES_A[-1])
    return Fuse(low_A, high_A, rating_A, circuit.stack_voltage_V / inner_ohm if inner_ohm else None)


def dry_cell(circuit: SupplyCircuit, meter: Meter) -> DryCell:
    """Return what the meter of the bench reads across a dry cell."""
    reading_V = circuit.dry_cell_voltage_V(meter.input_resistance_ohm or ASSUMED_INPUT_RESISTANCE_OHM)
    range_V = meter.range_V
    low_V, high_V = BOARD_INPUT_V
    if range_V is None:
        advice = (
            f"A dry cell puts {reading_V:.1f} V on the meter. Make sure that it bears that (converter boards "
            f"bear {low_V:g} to {high_V:g} V and need a divider), and give [meter] range_V."
            if reading_V > low_V
            else ""
        )
        return DryCell(reading_V, None, None, 1.0, advice)
    if reading_V <= range_V:
        return DryCell(reading_V, range_V, True, 1.0, "")
    divider = _readable_ratio(DIVIDER_MARGIN * reading_V / range_V)
    advice = (
        f"A dry cell reads {reading_V:.1f} V, beyond the range of {range_V:g} V: take a higher range, or put "
        f"a divider of {divider:g} to 1 (some megohms in all, so as not to load the cell) before the input "
        f"and add scale={divider:g} to the source address. Before that, never let the cell run dry."
    )
    return DryCell(reading_V, range_V, False, divider, advice)


def battery_life(supply: Supply, current_A: float) -> BatteryLife | None:
    """Return how long the batteries last; None where their kind does not show from their voltage.

    Capacities of fresh alkaline batteries at small currents: common practice, no source.
    """
    if supply.cell_voltage_V is None:
        return None
    for low_V, high_V, capacity_mAh, battery in _CAPACITIES_mAh:
        if low_V <= supply.cell_voltage_V <= high_V:
            return BatteryLife(capacity_mAh, battery_life_h(capacity_mAh, current_A), battery)
    return None


def _readable_ratio(least: float) -> float:
    """Return the next of 2, 5, 10, 20, 50 … that is not smaller."""
    decade = 10.0 ** math.floor(math.log10(least))
    return next(step * decade for step in (2.0, 5.0, 10.0) if step * decade >= least)
