"""Amounts and volumes of gas. Check values: independent computation from Faraday's and the ideal gas law."""

import math
from collections.abc import Callable

import pytest

from logger.analysis.gas import (
    faradaic_efficiency,
    gas_amounts,
    gas_volume_mL,
    gas_volumes,
    hydrogen_rate_mL_h,
    time_to_flammable_h,
)
from logger.analysis.refusal import Refused

ATMOSPHERE_PA = 101325.0


def test_the_amounts_of_36_coulomb() -> None:
    amounts = gas_amounts(36.0)
    assert 1e6 * amounts.electrons_mol == pytest.approx(373.113708, abs=6e-7)
    assert 1e6 * amounts.hydrogen_mol == pytest.approx(186.556854, abs=6e-7)
    assert 1e6 * amounts.oxygen_mol == pytest.approx(93.2784269, abs=6e-8)
    # The check value took 18.01528 g/mol for water; abridged IUPAC weights give 18.015.
    assert amounts.water_mg == pytest.approx(3.36087 * 18.015 / 18.01528, abs=6e-6)


def test_the_amounts_of_one_coulomb_and_one_ampere_hour() -> None:
    assert 1e6 * gas_amounts(1.0).hydrogen_mol == pytest.approx(5.18213483, abs=6e-9)
    assert 1e3 * gas_amounts(3600.0).hydrogen_mol == pytest.approx(18.6556854, abs=6e-8)


def test_molar_volumes() -> None:
    # CODATA 2018: 22.413 969 54 L/mol at 101.325 kPa, 22.710 954 64 L/mol at 100 kPa (0 degC).
    assert gas_volume_mL(1.0, 0, ATMOSPHERE_PA, saturated=False) / 1000 == pytest.approx(
        22.41396954, abs=6e-9
    )
    assert gas_volume_mL(1.0, 0, 1e5, saturated=False) / 1000 == pytest.approx(22.71095464, abs=6e-9)
    assert gas_volume_mL(1.0, 25, 1e5, saturated=False) / 1000 == pytest.approx(24.789570, abs=6e-7)


@pytest.mark.parametrize(
    ("temperature_C", "pressure_Pa", "saturated", "hydrogen_mL", "oxygen_mL"),
    [
        (20, 101325, False, 4.487647, 2.243823),
        (20, 101325, True, 4.593697, 2.296849),
        (25, 1e5, False, 4.624664, 4.624664 / 2),
        (25, 1e5, True, 4.776057, 4.776057 / 2),
        (0, 101325, False, 4.181480, 4.181480 / 2),
        (20, 90e3, True, 5.187162, 5.187162 / 2),
    ],
)
def test_the_volumes_of_36_coulomb(
    temperature_C: float, pressure_Pa: float, saturated: bool, hydrogen_mL: float, oxygen_mL: float
) -> None:
    got = gas_volumes(36.0, temperature_C, pressure_Pa, saturated=saturated)
    assert got.hydrogen_mL == pytest.approx(hydrogen_mL, abs=6e-7)
    assert got.oxygen_mL == pytest.approx(oxygen_mL, abs=6e-7)


def test_both_gases_together_and_the_words_beside_them() -> None:
    got = gas_volumes(36.0, 20, ATMOSPHERE_PA)
    assert got.hydrogen_mL + got.oxygen_mL == pytest.approx(6.890546, abs=6e-7)
    assert "saturated with water vapour" in got.conditions
    assert "20 degC, 101.325 kPa" in got.conditions
    assert "dry" in gas_volumes(36.0, 20, ATMOSPHERE_PA, saturated=False).conditions


@pytest.mark.parametrize(
    ("current_mA", "rate_mL_h", "hours"),
    [(2, 0.897529, 11.1417), (10, 4.487647, 2.22834), (100, 44.87647, 0.222834)],
)
def test_hydrogen_rate_and_time_to_a_flammable_headspace(
    current_mA: float, rate_mL_h: float, hours: float
) -> None:
    assert hydrogen_rate_mL_h(current_mA / 1000, 20, ATMOSPHERE_PA) == pytest.approx(rate_mL_h, rel=6e-7)
    assert time_to_flammable_h(current_mA / 1000, 250, 20, ATMOSPHERE_PA) == pytest.approx(hours, rel=5e-6)


def test_faradaic_efficiency_of_a_measured_volume() -> None:
    plain = faradaic_efficiency(4.30, 36.0, 20, ATMOSPHERE_PA)
    assert 1e6 * plain.amount_mol == pytest.approx(174.6294, abs=6e-5)
    assert 100 * plain.value == pytest.approx(93.60652, abs=6e-6)
    column = faradaic_efficiency(4.30, 36.0, 20, ATMOSPHERE_PA, water_column_mm=50)
    assert plain.dry_pressure_Pa - column.dry_pressure_Pa == pytest.approx(489.4499, abs=6e-5)
    assert 100 * column.value == pytest.approx(93.14366, abs=1e-5)


def test_faradaic_efficiency_of_oxygen_needs_four_electrons() -> None:
    oxygen = faradaic_efficiency(2.15, 36.0, 20, ATMOSPHERE_PA, gas="oxygen")
    assert 100 * oxygen.value == pytest.approx(93.60652, abs=6e-6)


def test_a_little_too_much_gas_is_accepted_within_its_uncertainty() -> None:
    got = faradaic_efficiency(4.70, 36.0, 20, ATMOSPHERE_PA, relative_standard_uncertainty=0.02)
    assert got.value > 1
    assert got.standard_uncertainty == pytest.approx(0.02 * got.value)


def test_all_of_the_gas_is_accepted_in_spite_of_rounding() -> None:
    volume_mL = gas_volumes(36.0, 20, ATMOSPHERE_PA).hydrogen_mL
    assert faradaic_efficiency(volume_mL, 36.0, 20, ATMOSPHERE_PA).value == pytest.approx(1.0, rel=1e-12)


@pytest.mark.parametrize(
    ("attempt", "words"),
    [
        (lambda: gas_amounts(-1e-9), "charge in C"),
        (lambda: gas_amounts(math.nan), "not a finite number"),
        (lambda: gas_volume_mL(-1.0, 20, 101325), "amount of gas"),
        (lambda: gas_volume_mL(1.0, 100, 101325), "the cell boils"),
        (lambda: gas_volume_mL(1.0, 295.15, 101325), "looks like kelvin"),
        (lambda: gas_volume_mL(1.0, 20, 1013.25), "pressure in Pa"),
        (lambda: hydrogen_rate_mL_h(-0.001, 20, 101325), "current in A"),
        (lambda: time_to_flammable_h(0.0, 250, 20, 101325), "current in A"),
        (lambda: time_to_flammable_h(0.002, 0, 20, 101325), "headspace in mL"),
        (lambda: faradaic_efficiency(0.0, 36, 20, 101325), "volume of gas"),
        (lambda: faradaic_efficiency(4.3, 0, 20, 101325), "charge in C"),
        (lambda: faradaic_efficiency(4.3, 36, 20, 101325, water_column_mm=1e5), "water column"),
        (lambda: faradaic_efficiency(4.3, 36, 95, 85000, water_column_mm=1900), "the cell boils"),
        (lambda: faradaic_efficiency(4.3, 36, 20, 101325, water_density_kg_m3=1.0), "density of water"),
        (lambda: faradaic_efficiency(4.7, 36, 20, 101325), "more gas was found"),
        (
            lambda: faradaic_efficiency(4.9, 36, 20, 101325, relative_standard_uncertainty=0.02),
            "more gas was found",
        ),
    ],
)
def test_impossible_gas_is_refused(attempt: Callable[[], object], words: str) -> None:
    with pytest.raises(Refused, match=words):
        attempt()
