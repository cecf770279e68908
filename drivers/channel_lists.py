"""Keys of an address that list one entry for each of several inputs or columns of a board."""

from __future__ import annotations

import dataclasses

from drivers.address import Address
from drivers.channel_options import ChannelOptions
from drivers.errors import AddressError

__all__ = ["ChannelLists"]

_KEYS = ("channel", "role", "scale", "offset")
_NUMBERS = ("scale", "offset")


class ChannelLists:
    """What an address says of each of several channels.

    The keys ``channel``, ``role``, ``scale`` and ``offset`` may be lists, for example
    ``role=cell_voltage,shunt_voltage``: their entries belong to the inputs or columns in the order in which
    those are named. What is not said of the first is as for every source; further ones are of role ``other``
    and named after their place.
    """

    def __init__(self, address: Address) -> None:
        self._address = address
        self._lists = {key: address.options[key].split(",") for key in _KEYS if key in address.options}

    @property
    def entries(self) -> int:
        """The most entries that any key has, at least 1."""
        return max(map(len, self._lists.values()), default=1)

    def check_entries(self, places: int) -> None:
        """Refuse lists that are longer than there are places for them.

        Raises
        ------
        AddressError : a key lists more entries than `places`; a decimal comma is called so.
        """
        for key, entries in self._lists.items():
            if len(entries) <= places:
                continue
            if key in _NUMBERS and places == 1 and len(entries) == 2:
                raise AddressError(
                    f"{self._address.text}: {key}={','.join(entries)} is a list of two; for one number with "
                    f"decimals write a point: {key}={'.'.join(entries)}"
                )
            raise AddressError(
                f"{self._address.text}: {key} lists {len(entries)} entries, but column names {places}"
            )

    def options(self, places: tuple[tuple[str, str], ...]) -> tuple[ChannelOptions, ...]:
        """Return the options of each channel.

        Parameters
        ----------
        places : input or column of each, as the address would name it, and a name for its channel where the
            address gives none.

        Raises
        ------
        AddressError : two channels of one name, or whatever `ChannelOptions` refuses.
        """
        found = tuple(self._one(k, column, name) for k, (column, name) in enumerate(places))
        names = [one.channel.name for one in found]
        for name in names:
            if names.count(name) > 1:
                raise AddressError(
                    f"{self._address.text}: two inputs are called {name}; give each a name of its own, for "
                    "example channel=cell,shunt"
                )
        return found

    def _one(self, place: int, column: str, name: str) -> ChannelOptions:
        mine = {key: entries[place] for key, entries in self._lists.items() if place < len(entries)}
        if place > 0 and "role" not in mine:
            mine.setdefault("channel", name)
            mine["role"] = "other"
        if column:
            mine["column"] = column
        if "name" in self._address.options:
            mine["name"] = self._address.options["name"]
        return ChannelOptions.from_address(dataclasses.replace(self._address, options=mine))
