"""Constants of nature and of the substances in the cell.

Sources: SI defining constants, exact since 2019 (BIPM, The International System of Units, 9th edition);
standard thermodynamic values of CODATA (Cox, Wagman, Medvedev, CODATA Key Values for Thermodynamics, 1989),
read in the NIST WebBook and JANAF tables; heat capacities at 298.15 K of CoolProp 8.0 (ideal gases) and of
IAPWS-95 (liquid water); molar masses from the IUPAC standard atomic weights.
"""

from __future__ import annotations

from typing import Final

__all__ = [
    "ELECTRONS_PER_HYDROGEN",
    "ELECTRONS_PER_OXYGEN",
    "ELEMENTARY_CHARGE_C",
    "ENTHALPY_OF_VAPOUR_FORMATION_J_MOL",
    "FARADAY_C_MOL",
    "GAS_CONSTANT_J_MOL_K",
    "GRAVITY_M_S2",
    "MOLAR_MASS_HYDROGEN_G_MOL",
    "MOLAR_MASS_OXYGEN_G_MOL",
    "MOLAR_MASS_WATER_G_MOL",
    "NORMAL_PRESSURE_PA",
    "NORMAL_TEMPERATURE_C",
    "STANDARD_PRESSURE_PA",
    "STANDARD_TEMPERATURE_K",
    "WATER_SPLITTING_ENTHALPY_J_MOL",
    "WATER_SPLITTING_ENTROPY_J_MOL_K",
    "WATER_SPLITTING_HEAT_CAPACITY_J_MOL_K",
    "ZERO_CELSIUS_K",
]

FARADAY_C_MOL: Final = 96485.33212331
GAS_CONSTANT_J_MOL_K: Final = 8.31446261815324
ELEMENTARY_CHARGE_C: Final = 1.602176634e-19
GRAVITY_M_S2: Final = 9.80665  # standard acceleration of free fall, CGPM 1901

ZERO_CELSIUS_K: Final = 273.15
STANDARD_TEMPERATURE_K: Final = 298.15
STANDARD_PRESSURE_PA: Final = 1e5  # one bar, IUPAC since 1982
NORMAL_TEMPERATURE_C: Final = 0.0  # the normal cubic metre is meant at 0 degC and one atmosphere
NORMAL_PRESSURE_PA: Final = 101325.0

ELECTRONS_PER_HYDROGEN: Final = 2
ELECTRONS_PER_OXYGEN: Final = 4

WATER_SPLITTING_ENTHALPY_J_MOL: Final = 285830.0  # H2O(l) -> H2 + 1/2 O2 at 298.15 K, +- 40 J/mol
WATER_SPLITTING_ENTROPY_J_MOL_K: Final = 130.680 + 205.152 / 2 - 69.95
WATER_SPLITTING_HEAT_CAPACITY_J_MOL_K: Final = 28.83412 + 29.37593 / 2 - 75.32758
ENTHALPY_OF_VAPOUR_FORMATION_J_MOL: Final = 241826.0  # magnitude, H2O(g) at 298.15 K

MOLAR_MASS_HYDROGEN_G_MOL: Final = 2.016
MOLAR_MASS_OXYGEN_G_MOL: Final = 31.998
MOLAR_MASS_WATER_G_MOL: Final = 18.015
