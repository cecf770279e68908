"""The serial ports of this computer, without opening any."""

from __future__ import annotations

import re
from dataclasses import dataclass

from serial.tools import list_ports

__all__ = ["PortInfo", "find_ports"]

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
