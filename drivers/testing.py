"""Faithful stand-ins for clocks and instruments, for tests of this floor and of the ones above."""

from __future__ import annotations

import errno
from collections.abc import Callable, Iterable

import serial

from drivers.simulated.device import Device, Unplugged
from drivers.simulated.wrong_speed import at_wrong_speed

__all__ = ["FakeClock", "FakePort", "FakeWire", "ScriptedDevice"]


class FakeClock:
    """A run clock that stands still until somebody sleeps on it or moves it on.

    Parameters
    ----------
    speed : run seconds per (pretended) host second, as of `HostClock`.
    """

    def __init__(self, speed: float = 1.0) -> None:
        self.speed = speed
        self.slept_s: list[float] = []
        self._now_s = 0.0

    def restart(self) -> None:
        """Make this moment zero."""
        self._now_s = 0.0

    def now_s(self) -> float:
        """Return the run time in seconds."""
        return self._now_s

    def sleep_s(self, duration_s: float) -> None:
        """Move on by `duration_s` run seconds at once, and note it in `slept_s`."""
        if duration_s > 0:
            self.slept_s.append(duration_s)
            self._now_s += duration_s

    def advance_s(self, duration_s: float) -> None:
        """Move on by `duration_s` run seconds, as when the reader was busy with something else."""
        if duration_s < 0:
            raise ValueError(f"a run clock never goes back (asked for {duration_s} s)")
        self._now_s += duration_s


class ScriptedDevice:
    """A device that sends given bytes at given times, and answers what it is sent by a given rule.

    Parameters
    ----------
    script : pairs of (time in seconds, bytes), in order of time.
    answer : called with the bytes received; returns pairs of (delay in seconds, bytes).
    """

    def __init__(
        self,
        script: Iterable[tuple[float, bytes]] = (),
        answer: Callable[[bytes], Iterable[tuple[float, bytes]]] = lambda _: (),
    ) -> None:
        self.received: list[bytes] = []
        self.attached_s: list[float] = []
        self._queue = list(script)
        self._answer = answer

    def attach(self, now_s: float) -> None:
        """Note the time."""
        self.attached_s.append(now_s)

    def receive(self, data: bytes, now_s: float) -> None:
        """Note the bytes and queue the answer."""
        self.received.append(data)
        self._queue.extend((now_s + delay_s, reply) for delay_s, reply in self._answer(data))
        self._queue.sort(key=lambda entry: entry[0])

    def next_due_s(self) -> float | None:
        """Return the time of the next entry."""
        return self._queue[0][0] if self._queue else None

    def take(self, now_s: float) -> bytes:
        """Return all entries whose time has come."""
        due = b"".join(data for time_s, data in self._queue if time_s <= now_s)
        self._queue = [entry for entry in self._queue if entry[0] > now_s]
        return due


class FakePort:
    """A port with a device at its far end, as pyserial would show it, on a fake clock.

    `read` waits by moving the clock on, returns short when its timeout passes, and after an unplug fails
    with the exceptions that pyserial 3.5 was seen to raise on Linux.

    Parameters
    ----------
    wire : what the port is plugged into.
    chunk : most bytes that show up at a time, as with a small hardware buffer.
    """

    def __init__(self, wire: FakeWire, chunk: int, baud: int = 9600) -> None:
        self.timeout: float | None = 0.05
        self.baudrate = baud
        self.is_closed = False
        self._wire = wire
        self._chunk = chunk
        self._buffer = bytearray()

    @property
    def in_waiting(self) -> int:
        """Bytes that can be read at once."""
        self._pump()
        if not self._buffer and not self._wire.is_plugged:
            raise OSError(errno.EIO, "Input/output error")
        return min(len(self._buffer), self._chunk)

    def read(self, size: int) -> bytes:
        """Return up to `size` bytes, waiting for them no longer than `timeout` (pretended) seconds."""
        clock, data = self._wire.clock, bytearray()
        deadline_s = clock.now_s() + (self.timeout or 0.0) * clock.speed
        while True:
            self._pump()
            taken = self._buffer[: size - len(data)]
            del self._buffer[: len(taken)]
            data += taken
            if len(data) == size or (data and not self._wire.is_plugged):
                return bytes(data)
            if not self._wire.is_plugged:
                raise serial.SerialException(
                    "device reports readiness to read but returned no data "
                    "(device disconnected or multiple access on port?)"
                )
            left_s = deadline_s - clock.now_s()
            if left_s <= 0:
                return bytes(data)
            due_s = self._wire.device.next_due_s()
            wait_s = left_s if due_s is None else min(left_s, max(due_s - clock.now_s(), 0.0))
            clock.advance_s(wait_s + 1e-9)  # past the moment, whatever the rounding of the sum

    def write(self, data: bytes) -> int:
        """Hand `data` to the device."""
        self._pump()
        if not self._wire.is_plugged:
            raise serial.SerialException("write failed: [Errno 5] Input/output error")
        self._wire.written += data
        self._wire.device.receive(data, self._wire.clock.now_s())
        return len(data)

    def close(self) -> None:
        """Note that the port was given back."""
        self.is_closed = True

    def _through_line(self, data: bytes) -> bytes:
        line_baud = self._wire.line_baud
        is_right = not data or line_baud in (0, self.baudrate)
        return data if is_right else at_wrong_speed(data, line_baud, self.baudrate)

    def _pump(self) -> None:
        if self.is_closed:
            raise serial.PortNotOpenError
        if not self._wire.is_plugged:
            return
        try:
            self._buffer += self._through_line(self._wire.device.take(self._wire.clock.now_s()))
        except Unplugged:
            self._wire.is_plugged = False


class FakeWire:
    """A device, a clock, and the plug between them; its `open_port` goes into `Link` or a source.

    `ports` keeps every port ever opened, so that a test can see that each was closed; `written` all bytes
    ever sent.

    Parameters
    ----------
    line_baud : the device's speed; at another one a port reads what a real port would. 0: any speed will do.
    """

    def __init__(self, device: Device, clock: FakeClock, *, chunk: int = 4096, line_baud: int = 0) -> None:
        self.device = device
        self.line_baud = line_baud
        self.written = b""
        self.clock = clock
        self.is_plugged = True
        self.is_busy = False
        self.ports: list[FakePort] = []
        self._chunk = chunk

    def open_port(self, name: str, baud: int) -> FakePort:
        """Open the port as `drivers.link.open_port` does, or fail as it does."""
        if not self.is_plugged:
            raise serial.SerialException(
                errno.ENOENT, f"could not open port {name}: [Errno 2] No such file or directory: {name!r}"
            )
        if self.is_busy or any(not port.is_closed for port in self.ports):
            raise serial.SerialException(
                errno.EAGAIN,
                f"Could not exclusively lock port {name}: [Errno 11] Resource temporarily unavailable",
            )
        port = FakePort(self, self._chunk, baud)
        self.ports.append(port)
        self.device.take(self.clock.now_s())  # opening throws away what had arrived before, as pyserial does
        self.device.attach(self.clock.now_s())
        return port
