"""What may go wrong with a simulated lesson on request, by name."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

from drivers.errors import AddressError

__all__ = ["FAULTS", "check_faults", "parse_faults"]

FAULTS: dict[str, str] = {
    "reversed_leads": "the meter's leads are swapped: every reading has the other sign",
    "rounded_1mV": "the meter shows whole millivolts",
    "rounded_10mV": "the meter shows hundredths of a volt",
    "dropouts": "one reading in a thousand is missing",
    "touching": "the electrodes touch for 20 s during growth",
    "half_dipped": "the electrodes go only a quarter deep into the fresh buffer",
    "supply_off": "the supply is off for 60 s during growth",
    "salt_early": "the salt comes 30 s after the buffer, before the voltage has settled",
    "silence": "the source sends nothing for 20 s during growth",
    "unplug": "the source is gone for 20 s during growth",
}
"""The faults and what each one does."""


def parse_faults(text: str) -> frozenset[str]:
    """Return the faults of a comma-separated list (``""`` holds none).

    Raises
    ------
    AddressError : a name is not known; the nearest known one is given.
    """
    return check_faults(part.strip() for part in text.split(",") if part.strip())


def check_faults(names: Iterable[str]) -> frozenset[str]:
    """Return `names` as a set, refusing unknown ones as `parse_faults` does."""
    faults = frozenset(names)
    for name in sorted(faults - FAULTS.keys()):
        near = difflib.get_close_matches(name, FAULTS, n=1, cutoff=0.5)
        hint = f"; did you mean {near[0]}?" if near else ""
        raise AddressError(f"the simulated cell has no fault {name!r}{hint} (known: {', '.join(FAULTS)})")
    return faults
