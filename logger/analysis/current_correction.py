"""What the saving would be at the current of the first plateau.

The resistor holds the current only nearly: as the cell voltage falls, the current rises, and with it the
second voltage. The raw saving is too small by that.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from logger.analysis.refusal import Refused, require_finite, require_positive
from logger.analysis.uncertainty import rectangular_standard_uncertainty

__all__ = [
    "DEFAULT_KINETICS",
    "GREATEST_CURRENT_CHANGE",
    "CellKinetics",
    "CurrentCorrection",
    "current_correction",
    "estimated_ohmic_resistance_ohm",
    "voltage_slope_ohm",
]

GREATEST_CURRENT_CHANGE = 0.10
"""Beyond this relative change the two plateaus were not measured at the same current in any sense."""


@dataclass(frozen=True, slots=True)
class CellKinetics:
    """How the voltage of the cell follows the current, with standard uncertainties.

    Attributes
    ----------
    tafel_slope_V_per_decade, tafel_slope_uncertainty_V_per_decade : float
        Sum of the slopes of anode and cathode, zero or more.
    ohmic_resistance_ohm, ohmic_resistance_uncertainty_ohm : float
        Of the solution and the leads inside the measured voltage, zero or more.
    is_assumed : bool
        True where nothing was measured.
    """

    tafel_slope_V_per_decade: float
    tafel_slope_uncertainty_V_per_decade: float
    ohmic_resistance_ohm: float
    ohmic_resistance_uncertainty_ohm: float
    is_assumed: bool = False

    def __post_init__(self) -> None:
        for name, value in (
            ("Tafel slope in V per decade", self.tafel_slope_V_per_decade),
            ("standard uncertainty of the Tafel slope", self.tafel_slope_uncertainty_V_per_decade),
            ("ohmic resistance in ohm", self.ohmic_resistance_ohm),
            ("standard uncertainty of the ohmic resistance", self.ohmic_resistance_uncertainty_ohm),
        ):
            require_positive(name, value, zero_allowed=True)


DEFAULT_KINETICS = CellKinetics(
    tafel_slope_V_per_decade=0.18,
    tafel_slope_uncertainty_V_per_decade=0.06,
    ohmic_resistance_ohm=20.0,
    ohmic_resistance_uncertainty_ohm=rectangular_standard_uncertainty(20.0),
    is_assumed=True,
)
"""For a cell of which nothing was measured: 60 + 120 mV per decade, and 0 to 40 ohm as of electrodes a few
millimetres apart in 0.1 mol/L phosphate (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class CurrentCorrection:
    """What to add to the raw saving.

    Attributes
    ----------
    value_V : float
        Correction in volt, positive when the current rose.
    standard_uncertainty_V : float
        From slope, resistance and the ratio of the currents, in volt.
    relative_current_change : float
        (I_after - I_before)/I_before.
    is_assumed : bool
        True where `DEFAULT_KINETICS` or another assumption stands for a measurement.
    """

    value_V: float
    standard_uncertainty_V: float
    relative_current_change: float
    is_assumed: bool


def current_correction(
    before_A: float,
    after_A: float,
    kinetics: CellKinetics = DEFAULT_KINETICS,
    *,
    ratio_uncertainty: float = 0.0,
) -> CurrentCorrection:
    """Return what to add to the raw saving to state it at the current of the first plateau.

    Parameters
    ----------
    before_A, after_A : float
        Currents at the two plateaus in ampere, above zero.
    kinetics : CellKinetics
        Measured values where there are any.
    ratio_uncertainty : float
        Relative standard uncertainty of after/before. The tolerance of the resistor does not act on the
        ratio; an unknown sag of the stack between the plateaus does.

    Returns
    -------
    CurrentCorrection

    Raises
    ------
    Refused
        A value is not above zero, or the current changed by more than 10 %.

    Notes
    -----
    V_after(I1) = V_after(I2) - b log10(I2/I1) - R (I2 - I1): Tafel's law for both electrodes and Ohm's for
    the rest, exact for a cell that follows them. First order: see `voltage_slope_ohm`.
    """
    before_A = require_positive("current before in A", before_A)
    after_A = require_positive("current after in A", after_A)
    ratio_uncertainty = require_positive(
        "relative uncertainty of the current ratio", ratio_uncertainty, zero_allowed=True
    )
    change = after_A / before_A - 1.0
    if abs(change) > GREATEST_CURRENT_CHANGE:
        raise Refused(
            "change of the current between the plateaus in percent",
            100.0 * change,
            "the two voltages do not belong to the same current",
            f"compare plateaus within {100 * GREATEST_CURRENT_CHANGE:g} %, with the same resistor and stack",
        )
    decades = math.log10(after_A / before_A)
    rise_A = after_A - before_A
    value_V = kinetics.tafel_slope_V_per_decade * decades + kinetics.ohmic_resistance_ohm * rise_A
    per_ratio_V = after_A * voltage_slope_ohm(after_A, kinetics)
    uncertainty_V = math.hypot(
        kinetics.tafel_slope_uncertainty_V_per_decade * decades,
        kinetics.ohmic_resistance_uncertainty_ohm * rise_A,
        per_ratio_V * ratio_uncertainty,
    )
    return CurrentCorrection(value_V, uncertainty_V, change, kinetics.is_assumed)


def voltage_slope_ohm(current_A: float, kinetics: CellKinetics) -> float:
    """Return dV/dI of the cell in ohm: b/(I ln 10) + R.

    Raises
    ------
    Refused
        The current is not above zero.
    """
    current_A = require_positive("current in A", current_A)
    return kinetics.tafel_slope_V_per_decade / (math.log(10.0) * current_A) + kinetics.ohmic_resistance_ohm


def estimated_ohmic_resistance_ohm(
    spacing_mm: float, area_cm2: float, conductivity_S_m: float = 1.0
) -> float:
    """Return the resistance of the solution between two parallel electrodes.

    Parameters
    ----------
    spacing_mm : float
        Distance in millimetre, above zero.
    area_cm2 : float
        Facing area in square centimetre, above zero.
    conductivity_S_m : float
        About 1 S/m for 0.1 mol/L phosphate (from memory).

    Raises
    ------
    Refused
        A value is not above zero.

    Notes
    -----
    R = gap/(kappa A), straight field lines: a rough estimate, easily wrong by half.
    """
    spacing_m = require_positive("electrode spacing in mm", spacing_mm) / 1000.0
    area_m2 = require_positive("area in cm2", area_cm2) / 1e4
    conductivity = require_finite("conductivity in S/m", conductivity_S_m)
    return spacing_m / (require_positive("conductivity in S/m", conductivity) * area_m2)
