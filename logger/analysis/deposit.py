"""How much metal the catalyst film can hold at most."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from typing import Literal

from logger.analysis.constants import FARADAY_C_MOL
from logger.analysis.refusal import Refused, require_positive, require_within

__all__ = ["METALS", "SALTS", "DepositBounds", "MetalSalt", "deposited_metal_bounds", "find_salt"]

_GREATEST_SALT_MG = 10_000.0
_GREATEST_CONCENTRATION_MOL_L = 1.0

METALS: dict[str, float] = {"Co": 58.933194, "Ni": 58.6934}
"""Molar masses of the metals in g/mol (IUPAC)."""


@dataclass(frozen=True, slots=True)
class MetalSalt:
    """A salt with its hydrate water: formula, name, metal, molar mass in g/mol (IUPAC atomic weights)."""

    formula: str
    name: str
    metal: str
    molar_mass_g_mol: float


SALTS: tuple[MetalSalt, ...] = (
    MetalSalt("Co(NO3)2.6H2O", "cobalt nitrate hexahydrate", "Co", 291.031194),
    MetalSalt("CoSO4.7H2O", "cobalt sulfate heptahydrate", "Co", 281.094),
    MetalSalt("CoCl2.6H2O", "cobalt chloride hexahydrate", "Co", 237.923),
    MetalSalt("Ni(NO3)2.6H2O", "nickel nitrate hexahydrate", "Ni", 290.791),
    MetalSalt("NiSO4.6H2O", "nickel sulfate hexahydrate", "Ni", 262.839),
)
"""Salts that are in use for growing such films. One metal atom in each."""


@dataclass(frozen=True, slots=True)
class DepositBounds:
    """Upper bounds of the deposited metal. The film may hold far less.

    Attributes
    ----------
    metal : str
        Symbol.
    from_charge_mol, from_charge_mg : float
        If every electron oxidised a metal ion and no oxygen formed at all.
    from_salt_mol, from_salt_mg : float
        All the metal that was added.
    smaller_mol, smaller_mg : float
        The tighter of the two.
    limited_by : {"charge", "salt"}
        Which one that is.
    """

    metal: str
    from_charge_mol: float
    from_charge_mg: float
    from_salt_mol: float
    from_salt_mg: float
    smaller_mol: float
    smaller_mg: float
    limited_by: Literal["charge", "salt"]


def find_salt(text: str) -> MetalSalt:
    """Return the salt with that formula or name; spaces, case and the kind of dot do not matter.

    Raises
    ------
    Refused
        The salt, with its hydrate water, is not in `SALTS`; the nearest one is named.
    """
    wanted = _plain(text)
    known = {_plain(key): salt for salt in SALTS for key in (salt.formula, salt.name)}
    if wanted in known:
        return known[wanted]
    near = difflib.get_close_matches(wanted, known, n=1, cutoff=0.6)
    hint = f"did you mean {known[near[0]].formula} ({known[near[0]].name})?" if near else "give one of them"
    formulas = ", ".join(salt.formula for salt in SALTS)
    raise Refused("metal salt", repr(text), f"only {formulas} are known here, with their hydrate water", hint)


def deposited_metal_bounds(
    charge_C: float,
    salt: MetalSalt,
    salt_mass_mg: float,
    *,
    electrons_per_metal: int = 1,
    volume_mL: float | None = None,
) -> DepositBounds:
    """Return how much metal the film can hold at most.

    Parameters
    ----------
    charge_C : float
        Charge passed since the salt was added, in coulomb, zero or more.
    salt : MetalSalt
        See `find_salt`.
    salt_mass_mg : float
        Salt added, hydrate water included, in milligram, above zero.
    electrons_per_metal : int
        1 for M(II) to the M(III) oxyhydroxide.
    volume_mL : float, optional
        Volume of the solution, only to notice a slip of units.

    Raises
    ------
    Refused
        A value is outside its range; more than 10 g of salt, or more than 1 mol/L (a slip of units).

    Notes
    -----
    Faraday's law, n <= Q/(zF), and the mass balance of the metal.
    """
    charge_C = require_positive("charge in C", charge_C, zero_allowed=True)
    mass_mg = require_within(
        "mass of salt in mg",
        require_positive("mass of salt in mg", salt_mass_mg),
        0.0,
        _GREATEST_SALT_MG,
        "so much salt is more likely a slip of units",
    )
    electrons = require_positive("electrons for each metal atom", electrons_per_metal)
    from_salt_mol = mass_mg / 1000.0 / salt.molar_mass_g_mol
    if volume_mL is not None:
        concentration = 1000.0 * from_salt_mol / require_positive("volume of the solution in mL", volume_mL)
        require_within(
            "concentration of the metal in mol/L",
            concentration,
            0.0,
            _GREATEST_CONCENTRATION_MOL_L,
            "mass in mg or volume in mL is more likely a slip of units",
        )
    from_charge_mol = charge_C / (electrons * FARADAY_C_MOL)
    milligram = 1000.0 * METALS[salt.metal]
    smaller_mol = min(from_charge_mol, from_salt_mol)
    return DepositBounds(
        metal=salt.metal,
        from_charge_mol=from_charge_mol,
        from_charge_mg=from_charge_mol * milligram,
        from_salt_mol=from_salt_mol,
        from_salt_mg=from_salt_mol * milligram,
        smaller_mol=smaller_mol,
        smaller_mg=smaller_mol * milligram,
        limited_by="charge" if from_charge_mol < from_salt_mol else "salt",
    )


def _plain(text: str) -> str:
    return re.sub(r"[\s.·*•-]+|\(II\)|\(ii\)", "", text).lower().replace("sulphate", "sulfate")
