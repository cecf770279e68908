"""A port whose bytes someone looks at on their way in. Nothing is changed or held back."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from drivers.link import OpenPort, Port, open_port

__all__ = ["TappedPort", "tapped"]


class TappedPort:
    """Stands in front of a port and shows `look` what was read; otherwise it is that port.

    Parameters
    ----------
    port : an open port.
    look : called on the thread that reads, with the bytes; must be quick.
    """

    def __init__(self, port: Port, look: Callable[[bytes], None]) -> None:
        object.__setattr__(self, "_port", port)
        object.__setattr__(self, "_look", look)

    def read(self, size: int) -> bytes:
        """Read, and show what was read."""
        data: bytes = self._port.read(size)
        if data:
            self._look(data)
        return data

    def __getattr__(self, name: str) -> Any:
        return getattr(object.__getattribute__(self, "_port"), name)

    def __setattr__(self, name: str, value: Any) -> None:
        setattr(object.__getattribute__(self, "_port"), name, value)


def tapped(look: Callable[[bytes], None], opener: OpenPort = open_port) -> OpenPort:
    """Return an opener whose ports show `look` the bytes that they read."""

    def open_tapped(name: str, baud: int) -> Port:
        port: Port = TappedPort(opener(name, baud), look)
        return port

    return open_tapped
