"""What a source address says about its channel: name, role, scale and offset.

Every kind of source takes these keys, so that two instruments in one run can be told apart and a
divider or a shunt is undone in one place.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drivers.address import Address
from drivers.errors import AddressError
from drivers.samples import ROLES
from drivers.source import Channel

__all__ = ["ChannelOptions"]

_CHANNEL_NAME = re.compile(r"[a-z][a-z0-9_]*")
_FACTOR_LIMIT = 1e9  # keeps every finite reading finite: see drivers.formats, which refuse beyond 9.9e36
_UNITS = {"temperature": "degC"}  # every other role is a voltage


@dataclass(frozen=True, slots=True)
class ChannelOptions:
    """One channel as the address describes it: value = reading * scale + offset.

    `name` is what the user calls the instrument ("" if nothing was said); `has_scale` tells a scale of 1
    that the user wrote from one that is only assumed.
    """

    channel: Channel
    scale: float = 1.0
    offset: float = 0.0
    name: str = ""
    has_scale: bool = False

    @classmethod
    def from_address(cls, address: Address) -> ChannelOptions:
        """Read the keys ``channel``, ``role``, ``scale``, ``offset`` and ``name``.

        The channel is called after its role unless ``channel`` says otherwise.

        Raises
        ------
        AddressError : unknown role (the nearest known one is named), malformed channel name, a scale or
            offset that is no number, or a scale of 0.
        """
        role = address.options.get("role", "cell_voltage")
        if role not in ROLES:
            near = difflib.get_close_matches(role, ROLES, n=1, cutoff=0.5)
            hint = f"; did you mean {near[0]}?" if near else ""
            raise AddressError(f"{address.text}: there is no role {role!r}{hint} (known: {', '.join(ROLES)})")
        name = address.options.get("channel", role)
        if not _CHANNEL_NAME.fullmatch(name):
            raise AddressError(
                f"{address.text}: channel={name} cannot name a channel; use small letters, digits and _, "
                "beginning with a letter, for example channel=anode"
            )
        scale = address.number("scale", 1.0, low=-_FACTOR_LIMIT, high=_FACTOR_LIMIT)
        if scale == 0.0:
            raise AddressError(
                f"{address.text}: scale=0 would make every reading 0; leave it out or write a factor"
            )
        return cls(
            channel=Channel(
                name=name, role=role, unit=_UNITS.get(role, "V"), input=address.options.get("column", "")
            ),
            scale=scale,
            offset=address.number("offset", 0.0, low=-_FACTOR_LIMIT, high=_FACTOR_LIMIT),
            name=address.options.get("name", ""),
            has_scale="scale" in address.options,
        )

    def apply(self, readings: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return values in the channel's unit for `readings`, shape (n,); overload stays infinite.

        Readings come back bit for bit when there is neither scale nor offset.
        """
        if self.scale == 1.0 and self.offset == 0.0:
            return readings
        return readings * self.scale + self.offset

    @property
    def calibration(self) -> Mapping[str, str | float]:
        """What `apply` does, for `Instrument.calibration`; empty when it does nothing."""
        if self.scale == 1.0 and self.offset == 0.0:
            return {}
        return {"scale": self.scale, "offset": self.offset}
