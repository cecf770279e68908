"""The current through the cell: from the supply circuit, or better from a shunt."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import overload

import numpy as np
from numpy.typing import NDArray

from logger.analysis.refusal import require_finite, require_positive
from logger.analysis.supply import SupplyCircuit

__all__ = [
    "Current",
    "cell_current",
    "cell_current_A",
    "current_density_mA_cm2",
    "current_from_shunt",
    "currents_agree",
    "meter_share",
    "relative_current_change",
    "relative_current_change_from_sag",
]


@dataclass(frozen=True, slots=True)
class Current:
    """A current and its standard uncertainty, both in ampere; `method` tells how it was had."""

    value_A: float
    standard_uncertainty_A: float
    method: str


@overload
def cell_current_A(circuit: SupplyCircuit, cell_voltage_V: float) -> float: ...
@overload
def cell_current_A(circuit: SupplyCircuit, cell_voltage_V: NDArray[np.float64]) -> NDArray[np.float64]: ...
def cell_current_A(
    circuit: SupplyCircuit, cell_voltage_V: float | NDArray[np.float64]
) -> float | NDArray[np.float64]:
    """Return the current through the cell from the voltage across it.

    Parameters
    ----------
    circuit : SupplyCircuit
    cell_voltage_V : float or ndarray, shape (n,)
        Cell voltage in volt. Not checked: an open cell gives about zero, a reading above the stack's own
        voltage a negative current, a missing reading (NaN) a missing current.

    Returns
    -------
    float or ndarray, shape (n,)
        I = (Vs - V)/(R + r) in ampere. The meter's own share V/Rin is not taken off.

    Notes
    -----
    Source: Kirchhoff's voltage law for one loop.
    """
    return (circuit.stack_voltage_V - cell_voltage_V) / circuit.loop_resistance_ohm


def cell_current(
    circuit: SupplyCircuit, cell_voltage_V: float, cell_voltage_uncertainty_V: float = 0.0
) -> Current:
    """Return the current through the cell with its standard uncertainty.

    Parameters
    ----------
    circuit : SupplyCircuit
    cell_voltage_V, cell_voltage_uncertainty_V : float
        Settled cell voltage and its standard uncertainty, in volt.

    Returns
    -------
    Current

    Raises
    ------
    Refused
        The cell voltage reaches the stack voltage: no current flows.

    Notes
    -----
    First-order propagation, uncorrelated (JCGM 100, equation 10).
    """
    cell_voltage_V = require_finite("cell voltage in V", cell_voltage_V)
    require_positive(
        "standard uncertainty of the cell voltage in V", cell_voltage_uncertainty_V, zero_allowed=True
    )
    circuit.check_drive(cell_voltage_V)
    current_A = cell_current_A(circuit, cell_voltage_V)
    uncertainty_A = (
        math.hypot(
            circuit.stack_voltage_uncertainty_V,
            cell_voltage_uncertainty_V,
            current_A * circuit.resistor_uncertainty_ohm,
            current_A * circuit.internal_resistance_uncertainty_ohm,
        )
        / circuit.loop_resistance_ohm
    )
    return Current(current_A, uncertainty_A, "from stack voltage, cell voltage and resistor")


def relative_current_change(circuit: SupplyCircuit, before_V: float, after_V: float) -> float:
    """Return (I_after - I_before)/I_before at constant stack voltage.

    Exact, and independent of the resistor: its tolerance does not act on the change.

    Raises
    ------
    Refused
        A cell voltage reaches the stack voltage.
    """
    circuit.check_drive(require_finite("cell voltage before in V", before_V))
    circuit.check_drive(require_finite("cell voltage after in V", after_V))
    return (before_V - after_V) / (circuit.stack_voltage_V - before_V)


def relative_current_change_from_sag(circuit: SupplyCircuit, cell_voltage_V: float, sag_V: float) -> float:
    """Return the relative change of current when the stack loses `sag_V` at constant cell voltage.

    Raises
    ------
    Refused
        The cell voltage reaches the stack voltage.
    """
    circuit.check_drive(require_finite("cell voltage in V", cell_voltage_V))
    return -require_finite("sag of the stack in V", sag_V) / (circuit.stack_voltage_V - cell_voltage_V)


def current_from_shunt(
    shunt_voltage_V: float,
    shunt_ohm: float,
    shunt_voltage_uncertainty_V: float = 0.0,
    shunt_uncertainty_ohm: float = 0.0,
) -> Current:
    """Return the current from the voltage across a known resistor in the loop.

    The series resistor itself serves as well. This is preferred over `cell_current`, since it needs
    neither stack voltage nor internal resistance.

    Parameters
    ----------
    shunt_voltage_V, shunt_voltage_uncertainty_V : float
        Voltage and standard uncertainty in volt; the sign is kept.
    shunt_ohm, shunt_uncertainty_ohm : float
        Resistance (above zero) and standard uncertainty in ohm.

    Raises
    ------
    Refused
        A value is not finite, the resistance not above zero, or an uncertainty negative.
    """
    voltage_V = require_finite("shunt voltage in V", shunt_voltage_V)
    ohm = require_positive("shunt resistance in ohm", shunt_ohm)
    require_positive(
        "standard uncertainty of the shunt voltage in V", shunt_voltage_uncertainty_V, zero_allowed=True
    )
    require_positive("standard uncertainty of the shunt in ohm", shunt_uncertainty_ohm, zero_allowed=True)
    current_A = voltage_V / ohm
    uncertainty_A = math.hypot(shunt_voltage_uncertainty_V, current_A * shunt_uncertainty_ohm) / ohm
    return Current(current_A, uncertainty_A, "from the voltage across the shunt")


def currents_agree(one: Current, other: Current) -> bool:
    """Tell whether two currents agree within three combined standard uncertainties."""
    limit_A = 3.0 * math.hypot(one.standard_uncertainty_A, other.standard_uncertainty_A)
    return abs(one.value_A - other.value_A) <= limit_A


def current_density_mA_cm2(current_A: float, anode_area_cm2: float) -> float:
    """Return the current over the wetted anode area (both faces and edges).

    Raises
    ------
    Refused
        The current is not finite, or the area is not above zero.
    """
    return (
        1000.0
        * require_finite("current in A", current_A)
        / require_positive("anode area in cm2", anode_area_cm2)
    )


def meter_share(cell_voltage_V: float, input_resistance_ohm: float, current_A: float) -> float:
    """Return which share of the loop's current goes through the meter beside the cell: V/Rin/I.

    Raises
    ------
    Refused
        The voltage is not finite, or resistance or current not above zero.
    """
    voltage_V = abs(require_finite("cell voltage in V", cell_voltage_V))
    beside_A = voltage_V / require_positive("input resistance in ohm", input_resistance_ohm)
    return beside_A / require_positive("current in A", current_A)
