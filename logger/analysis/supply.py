"""The pseudo-galvanostat: a stack of batteries and one large resistor in series with the cell."""

from __future__ import annotations

import math
from dataclasses import dataclass

from logger.analysis.refusal import Refused, require_finite, require_positive, require_within
from logger.analysis.uncertainty import rectangular_standard_uncertainty

__all__ = [
    "EXTRA_LOW_VOLTAGE_V",
    "RESISTOR_MARGIN",
    "SAG_WARNING",
    "STACK_AGREEMENT",
    "InternalResistance",
    "SupplyCircuit",
    "battery_life_h",
    "fuse_range_A",
    "internal_resistance",
    "resistor_uncertainty_ohm",
    "stack_deviation",
    "wanted_resistor_ohm",
]

EXTRA_LOW_VOLTAGE_V = 60.0
"""Above this direct voltage, touching bare leads is no longer harmless practice (IEC 61140, from memory)."""

SAG_WARNING = 0.10
"""A stack that has lost this share of its voltage is near its end (common practice, no source)."""

STACK_AGREEMENT = 0.20
"""Declared batteries and measured stack voltage should agree so well (common practice, no source)."""

RESISTOR_MARGIN = 2.0
"""Rating of a resistor over its greatest load (common practice, no source)."""

_FUSE_FACTORS = (1.5, 5.0)


@dataclass(frozen=True, slots=True)
class SupplyCircuit:
    """What drives the cell, with standard uncertainties.

    Attributes
    ----------
    stack_voltage_V : float
        Open-circuit voltage of the stack, above 0 to 60.
    resistor_ohm : float
        Series resistor with ammeter burden and leads, above zero.
    internal_resistance_ohm : float
        Of the stack, zero or more.
    stack_voltage_uncertainty_V, resistor_uncertainty_ohm, internal_resistance_uncertainty_ohm : float
        Standard uncertainties; a tolerance of 5 % is 5 % / sqrt(3) (see `resistor_uncertainty_ohm`).

    Raises
    ------
    Refused
        A value is not finite or outside its range; a negative stack voltage (reversed polarity).
    """

    stack_voltage_V: float
    resistor_ohm: float
    internal_resistance_ohm: float = 0.0
    stack_voltage_uncertainty_V: float = 0.0
    resistor_uncertainty_ohm: float = 0.0
    internal_resistance_uncertainty_ohm: float = 0.0

    def __post_init__(self) -> None:
        stack_V = require_finite("stack voltage in V", self.stack_voltage_V)
        if stack_V < 0:
            raise Refused(
                "stack voltage in V", stack_V, "its polarity is reversed", "swap the leads and read it again"
            )
        require_positive("stack voltage in V", stack_V)
        require_within(
            "stack voltage in V",
            stack_V,
            0.0,
            EXTRA_LOW_VOLTAGE_V,
            "it is outside extra-low voltage, where local rules decide who may work with it",
        )
        require_positive("series resistor in ohm", self.resistor_ohm)
        require_positive("internal resistance in ohm", self.internal_resistance_ohm, zero_allowed=True)
        for name, value in (
            ("stack voltage in V", self.stack_voltage_uncertainty_V),
            ("series resistor in ohm", self.resistor_uncertainty_ohm),
            ("internal resistance in ohm", self.internal_resistance_uncertainty_ohm),
        ):
            require_positive(f"standard uncertainty of the {name}", value, zero_allowed=True)

    @property
    def loop_resistance_ohm(self) -> float:
        """Everything in the loop but the cell."""
        return self.resistor_ohm + self.internal_resistance_ohm

    @property
    def touching_current_A(self) -> float:
        """Current while the electrodes touch: the largest the loop can carry."""
        return self.stack_voltage_V / self.loop_resistance_ohm

    @property
    def touching_power_W(self) -> float:
        """Heat in the resistor while the electrodes touch: what its rating must exceed."""
        return self.touching_current_A**2 * self.resistor_ohm

    def current_A(self, cell_voltage_V: float) -> float:
        """Return the loop's current while the cell is at `cell_voltage_V`."""
        return (self.stack_voltage_V - cell_voltage_V) / self.loop_resistance_ohm

    def check_drive(self, cell_voltage_V: float) -> None:
        """Refuse a cell voltage at which the stack drives no current.

        Raises
        ------
        Refused
            The cell voltage reaches the stack voltage.
        """
        if cell_voltage_V >= self.stack_voltage_V:
            raise Refused(
                "cell voltage in V",
                cell_voltage_V,
                f"the stack has only {self.stack_voltage_V:g} V, so no current flows",
                "check the stack voltage and the range of the meter",
            )

    def resistor_power_W(self, cell_voltage_V: float) -> float:
        """Return the heat in the resistor while the cell is at `cell_voltage_V`."""
        return self.current_A(cell_voltage_V) ** 2 * self.resistor_ohm

    def cell_power_W(self, cell_voltage_V: float) -> float:
        """Return the electrical power that the cell takes."""
        return cell_voltage_V * self.current_A(cell_voltage_V)

    def stack_power_W(self, cell_voltage_V: float) -> float:
        """Return the power that the stack spends, lost in itself included.

        The ratio of cell power to this one is V/Vs: it judges the supply and never the cell.
        """
        return self.stack_voltage_V * self.current_A(cell_voltage_V)

    def dry_cell_voltage_V(self, input_resistance_ohm: float = math.inf) -> float:
        """Return what the meter reads across a dry cell: nearly the whole stack.

        The meter's input resistance and the loop divide the stack voltage. This voltage stands on the
        input of whatever measures: many converter boards bear only 3.3 to 6 V.

        Raises
        ------
        Refused
            The input resistance is not above zero.
        """
        if input_resistance_ohm == math.inf:
            return self.stack_voltage_V
        input_ohm = require_positive("input resistance in ohm", input_resistance_ohm)
        return self.stack_voltage_V * input_ohm / (input_ohm + self.loop_resistance_ohm)

    def check_rating(self, rating_W: float) -> None:
        """Refuse a resistor that the touching electrodes would overload.

        Raises
        ------
        Refused
            The rating is not above zero, or below the heat in the resistor while the electrodes touch.
        """
        rating_W = require_positive("power rating of the resistor in W", rating_W)
        if rating_W < self.touching_power_W:
            raise Refused(
                "power rating of the resistor in W",
                rating_W,
                f"touching electrodes would put {self.touching_power_W:.3g} W into it",
                f"take a resistor of at least {math.ceil(self.least_resistor_ohm(rating_W))} ohm, "
                f"or one rated {RESISTOR_MARGIN * self.touching_power_W:.2g} W or more",
            )

    def least_resistor_ohm(self, rating_W: float) -> float:
        """Return the smallest resistor that the same stack, shorted, loads with no more than `rating_W`.

        The larger root of Vs^2 R = P (R + r)^2; zero where no resistor at all could be overloaded.
        """
        rating_W = require_positive("power rating of the resistor in W", rating_W)
        half = self.stack_voltage_V**2 / (2.0 * rating_W) - self.internal_resistance_ohm
        under_root = half * half - self.internal_resistance_ohm**2
        return half + math.sqrt(under_root) if half > 0 and under_root > 0 else 0.0


@dataclass(frozen=True, slots=True)
class InternalResistance:
    """The internal resistance of a stack and its standard uncertainty, both in ohm."""

    value_ohm: float
    standard_uncertainty_ohm: float


def resistor_uncertainty_ohm(resistor_ohm: float, tolerance_percent: float) -> float:
    """Return the standard uncertainty of a resistor known by its tolerance only.

    Raises
    ------
    Refused
        Resistor not above zero, or a tolerance outside 0 to 100 %.
    """
    resistor_ohm = require_positive("resistor in ohm", resistor_ohm)
    tolerance = require_within(
        "tolerance in percent", tolerance_percent, 0.0, 100.0, "a tolerance is a share of the value"
    )
    return rectangular_standard_uncertainty(resistor_ohm * tolerance / 100.0)


def internal_resistance(
    open_V: float,
    loaded_V: float,
    current_A: float,
    reading_uncertainty_V: float = 0.0,
    current_uncertainty_A: float = 0.0,
) -> InternalResistance:
    """Return the internal resistance of a stack from an open and a loaded reading.

    Parameters
    ----------
    open_V, loaded_V : float
        Terminal voltage without and with the load, in volt.
    current_A : float
        Load current in ampere, above zero. A heavier brief load gives a surer result.
    reading_uncertainty_V : float
        Standard uncertainty of each of the two readings in volt.
    current_uncertainty_A : float
        Standard uncertainty of the current in ampere.

    Raises
    ------
    Refused
        The loaded reading is above the open one; a value is not finite; the current is not above zero.

    Notes
    -----
    r = (V_open - V_loaded)/I. Method: technical bulletin "Battery Internal Resistance" 1.1.0 (2005).
    """
    current_A = require_positive("load current in A", current_A)
    drop_V = require_finite("open reading in V", open_V) - require_finite("loaded reading in V", loaded_V)
    require_positive("standard uncertainty of a reading in V", reading_uncertainty_V, zero_allowed=True)
    require_positive("standard uncertainty of the current in A", current_uncertainty_A, zero_allowed=True)
    if drop_V < 0:
        raise Refused(
            "loaded reading in V",
            float(loaded_V),
            f"it is above the open reading of {open_V:g} V, which would be a negative resistance",
            "check whether the two readings are swapped, or let the stack rest and read again",
        )
    value_ohm = drop_V / current_A
    uncertainty_ohm = (
        math.hypot(math.sqrt(2.0) * reading_uncertainty_V, value_ohm * current_uncertainty_A) / current_A
    )
    return InternalResistance(value_ohm, uncertainty_ohm)


def wanted_resistor_ohm(
    stack_voltage_V: float, cell_voltage_V: float, current_A: float, internal_resistance_ohm: float = 0.0
) -> float:
    """Return the series resistor that gives `current_A` at `cell_voltage_V`.

    Raises
    ------
    Refused
        The stack cannot drive that current even without a resistor, or a value is outside its range.
    """
    current_A = require_positive("current in A", current_A)
    ohm = require_positive("internal resistance in ohm", internal_resistance_ohm, zero_allowed=True)
    drive_V = require_finite("stack voltage in V", stack_voltage_V) - require_finite(
        "cell voltage in V", cell_voltage_V
    )
    resistor_ohm = drive_V / current_A - ohm
    if resistor_ohm <= 0:
        raise Refused(
            "stack voltage in V",
            float(stack_voltage_V),
            f"it cannot drive {current_A:g} A through a cell at {cell_voltage_V:g} V",
            "take more cells in the stack, or a smaller current",
        )
    return resistor_ohm


def battery_life_h(capacity_mAh: float, current_A: float) -> float:
    """Return for how many hours the stack can drive `current_A`.

    An upper bound: the capacity falls with the drain and with the voltage at which one stops.

    Raises
    ------
    Refused
        A value is not above zero.
    """
    capacity = require_positive("capacity in mAh", capacity_mAh)
    return capacity / (1000.0 * require_positive("current in A", current_A))


def fuse_range_A(circuit: SupplyCircuit, cell_voltage_V: float) -> tuple[float, float]:
    """Return between which ratings the fuse at the battery terminal should lie, in ampere.

    1.5 to 5 times the operating current, and below what the shorted stack can deliver (common practice,
    no source). The series resistor limits a short of the cell; the fuse is there for a short of the stack.

    Raises
    ------
    Refused
        The cell voltage reaches the stack voltage.
    """
    circuit.check_drive(require_finite("cell voltage in V", cell_voltage_V))
    current_A = circuit.current_A(cell_voltage_V)
    low_A, high_A = (factor * current_A for factor in _FUSE_FACTORS)
    if circuit.internal_resistance_ohm > 0:
        high_A = min(high_A, circuit.stack_voltage_V / circuit.internal_resistance_ohm)
    return low_A, high_A


def stack_deviation(cells: int, cell_voltage_V: float, measured_V: float) -> float:
    """Return how far the measured stack voltage is from the declared batteries, as a share of the declared.

    Beyond `STACK_AGREEMENT` one of the three is worth a second look.

    Raises
    ------
    Refused
        A value is not above zero.
    """
    declared_V = require_positive("cells in the stack", cells) * require_positive(
        "voltage of one cell in V", cell_voltage_V
    )
    return require_positive("stack voltage in V", measured_V) / declared_V - 1.0
