"""The serial ports of this computer, without opening any."""

from __future__ import annotations

from dataclasses import dataclass

from serial.tools import list_ports

__all__ = ["PortInfo", "find_ports"]

_UNKNOWN = ("", "n/a")


@dataclass(frozen=True, slots=True)
class PortInfo:
    """A port as an address names it, and what the system knows of the adapter in it."""

    device: str
    description: str


def find_ports() -> tuple[PortInfo, ...]:
    """Return the ports, those with an adapter in them first.

    May take seconds where the system asks wireless devices: not for the window's thread.
    """
    found = []
    for info in list_ports.comports():
        is_known = (info.hwid or "") not in _UNKNOWN
        words = info.description if info.description not in (None, *_UNKNOWN) else ""
        found.append((not is_known, info.device, PortInfo(info.device, words)))
    return tuple(port for _, _, port in sorted(found, key=lambda one: one[:2]))
