"""Where an emulated instrument's line ends: a loopback TCP port, or a pseudo-terminal (POSIX).

Both carry one program at a time, as a serial port does, and can be pulled out and put back.
"""

from __future__ import annotations

import contextlib
import os
import select
import socket
import time
from pathlib import Path
from typing import Protocol

from drivers.errors import CannotOpen

__all__ = ["Endpoint", "PseudoTerminal", "TcpPort"]

_READ_SIZE = 4096
_USUAL_BAUDS = (300, 600, 1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200, 230400, 460800, 921600)
_LOOK_AGAIN_S = 0.02  # a pseudo-terminal does not tell when it is opened


def _baud_codes() -> dict[int, int]:
    """Return the speed in bits per second by the system's code for it; empty where there is no termios."""
    try:
        import termios
    except ImportError:
        return {}
    codes = ((getattr(termios, f"B{baud}", None), baud) for baud in _USUAL_BAUDS)
    return {code: baud for code, baud in codes if code is not None}


_BAUDS = _baud_codes()


class Endpoint(Protocol):
    """The emulator's side of a line."""

    @property
    def port(self) -> str:
        """What a program opens."""

    @property
    def is_open(self) -> bool:
        """Whether a program has it open."""

    @property
    def reader_baud(self) -> int:
        """The speed at which that program reads; 0 where lines have none."""

    def poll(self, wait_s: float) -> tuple[bool, bytes]:
        """Wait at most `wait_s` for something; return whether a program has just opened it, and bytes."""

    def send(self, data: bytes) -> None:
        """Put `data` on the line; what does not fit is lost, as on a serial line."""

    def unplug(self) -> None:
        """Let the line vanish."""

    def replug(self) -> None:
        """Bring the line back, under the same name where there is one to keep."""

    def close(self) -> None:
        """Give everything back."""


class TcpPort:
    """A TCP port on this computer only.

    Parameters
    ----------
    number : the port; 0 for a free one, which then stays the same.
    """

    def __init__(self, number: int) -> None:
        self._number = number
        self._listener: socket.socket | None = None
        self._connection: socket.socket | None = None
        self.replug()

    @property
    def port(self) -> str:
        """The pyserial URL of this port."""
        return f"socket://127.0.0.1:{self._number}"

    @property
    def is_open(self) -> bool:
        """Whether a program is connected."""
        return self._connection is not None

    @property
    def reader_baud(self) -> int:
        """A TCP connection has no line speed."""
        return 0

    def poll(self, wait_s: float) -> tuple[bool, bytes]:
        """See `Endpoint.poll`."""
        ends = [end for end in (self._listener, self._connection) if end is not None]
        ready, _, _ = select.select(ends, [], [], wait_s)
        # first what the present program says: it may have gone, and made room for the next one
        data = self._receive() if self._connection is not None and self._connection in ready else b""
        return self._listener in ready and self._accept(), data

    def send(self, data: bytes) -> None:
        """See `Endpoint.send`."""
        if self._connection is not None and data:
            with contextlib.suppress(BlockingIOError, ConnectionError):
                self._connection.send(data)

    def unplug(self) -> None:
        """See `Endpoint.unplug`."""
        self._hang_up()
        if self._listener is not None:
            self._listener.close()
            self._listener = None

    def replug(self) -> None:
        """See `Endpoint.replug`."""
        try:
            self._listener = socket.create_server(("127.0.0.1", self._number), backlog=1)
        except OSError as error:
            raise CannotOpen(
                f"port {self._number} of this computer cannot be served ({error.strerror}). Choose another "
                "number, or none for a free one."
            ) from error
        self._number = self._listener.getsockname()[1]

    def close(self) -> None:
        """See `Endpoint.close`."""
        self.unplug()

    def _accept(self) -> bool:
        assert self._listener is not None
        connection, _ = self._listener.accept()
        if self._connection is not None:
            connection.close()  # busy: a serial line has one program at its end
            return False
        connection.setblocking(False)
        connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        self._connection = connection
        return True

    def _receive(self) -> bytes:
        """Take all that the present program has said, to the end: it may have gone behind its last words."""
        assert self._connection is not None
        received = bytearray()
        while True:
            try:
                data = self._connection.recv(_READ_SIZE)
            except BlockingIOError:
                break
            except ConnectionError:
                data = b""
            if not data:
                self._hang_up()
                break
            received += data
        return bytes(received)

    def _hang_up(self) -> None:
        if self._connection is not None:
            self._connection.close()
            self._connection = None


class PseudoTerminal:
    """A pseudo-terminal, in raw mode from the start so that nothing is echoed or changed.

    Parameters
    ----------
    link : a name that always points to the present one (like those of ``/dev/serial/by-id``), or None; then
        the line comes back under another name after `unplug`.
    """

    def __init__(self, link: Path | None = None) -> None:
        self._link = link
        self._master = -1
        self._name = ""
        self._has_program = False
        self.replug()

    @property
    def port(self) -> str:
        """The device path."""
        return str(self._link) if self._link is not None else self._name

    @property
    def is_open(self) -> bool:
        """Whether a program has it open."""
        return self._has_program

    @property
    def reader_baud(self) -> int:
        """The speed that the program has set; a pseudo-terminal keeps it, though it makes nothing of it."""
        import termios

        try:
            code = termios.tcgetattr(self._master)[4]
        except termios.error:
            return 0
        return _BAUDS.get(code, 0)

    def poll(self, wait_s: float) -> tuple[bool, bytes]:
        """See `Endpoint.poll`."""
        had_program = self._has_program
        if not had_program:
            time.sleep(min(wait_s, _LOOK_AGAIN_S))
        poll = select.poll()
        poll.register(self._master, select.POLLIN)
        events = dict(poll.poll(1000 * wait_s if had_program else 0)).get(self._master, 0)
        self._has_program = not events & select.POLLHUP
        data = b""
        if events & select.POLLIN:
            with contextlib.suppress(OSError):
                data = os.read(self._master, _READ_SIZE)
        return self._has_program and not had_program, data

    def send(self, data: bytes) -> None:
        """See `Endpoint.send`."""
        if data:
            with contextlib.suppress(OSError):
                os.write(self._master, data)

    def unplug(self) -> None:
        """See `Endpoint.unplug`."""
        if self._link is not None:
            self._link.unlink(missing_ok=True)
        if self._master >= 0:
            os.close(self._master)
            self._master = -1
        self._has_program = False

    def replug(self) -> None:
        """See `Endpoint.replug`."""
        import tty  # POSIX only, like pseudo-terminals

        self._master, slave = os.openpty()
        os.set_blocking(self._master, False)
        tty.setraw(slave)
        self._name = os.ttyname(slave)
        os.close(slave)  # only then does the master tell whether a program has it open
        if self._link is not None:
            self._link.unlink(missing_ok=True)
            self._link.symlink_to(self._name)

    def close(self) -> None:
        """See `Endpoint.close`."""
        self.unplug()
