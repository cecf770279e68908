"""What each key of a bench file may hold, and which slips of units are known by their size.

The limits are common practice, without a source, except where one is named. They are there to catch slips:
a value in a slip's range is put to the user with what it looks like, and never changed silently.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["SECTIONS", "Number", "Rule", "Slip", "Text"]


@dataclass(frozen=True, slots=True)
class Slip:
    """A range of values that speaks of another unit: ``value * factor + shift`` is what was meant."""

    low: float
    high: float
    looks_like: str
    factor: float = 1.0
    shift: float = 0.0

    def meant(self, value: float) -> float | None:
        """Return the value in the right unit, or None where `value` does not look like this slip."""
        return value * self.factor + self.shift if self.low <= value <= self.high else None


@dataclass(frozen=True, slots=True)
class Number:
    """A number within [low, high]; `reason` says why the limits are there; `whole` asks for an integer."""

    low: float
    high: float
    reason: str
    slips: tuple[Slip, ...] = ()
    whole: bool = False

    def meant(self, value: float) -> tuple[tuple[str, float], ...]:
        """Return what a slip of units looks like and the possible values that were meant; empty: none."""
        found = ((slip.looks_like, slip.meant(value)) for slip in self.slips)
        return tuple((unit, m) for unit, m in found if m is not None and self.low <= m <= self.high)


@dataclass(frozen=True, slots=True)
class Text:
    """A short text."""


Rule = Number | Text

_MILLIVOLT = Slip(1000.001, 1e6, "millivolt", 1e-3)
_STACK_REASON = "a stack must split water and stay within extra-low voltage (above 60 V local rules decide)"

_SUPPLY: dict[str, Rule] = {
    "cells": Number(1, 60, "a stack has 1 to 60 cells", whole=True),
    "cell_voltage_V": Number(
        0.8, 15.0, "a battery has 0.8 to 15 V", (Slip(100.0, 15000.0, "millivolt", 1e-3),)
    ),
    "stack_voltage_V": Number(
        1.3, 60.0, _STACK_REASON, (_MILLIVOLT, Slip(-60.0, -1.3, "swapped leads", -1.0))
    ),
    "internal_resistance_ohm": Number(0.0, 1000.0, "a stack that drives a cell has 0 to 1000 ohm inside"),
    "resistor_ohm": Number(
        100.0,
        1e7,
        "the method holds the current by a large resistor, 100 ohm to 10 Mohm "
        "(give current_A instead for a supply that holds the current itself)",
        (Slip(1e-4, 99.999, "kilo-ohm", 1e3),),
    ),
    "resistor_tolerance_percent": Number(0.0, 20.0, "the widest series has 20 % (IEC 60063)"),
    "resistor_rating_W": Number(
        0.01, 100.0, "resistors are rated 0.01 to 100 W", (Slip(100.001, 1e5, "milliwatt", 1e-3),)
    ),
    "current_A": Number(
        1e-7,
        1.0,
        "the method uses 0.1 microampere to 1 ampere",
        (Slip(1.001, 1e3, "milliampere", 1e-3), Slip(1e3, 1e6, "microampere", 1e-6)),
    ),
}

_CELL: dict[str, Rule] = {
    "anode": Text(),
    "cathode": Text(),
    "anode_area_cm2": Number(
        0.005,
        100.0,
        "electrodes of 0.005 to 100 cm2 are expected",
        (Slip(100.001, 1e5, "square millimetre", 1e-2), Slip(1e-8, 0.004999, "square metre", 1e4)),
    ),
    "electrolyte": Text(),
    "pH": Number(-1.0, 15.0, "a pH lies between -1 and 15"),
    "temperature_C": Number(
        0.0, 100.0, "the cell holds liquid water", (Slip(273.0, 373.15, "kelvin", shift=-273.15),)
    ),
    "pressure_kPa": Number(
        30.0,
        200.0,
        "an open cell has 30 to 200 kPa",
        (
            Slip(300.0, 2000.0, "hectopascal", 0.1),
            Slip(500.0, 800.0, "millimetres of mercury", 0.133322),
            Slip(3e4, 2e5, "pascal", 1e-3),
            Slip(0.3, 2.0, "bar or atmosphere", 100.0),
        ),
    ),
    "spacing_mm": Number(
        0.1, 500.0, "electrodes stand 0.1 to 500 mm apart", (Slip(1e-4, 0.09999, "metre", 1e3),)
    ),
    "volume_mL": Number(1.0, 20000.0, "a vessel holds 1 mL to 20 L", (Slip(0.01, 0.9999, "litre", 1e3),)),
    "headspace_mL": Number(
        0.0, 100000.0, "a headspace has 0 mL to 100 L", (Slip(0.001, 0.9999, "litre", 1e3),)
    ),
    "metal_salt": Text(),
    "salt_mass_mg": Number(
        0.1,
        10000.0,
        "0.1 mg to 10 g of salt are expected",
        (Slip(1e-4, 0.09999, "gram", 1e3), Slip(10000.001, 1e7, "microgram", 1e-3)),
    ),
    "stirring_rpm": Number(0.0, 3000.0, "stirrers turn 0 to 3000 times a minute"),
}

_METER: dict[str, Rule] = {
    "range_V": Number(0.01, 1000.0, "ranges reach from 0.01 to 1000 V", (_MILLIVOLT,)),
    "resolution_V": Number(
        1e-9,
        0.1,
        "one count is 1 nV to 0.1 V",
        (Slip(0.1001, 1000.0, "millivolt", 1e-3),),
    ),
    "accuracy_percent_of_reading": Number(0.0, 10.0, "meters are good for 0 to 10 % of the reading"),
    "accuracy_counts": Number(0.0, 1000.0, "meters are good for 0 to 1000 counts"),
    "input_resistance_ohm": Number(
        20000.0,
        1e13,
        "less than 20 kohm would load the cell",
        (Slip(0.05, 999.99, "megohm", 1e6), Slip(1000.0, 19999.0, "kilo-ohm", 1e3)),
    ),
    "zero_V": Number(-0.5, 0.5, "a meter shows 0 V within 0.5 V", (Slip(0.5001, 500.0, "millivolt", 1e-3),)),
    "gain": Number(0.5, 2.0, "a gain is the change shown over the true change, 0.5 to 2"),
}

_SETTLING: dict[str, Rule] = {
    "limit_mV_per_min": Number(
        0.01,
        1000.0,
        "0.01 to 1000 mV/min can be told from noise and are worth waiting for",
        (Slip(1e-5, 0.009999, "volt per minute", 1e3),),
    ),
    "window_s": Number(5.0, 7200.0, "5 s to 2 h are worth judging", (Slip(0.1, 4.999, "minutes", 60.0),)),
}

SECTIONS: dict[str, dict[str, Rule]] = {
    "supply": _SUPPLY,
    "cell": _CELL,
    "meter": _METER,
    "settling": _SETTLING,
}
"""The tables of a bench file and their keys, in the order of the contract."""
