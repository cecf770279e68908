"""Upper bounds of the deposited metal. Check values: independent computation from Faraday's law."""

from collections.abc import Callable

import pytest

from logger.analysis.deposit import SALTS, deposited_metal_bounds, find_salt
from logger.analysis.refusal import Refused

# Abridged atomic weights, IUPAC 2021; cobalt and nickel at full length.
WEIGHTS = {"Co": 58.933194, "Ni": 58.6934, "N": 14.007, "O": 15.999, "S": 32.06, "Cl": 35.45, "H": 1.008}
ATOMS = {
    "Co(NO3)2.6H2O": {"Co": 1, "N": 2, "O": 12, "H": 12},
    "CoSO4.7H2O": {"Co": 1, "S": 1, "O": 11, "H": 14},
    "CoCl2.6H2O": {"Co": 1, "Cl": 2, "O": 6, "H": 12},
    "Ni(NO3)2.6H2O": {"Ni": 1, "N": 2, "O": 12, "H": 12},
    "NiSO4.6H2O": {"Ni": 1, "S": 1, "O": 10, "H": 12},
}


# g/mol by the package periodictable 2.1.0.
PRINTED = {
    "Co(NO3)2.6H2O": 291.031194,
    "CoSO4.7H2O": 281.094,
    "CoCl2.6H2O": 237.923,
    "Ni(NO3)2.6H2O": 290.791,
    "NiSO4.6H2O": 262.839,
}


@pytest.mark.parametrize("formula", PRINTED)
def test_the_molar_masses_are_those_of_the_package(formula: str) -> None:
    assert find_salt(formula).molar_mass_g_mol == pytest.approx(PRINTED[formula], abs=6e-4)


@pytest.mark.parametrize("formula", ATOMS)
def test_the_molar_masses_are_those_of_the_atoms(formula: str) -> None:
    mass = sum(WEIGHTS[atom] * count for atom, count in ATOMS[formula].items())
    assert find_salt(formula).molar_mass_g_mol == pytest.approx(mass, abs=6e-3)
    assert len(ATOMS) == len(SALTS)


def test_the_bounds_of_36_coulomb_and_20_mg_of_cobalt_nitrate() -> None:
    got = deposited_metal_bounds(36.0, find_salt("Co(NO3)2.6H2O"), 20.0)
    assert 1e6 * got.from_charge_mol == pytest.approx(373.1137, abs=6e-5)
    assert got.from_charge_mg == pytest.approx(21.98878, abs=6e-6)
    assert 1e6 * got.from_salt_mol == pytest.approx(68.72116, abs=6e-6)
    assert got.from_salt_mg == pytest.approx(4.049957, abs=6e-7)
    assert (got.smaller_mg, got.limited_by, got.metal) == (got.from_salt_mg, "salt", "Co")


def test_little_charge_is_the_tighter_bound() -> None:
    got = deposited_metal_bounds(0.36, find_salt("NiSO4.6H2O"), 20.0, electrons_per_metal=2, volume_mL=100)
    assert got.limited_by == "charge"
    assert 1e6 * got.smaller_mol == pytest.approx(3.731137 / 2, abs=6e-6)


@pytest.mark.parametrize(
    "text",
    [
        "Co(NO3)2.6H2O",
        "Co(NO3)2·6H2O",
        "co(no3)2 * 6 h2o",
        "Cobalt(II) nitrate hexahydrate",
        "cobalt nitrate hexahydrate",
    ],
)
def test_a_salt_is_found_however_it_is_written(text: str) -> None:
    assert find_salt(text).formula == "Co(NO3)2.6H2O"


def test_a_british_spelling_is_understood() -> None:
    assert find_salt("nickel sulphate hexahydrate").metal == "Ni"


@pytest.mark.parametrize(
    ("attempt", "words"),
    [
        (lambda: find_salt("cobalt nitrat hexahydrate"), "did you mean Co"),
        (lambda: find_salt("table salt"), "hydrate water"),
        (lambda: find_salt(""), "metal salt"),
        (lambda: deposited_metal_bounds(-1, SALTS[0], 20), "charge in C"),
        (lambda: deposited_metal_bounds(36, SALTS[0], 0), "mass of salt"),
        (lambda: deposited_metal_bounds(36, SALTS[0], 10001), "slip of units"),
        (lambda: deposited_metal_bounds(36, SALTS[0], 400, volume_mL=1), "concentration"),
        (lambda: deposited_metal_bounds(36, SALTS[0], 20, volume_mL=0), "volume"),
        (lambda: deposited_metal_bounds(36, SALTS[0], 20, electrons_per_metal=0), "electrons"),
    ],
)
def test_impossible_deposits_are_refused(attempt: Callable[[], object], words: str) -> None:
    with pytest.raises(Refused, match=words):
        attempt()
