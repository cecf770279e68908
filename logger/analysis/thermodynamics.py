"""What water splitting needs at least: voltages, voltage efficiency, energy per amount of hydrogen.

The reaction is H2O(l) -> H2(g) + 1/2 O2(g), two electrons. Three conventions of efficiency are in use and
are never mixed here: each result names its numerator.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from logger.analysis.constants import (
    ELECTRONS_PER_HYDROGEN,
    ENTHALPY_OF_VAPOUR_FORMATION_J_MOL,
    FARADAY_C_MOL,
    GAS_CONSTANT_J_MOL_K,
    MOLAR_MASS_HYDROGEN_G_MOL,
    NORMAL_PRESSURE_PA,
    NORMAL_TEMPERATURE_C,
    STANDARD_PRESSURE_PA,
    STANDARD_TEMPERATURE_K,
    WATER_SPLITTING_ENTHALPY_J_MOL,
    WATER_SPLITTING_ENTROPY_J_MOL_K,
    WATER_SPLITTING_HEAT_CAPACITY_J_MOL_K,
    ZERO_CELSIUS_K,
)
from logger.analysis.refusal import Refused, require_finite, require_positive, require_within
from logger.analysis.vapour import water_vapour_pressure_Pa

__all__ = [
    "LOWER_HEATING_VOLTAGE_V",
    "STANDARD_VOLTAGE_UNCERTAINTY_V",
    "CellThermodynamics",
    "VoltageEfficiency",
    "cell_thermodynamics",
    "check_pressure_Pa",
    "check_temperature_C",
    "dry_gas_pressure_Pa",
    "energy_kWh_per_kg_hydrogen",
    "energy_kWh_per_normal_m3_hydrogen",
    "reaction_enthalpy_J_mol",
    "reaction_gibbs_energy_J_mol",
    "reversible_voltage_V",
    "reversible_voltage_at_partial_pressures_V",
    "standard_voltage_V",
    "standard_voltage_slope_V_per_K",
    "thermoneutral_voltage_V",
    "voltage_efficiency",
]

_CHARGE_PER_MOL_HYDROGEN_C = ELECTRONS_PER_HYDROGEN * FARADAY_C_MOL

LOWER_HEATING_VOLTAGE_V = ENTHALPY_OF_VAPOUR_FORMATION_J_MOL / _CHARGE_PER_MOL_HYDROGEN_C
"""Enthalpy of formation of water vapour at 298.15 K over 2F, in volt: the lower-heating-value line."""

STANDARD_VOLTAGE_UNCERTAINTY_V = 40.0 / _CHARGE_PER_MOL_HYDROGEN_C
"""Standard uncertainty of the standard voltage in volt: 40 J/mol (CODATA, enthalpy of water) over 2F."""


@dataclass(frozen=True, slots=True)
class CellThermodynamics:
    """The voltages that the present conditions of the cell call for.

    Attributes
    ----------
    temperature_C, pressure_Pa : float
        The conditions: cell temperature and total pressure of each gas with its vapour.
    reversible_voltage_V : float
        Gases saturated with water vapour, liquid water of activity 1.
    thermoneutral_voltage_V : float
        Reaction enthalpy over 2F (higher heating value).
    lower_heating_voltage_V : float
        Enthalpy of formation of water vapour over 2F (lower heating value).
    """

    temperature_C: float
    pressure_Pa: float
    reversible_voltage_V: float
    thermoneutral_voltage_V: float
    lower_heating_voltage_V: float


@dataclass(frozen=True, slots=True)
class VoltageEfficiency:
    """Voltage efficiency as fractions (1 is 100 %), one for each convention.

    Attributes
    ----------
    reversible : float
        Reversible voltage over cell voltage.
    higher_heating : float
        Thermoneutral voltage over cell voltage.
    lower_heating : float
        Lower-heating-value voltage over cell voltage.
    """

    reversible: float
    higher_heating: float
    lower_heating: float


def check_temperature_C(temperature_C: float) -> float:
    """Return `temperature_C` as a float within 0 to 100 degrees Celsius.

    Raises
    ------
    Refused
        Not finite, outside the range, or a kelvin value given as Celsius.
    """
    temperature_C = require_finite("temperature in degC", temperature_C)
    if ZERO_CELSIUS_K <= temperature_C <= ZERO_CELSIUS_K + 100.0:
        raise Refused(
            "temperature in degC",
            temperature_C,
            "it looks like kelvin",
            f"if so, give {temperature_C - ZERO_CELSIUS_K:.2f} degC; accepted is 0 to 100",
        )
    return require_within("temperature in degC", temperature_C, 0.0, 100.0, "the cell holds liquid water")


def check_pressure_Pa(pressure_Pa: float) -> float:
    """Return `pressure_Pa` as a float within 30 kPa to 2 MPa.

    Raises
    ------
    Refused
        Not finite, or outside: then the unit is in doubt (hPa, mmHg, kPa or bar given as pascal).
    """
    return require_within(
        "pressure in Pa",
        pressure_Pa,
        3e4,
        2e6,
        "no open cell has that pressure, so the unit is in doubt (hPa, kPa, mmHg and bar must be converted)",
    )


def reaction_enthalpy_J_mol(temperature_C: float) -> float:
    """Return the enthalpy of water splitting in J per mol of hydrogen at 1 bar.

    Notes
    -----
    Kirchhoff's law with a heat capacity change constant over 0 to 100 degC; values and their source in
    `logger.analysis.constants`. Closed form and full integration agree within 57 microvolt times 2F.
    """
    kelvin = check_temperature_C(temperature_C) + ZERO_CELSIUS_K
    rise_K = kelvin - STANDARD_TEMPERATURE_K
    return WATER_SPLITTING_ENTHALPY_J_MOL + WATER_SPLITTING_HEAT_CAPACITY_J_MOL_K * rise_K


def reaction_gibbs_energy_J_mol(temperature_C: float) -> float:
    """Return the Gibbs energy of water splitting in J per mol of hydrogen at 1 bar."""
    kelvin = check_temperature_C(temperature_C) + ZERO_CELSIUS_K
    rise_K = kelvin - STANDARD_TEMPERATURE_K
    bend = rise_K - kelvin * math.log(kelvin / STANDARD_TEMPERATURE_K)
    return (
        WATER_SPLITTING_ENTHALPY_J_MOL
        - kelvin * WATER_SPLITTING_ENTROPY_J_MOL_K
        + WATER_SPLITTING_HEAT_CAPACITY_J_MOL_K * bend
    )


def standard_voltage_V(temperature_C: float) -> float:
    """Return the standard voltage of water splitting, all substances at 1 bar.

    Parameters
    ----------
    temperature_C : float
        Cell temperature in degrees Celsius, 0 to 100.

    Returns
    -------
    float
        Voltage in volt, with a standard uncertainty of about 0.2 mV.

    Raises
    ------
    Refused
        See `check_temperature_C`.

    Notes
    -----
    Gibbs energy over 2F: E0(T) = {dH0 - T dS0 + dCp [(T - T0) - T ln(T/T0)]} / 2F.
    """
    return reaction_gibbs_energy_J_mol(temperature_C) / _CHARGE_PER_MOL_HYDROGEN_C


def standard_voltage_slope_V_per_K(temperature_C: float) -> float:
    """Return the temperature coefficient of the standard voltage: minus the reaction entropy over 2F."""
    kelvin = check_temperature_C(temperature_C) + ZERO_CELSIUS_K
    entropy = WATER_SPLITTING_ENTROPY_J_MOL_K + WATER_SPLITTING_HEAT_CAPACITY_J_MOL_K * math.log(
        kelvin / STANDARD_TEMPERATURE_K
    )
    return -entropy / _CHARGE_PER_MOL_HYDROGEN_C


def reversible_voltage_at_partial_pressures_V(
    temperature_C: float,
    hydrogen_pressure_Pa: float,
    oxygen_pressure_Pa: float,
    water_activity: float = 1.0,
) -> float:
    """Return the reversible voltage for given partial pressures of the gases.

    Parameters
    ----------
    temperature_C : float
        Cell temperature in degrees Celsius, 0 to 100.
    hydrogen_pressure_Pa, oxygen_pressure_Pa : float
        Partial pressures without vapour, in pascal, above zero.
    water_activity : float
        Activity of liquid water, above 0 to 1; 1 for a dilute buffer.

    Returns
    -------
    float
        Voltage in volt.

    Raises
    ------
    Refused
        A value is not finite, not positive, or outside its range.

    Notes
    -----
    Nernst equation; ideal gases, standard pressure 1 bar.
    """
    hydrogen = (
        require_positive("partial pressure of hydrogen in Pa", hydrogen_pressure_Pa) / STANDARD_PRESSURE_PA
    )
    oxygen = require_positive("partial pressure of oxygen in Pa", oxygen_pressure_Pa) / STANDARD_PRESSURE_PA
    activity = require_positive("activity of water", water_activity)
    require_within("activity of water", activity, 0.0, 1.0, "an activity above 1 would need supersaturation")
    standard_V = standard_voltage_V(temperature_C)
    kelvin = temperature_C + ZERO_CELSIUS_K
    quotient = hydrogen * math.sqrt(oxygen) / activity
    return standard_V + GAS_CONSTANT_J_MOL_K * kelvin / _CHARGE_PER_MOL_HYDROGEN_C * math.log(quotient)


def reversible_voltage_V(temperature_C: float, pressure_Pa: float, *, saturated: bool = True) -> float:
    """Return the reversible voltage of an open cell.

    Parameters
    ----------
    temperature_C : float
        Cell temperature in degrees Celsius, 0 to 100.
    pressure_Pa : float
        Total pressure over each electrode in pascal, 3e4 to 2e6.
    saturated : bool
        True: each gas holds water vapour at saturation (the usual case over water). False: dry gases.

    Returns
    -------
    float
        Voltage in volt.

    Raises
    ------
    Refused
        See `check_temperature_C` and `check_pressure_Pa`; or the vapour takes the whole pressure (boiling).
    """
    temperature_C = check_temperature_C(temperature_C)
    pressure_Pa = check_pressure_Pa(pressure_Pa)
    gas_Pa = dry_gas_pressure_Pa(temperature_C, pressure_Pa) if saturated else pressure_Pa
    return reversible_voltage_at_partial_pressures_V(temperature_C, gas_Pa, gas_Pa)


def dry_gas_pressure_Pa(temperature_C: float, pressure_Pa: float) -> float:
    """Return what is left of the total pressure for the gas once the vapour has its share.

    Raises
    ------
    Refused
        The vapour pressure reaches the total pressure: the water boils.
    """
    vapour_Pa = water_vapour_pressure_Pa(temperature_C)
    if not pressure_Pa > vapour_Pa:
        raise Refused(
            "pressure in Pa",
            float(pressure_Pa),
            f"at {temperature_C:g} degC the vapour of water alone has {vapour_Pa:.0f} Pa, so the cell boils",
            f"give a pressure above {vapour_Pa:.0f} Pa or a lower temperature",
        )
    return pressure_Pa - vapour_Pa


def thermoneutral_voltage_V(temperature_C: float) -> float:
    """Return the thermoneutral voltage in volt: reaction enthalpy over 2F, higher heating value."""
    return reaction_enthalpy_J_mol(temperature_C) / _CHARGE_PER_MOL_HYDROGEN_C


def cell_thermodynamics(temperature_C: float, pressure_Pa: float) -> CellThermodynamics:
    """Return all reference voltages of an open cell whose gases are saturated with vapour.

    Parameters
    ----------
    temperature_C : float
        Cell temperature in degrees Celsius, 0 to 100.
    pressure_Pa : float
        Air pressure in pascal.

    Raises
    ------
    Refused
        See `reversible_voltage_V`.
    """
    return CellThermodynamics(
        temperature_C=float(temperature_C),
        pressure_Pa=float(pressure_Pa),
        reversible_voltage_V=reversible_voltage_V(temperature_C, pressure_Pa),
        thermoneutral_voltage_V=thermoneutral_voltage_V(temperature_C),
        lower_heating_voltage_V=LOWER_HEATING_VOLTAGE_V,
    )


def voltage_efficiency(voltage_V: float, conditions: CellThermodynamics) -> VoltageEfficiency:
    """Return the voltage efficiency of a cell at `voltage_V`, in all three conventions, as fractions.

    Raises
    ------
    Refused
        The voltage is not finite or not above zero: below that nothing is electrolysed.
    """
    voltage_V = require_positive("cell voltage in V", voltage_V)
    return VoltageEfficiency(
        reversible=conditions.reversible_voltage_V / voltage_V,
        higher_heating=conditions.thermoneutral_voltage_V / voltage_V,
        lower_heating=conditions.lower_heating_voltage_V / voltage_V,
    )


def energy_kWh_per_kg_hydrogen(voltage_V: float, faradaic_efficiency: float = 1.0) -> float:
    """Return the electrical energy for one kilogram of hydrogen.

    Parameters
    ----------
    voltage_V : float
        Cell voltage, or a difference of voltages (then the result is a difference too), in volt.
    faradaic_efficiency : float
        Share of the charge that ends as hydrogen, above 0 to 1.

    Returns
    -------
    float
        Energy in kWh/kg: 2F V / M(H2) / Faradaic efficiency.

    Raises
    ------
    Refused
        A value is not finite, or the efficiency lies outside 0 to 1.
    """
    voltage_V = require_finite("voltage in V", voltage_V)
    share = _checked_share(faradaic_efficiency)
    joule_per_gram = _CHARGE_PER_MOL_HYDROGEN_C * voltage_V / MOLAR_MASS_HYDROGEN_G_MOL / share
    return joule_per_gram * 1000.0 / 3.6e6


def energy_kWh_per_normal_m3_hydrogen(voltage_V: float, faradaic_efficiency: float = 1.0) -> float:
    """Return the electrical energy for one normal cubic metre (0 degC, 101 325 Pa, dry) of hydrogen, in kWh.

    See `energy_kWh_per_kg_hydrogen` for the parameters and refusals.
    """
    voltage_V = require_finite("voltage in V", voltage_V)
    share = _checked_share(faradaic_efficiency)
    normal_K = NORMAL_TEMPERATURE_C + ZERO_CELSIUS_K
    mol_per_m3 = NORMAL_PRESSURE_PA / (GAS_CONSTANT_J_MOL_K * normal_K)
    return _CHARGE_PER_MOL_HYDROGEN_C * voltage_V * mol_per_m3 / share / 3.6e6


def _checked_share(faradaic_efficiency: float) -> float:
    require_positive("Faradaic efficiency", faradaic_efficiency)
    return require_within(
        "Faradaic efficiency",
        faradaic_efficiency,
        0.0,
        1.0,
        "no more hydrogen can form than the charge allows",
    )
