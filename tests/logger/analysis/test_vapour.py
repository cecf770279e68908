"""The vapour pressure of water against three independent formulations."""

import math

import pytest

from logger.analysis.refusal import Refused
from logger.analysis.vapour import water_vapour_pressure_Pa


@pytest.mark.parametrize(
    ("temperature_C", "pressure_Pa"),
    [
        # Wagner & Pruss 1993 as in IAPWS SR1-86(1992), recomputed independently from its coefficients.
        (0.01, 611.6571),
        (10, 1228.1122),
        (20, 2339.1937),
        (25, 3169.8245),
        (40, 7385.1105),
        (60, 19947.3825),
        (100, 101417.9938),
    ],
)
def test_it_gives_the_values_of_the_release(temperature_C: float, pressure_Pa: float) -> None:
    assert water_vapour_pressure_Pa(temperature_C) == pytest.approx(pressure_Pa, abs=5e-5)


def test_water_boils_under_one_atmosphere_at_its_boiling_point() -> None:
    # Boiling point 373.1243 K: IAPWS-95.
    assert water_vapour_pressure_Pa(373.1243 - 273.15) == pytest.approx(101325.015, abs=5e-3)


@pytest.mark.parametrize(
    ("kelvin", "pressure_Pa"),
    # Verification values of IAPWS R7-97(2012), table 35 (from memory, recomputed with the iapws package).
    [(300.0, 3536.58941), (500.0, 2.63889776e6), (600.0, 12.3443146e6)],
)
def test_it_agrees_with_the_industrial_formulation(kelvin: float, pressure_Pa: float) -> None:
    assert water_vapour_pressure_Pa(kelvin - 273.15) == pytest.approx(pressure_Pa, rel=2e-4)


@pytest.mark.parametrize("temperature_C", [0.0, 5.0, 22.0, 37.0, 80.0, 99.0])
def test_it_agrees_with_the_iapws_package(temperature_C: float) -> None:
    iapws97 = pytest.importorskip("iapws.iapws97")
    theirs_Pa = 1e6 * iapws97._PSat_T(temperature_C + 273.15)
    assert water_vapour_pressure_Pa(temperature_C) == pytest.approx(theirs_Pa, rel=2e-4)


@pytest.mark.parametrize("temperature_C", [1.0, 22.0, 60.0, 99.0])
def test_it_agrees_with_coolprop(temperature_C: float) -> None:
    coolprop = pytest.importorskip("CoolProp.CoolProp")
    theirs_Pa = coolprop.PropsSI("P", "T", temperature_C + 273.15, "Q", 0, "Water")
    assert water_vapour_pressure_Pa(temperature_C) == pytest.approx(theirs_Pa, rel=1e-4)


# t_C, IAPWS-IF97 by the iapws package 1.5.5, A. L. Buck 1996 by its formula, and how far that is off itself.
OTHER_FORMULATIONS = [
    (0.01, 611.6570, 611.654, 1e-4),
    (10, 1228.1839, 1227.860, 3e-4),
    (20, 2339.2148, 2338.340, 4e-4),
    (25, 3169.7469, 3168.531, 5e-4),
    (40, 7384.4275, 7382.360, 5e-4),
    (60, 19945.8019, 19945.145, 2e-4),
    (100, 101417.9779, 101307.781, 1.2e-3),
]


@pytest.mark.parametrize(("temperature_C", "industrial_Pa", "buck_Pa", "relative"), OTHER_FORMULATIONS)
def test_it_agrees_with_the_other_formulations(
    temperature_C: float, industrial_Pa: float, buck_Pa: float, relative: float
) -> None:
    ours_Pa = water_vapour_pressure_Pa(temperature_C)
    assert ours_Pa == pytest.approx(industrial_Pa, rel=1e-4)
    assert ours_Pa == pytest.approx(buck_Pa, rel=relative)


@pytest.mark.parametrize(("temperature_C", "industrial_Pa", "buck_Pa", "_relative"), OTHER_FORMULATIONS)
def test_the_other_formulations_are_stated_rightly(
    temperature_C: float, industrial_Pa: float, buck_Pa: float, _relative: float
) -> None:
    iapws97 = pytest.importorskip("iapws.iapws97")
    assert 1e6 * iapws97._PSat_T(temperature_C + 273.15) == pytest.approx(industrial_Pa, abs=6e-5)
    exponent = (18.678 - temperature_C / 234.5) * temperature_C / (257.14 + temperature_C)
    assert 611.21 * math.exp(exponent) == pytest.approx(buck_Pa, abs=6e-4)


@pytest.mark.parametrize("temperature_C", [-0.01, 374.0, float("nan"), float("inf")])
def test_outside_its_range_it_is_refused(temperature_C: float) -> None:
    with pytest.raises(Refused, match="temperature in degC"):
        water_vapour_pressure_Pa(temperature_C)
