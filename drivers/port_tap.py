"""A port whose bytes someone looks at on their way in. Nothing is changed or held back."""

from __future__ import annotations

from collections.abc import Callable

from drivers.link import OpenPort, Port, open_port
from drivers.port_stand_in import PortStandIn

__all__ = ["TappedPort", "tapped"]


class TappedPort(PortStandIn):
    """Stands in front of a port and shows `look` what was read.

    Parameters
    ----------
    port : an open port.
    look : called on the thread that reads, with the bytes; must be quick.
    """

    def __init__(self, port: Port, look: Callable[[bytes], None]) -> None:
        super().__init__(port)
        object.__setattr__(self, "_look", look)

    def read(self, size: int) -> bytes:
        """Read, and show what was read."""
        data: bytes = self._port.read(size)
        if data:
            self._look(data)
        return data


def tapped(look: Callable[[bytes], None], opener: OpenPort = open_port) -> OpenPort:
    """Return an opener whose ports show `look` the bytes that they read."""

    def open_tapped(name: str, baud: int) -> Port:
        port: Port = TappedPort(opener(name, baud), look)
        return port

    return open_tapped
