"""What the charge makes: amounts and volumes of gas, headspace, Faradaic efficiency."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from logger.analysis.constants import (
    ELECTRONS_PER_HYDROGEN,
    ELECTRONS_PER_OXYGEN,
    FARADAY_C_MOL,
    GAS_CONSTANT_J_MOL_K,
    GRAVITY_M_S2,
    MOLAR_MASS_WATER_G_MOL,
    ZERO_CELSIUS_K,
)
from logger.analysis.refusal import Refused, require_positive, require_within
from logger.analysis.thermodynamics import check_pressure_Pa, check_temperature_C, dry_gas_pressure_Pa

__all__ = [
    "LOWER_FLAMMABLE_FRACTION",
    "FaradaicEfficiency",
    "Gas",
    "GasAmounts",
    "GasVolumes",
    "faradaic_efficiency",
    "gas_amounts",
    "gas_volume_mL",
    "gas_volumes",
    "hydrogen_rate_mL_h",
    "time_to_flammable_h",
]

Gas = Literal["hydrogen", "oxygen"]

LOWER_FLAMMABLE_FRACTION = 0.04
"""Volume fraction of hydrogen in air from which it can be lit (Molkov, Fundamentals of Hydrogen Safety
Engineering)."""

_ELECTRONS: dict[Gas, int] = {"hydrogen": ELECTRONS_PER_HYDROGEN, "oxygen": ELECTRONS_PER_OXYGEN}
_CUBIC_METRE_mL = 1e6


@dataclass(frozen=True, slots=True)
class GasAmounts:
    """What a charge makes at most if all of it splits water: amounts in mol, water used in mg."""

    electrons_mol: float
    hydrogen_mol: float
    oxygen_mol: float
    water_mg: float


@dataclass(frozen=True, slots=True)
class GasVolumes:
    """Volumes of the gases in millilitre, and in `conditions` the words that must stand beside them."""

    hydrogen_mL: float
    oxygen_mL: float
    conditions: str


@dataclass(frozen=True, slots=True)
class FaradaicEfficiency:
    """Share of the charge found again as gas.

    Attributes
    ----------
    value, standard_uncertainty : float
        As fractions (1 is 100 %).
    amount_mol : float
        Gas found, in mol.
    dry_pressure_Pa : float
        Pressure of the gas without its vapour.
    """

    value: float
    standard_uncertainty: float
    amount_mol: float
    dry_pressure_Pa: float


def gas_amounts(charge_C: float) -> GasAmounts:
    """Return what a charge makes if all of it splits water.

    Parameters
    ----------
    charge_C : float
        Charge in coulomb, zero or more (a magnitude; see `logger.analysis.charge` for reversed leads).

    Raises
    ------
    Refused
        The charge is not finite or negative.

    Notes
    -----
    Faraday's law: n = Q/(zF), with two electrons for hydrogen and four for oxygen.
    """
    electrons_mol = require_positive("charge in C", charge_C, zero_allowed=True) / FARADAY_C_MOL
    hydrogen_mol = electrons_mol / ELECTRONS_PER_HYDROGEN
    return GasAmounts(
        electrons_mol=electrons_mol,
        hydrogen_mol=hydrogen_mol,
        oxygen_mol=electrons_mol / ELECTRONS_PER_OXYGEN,
        water_mg=1000.0 * hydrogen_mol * MOLAR_MASS_WATER_G_MOL,
    )


def gas_volume_mL(
    amount_mol: float, temperature_C: float, pressure_Pa: float, *, saturated: bool = True
) -> float:
    """Return the volume of an ideal gas.

    Parameters
    ----------
    amount_mol : float
        Amount without vapour, in mol, zero or more.
    temperature_C : float
        In degrees Celsius, 0 to 100.
    pressure_Pa : float
        Total pressure in pascal, 3e4 to 2e6.
    saturated : bool
        True: collected over water, so that vapour swells the gas. False: dry.

    Returns
    -------
    float
        V = nRT/(p - pw) in millilitre; pw is zero when dry.

    Raises
    ------
    Refused
        A value is outside its range, or the water boils.
    """
    amount_mol = require_positive("amount of gas in mol", amount_mol, zero_allowed=True)
    temperature_C = check_temperature_C(temperature_C)
    pressure_Pa = check_pressure_Pa(pressure_Pa)
    gas_Pa = dry_gas_pressure_Pa(temperature_C, pressure_Pa) if saturated else pressure_Pa
    volume_m3 = amount_mol * GAS_CONSTANT_J_MOL_K * (temperature_C + ZERO_CELSIUS_K) / gas_Pa
    return volume_m3 * _CUBIC_METRE_mL


def gas_volumes(
    charge_C: float, temperature_C: float, pressure_Pa: float, *, saturated: bool = True
) -> GasVolumes:
    """Return the volumes of hydrogen and oxygen that a charge makes; parameters as in `gas_volume_mL`."""
    amounts = gas_amounts(charge_C)
    words = "saturated with water vapour" if saturated else "dry"
    return GasVolumes(
        hydrogen_mL=gas_volume_mL(amounts.hydrogen_mol, temperature_C, pressure_Pa, saturated=saturated),
        oxygen_mL=gas_volume_mL(amounts.oxygen_mol, temperature_C, pressure_Pa, saturated=saturated),
        conditions=f"{words}, {temperature_C:g} degC, {pressure_Pa / 1000.0:g} kPa, all charge splits water",
    )


def hydrogen_rate_mL_h(
    current_A: float, temperature_C: float, pressure_Pa: float, *, saturated: bool = False
) -> float:
    """Return how much hydrogen a current makes in an hour, in millilitre; dry unless `saturated`.

    Raises
    ------
    Refused
        The current is not finite or negative; see `gas_volume_mL` for the rest.
    """
    current_A = require_positive("current in A", current_A, zero_allowed=True)
    per_hour_mol = gas_amounts(current_A * 3600.0).hydrogen_mol
    return gas_volume_mL(per_hour_mol, temperature_C, pressure_Pa, saturated=saturated)


def time_to_flammable_h(
    current_A: float, headspace_mL: float, temperature_C: float, pressure_Pa: float
) -> float:
    """Return after how many hours a closed headspace of air could be lit.

    Perfect mixing, no leak, dry gas: a figure to judge a vessel by, never a promise that less is safe.

    Parameters
    ----------
    current_A : float
        Cell current in ampere, above zero.
    headspace_mL : float
        Air above the liquid in millilitre, above zero.
    temperature_C, pressure_Pa : float
        See `gas_volume_mL`.

    Raises
    ------
    Refused
        A value is not above zero or outside its range.
    """
    headspace_mL = require_positive("headspace in mL", headspace_mL)
    rate = hydrogen_rate_mL_h(require_positive("current in A", current_A), temperature_C, pressure_Pa)
    return LOWER_FLAMMABLE_FRACTION * headspace_mL / rate


def faradaic_efficiency(
    volume_mL: float,
    charge_C: float,
    temperature_C: float,
    pressure_Pa: float,
    *,
    gas: Gas = "hydrogen",
    water_column_mm: float = 0.0,
    water_density_kg_m3: float = 998.2,
    relative_standard_uncertainty: float = 0.0,
) -> FaradaicEfficiency:
    """Return the share of the charge found again as gas collected over water.

    Parameters
    ----------
    volume_mL : float
        Volume read, in millilitre, above zero.
    charge_C : float
        Charge passed while it was collected, in coulomb, above zero.
    temperature_C, pressure_Pa : float
        Of the gas, and the air pressure; see `gas_volume_mL`.
    gas : {"hydrogen", "oxygen"}
        What was collected.
    water_column_mm : float
        Height of the water inside the tube above the water outside: it lowers the pressure of the gas.
        Negative where the level inside is lower.
    water_density_kg_m3 : float
        998.2 at 20 degC.
    relative_standard_uncertainty : float
        Of volume, temperature, pressure and charge together, as a fraction.

    Returns
    -------
    FaradaicEfficiency

    Raises
    ------
    Refused
        A value is outside its range; no pressure is left for the gas; or more gas was found than the charge
        can have made, beyond twice the standard uncertainty.

    Notes
    -----
    FE = V (p - rho g h - pw)/(RT) zF/Q. Dissolved gas, recombination at the other electrode and the charge
    of the film make 80 to 95 % usual in small cells (common practice, no source).
    """
    volume_m3 = require_positive("volume of gas in mL", volume_mL) / _CUBIC_METRE_mL
    charge_C = require_positive("charge in C", charge_C)
    relative = require_positive("relative uncertainty", relative_standard_uncertainty, zero_allowed=True)
    column_mm = require_within("water column in mm", water_column_mm, -2000.0, 2000.0, "no tube is that long")
    density = require_within(
        "density of water in kg/m3", water_density_kg_m3, 900.0, 1300.0, "it is no water"
    )
    temperature_C = check_temperature_C(temperature_C)
    inside_Pa = check_pressure_Pa(pressure_Pa) - density * GRAVITY_M_S2 * column_mm / 1000.0
    dry_Pa = dry_gas_pressure_Pa(temperature_C, inside_Pa)
    amount_mol = volume_m3 * dry_Pa / (GAS_CONSTANT_J_MOL_K * (temperature_C + ZERO_CELSIUS_K))
    value = amount_mol * _ELECTRONS[gas] * FARADAY_C_MOL / charge_C
    uncertainty = value * relative
    if value > 1.0 + 2.0 * uncertainty and not math.isclose(value, 1.0, rel_tol=1e-9):
        raise Refused(
            "Faradaic efficiency",
            value,
            "more gas was found than the charge can have made",
            "look for air that leaked in, a wrong temperature or pressure, or a gap in the charge",
        )
    return FaradaicEfficiency(value, uncertainty, amount_mol, dry_Pa)
