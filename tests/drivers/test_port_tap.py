"""A tapped port gives the same bytes and takes the same settings as the port behind it."""

from __future__ import annotations

from drivers.link import Link
from drivers.port_list import find_ports
from drivers.port_tap import tapped
from drivers.registry import make_source
from drivers.run_clock import HostClock


class FakePort:
    def __init__(self) -> None:
        self.timeout: float | None = 0.05
        self.dtr = self.rts = False
        self.waiting = b"+2.251\r\n"
        self.written = b""
        self.closed = False

    @property
    def in_waiting(self) -> int:
        return len(self.waiting)

    def read(self, size: int) -> bytes:
        data, self.waiting = self.waiting[:size], self.waiting[size:]
        return data

    def write(self, data: bytes) -> int:
        self.written += data
        return len(data)

    def close(self) -> None:
        self.closed = True


def test_a_link_over_a_tapped_port_is_the_same_link() -> None:
    port, seen = FakePort(), bytearray()
    link = Link("/dev/ttyS9", 9600, opener=tapped(seen.extend, lambda _name, _baud: port))
    link.open(HostClock())
    link.set_control_lines(dtr=True, rts=True)
    assert link.read(0.0).data == b"+2.251\r\n" == bytes(seen)
    link.write(b"*IDN?\n")
    link.close()
    assert (port.dtr, port.rts, port.written, port.closed) == (True, True, b"*IDN?\n", True)


def test_kinds_without_a_port_take_no_opener() -> None:
    opener = tapped(lambda _data: None)
    assert make_source("cell:demo", opener=opener).address.kind == "cell"
    assert make_source("text:/dev/ttyS9", opener=opener).address.kind == "text"


def test_ports_are_listed_without_being_opened() -> None:
    devices = [port.device for port in find_ports()]
    assert len(devices) == len(set(devices))
