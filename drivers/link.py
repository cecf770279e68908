"""Moves bytes over anything that pyserial opens, and stamps when they arrived. Knows no format.

Ports are device paths, ``COMn``, pseudo-terminals and pyserial's URLs (``socket://``, ``rfc2217://``,
``loop://``). A link belongs to the one thread that opened it.
"""

from __future__ import annotations

import contextlib
import os
from collections.abc import Callable, Mapping
from typing import NamedTuple, Protocol

import serial
from serial.tools import list_ports

from drivers.errors import SourceLost
from drivers.link_failure import PORT_ERRORS, another_device, cannot_open, source_lost
from drivers.port_list import PortIdentity, identity_of_port, port_now
from drivers.run_clock import RunClock

__all__ = ["BITS_PER_BYTE", "WAIT_SLICE_S", "Arrival", "Link", "OpenPort", "Port", "open_port"]

BITS_PER_BYTE = 10
"""Start bit, 8 data bits (or 7 and parity), stop bit."""

WAIT_SLICE_S = 0.05
"""Longest single wait inside the port, host seconds. Fixed, because changing a port's timeout makes
pyserial configure the port anew (a network round trip for rfc2217)."""

_WRITE_TIMEOUT_S = 2.0
_READ_LIMIT = 1 << 16
_WINDOWS_BUFFER = 1 << 18  # the default of 4096 bytes is 44 ms at 921600 baud


class Port(Protocol):
    """The part of a pyserial port that a link uses. `read` waits at most `timeout` host seconds."""

    timeout: float | None
    baudrate: int

    @property
    def in_waiting(self) -> int:
        """Bytes that can be read at once; sockets tell only 0 or 1."""

    def read(self, size: int) -> bytes:
        """Return up to `size` bytes; fewer, or none, when the timeout passed first."""

    def write(self, data: bytes) -> int | None:
        """Send `data`."""

    def close(self) -> None:
        """Give the port back."""


OpenPort = Callable[[str, int], Port]
"""Opens a port by name and baud; tests put a fake in its place."""


class Arrival(NamedTuple):
    """Bytes, and the run time in seconds at which the last of them was in our hands."""

    data: bytes
    time_s: float


def open_port(name: str, baud: int) -> Port:
    """Open `name` at `baud`, 8N1, no flow control, raw, for us alone as far as the system can hold that.

    Raises whatever pyserial raises (`drivers.link_failure.PORT_ERRORS`); nothing is then left open.
    """
    port = serial.serial_for_url(name, do_not_open=True, baudrate=baud, timeout=WAIT_SLICE_S)
    is_device = "://" not in name
    if not name.startswith("rfc2217://"):  # which refuses to have one
        port.write_timeout = _WRITE_TIMEOUT_S
    if is_device and os.name == "posix":
        port.exclusive = True
    if name.startswith("socket://"):
        # A new connection holds nothing old: pyserial would throw away what a board says as a greeting,
        # perhaps the names of its columns, and would not end while bytes come quicker than it does so.
        port.reset_input_buffer = lambda: None  # type: ignore[method-assign]
    port.open()
    if is_device:
        _hurry(port)
    return port


def _hurry(port: serial.Serial) -> None:
    """Ask for a large buffer and no latency timer. A driver may know neither: times are then less sure."""
    for method, argument in (("set_buffer_size", _WINDOWS_BUFFER), ("set_low_latency_mode", True)):
        with contextlib.suppress(*PORT_ERRORS, NotImplementedError, AttributeError):
            getattr(port, method)(argument)


class Link:
    """One port: bytes out, bytes in with the time of their arrival.

    Parameters
    ----------
    port : what pyserial shall open.
    baud : line speed in bits per second; means nothing over sockets and pseudo-terminals.
    opener : opens the port; a fake in tests.
    """

    def __init__(self, port: str, baud: int, *, opener: OpenPort = open_port) -> None:
        self.port = port
        self.baud = baud
        self._opener = opener
        self._adapter: PortIdentity | None = None
        self._open_port: Port | None = None
        self._clock: RunClock | None = None

    @property
    def is_open(self) -> bool:
        """Whether the port is ours at present. Stays true after an unplug until `close`."""
        return self._open_port is not None

    @property
    def byte_time_s(self) -> float:
        """Seconds one byte takes on the line; 0 where no line speed is known to hold."""
        return 0.0 if "://" in self.port else BITS_PER_BYTE / self.baud

    def open(self, clock: RunClock) -> None:
        """Open the port; arrivals are stamped with `clock`.

        An adapter that was open before is looked for, and opened at the name that the system has given it
        since; `port` is then that name.

        Raises
        ------
        CannotOpen : with the reason and the remedy; nothing is left open.
        """
        self.close()
        self._follow_adapter()
        try:
            self._open_port = self._opener(self.port, self.baud)
        except PORT_ERRORS as error:
            raise cannot_open(self.port, self.baud, error) from error
        self._clock = clock
        if self._adapter is None and "://" not in self.port:
            found = identity_of_port(self.port)
            self._adapter = found if found is not None and found.is_unmistakable else None

    def _follow_adapter(self) -> None:
        if self._adapter is None:
            return
        now = port_now(self._adapter)
        if now is not None:
            if os.path.realpath(self.port) != os.path.realpath(now):
                self.port = now
            return
        there = identity_of_port(self.port)
        if there is not None and not self._adapter.is_same(there):
            raise another_device(self.port)

    def read(self, timeout_s: float) -> Arrival:
        """Return what is there, waiting at most about `timeout_s` host seconds for the first byte.

        Empty data mean that nothing came. Bytes that came before the port failed are returned first; the
        failure is raised by the next call.

        Raises
        ------
        SourceLost : the port failed, or the link is not open.
        """
        port, clock = self._opened()
        deadline_s = clock.now_s() + timeout_s * clock.speed
        data = b""
        try:
            while True:
                waiting = port.in_waiting
                if not waiting and clock.now_s() >= deadline_s:
                    return Arrival(b"", clock.now_s())
                data = port.read(max(1, min(waiting, _READ_LIMIT)))
                if data:
                    break
        except PORT_ERRORS as error:
            raise source_lost(self.port, error) from error
        with contextlib.suppress(*PORT_ERRORS):
            data += self._rest(port)
        return Arrival(data, clock.now_s())

    def drain(self) -> bytes:
        """Take what is waiting, without waiting for more.

        Raises
        ------
        SourceLost : the port failed, or the link is not open.
        """
        drained = bytearray()
        while len(drained) < _READ_LIMIT:
            data = self.read(0.0).data
            if not data:
                break
            drained += data
        return bytes(drained)

    def write(self, data: bytes) -> float:
        """Send `data` and return the run time in seconds at which the system had taken all of it.

        Raises
        ------
        SourceLost : the port failed, or the link is not open.
        """
        port, clock = self._opened()
        try:
            port.write(data)
        except PORT_ERRORS as error:
            raise source_lost(self.port, error) from error
        return clock.now_s()

    def set_control_lines(self, *, dtr: bool, rts: bool) -> None:
        """Set the modem lines, from which optical cables take their power.

        Where there are none (a socket, a pseudo-terminal) nothing happens; a port that failed shows at the
        next `read`.

        Raises
        ------
        SourceLost : the link is not open.
        """
        port, _ = self._opened()
        for line, state in (("dtr", dtr), ("rts", rts)):
            with contextlib.suppress(*PORT_ERRORS, AttributeError):
                setattr(port, line, state)

    def change_baud(self, baud: int) -> None:
        """Go on at another speed without closing, which would restart many boards.

        Raises
        ------
        SourceLost : the port failed or does not take that speed, or the link is not open.
        """
        port, _ = self._opened()
        try:
            port.baudrate = baud
        except PORT_ERRORS as error:
            raise source_lost(self.port, error) from error
        self.baud = baud

    def close(self) -> None:
        """Give the port back. May be called twice, and on a link that never opened."""
        port, self._open_port = self._open_port, None
        if port is None:
            return
        # pyserial forgets to close a socket whose other end has gone already
        connection = getattr(port, "_socket", None)
        with contextlib.suppress(*PORT_ERRORS):
            port.close()
        if connection is not None:
            with contextlib.suppress(OSError):
                connection.close()

    def details(self) -> Mapping[str, str | float]:
        """What is known about the port, for `Instrument.details`: speed, and the adapter's identity."""
        if "://" in self.port:
            return {"link": self.port}
        known: dict[str, str | float] = {"link": self.port, "baud": float(self.baud), "framing": "8N1"}
        for info in list_ports.comports():
            if info.device == self.port:
                adapter = {
                    "adapter": info.description,
                    "adapter_vid": info.vid,
                    "adapter_pid": info.pid,
                    "adapter_serial": info.serial_number,
                    "adapter_location": info.location,
                }
                known |= {key: value for key, value in adapter.items() if value not in (None, "", "n/a")}
        return known

    def _opened(self) -> tuple[Port, RunClock]:
        if self._open_port is None or self._clock is None:
            raise SourceLost(f"{self.port} is not open. Open it first.")
        return self._open_port, self._clock

    def _rest(self, port: Port) -> bytes:
        """Take what else is there at once. A socket tells only that there is something, so ask it for all."""
        if self.port.startswith("socket://"):
            port.timeout = 0.0
            try:
                return port.read(_READ_LIMIT)
            finally:
                port.timeout = WAIT_SLICE_S
        waiting = port.in_waiting
        return port.read(min(waiting, _READ_LIMIT)) if waiting else b""
