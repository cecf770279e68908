"""Ports that another thread can let go of: nobody has to wait for an instrument that is not wanted any more.

Who waits for bytes meets a failure of the port instead, closes the source as after any other, and may still
write: a meter whose keys were taken is given them back.
"""

from __future__ import annotations

import threading

import serial

from drivers.link import OpenPort, Port, open_port
from drivers.port_stand_in import PortStandIn

__all__ = ["PortRelease"]


class PortRelease:
    """Opens ports for sources (`open` is their opener), and lets go of all of them at once.

    Parameters
    ----------
    opener : opens the ports themselves.
    """

    def __init__(self, opener: OpenPort = open_port) -> None:
        self._opener = opener
        self._is_let_go = threading.Event()

    def open(self, name: str, baud: int) -> Port:
        """Open a port; raises what `drivers.link.open_port` raises, and when they were let go of."""
        _check(self._is_let_go)
        port: Port = _ReleasablePort(self._opener(name, baud), self._is_let_go)
        return port

    def let_go(self) -> None:
        """Let reading from these ports fail, at the latest after one wait inside them. May be called twice.

        Called from any thread. Opening a port may itself take long (a connection, a wireless port); that is
        waited for by the thread that opens it, which then meets the failure.
        """
        self._is_let_go.set()


class _ReleasablePort(PortStandIn):
    """Fails to read once it was let go of."""

    def __init__(self, port: Port, is_let_go: threading.Event) -> None:
        super().__init__(port)
        object.__setattr__(self, "_is_let_go", is_let_go)

    @property
    def in_waiting(self) -> int:
        """Bytes that can be read at once."""
        _check(self._is_let_go)
        return self._port.in_waiting  # type: ignore[no-any-return]

    def read(self, size: int) -> bytes:
        """Read up to `size` bytes."""
        _check(self._is_let_go)
        return self._port.read(size)  # type: ignore[no-any-return]


def _check(is_let_go: threading.Event) -> None:
    if is_let_go.is_set():
        raise serial.SerialException("the port was let go of: its instrument is not waited for any longer")
