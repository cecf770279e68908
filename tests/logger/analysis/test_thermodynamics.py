"""Reference voltages, efficiencies and energies.

Unless said otherwise the check values are an independent computation from CODATA Key Values (1989), CoolProp
heat capacities and the Wagner-Pruss vapour pressure.
"""

import math

import pytest

from logger.analysis.constants import (
    ELEMENTARY_CHARGE_C,
    ENTHALPY_OF_VAPOUR_FORMATION_J_MOL,
    FARADAY_C_MOL,
    GAS_CONSTANT_J_MOL_K,
    STANDARD_PRESSURE_PA,
    WATER_SPLITTING_ENTHALPY_J_MOL,
    WATER_SPLITTING_ENTROPY_J_MOL_K,
    WATER_SPLITTING_HEAT_CAPACITY_J_MOL_K,
)
from logger.analysis.refusal import Refused
from logger.analysis.thermodynamics import (
    LOWER_HEATING_VOLTAGE_V,
    STANDARD_VOLTAGE_UNCERTAINTY_V,
    cell_thermodynamics,
    dry_gas_pressure_Pa,
    energy_kWh_per_kg_hydrogen,
    energy_kWh_per_normal_m3_hydrogen,
    reaction_enthalpy_J_mol,
    reaction_gibbs_energy_J_mol,
    reversible_voltage_at_partial_pressures_V,
    reversible_voltage_V,
    standard_voltage_slope_V_per_K,
    standard_voltage_V,
    thermoneutral_voltage_V,
    voltage_efficiency,
)

# t_C, E0 / V, dE0/dT / mV/K, E_tn / V, E0 by Cantera 3.2.0 from its NASA-9 polynomials
TABLE = [
    (0.01, 1.250219, -0.86070, 1.485328, 1.250200),
    (20, 1.233131, -0.84906, 1.482034, 1.233108),
    (25, 1.228893, -0.84627, 1.481210, 1.228870),
    (50, 1.207904, -0.83300, 1.477089, 1.207878),
    (60, 1.199600, -0.82798, 1.475441, 1.199571),
    (80, 1.183137, -0.81837, 1.472144, 1.183103),
    (100, 1.166861, -0.80929, 1.468848, 1.166820),
]


def test_the_constants_are_those_of_the_si() -> None:
    constants = pytest.importorskip("scipy.constants")  # CODATA 2022; exact since 2019
    assert pytest.approx(constants.physical_constants["Faraday constant"][0], rel=1e-12) == FARADAY_C_MOL
    assert constants.R == GAS_CONSTANT_J_MOL_K == 8.31446261815324
    assert constants.e == ELEMENTARY_CHARGE_C == 1.602176634e-19
    assert pytest.approx(ELEMENTARY_CHARGE_C * constants.N_A, rel=1e-14) == FARADAY_C_MOL


def test_entropy_and_heat_capacity_of_the_reaction() -> None:
    # CODATA Key Values (1989): 69.95, 130.680 and 205.152 J/(mol K).
    assert pytest.approx(130.680 + 205.152 / 2 - 69.95, abs=1e-9) == WATER_SPLITTING_ENTROPY_J_MOL_K
    assert pytest.approx(163.306, abs=1e-9) == WATER_SPLITTING_ENTROPY_J_MOL_K
    # CoolProp 8.0.0: ideal-gas heat capacities of hydrogen and oxygen, IAPWS-95 for the liquid.
    assert pytest.approx(28.83412 + 29.37593 / 2 - 75.32758, abs=1e-9) == (
        WATER_SPLITTING_HEAT_CAPACITY_J_MOL_K
    )
    assert pytest.approx(-31.8055, abs=5e-5) == WATER_SPLITTING_HEAT_CAPACITY_J_MOL_K


def test_other_tables_agree_with_the_heats_and_entropies() -> None:
    # Active Thermochemical Tables: 285 825 J/mol. Cantera 3.2.0, NASA-9: 285 828 J/mol, 241.8246 kJ/mol for
    # the vapour, 69.939, 130.680 and 205.148 J/(mol K). CODATA states its heat to 40 J/mol.
    for other_J_mol in (285825.0, 285828.0):
        assert pytest.approx(other_J_mol, abs=40.0) == WATER_SPLITTING_ENTHALPY_J_MOL
    assert pytest.approx(241824.6, abs=40.0) == ENTHALPY_OF_VAPOUR_FORMATION_J_MOL
    assert pytest.approx(130.680 + 205.148 / 2 - 69.939, abs=0.02) == WATER_SPLITTING_ENTROPY_J_MOL_K


@pytest.mark.parametrize(("temperature_C", "standard_V", "slope_mV_K", "thermoneutral_V", "cantera_V"), TABLE)
def test_the_voltages_of_the_table(
    temperature_C: float, standard_V: float, slope_mV_K: float, thermoneutral_V: float, cantera_V: float
) -> None:
    assert standard_voltage_V(temperature_C) == pytest.approx(standard_V, abs=6e-7)
    assert 1000 * standard_voltage_slope_V_per_K(temperature_C) == pytest.approx(slope_mV_K, abs=6e-6)
    assert thermoneutral_voltage_V(temperature_C) == pytest.approx(thermoneutral_V, abs=6e-7)
    assert standard_voltage_V(temperature_C) == pytest.approx(cantera_V, abs=5e-5)


@pytest.mark.parametrize(
    ("temperature_C", "pressure_Pa", "saturated", "voltage_V"),
    [
        (20, 101325, True, 1.232938),
        (22, 101325, True, 1.231181),
        (25, 101325, True, 1.228534),
        (60, 101325, True, 1.195163),
        (80, 101325, True, 1.169035),
        (25, 101325, False, 1.229147),
        (25, 1e6, False, 1.273263),
        (25, 1e5, True, 1.228272),
        (20, 85e3, True, 1.229524),
    ],
)
def test_the_reversible_voltage(
    temperature_C: float, pressure_Pa: float, saturated: bool, voltage_V: float
) -> None:
    assert reversible_voltage_V(temperature_C, pressure_Pa, saturated=saturated) == pytest.approx(
        voltage_V, abs=6e-7
    )


def test_how_the_reversible_voltage_moves_with_temperature_and_pressure() -> None:
    slope = (reversible_voltage_V(22.01, 101325) - reversible_voltage_V(21.99, 101325)) / 0.02
    assert 1000 * slope == pytest.approx(-0.87999, abs=1e-5)
    rise = reversible_voltage_V(22, 102325) - reversible_voltage_V(22, 101325)
    assert 1000 * rise == pytest.approx(0.19233, abs=5e-6)


def test_a_less_active_water_raises_the_voltage_a_little() -> None:
    pure = reversible_voltage_at_partial_pressures_V(25, 1e5, 1e5)
    salted = reversible_voltage_at_partial_pressures_V(25, 1e5, 1e5, water_activity=0.99)
    assert 1000 * (salted - pure) == pytest.approx(0.129110, abs=5e-7)


@pytest.mark.parametrize(
    ("kelvin", "gibbs_kJ_mol", "closed_form_kJ_mol"),
    # CRC Handbook values, as quoted in a public modelling repository; beside them the closed form, computed
    # independently.
    [(298.15, 237.141, 237.1403), (300.0, 236.839, 236.8384), (373.21, 225.160, 225.1606)],
)
def test_the_gibbs_energy_of_the_handbook(
    kelvin: float, gibbs_kJ_mol: float, closed_form_kJ_mol: float
) -> None:
    # 373.21 K lies just above the range of the closed form; there its own nearest temperature serves.
    temperature_C = min(kelvin - 273.15, 100.0)
    slope_kJ_mol_K = -2 * FARADAY_C_MOL * -standard_voltage_slope_V_per_K(temperature_C) / 1000
    beyond_kJ_mol = slope_kJ_mol_K * (kelvin - 273.15 - temperature_C)
    ours = reaction_gibbs_energy_J_mol(temperature_C) / 1000 + beyond_kJ_mol
    assert ours == pytest.approx(gibbs_kJ_mol, abs=1e-3)
    assert ours == pytest.approx(closed_form_kJ_mol, abs=6e-5)


def test_the_standard_voltage_of_the_handbook() -> None:
    # The same handbook value, 237.141 kJ/mol at 298.15 K, over 2 F: 1.228897 V.
    assert pytest.approx(1.228897, abs=6e-7) == 237141.0 / (2 * FARADAY_C_MOL)
    assert standard_voltage_V(25) == pytest.approx(1.228897, abs=5e-6)


@pytest.mark.parametrize(("temperature_C", "published_V"), [(25, 1.229141), (60, 1.199853), (80, 1.183386)])
def test_the_published_polynomial_is_for_one_atmosphere(temperature_C: float, published_V: float) -> None:
    # LeRoy, Bowen & LeRoy, J. Electrochem. Soc. 127 (1980) 1954: its 0.25 mV above ours is 1 atm over 1 bar.
    kelvin = temperature_C + 273.15
    leroy_V = 1.5184 - 1.5421e-3 * kelvin + 9.523e-5 * kelvin * math.log(kelvin) + 9.84e-8 * kelvin**2
    assert leroy_V == pytest.approx(published_V, abs=6e-7)
    atmosphere_V = reversible_voltage_V(temperature_C, 101325, saturated=False)
    assert atmosphere_V == pytest.approx(leroy_V, abs=6e-5)
    if temperature_C == 25:
        assert 1000 * (atmosphere_V - standard_voltage_V(25)) == pytest.approx(0.253643, abs=5e-7)


@pytest.mark.parametrize("temperature_C", [5.0, 40.0, 100.0])
def test_the_closed_form_agrees_with_integrated_heat_capacities(temperature_C: float) -> None:
    coolprop = pytest.importorskip("CoolProp.CoolProp")
    integrate = pytest.importorskip("scipy.integrate")

    def heat_capacity(kelvin: float) -> float:
        # One atmosphere and a little, so that water is still liquid at 100 degC.
        hydrogen = coolprop.PropsSI("CP0MOLAR", "T", kelvin, "P", 1e5, "Hydrogen")
        oxygen = coolprop.PropsSI("CP0MOLAR", "T", kelvin, "P", 1e5, "Oxygen")
        water = coolprop.PropsSI("CPMOLAR", "T", kelvin, "P", 1.0142e5, "Water")
        return float(hydrogen + oxygen / 2 - water)

    end_K = temperature_C + 273.15
    heat, _ = integrate.quad(heat_capacity, 298.15, end_K)
    assert reaction_enthalpy_J_mol(temperature_C) == pytest.approx(
        285830 + heat, abs=57e-6 * 2 * FARADAY_C_MOL
    )
    entropy, _ = integrate.quad(lambda kelvin: heat_capacity(kelvin) / kelvin, 298.15, end_K)
    gibbs = 285830 + heat - end_K * (163.306 + entropy)
    assert standard_voltage_V(temperature_C) == pytest.approx(gibbs / (2 * FARADAY_C_MOL), abs=8e-6)


def test_the_lower_heating_line_and_the_uncertainty_of_the_standard_voltage() -> None:
    assert pytest.approx(1.253175, abs=6e-7) == LOWER_HEATING_VOLTAGE_V  # JANAF, 241.826 kJ/mol
    assert pytest.approx(2e-4, rel=0.05) == STANDARD_VOLTAGE_UNCERTAINTY_V


def test_water_boils_as_the_vapour_reaches_the_pressure() -> None:
    assert dry_gas_pressure_Pa(25, 101325) == pytest.approx(101325 - 3169.8245, abs=1e-3)
    with pytest.raises(Refused, match="the cell boils"):
        reversible_voltage_V(100, 101325)


@pytest.mark.parametrize(
    ("voltage_V", "higher", "lower", "reversible"),
    [(2.25, 65.8316, 55.6967, 54.6175), (2.00, 74.0605, 62.6587, 61.4447)],
)
def test_three_conventions_of_voltage_efficiency(
    voltage_V: float, higher: float, lower: float, reversible: float
) -> None:
    standard = cell_thermodynamics(25, 101325)
    got = voltage_efficiency(voltage_V, standard)
    assert 100 * got.higher_heating == pytest.approx(higher, abs=1e-4)  # from a voltage of six decimals
    assert 100 * got.lower_heating == pytest.approx(lower, abs=6e-5)
    # The published figure takes the standard voltage at 1 bar as numerator; ours that of the open cell.
    assert 100 * standard_voltage_V(25) / voltage_V == pytest.approx(reversible, abs=6e-5)
    assert 100 * got.reversible == pytest.approx(100 * 1.228534 / voltage_V, abs=6e-5)


@pytest.mark.parametrize(
    ("voltage_V", "per_kg", "per_m3"),
    [
        (1.4812096, 39.38354, 3.542310),
        (2.00, 53.17754, 4.782996),
        (2.25, 59.82473, 5.380870),
    ],
)
def test_the_energy_for_hydrogen(voltage_V: float, per_kg: float, per_m3: float) -> None:
    assert energy_kWh_per_kg_hydrogen(voltage_V) == pytest.approx(per_kg, abs=6e-6)
    assert energy_kWh_per_normal_m3_hydrogen(voltage_V) == pytest.approx(per_m3, abs=6e-7)


def test_the_energy_line_of_the_lower_heating_value_and_of_a_saving() -> None:
    assert energy_kWh_per_kg_hydrogen(1.0) == pytest.approx(26.588771, abs=6e-7)
    assert energy_kWh_per_kg_hydrogen(LOWER_HEATING_VOLTAGE_V) == pytest.approx(33.32038, abs=6e-6)
    assert energy_kWh_per_kg_hydrogen(0.255780876) == pytest.approx(6.800899, abs=6e-7)
    assert energy_kWh_per_normal_m3_hydrogen(2.0, 0.8) == pytest.approx(4.782996 / 0.8, abs=1e-6)
    assert energy_kWh_per_kg_hydrogen(2.0, 0.8) == pytest.approx(53.17754 / 0.8, abs=1e-5)


@pytest.mark.parametrize("temperature_C", [-0.1, 100.1, float("nan"), float("inf"), 400.0])
def test_a_temperature_without_liquid_water_is_refused(temperature_C: float) -> None:
    with pytest.raises(Refused, match="temperature in degC"):
        standard_voltage_V(temperature_C)


def test_kelvin_given_as_celsius_is_put_to_the_user() -> None:
    with pytest.raises(Refused, match=r"looks like kelvin; if so, give 22\.00 degC"):
        reversible_voltage_V(295.15, 101325)
    with pytest.raises(Refused, match=r"looks like kelvin; if so, give 0\.00 degC"):
        standard_voltage_V(273.15)


@pytest.mark.parametrize("pressure_Pa", [1013.25, 760.0, 101.325, 1.0, 29999.0, 2.1e6, float("nan"), -1e5])
def test_a_pressure_in_another_unit_is_refused(pressure_Pa: float) -> None:
    with pytest.raises(Refused, match="pressure in Pa"):
        reversible_voltage_V(22, pressure_Pa)


@pytest.mark.parametrize(
    "arguments",
    [(25, 0.0, 1e5), (25, 1e5, -1.0), (25, 1e5, 1e5, 0.0), (25, 1e5, 1e5, 1.1), (25, math.nan, 1e5)],
)
def test_impossible_partial_pressures_and_activities_are_refused(arguments: tuple[float, ...]) -> None:
    with pytest.raises(Refused):
        reversible_voltage_at_partial_pressures_V(*arguments)


def test_no_efficiency_is_given_without_a_voltage() -> None:
    with pytest.raises(Refused, match="cell voltage in V"):
        voltage_efficiency(0.0, cell_thermodynamics(25, STANDARD_PRESSURE_PA))


@pytest.mark.parametrize("share", [0.0, -0.1, 1.01, math.nan])
def test_an_impossible_faradaic_efficiency_is_refused(share: float) -> None:
    with pytest.raises(Refused, match="Faradaic efficiency"):
        energy_kWh_per_kg_hydrogen(2.0, share)
    with pytest.raises(Refused, match="Faradaic efficiency"):
        energy_kWh_per_normal_m3_hydrogen(2.0, share)
