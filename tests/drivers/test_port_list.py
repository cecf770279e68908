"""Adapters found again under another name, by serial number or by the socket they sit in."""

from __future__ import annotations

import os
from types import SimpleNamespace

import pytest
from serial.tools import list_ports

from drivers.errors import CannotOpen
from drivers.link import Link
from drivers.port_list import PortIdentity, find_ports, identity_of_port, port_now
from drivers.run_clock import HostClock

pytestmark = pytest.mark.skipif(os.name != "posix", reason="pseudo-terminals stand for ports")


def adapter(device: str, serial: str | None = "S1", location: str | None = "1-2", vid: int | None = 0x1A86):
    return SimpleNamespace(
        device=device,
        vid=vid,
        pid=0x7523,
        serial_number=serial,
        location=location,
        hwid="USB",
        description="x",
    )


@pytest.fixture
def plugged(monkeypatch: pytest.MonkeyPatch) -> list:
    """What the system lists."""
    ports: list = []
    monkeypatch.setattr(list_ports, "comports", lambda: list(ports))
    return ports


class TestIdentity:
    def test_by_serial_number_in_whatever_socket(self):
        mine = PortIdentity(1, 2, "S1", "1-2")
        assert mine.is_same(PortIdentity(1, 2, "S1", "3-4"))
        assert not mine.is_same(PortIdentity(1, 2, "S2", "1-2"))
        assert not mine.is_same(PortIdentity(1, 2, "", "1-2"))

    def test_without_one_by_the_socket(self):
        mine = PortIdentity(1, 2, "", "1-2")
        assert mine.is_same(PortIdentity(1, 2, "", "1-2"))
        assert not mine.is_same(PortIdentity(1, 2, "", "1-3"))
        assert not PortIdentity(1, 2, "", "").is_same(PortIdentity(1, 2, "", ""))

    def test_found(self, plugged):
        plugged += [adapter("/dev/ttyUSB0"), adapter("/dev/ttyUSB1", "S2"), adapter("/dev/ttyS0", vid=None)]
        mine = identity_of_port("/dev/ttyUSB0")
        assert mine == PortIdentity(0x1A86, 0x7523, "S1", "1-2")
        plugged[0].device = "/dev/ttyUSB7"
        assert port_now(mine) == "/dev/ttyUSB7"
        assert identity_of_port("/dev/ttyS0") is None

    def test_two_that_look_the_same_are_not_guessed(self, plugged):
        plugged += [adapter("/dev/ttyUSB0"), adapter("/dev/ttyUSB1")]
        assert port_now(PortIdentity(0x1A86, 0x7523, "S1", "")) is None

    def test_what_is_not_listened_to_unasked(self, plugged):
        plugged += [adapter("/dev/ttyUSB0"), adapter("/dev/cu.Bluetooth-Incoming-Port")]
        assert {port.device: port.is_worth_listening for port in find_ports()} == {
            "/dev/ttyUSB0": True,
            "/dev/cu.Bluetooth-Incoming-Port": False,
        }


class Terminals:
    """Pseudo-terminals that stand for ports; both ends stay open until the test is over."""

    def __init__(self) -> None:
        self.ends: list[int] = []

    def new(self) -> str:
        master, slave = os.openpty()
        self.ends += [master, slave]
        return os.ttyname(slave)

    def close(self) -> None:
        for end in self.ends:
            os.close(end)


@pytest.fixture
def terminals():
    made = Terminals()
    yield made
    made.close()


def test_a_link_follows_its_adapter(plugged, terminals):
    first, second = terminals.new(), terminals.new()
    plugged.append(adapter(first))
    link = Link(first, 9600)
    link.open(HostClock())
    link.close()
    plugged[0] = adapter(second)
    link.open(HostClock())
    assert link.port == second
    assert link.details()["link"] == second
    link.close()


def test_another_adapter_under_the_old_name_is_refused(plugged, terminals):
    name = terminals.new()
    plugged.append(adapter(name))
    link = Link(name, 9600)
    link.open(HostClock())
    link.close()
    plugged[0] = adapter(name, "S2")
    with pytest.raises(CannotOpen, match="another device"):
        link.open(HostClock())
    assert not link.is_open
    plugged.append(adapter(terminals.new()))  # back, but elsewhere
    link.open(HostClock())
    assert link.port == plugged[1].device
    link.close()


def test_a_stable_name_is_kept(plugged, terminals, tmp_path):
    """A link like those of /dev/serial/by-id, which the system turns to wherever the adapter is."""
    stable, name = tmp_path / "by-id", terminals.new()
    stable.symlink_to(name)
    plugged.append(adapter(name))
    link = Link(str(stable), 9600)
    link.open(HostClock())
    link.close()
    link.open(HostClock())
    assert link.port == str(stable)
    link.close()
