"""Ports that are let go of: who waits for an instrument ends at once, and leaves it as it was."""

from __future__ import annotations

import pytest

from drivers.address import parse_address
from drivers.errors import CannotOpen, SourceLost
from drivers.link import Link
from drivers.listening import listen
from drivers.port_release import PortRelease
from drivers.scpi import ScpiSource
from drivers.testing import FakeClock, FakeWire, ScriptedDevice

PORT = "/dev/ttyFAKE0"


def test_a_port_that_is_let_go_of_fails_to_read_but_may_be_told_something() -> None:
    wire = FakeWire(ScriptedDevice([(0.0, b"2.251"), (0.2, b"2.252")]), FakeClock())
    ports = PortRelease(wire.open_port)
    link = Link(PORT, 9600, opener=ports.open)
    link.open(wire.clock)
    assert link.read(1.0).data == b"2.252"  # what had come before is thrown away as the port opens
    ports.let_go()
    with pytest.raises(SourceLost, match="let go of"):
        link.read(1.0)
    link.write(b"SYST:LOC\n")
    assert wire.written == b"SYST:LOC\n"
    link.close()
    assert [port.is_closed for port in wire.ports] == [True]


def test_no_port_is_opened_any_more() -> None:
    wire = FakeWire(ScriptedDevice(), FakeClock())
    ports = PortRelease(wire.open_port)
    ports.let_go()
    with pytest.raises(CannotOpen):
        Link(PORT, 9600, opener=ports.open).open(wire.clock)
    assert wire.ports == []


def test_a_meter_that_does_not_answer_is_given_up_and_gets_its_keys_back() -> None:
    """Between the take-over and the end of its patience would lie another 15 s."""

    def answer(data: bytes) -> list[tuple[float, bytes]]:
        if b"SYST:REM" in data:
            ports.let_go()
        return []

    wire = FakeWire(ScriptedDevice(answer=answer), FakeClock())
    ports = PortRelease(wire.open_port)
    source = ScpiSource(parse_address(f"scpi:{PORT}"), opener=ports.open)
    with pytest.raises(CannotOpen):
        source.open(wire.clock)
    assert wire.written.endswith(b"SYST:REM\nSYST:LOC\n")
    assert wire.clock.now_s() < 5.0
    assert wire.ports[0].is_closed


def test_who_listens_ends_at_the_speed_at_which_it_is_let_go_of() -> None:
    wire = FakeWire(ScriptedDevice(), FakeClock())
    ports = PortRelease(wire.open_port)
    ports_opened = ports.open

    def opener(name: str, baud: int):
        port = ports_opened(name, baud)
        ports.let_go()
        return port

    assert listen(PORT, clock=wire.clock, opener=opener).state == "unavailable"
    assert wire.clock.now_s() == 0.0
