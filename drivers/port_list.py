"""The serial ports of this computer, without opening any."""

from __future__ import annotations

import os
import re
from dataclasses import dataclass

from serial.tools import list_ports

__all__ = ["PortIdentity", "PortInfo", "find_ports", "identity_of_port", "port_now"]

_UNKNOWN = ("", "n/a")
_NOT_FOR_METERS = re.compile(r"bluetooth|rfcomm|debug|wlan", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class PortInfo:
    """A port as an address names it, and what the system knows of the adapter in it.

    `is_worth_listening` is false for ports that nobody plugs a meter into, some of which take many seconds to
    open: wireless ones, those of debuggers, and sockets of the mainboard without anything known behind them.
    """

    device: str
    description: str
    is_worth_listening: bool = True


def find_ports() -> tuple[PortInfo, ...]:
    """Return the ports, those with an adapter in them first.

    May take seconds where the system asks wireless devices: not for the window's thread.
    """
    found = []
    for info in list_ports.comports():
        is_known = (info.hwid or "") not in _UNKNOWN
        words = info.description if info.description not in (None, *_UNKNOWN) else ""
        is_odd = _NOT_FOR_METERS.search(f"{info.device} {words}") is not None
        port = PortInfo(info.device, words, is_worth_listening=is_known and not is_odd)
        found.append((not is_known, info.device, port))
    return tuple(port for _, _, port in sorted(found, key=lambda one: one[:2]))


@dataclass(frozen=True, slots=True)
class PortIdentity:
    """What tells an adapter from others: its USB numbers, its serial number, and the socket it sits in.

    Cheap adapters have no serial number; they are then known by the socket alone.
    """

    vid: int
    pid: int
    serial: str
    location: str

    @property
    def is_unmistakable(self) -> bool:
        """Whether it can be found again at all."""
        return bool(self.serial or self.location)

    def is_same(self, other: PortIdentity) -> bool:
        """Whether `other` is the same adapter, as far as that can be told."""
        if (self.vid, self.pid) != (other.vid, other.pid):
            return False
        if self.serial or other.serial:
            return self.serial == other.serial
        return bool(self.location) and self.location == other.location


def identity_of_port(name: str) -> PortIdentity | None:
    """Return the identity of the adapter at a device path, which may be a link; None if there is none."""
    real = os.path.realpath(name) if os.sep in name else name
    return next((found for device, found in _adapters() if device in (name, real)), None)


def port_now(identity: PortIdentity) -> str | None:
    """Return the name at which the adapter is now; None if it is not there, or two look the same."""
    names = [device for device, found in _adapters() if identity.is_same(found)]
    return names[0] if len(names) == 1 else None


def _adapters() -> list[tuple[str, PortIdentity]]:
    found = []
    for info in list_ports.comports():
        if info.vid is None or info.pid is None:
            continue
        serial = info.serial_number if info.serial_number not in (None, *_UNKNOWN) else ""
        found.append((info.device, PortIdentity(info.vid, info.pid, serial or "", info.location or "")))
    return found
